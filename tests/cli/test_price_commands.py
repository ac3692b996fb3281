"""What a job is offered at, promised for, worked on and billed, as one types it.

Truth: sums worked by hand from the printed lines, and what was typed a line before.
"""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from counterhoop.bench.demo import no_book
from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import BILL
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import open_workshop
from planned_once import PLANNED

LONE = files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml")
LINE = re.compile(r"^ +(-?[\d.]+) GBP  ", re.MULTILINE)


@pytest.fixture(scope="module")
def data(tmp_path_factory):
    """A store with the lone snare's job; what one test writes in it no other rests on."""
    folder = tmp_path_factory.mktemp("price") / "data"
    with open_workshop(data=folder, works=PLANNED) as shop:
        take_in(shop, LONE.read_bytes(), name="survey.toml", book_of=no_book, by="x")
    return folder


@pytest.fixture
def typed(run, data):
    def command(*words):
        return run(*words, "--data", data)

    return command


def raised_by_nobody(data, said):
    """Write the sheet of what is billed beside the offer, as the page would."""
    with open_workshop(data=data, works=PLANNED) as shop:
        (listed,) = on_the_bench(shop)
        before = kept_job(shop, listed.id).kept(BILL).number
        write_down(shop, listed.id, Change(kind=BILL, value=said, based_on=before), by="x")


def test_a_price_is_shown_offered_accepted_and_billed(typed, data, tmp_path):
    """Truth: 40 before the bill, 10 on it; a credit note takes back all that was billed."""
    shown = typed("price", "show", "26-034", "--to", tmp_path / "quote.pdf")
    price = re.match(r"The price is ([\d.]+) GBP\.", shown.out)
    assert price is not None
    lines = [round(100 * float(one)) for one in LINE.findall(shown.out)]
    assert sum(lines) == round(100 * float(price[1]))
    assert (tmp_path / "quote.pdf").read_bytes().startswith(b"%PDF")

    wrong = typed("price", "offer", "26-034", "--to", "Tobin", "--at", "1 GBP")
    assert (wrong.code, wrong.out) == (2, "")
    assert "Look at it again" in wrong.err
    offered = typed("price", "offer", "26-034", "--to", "Tobin", "--at", price[1])
    assert offered.out.startswith(f"Offer 1: {price[1]} GBP to Tobin, until ")
    yes = typed("price", "accept", "tobin", "--who", "T. Ashgrove", "--how", "by letter")
    assert yes.out.startswith(f"T. Ashgrove said yes to {price[1]} GBP on ")
    assert "by letter (offer 1)." in typed("price", "show", "26-034").out

    deposit = typed("bill", "receipt", "26-034", "40", "--how", "cash")
    assert deposit.out == "Receipt 1: 40.00 GBP, cash.\n"
    raised_by_nobody(data, {"raised": [{"to": "900 GBP"}]})
    unsure = typed("bill", "invoice", "26-034")
    assert (unsure.code, unsure.out) == (2, "")
    assert "without who said yes" in unsure.err
    raised_by_nobody(data, {})
    given = typed("bill", "invoice", "26-034")
    sums = re.fullmatch(r"Invoice 1: ([\d.]+) GBP, to be paid ([\d.]+) GBP\.\n", given.out)
    assert sums is not None
    assert round(float(sums[1]) - float(sums[2]), 2) == 40
    typed("bill", "receipt", "26-034", "10 GBP", "--how", "by transfer", "--on", "1")
    shown = typed("bill", "show", "26-034").out
    assert f"still due {float(sums[2]) - 10:.2f} GBP." in shown
    twice = typed("bill", "invoice", "26-034")
    assert twice.code == 2
    assert "the job is billed already" in twice.err
    back = typed("bill", "credit", "26-034", "1", "--why", "billed too soon")
    assert back.out == f"Credit note 1: {sums[1]} GBP of invoice 1.\n"
    pdf = tmp_path / "bill.pdf"
    for kind in ("invoice", "receipt", "credit note"):
        typed("bill", "print", "26-034", "1", "--kind", kind, "--to", pdf.with_stem(kind))
        assert pdf.with_stem(kind).read_bytes().startswith(b"%PDF"), kind
    books = typed("money", "--csv", tmp_path / "books").out
    assert "Billed 0.00 GBP, of it tax 0.00 GBP; came in 50.00 GBP." in books
    assert (tmp_path / "books" / "paid.csv").read_text().count("26-034") == 2
    assert typed("money", "--to", "2020-01-01").out.startswith("Nothing was billed or paid")


def test_work_is_picked_up_put_down_and_typed_after(typed):
    assert typed("log", "show").out == "Nothing is in the log yet.\n"
    assert "nothing is in hand" in typed("log", "put-down").err
    assert "strip a drum" in typed("log", "pick-up", "26-034", "strip a drum").out
    assert "in hand" in typed("log", "show").out
    other = typed("log", "pick-up", "26-034", "clean a hoop", "--drum", "school snare").out
    assert other.startswith("Put down: ")
    assert "2 done" in typed("log", "put-down", "--done", "--count", "2").out
    after = typed("log", "typed", "26-034", "tune a drum", "25 min", "--note", "new heads")
    assert after.out.endswith("school snare: tune a drum, 25 min, 1 done (new heads)\n")
    wrong = typed("log", "pick-up", "26-034", "sing to a drum")
    assert "no such work in the operations book" in wrong.err


def test_open_hours_and_terms_are_shown_and_written(typed):
    """Truth: 480 and a tenth is 530 to the nearest 5; a fifth of tax on it is 106."""
    assert "monday  09:00-12:30, 13:30-18:00" in typed("hours").out
    days = ("--week", "sat=9-12", "--week", "mon=", "--off", "2099-07-01 to 2099-07-14")
    written = typed("hours", *days, "--room", "16 C").out
    for line in ("saturday  9-12", "closed  2099-07-01 to 2099-07-14", "16 °C in the room"):
        assert line in written
    assert "monday" not in written
    assert typed("hours", "--week", "s=9-12").code == 2

    assert "530.00 GBP  the client pays" in typed("terms").out
    terms = typed("terms", "tax=added", "rate=20 %", "warranty=One year. / Not on heads.").out
    for line in ("106.00 GBP  tax at 20 %", "636.00 GBP  the client pays",
                 "warranty: One year. / Not on heads."):  # fmt: skip
        assert line in terms
    assert "not one of the ways" in typed("terms", "tax=odd").err
    assert typed("terms", "tax=", "rate=", "warranty=").code == 0


def test_a_day_is_promised_and_the_bench_planned(typed, tmp_path):
    shown = typed("promise", "show", "26-034").out
    assert "Nothing is promised." in shown
    assert "of 2000 workings of the plan" in shown
    told = typed("promise", "tell", "26-034", "--day", "2035-12-20", "--to", "Tobin").out
    assert "Thursday 20 December 2035, told to Tobin" in told
    assert "Promised: Thursday 20 December 2035" in typed("promise", "show", "26-034").out
    weeks = typed("weeks", "--to", tmp_path / "weeks.pdf").out
    assert "job 26-034, school snare: hands from " in weeks
    assert "promised for 20 December 2035" in weeks
    assert typed("today", "--to", tmp_path / "today.pdf").code == 0
    for name in ("weeks", "today"):
        assert (tmp_path / f"{name}.pdf").read_bytes().startswith(b"%PDF")
    typed("calendar", "--to", tmp_path / "bench.ics")
    assert b"DTSTART;VALUE=DATE:20351220" in (tmp_path / "bench.ics").read_bytes()
    assert "no day is promised now" in typed("promise", "take-back", "26-034").out
    assert typed("promise", "take-back", "26-034").code == 2


def test_a_job_that_is_not_there_is_one_line(typed):
    for words in (("price", "show"), ("promise", "show"), ("bill", "show")):
        ran = typed(*words, "no such job")
        assert (ran.code, ran.out) == (2, "")
        assert ran.err.startswith("job: no such job in the store")
