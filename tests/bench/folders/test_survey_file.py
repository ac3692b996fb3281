"""Between file and store nothing is lost: the same file again, or the same values written anew."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from empty_workshop import DEMO, no_book

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.history import choose_version
from counterhoop.bench.folders.kinds import APPROVAL, BOOK, JOB, RULES, SURVEY
from counterhoop.bench.folders.read_so_far import read_so_far
from counterhoop.bench.folders.survey_file import hand_out, survey_files, take_in, take_in_file
from counterhoop.bench.folders.tables import same_tables, tables_of
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.listing import listing
from counterhoop.bench.open_job import opened
from counterhoop.bench.plan_job import plan_job
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.copies.verify import verify
from counterhoop.store.job_folder import job_folders
from counterhoop.store.save import Saved

OWN_BOOK = b"""# my drawer
source = "measured at the bench"

[[fitting]]
name = "my rod 12-24 x 45 mm"
kind = "rod"
thread = "12-24"
length = "45 mm"
thread_length = "28 mm"
shank = "5.4 mm"
"""
SMALL = b"""format = 1
[job]
number = "30-001"   # on the tag
client = "Wicker Street School"
date = 2030-05-17
book = ["mine.toml"]

[drums.'tom 12.5 / "loud"']
circumference = "951 mm"
depth = "203 mm"
wall = "5 mm"
"""


def test_the_same_file_comes_out_byte_for_byte(shop: Workshop, demo: str) -> None:
    assert survey_files(shop, demo) == {"survey.toml": DEMO}


def test_a_file_with_a_book_beside_it(shop: Workshop, tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "kit.toml").write_bytes(SMALL)
    (tmp_path / "in" / "mine.toml").write_bytes(OWN_BOOK)
    job = take_in_file(shop, tmp_path / "in" / "kit.toml", by="window bench")
    folder = hand_out(shop, job, folder=tmp_path / "out")
    assert (folder / "survey.toml").read_bytes() == SMALL
    assert (folder / "mine.toml").read_bytes() == OWN_BOOK
    assert verify(shop.store).sound


def test_a_changed_value_is_written_anew_and_all_others_stay(shop: Workshop, demo: str) -> None:
    drum = kept_job(shop, demo).drums[0]
    change = Change(
        kind=SURVEY, name=drum.id, pointer="/wall", value="5.5 mm",
        based_on=drum.kept(SURVEY).number,
    )  # fmt: skip
    done = write_down(shop, demo, change, by="phone")
    assert isinstance(done, Saved)
    out = tomllib.loads(survey_files(shop, demo)["survey.toml"].decode())
    wanted = tomllib.loads(DEMO.decode())
    assert not same_tables(out, wanted)
    wanted["drums"][drum.name]["wall"] = "5.5 mm"
    assert same_tables(out, wanted)
    assert list(out["drums"]) == list(wanted["drums"])
    choose_version(shop, drum.kept(SURVEY).document_id, number=1, based_on=2, by="phone")
    assert survey_files(shop, demo) == {"survey.toml": DEMO}


def test_a_file_written_anew_plans_to_the_same_schemes(shop: Workshop, demo: str) -> None:
    job = kept_job(shop, demo).kept(JOB)
    change = Change(kind=JOB, pointer="/job/story", value="told anew", based_on=job.number)
    write_down(shop, demo, change, by="phone")
    out = survey_files(shop, demo)["survey.toml"]
    assert out != DEMO
    plans = [plan_job(opened(one, name="s", book_of=no_book)) for one in (DEMO, out)]
    one, other = (listing(plan, drums=plan.drums).model_dump() for plan in plans)
    assert one == other


def test_the_shop_rules_and_fittings_go_with_the_file(shop: Workshop, demo: str) -> None:
    rules = {"rules": {"web": "4 mm"}, "stock": {"Corvane butt": 3}}
    write_down(shop, None, Change(kind=RULES, value=rules, based_on=0), by="bench")
    book = tomllib.loads(OWN_BOOK.decode())
    write_down(shop, None, Change(kind=BOOK, value=book, based_on=0), by="bench")
    made = survey_files(shop, demo)
    out = tomllib.loads(made["survey.toml"].decode())
    assert out["rules"]["web"] == "4 mm"
    assert out["rules"]["lug_badge"] == "10 mm"
    assert out["stock"]["Corvane butt"] == 3
    assert out["job"]["book"] == ["workshop-fittings.toml"]
    read = opened(made["survey.toml"], name="survey.toml", book_of=made.__getitem__)
    assert read.shop.book.find("my rod 12-24 x 45 mm").rod_length_mm == 45.0


def test_what_the_job_says_goes_over_the_shop_in_any_capitals(shop: Workshop, demo: str) -> None:
    rules = {"stock": {"corvane butt": 3}, "prices": {"corvane butt": "5.00 GBP"}}
    write_down(shop, None, Change(kind=RULES, value=rules, based_on=0), by="bench")
    job = kept_job(shop, demo).kept(JOB)
    own = {"stock": {"Corvane butt": 2}, "prices": {"Corvane butt": "4.00 GBP"}}
    change = Change(kind=JOB, value={**job.table, **own}, based_on=job.number)
    write_down(shop, demo, change, by="bench")
    tables = tables_of(kept_job(shop, demo), shop=drawer(shop))
    assert {name: tables[name] for name in own} == own


def test_a_bad_file_leaves_the_store_as_it_was(shop: Workshop) -> None:
    with pytest.raises(BadInput, match="line 3"):
        take_in(
            shop, b'format = 1\n[job]\nnumbr = "7"\n[drums.a]\n', name="x.toml", book_of=no_book,
            by="bench",
        )  # fmt: skip
    with shop.store.reading() as connection:
        assert job_folders(connection, with_hidden=True) == ()


def rod_book(length: int, name: str = "my rod 12-24 x 45 mm") -> bytes:
    made = OWN_BOOK.decode().replace('45 mm"\nthread_', f'{length} mm"\nthread_')
    return made.replace("my rod 12-24 x 45 mm", name).encode()


def with_books(*names: str) -> bytes:
    listed = ", ".join(f'"{name}"' for name in names)
    return SMALL.replace(b'"mine.toml"', listed.encode())


@pytest.mark.parametrize("order", [("z.toml", "a.toml"), ("a.toml", "z.toml")])
def test_a_later_book_lies_over_an_earlier_one(shop: Workshop, order: tuple[str, str]) -> None:
    books = dict(zip(order, (rod_book(45), rod_book(55)), strict=True))
    content = with_books(*order)
    job = take_in(shop, content, name="x.toml", book_of=books.__getitem__, by="bench")
    assert survey_files(shop, job) == {"survey.toml": content, **books}
    kept = kept_job(shop, job)
    read = read_so_far(kept, kept.drums[0], shop=drawer(shop)).opened
    assert read is not None
    assert read.shop.book.find("my rod 12-24 x 45 mm").rod_length_mm == 55.0


@pytest.mark.parametrize(
    "name", ["workshop-fittings.toml", "Workshop-Fittings.TOML", "b.txt", "survey.toml"]
)
def test_no_book_takes_the_place_of_another(shop: Workshop, name: str) -> None:
    own = tomllib.loads(rod_book(65, name="the workshop's rod").decode())
    write_down(shop, None, Change(kind=BOOK, value=own, based_on=0), by="bench")
    job = take_in(
        shop, with_books(name, "c.txt"), name="x.toml", by="bench",
        book_of={name: rod_book(45), "c.txt": rod_book(55, name="another rod")}.__getitem__,
    )  # fmt: skip
    out = survey_files(shop, job)
    assert len(out) == 4
    read = opened(out["survey.toml"], name="survey.toml", book_of=out.__getitem__).shop.book
    lengths = [
        read.find(rod).rod_length_mm
        for rod in ("the workshop's rod", "my rod 12-24 x 45 mm", "another rod")
    ]
    assert lengths == [65.0, 45.0, 55.0]


@pytest.mark.parametrize("name", ["../mine.toml", "../../mine.toml", "/mine.toml", "C:mine.toml"])
def test_a_book_is_written_nowhere_but_into_the_folder(
    shop: Workshop, tmp_path: Path, name: str
) -> None:
    job = take_in(
        shop, with_books(name), name="x.toml", book_of={name: OWN_BOOK}.__getitem__, by="bench"
    )
    folder = hand_out(shop, job, folder=tmp_path / "out" / "here")
    assert (folder / "mine.toml").read_bytes() == OWN_BOOK
    assert not list(tmp_path.glob("*.toml")) + list(tmp_path.glob("out/*.toml"))
    assert tomllib.loads((folder / "survey.toml").read_text())["job"]["book"] == ["mine.toml"]


YES = """[[approval]]
drum = "{drum}"
who = "{who}"
when = 2030-05-17
how = "by letter"
covers = "ABCD-EFGH"
"""
TWO = """[drums.a]
circumference = "951 mm"
depth = "203 mm"
wall = "5 mm"
[drums.b]
circumference = "951 mm"
depth = "203 mm"
wall = "5 mm"
"""


@pytest.mark.parametrize(
    "written",
    [
        "[rules]\n[stock]\n" + TWO + "wish = []\n[drums.b.finish_plan]\n",
        "".join(YES.format(drum=drum, who=n) for n, drum in enumerate("bab")) + TWO,
        YES.format(drum=" a ", who="x") + '[[match]]\ndrums = [" a", "b "]\n' + TWO,
    ],
)
def test_remarks_stay_while_nothing_was_changed(shop: Workshop, written: str) -> None:
    content = f"format = 1 # a remark\n[job]\nnumber = '7'\n{written}".encode()
    job = take_in(shop, content, name="x.toml", book_of=no_book, by="bench")
    assert survey_files(shop, job) == {"survey.toml": content}
    approved = [len(drum.kept(APPROVAL).rows) for drum in kept_job(shop, job).drums]
    assert sum(approved) == written.count("[[approval]]")
