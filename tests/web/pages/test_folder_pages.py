"""The pages of a folder without a browser: what is kept, what is said, what is refused."""

from __future__ import annotations

import datetime as dt
import io
import re
import sys
import threading
import tomllib
import zipfile
from importlib.resources import files

import pytest
from folder_words import drum_of
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from counterhoop.bench.chores import Outcome, Stopped
from counterhoop.bench.evidence.drum_features import Known
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.worked_job import put_worked_job
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.evidence.read_reference import packaged_reference
from counterhoop.web.drum_facts import facts_parts
from counterhoop.web.pages.first import PUTTING, _put
from counterhoop.web.pages.handed_over import HANDING
from counterhoop.web.pages.jobs import COMING_IN
from counterhoop.web.plain_sheet import (
    Group,
    Lines,
    Question,
    answers_say,
    asked,
    read_answers,
    sent_again,
)

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
PART = {"HX-Request": "true"}


# --- the first page and new folders ---------------------------------------------------------------


def test_a_first_visit_greets_and_an_invented_workshop_is_put_in(ask, shop):
    assert "Put seven invented jobs on my bench" in ask.get("/").text
    assert ask.post("/demonstration").headers["location"] == "/"
    shop.chores.wait(120)
    bench = ask.get("/").text
    assert bench.count('class="job-name"') == 7
    assert "/demonstration/away" in bench
    there = re.search(r'class="job-name"><a href="(/jobs/\w+)">26-031', bench)[1]
    shown = ask.get(there).text
    assert "2400 GBP" in shown
    assert "old holes in the bass drum" in shown
    assert "A new wrap is wanted for the marching snare, the low tom and the floor tom." in shown
    drum = re.search(r'href="(/jobs/\w+/drums/\w+)"', shown)[1]
    assert "Corvane (seen, its badge)" in ask.get(drum).text


def test_while_the_invented_jobs_are_put_the_first_page_says_how_far_and_comes_back(ask, shop):
    there = threading.Event()

    def slowly(share):
        share(0.3)
        there.wait(60)
        return Outcome(says=("done",))

    shop.chores.start(PUTTING, slowly, now=shop.now, by="bench")
    waiting = ask.get("/").text
    assert f"{PUTTING} <span" in waiting
    assert 'http-equiv="refresh"' in waiting
    assert 'action="/demonstration"' not in waiting
    there.set()
    shop.chores.wait(60)
    assert PUTTING not in ask.get("/").text


def test_where_the_putting_was_stopped_it_is_not_said_that_nothing_is_there(shop):
    def stopped(share):
        raise Stopped("Nothing was left behind.")

    assert _put(shop, stopped, by="bench").says[0].startswith("Stopped. The invented jobs that")


def test_jobs_are_found_by_any_words_and_come_forty_to_a_sheet(ask, shop):
    for number in range(45):
        made = open_folder(shop, job={"number": f"30-{number:03}", "client": "Nell"}, by="bench")
    add_drum(shop, made, name="floor tom", survey={}, by="bench")
    assert ask.get("/").text.count('class="job-name"') == 40
    assert ask.get("/?sheet=2").text.count('class="job-name"') == 5
    assert ask.get("/?find=nell+FLOOR").text.count('class="job-name"') == 1
    assert "0 of 45 jobs have all of these words" in ask.get("/?find=quennick").text
    assert ask.get("/?sheet=0").status_code == 404


def test_what_answers_a_form_offers_no_switch_that_leads_back_to_it(ask):
    """There is no page at the address that a form is sent to: 405, and what was typed is gone."""
    assert 'action="/mine"' in ask.get("/jobs/new").text
    assert 'action="/mine"' not in ask.post("/jobs", data={"client": "Nell Ashby"}).text


def test_a_refused_label_goes_on_being_based_on_what_its_writer_saw(ask, shop, job):
    at, label = f"/jobs/{job}/label", {"number": "30-007", "client": "Nell Ashby"}
    seen = kept_job(shop, job).kept("job").number
    ask.post(at, data=label | {"based_on": str(seen), "client": "Ned Ashby"})
    refused = ask.post(at, data={"based_on": str(seen), "client": "Nan Ashby"})
    assert refused.status_code == 422
    assert f'name="based_on" value="{seen}"' in refused.text
    assert ask.post(at, data=label | {"based_on": str(seen)}).status_code == 409
    assert kept_job(shop, job).job["client"] == "Ned Ashby"


def test_a_survey_file_goes_in_and_comes_out_byte_for_byte(ask):
    there = ask.post("/jobs/taken-in", files={"files": ("mine.toml", DEMO)}).headers["location"]
    out = ask.get(f"{there}/survey-file")
    assert out.content == DEMO
    assert out.headers["content-disposition"].startswith("attachment")
    assert "26-031" in out.headers["content-disposition"]


def test_a_survey_file_with_its_book_goes_in_and_comes_out_as_an_archive(ask):
    survey = DEMO.replace(b"[job]\n", b'[job]\nbook = ["own.toml"]\n', 1)
    book = b"# Nothing of our own yet.\nfitting = []\n"
    alone = ask.post("/jobs/taken-in", files={"files": ("mine.toml", survey)})
    assert alone.status_code == 422
    assert "did not come with it" in alone.text
    both = [("files", ("mine.toml", survey)), ("files", ("own.toml", book))]
    told = ask.post("/jobs/taken-in", files=both)
    out = ask.get(told.headers["location"] + "/survey-file")
    with zipfile.ZipFile(io.BytesIO(out.content)) as archive:
        assert sorted(archive.namelist()) == ["own.toml", "survey.toml"]
        assert archive.read("survey.toml") == survey
        assert archive.read("own.toml") == book


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "survey"),
        (b"\xff\xd8\xff\xe0", "text"),
        (b"format = 1\n[drums.x]\n", "job"),
    ],
)
def test_what_is_no_survey_file_is_said_on_the_first_page(ask, content, says):
    refused = ask.post("/jobs/taken-in", files={"files": ("a.toml", content)})
    assert refused.status_code == 422
    assert 'role="alert"' in refused.text
    assert says in refused.text.lower()
    assert ask.post("/jobs/taken-in").status_code == 422
    assert "Put seven invented jobs on my bench" in ask.get("/").text


def test_the_booking_in_sheet_is_handed_out_as_a_paper(ask, job):
    """Truth: what was typed a line before, read out of the PDF by an independent library."""
    typed = {"based_on": "0", "fetched_by": "by the end of May", "things.0.what": "a bag of rods"}
    ask.post(f"/jobs/{job}/arrival", data=typed)
    assert f"/jobs/{job}/booking-in-sheet.pdf" in ask.get(f"/jobs/{job}").text
    sent = ask.get(f"/jobs/{job}/booking-in-sheet.pdf")
    assert sent.headers["content-type"] == "application/pdf"
    said = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(sent.content)).pages)
    for line in ("To be fetched: by the end of May", "a bag of rods", "outside, half along"):
        assert line in " ".join(said.split())


def test_a_value_without_its_currency_is_in_that_of_the_job(ask, job):
    """Truth: the figures shipped are in GBP; what the paper says is read by another library."""
    ask.post(f"/jobs/{job}/arrival", data={"based_on": "0", "value": "350"})
    shown = ask.get(f"/jobs/{job}").text
    assert "350.00 GBP" in shown
    assert "cannot be read" not in shown
    sent = ask.get(f"/jobs/{job}/booking-in-sheet.pdf")
    said = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(sent.content)).pages)
    assert "350.00 GBP" in " ".join(said.split())


def test_a_paper_that_cannot_be_made_says_why_and_leads_back(ask, job):
    typed = {"based_on": "0", "value": "about 300"}
    part = ask.post(f"/jobs/{job}/arrival", data=typed, headers=PART)
    assert "about 300: this cannot be read" in part.text
    refused = ask.get(f"/jobs/{job}/booking-in-sheet.pdf")
    assert refused.status_code == 422
    assert "This paper cannot be made yet" in refused.text
    assert "The declared value cannot be read" in refused.text.replace("Value: the", "The")
    assert f'href="/jobs/{job}#booked-in"' in refused.text
    assert "That is not here" not in refused.text


# --- plain sheets -----------------------------------------------------------------------------


def test_what_cannot_be_read_is_kept_and_said_at_its_field(ask, job):
    at = f"/jobs/{job}/arrival"
    typed = {"based_on": "0", "value": "dear", "came_on": "last week", "notes": "<i>loose</i>"}
    assert ask.post(at, data=typed).status_code == 303
    shown = ask.get(f"/jobs/{job}").text
    assert "Cannot be read as an amount of money" in shown
    assert "Not a day" in shown
    assert "last week: this cannot be read" in shown
    assert "&lt;i&gt;loose&lt;/i&gt;" in shown
    assert "<b>Ashby" not in shown
    assert 'value="last week"' in shown


def test_two_windows_write_different_fields_and_both_stay(ask, shop, job):
    at = f"/jobs/{job}/arrival"
    ask.post(at, data={"based_on": "0", "notes": "first"})
    ask.post(at, data={"based_on": "1", "notes": "first", "insured_here": "the band"})
    # This window still has the page from before the band was written.
    ask.post(at, data={"based_on": "1", "notes": "second"})
    kept = kept_job(shop, job).kept("arrival").table
    assert kept == {"notes": "second", "insured_here": "the band"}


def test_two_windows_write_one_field_and_the_person_chooses(ask, shop, job):
    at = f"/jobs/{job}/arrival"
    ask.post(at, data={"based_on": "0", "notes": "first", "insured_here": "x"})
    ask.post(at, data={"based_on": "1", "notes": "theirs", "insured_here": "the band"})
    both = ask.post(at, data={"based_on": "1", "notes": "mine", "insured_here": "x"})
    assert both.status_code == 409
    rows = re.findall(r'<th scope="row">(.*?)</th><td>(.*?)</td><td>(.*?)</td>', both.text)
    # Only what both changed; who insures it was changed by one alone.
    assert rows == [("Notes", "mine", "theirs")]
    sent = dict(re.findall(r'<input type="hidden" name="(.*?)" value="(.*?)">', both.text))
    ask.post(at, data=sent | {"keep": "mine"})
    kept = kept_job(shop, job).kept("arrival").table
    assert kept == {"notes": "mine", "insured_here": "the band"}


def test_theirs_is_kept_without_a_save_and_undo_goes_back(ask, shop, job):
    at = f"/jobs/{job}/handed-over"
    for based_on, done in enumerate(("plugs", "plugs and edges")):
        ask.post(at, data={"based_on": str(based_on), "done": done})
    assert ask.post(at, data={"based_on": "2", "done": "x", "keep": "theirs"}).status_code == 303
    assert kept_job(shop, job).kept("handover").number == 2
    assert ask.post(f"{at}/undo", data={"number": "1", "based_on": "2"}).status_code == 303
    assert kept_job(shop, job).kept("handover").table == {"done": "plugs"}
    ask.post(at, data={"based_on": "3", "done": "plugs, and a bed"})
    assert ask.post(f"{at}/undo", data={"number": "1", "based_on": "2"}).status_code == 409


def test_an_answer_to_a_script_holds_the_parts_that_change(ask, job):
    part = ask.post(f"/jobs/{job}/arrival", data={"based_on": "0", "notes": "x"}, headers=PART)
    assert part.status_code == 200
    assert "<html" not in part.text
    names = {"based-on", "fields", "says", "saved"}
    assert set(re.findall(r'hx-target="#arrival-([\w-]+)"', part.text)) == names


def test_documents_that_hold_anything_are_shown(ask, shop, job):
    drum = drum_of(shop, job)
    odd = {"badge": "oval", "things": [3, {"what": 4}], "woodworm": [], "bag": "x", "view": None}
    for kind, name in (
        ("arrival", ""), ("handover", ""), ("facts", drum), ("photographs", ""), ("ticks", drum),
    ):  # fmt: skip
        for based_on, body in enumerate((odd, [], "text")):
            change = Change(kind=kind, name=name, value=body, based_on=based_on)
            write_down(shop, job, change, by="program")
            for end in ("", "/photographs", "/handed-over", f"/drums/{drum}"):
                assert ask.get(f"/jobs/{job}{end}").status_code == 200


TEXT = st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=20).map(str.strip)


def sent_for(part, draw):
    """Draw what a person answers to a part."""

    def one(question, name):
        match question.kind:
            case "yes":
                return [(name, "yes")] if draw(st.booleans()) else []
            case "choice":
                return [(name, draw(st.sampled_from([value for value, _ in question.choices])))]
        return [(name, draw(TEXT))]

    match part:
        case Question():
            return one(part, part.name)
        case Group():
            return [pair for q in part.of for pair in one(q, f"{part.name}.{q.name}")]
    rows = draw(st.integers(0, 3))
    return [
        pair for n in range(rows) for q in part.of for pair in one(q, f"{part.name}.{n}.{q.name}")
    ]


PLAIN_FACTS = facts_parts({}, packaged_reference(), Known(), photographs=[])
DATED_FACTS = facts_parts(
    {}, packaged_reference(), Known(family="Corvane"), photographs=[("a7", "the badge")]
)


@given(st.data(), st.sampled_from([COMING_IN, HANDING, PLAIN_FACTS, DATED_FACTS]))
def test_what_is_sent_again_reads_back_the_same(data, parts):
    """An exact law: a form filled from a document, sent unchanged, changes nothing."""
    given_ = dict(pair for part in parts for pair in sent_for(part, data.draw))
    table = read_answers(parts, given_)
    today = dt.date(2030, 5, 17)
    assert read_answers(parts, dict(sent_again(parts, table, today=today))) == table
    # Whatever is kept is seen in the form and in words.
    assert {label for label, _ in answers_say(parts, table)} <= {part.label for part in parts}
    assert len(asked(parts, table, ident="x", today=today)) == len(parts)


def test_a_list_has_an_empty_line_at_its_end():
    lines = Lines(name="things", label="Things", one="Thing", of=(Question(name="a", label="A"),))
    table = {"things": [{"a": "hoop"}, {"a": "head"}]}
    (form,) = asked([lines], table, ident="x", today=dt.date(2030, 5, 17))
    assert [name for name, _ in form.lines] == ["Thing 1", "Thing 2", "Thing 3"]
    given_ = {"things.0.a": "hoop", "things.1.a": " ", "things.7.a": "key", "things.x.a": "no"}
    assert read_answers([lines], given_) == {"things": [{"a": "hoop"}, {"a": "key"}]}


# --- drums, putting away --------------------------------------------------------------------------


def test_a_drum_is_put_away_and_taken_out_again(ask, shop, job):
    drum = drum_of(shop, job)
    assert ask.post(f"/jobs/{job}/drums/{drum}/away").status_code == 303
    assert "No drum is in the folder yet" in ask.get(f"/jobs/{job}").text
    shown = ask.get("/workshop/put-away").text
    assert "The small tom of 30-001, Nell &lt;b&gt;Ashby&lt;/b&gt;" in shown
    assert "This drum is put away" in ask.get(f"/jobs/{job}/drums/{drum}").text
    sent = dict(re.findall(r'<input type="hidden" name="(thing\w*)" value="(.*?)">', shown))
    assert ask.post("/workshop/put-away", data=sent).headers["location"] == f"/jobs/{job}"
    assert ask.post("/workshop/put-away", data=sent).status_code == 422
    assert [one.id for one in kept_job(shop, job).drums] == [drum]


def test_a_folder_is_put_away_and_taken_out_again(ask, job):
    ask.post(f"/jobs/{job}/away")
    assert "30-001" not in ask.get("/").text
    assert "This folder is put away" in ask.get(f"/jobs/{job}").text
    ask.post("/workshop/put-away", data={"thing": "job", "thing_id": job})
    assert "30-001" in ask.get("/").text


def test_a_drum_is_called_otherwise(ask, shop, job):
    drum = drum_of(shop, job)
    add_drum(shop, job, name="large tom", survey={}, by="bench")
    number = kept_job(shop, job).kept("job").number
    at = f"/jobs/{job}/drums/{drum}/name"
    refused = ask.post(at, data={"name": "Large Tom", "based_on": number})
    assert refused.status_code == 422
    assert "another drum of this job is called so" in refused.text
    assert ask.post(at, data={"name": "rack tom", "based_on": number}).status_code == 303
    assert ask.post(at, data={"name": "tom", "based_on": number}).status_code == 409
    assert kept_job(shop, job).drum(drum).name == "rack tom"


def test_the_small_drawing_has_no_letters_and_none_is_none(ask, shop, job):
    assert ask.get(f"/jobs/{job}/drums/{drum_of(shop, job)}/small-picture").text == ""
    there = f"/jobs/{put_worked_job(shop, by='bench')}"
    for drum in kept_job(shop, there.rpartition("/")[2]).drums:
        drawn = ask.get(f"{there}/drums/{drum.id}/small-picture").text
        assert drawn.startswith("<svg")
        assert "<text" not in drawn
        assert len(drawn) < 30_000


def test_the_record_says_what_the_documents_say(ask, shop):
    there = f"/jobs/{put_worked_job(shop, by='bench')}"
    shown = ask.get(f"{there}/handed-over").text
    assert "The band&#39;s drummer said yes on 21 March 2026, signed on the scheme sheet" in shown
    covers = tomllib.loads(DEMO.decode())["approval"][0]["covers"]
    assert f"It covers the scheme {covers}." in shown
    assert "No scheme, no yes and no tick is on record for the small tom, the large tom" in shown


@pytest.mark.parametrize("end", ["", "/photographs", "/handed-over", "/survey-file", "/drums/x"])
def test_a_folder_that_is_not_there_is_said_so(ask, job, end):
    assert ask.get(f"/jobs/0000000000000000{end}").status_code == 404
    if end == "/drums/x":
        assert ask.get(f"/jobs/{job}{end}").status_code == 404


def test_nothing_heavy_is_opened_for_these_pages():
    """Truth: house rule; what is loaded, in a process of its own."""
    import subprocess

    code = (
        "import sys\n"
        "from counterhoop.web.pages import first, handed_over, jobs, photographs, what_it_is\n"
        "print([n for n in ('scipy', 'ortools', 'typst', 'PIL') if n in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
