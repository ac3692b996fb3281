"""The survey pages without a browser: what is said, what is kept, what is refused."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite
from planned_once import PLANNED

PART = {"HX-Request": "true"}
ROW = {
    "head": "batter", "lugs": 6, "fitting": "Corvane round lug", "first": "30 deg",
    "near": ["37.5 mm", "79.5 mm"], "hole": "6 mm",
}  # fmt: skip
TOM = {
    "heads": 1, "circumference": "952 mm", "wall": "5 mm", "depth": "200 mm", "rows": [ROW],
}  # fmt: skip
HOLE = {"along": "lug 2 + 42 mm", "near": "44 mm", "dia": "8 mm"}


class Bench:
    """One job with one drum, and a browser without a script."""

    def __init__(self, shop, survey=TOM):
        self.shop = shop
        self.job = open_folder(shop, job={"number": "7", "client": "Quennick"}, by="bench")
        self.drum = add_drum(shop, self.job, name="small tom", survey=survey, by="bench")
        self.ask = TestClient(WhoMayWrite(make_app(shop)), follow_redirects=False)
        self.at = f"/jobs/{self.job}/drums/{self.drum}/shell"

    def kept(self, kind="survey"):
        return kept_job(self.shop, self.job).drum(self.drum).kept(kind)

    @property
    def survey(self):
        return self.kept().table

    def look(self, query=""):
        answer = self.ask.get(self.at + query)
        assert answer.status_code == 200
        return answer.text

    def write(self, thing, at="", *, based_on=None, headers=None, **fields):
        based_on = self.kept().number if based_on is None else based_on
        data = {"at": at, "based_on": based_on, "done": "yes", **fields}
        return self.ask.post(f"{self.at}/{thing}", data=data, headers=headers)

    def settle(self):
        return self.ask.post(f"{self.at}/settle", data={"based_on": self.kept().number})


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)


@pytest.fixture
def bench(shop):
    return Bench(shop)


def plain(html):
    """Return the words of a page."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


# --- writing without a script ------------------------------------------------------------------


def test_a_hole_is_written_and_the_next_empty_form_is_open(bench):
    answer = bench.write("hole", "new", **HOLE)
    assert answer.status_code == 303
    assert bench.survey["holes"] == [HOLE]
    page = bench.ask.get(answer.headers["location"]).text
    # Six lugs of two holes come first, so that the odd one is number 13 on the drawing.
    assert "Hole 13" in plain(page)
    assert 'data-hole="13"' in page
    assert re.search(r'id="hole-new-along"[^>]*>|<input type="text" autofocus', page)


LINE = re.compile(r'<details class="line[^"]*" id="([^"]+)"')


def test_no_two_things_have_one_id_whatever_form_is_open(bench):
    bench.write("hole", "new", **HOLE)
    bench.write("wish", "new", based_on=0, want="second head")
    idents = LINE.findall(bench.look())
    assert {"edge-resonant", "hole-0", "row-0", "wish-0"} <= set(idents)
    for ident in idents:
        page = bench.look(f"?open={ident}")
        assert f'id="{ident}-form"' in page
        ids = re.findall(r' id="([^"]+)"', page)
        assert sorted({one for one in ids if ids.count(one) > 1}) == [], ident


def test_a_thing_is_changed_and_taken_out(bench):
    bench.write("hole", "new", **HOLE)
    bench.write("hole", "0", **HOLE | {"dia": "9 mm"})
    assert bench.survey["holes"] == [HOLE | {"dia": "9 mm"}]
    bench.write("hole", "0", take_out="yes", **HOLE)
    assert not bench.survey.get("holes")


def test_an_end_and_a_wish_are_written_in_their_documents(bench):
    bench.write("edge", "batter", gaps="0, 0.3, 0.85, 1.1, 0.6, 0, 0.4, 0.7 mm")
    bench.write("wish", "new", based_on=0, want="second head")
    assert bench.survey["edges"]["batter"]["gaps"].startswith("0, 0.3")
    assert bench.kept("wish").table == {"wish": [{"want": "second head"}]}
    said = plain(bench.look())
    assert "Batter edge feelers 0, 0.3" in said
    assert "How flat." in said
    assert "How it was worked out" in said
    assert "Wish 1 second head" in said


def test_an_empty_form_writes_nothing(bench):
    before = bench.kept().number
    assert bench.write("hole", "new").status_code == 303
    assert bench.kept().number == before


def test_half_a_thing_is_kept_as_typed_and_said(bench):
    bench.write("hole", "new", along="lug 2 + 42 mm")
    assert bench.survey["holes"] == [{"along": "lug 2 + 42 mm"}]
    said = plain(bench.look())
    assert "One thing cannot be read yet. The drawing leaves out what cannot be read." in said


def test_faults_are_said_without_the_signs_of_the_file(bench):
    bench.write("hole", "new", near="44 mm", dia="8 mm")
    said = plain(bench.look("?open=hole-0"))
    assert "Where along is it?" in said
    assert "along =" not in said
    assert "[[" not in said


def test_what_is_typed_never_becomes_marks_of_the_page(bench):
    bench.write("hole", "new", **HOLE, purpose="<img src=x onerror=alert(1)>")
    page = bench.look("?open=hole-0")
    assert "<img" not in page
    assert "&lt;img src=x" in page


# --- half done ---------------------------------------------------------------------------------


def test_a_drum_of_which_nothing_is_known_has_a_page(shop):
    bench = Bench(shop, survey={})
    page = bench.look()
    assert "not read yet" in page
    assert 'id="hole-new-form"' in page


@pytest.mark.parametrize("wrong", ["200", "deep", ["x"], {"a": 1}, 7])
def test_a_survey_with_anything_in_it_has_a_page(shop, wrong):
    for name in ("depth", "circumference", "rows", "holes", "edges", "finish", "nonsense"):
        Bench(shop, survey={**TOM, name: wrong}).look("?open=shell")


# --- a lug that no book has --------------------------------------------------------------------


def test_a_lug_that_no_book_has_is_drawn_and_written_from_its_row(shop):
    bench = Bench(shop, survey={**TOM, "rows": [{k: v for k, v in ROW.items() if k != "fitting"}]})
    page = bench.look("?open=row-0")
    assert "That lug is not in the book yet" in page
    assert page.count("data-hole=") >= 12
    answer = bench.ask.post(f"{bench.at}/lug", data={"row": "0"})
    assert answer.status_code == 303
    assert bench.survey["rows"][0]["fitting"] == "lug of the small tom"
    (entry,) = drawer(shop)["book"].table["fitting"]
    # 37.5 and 79.5 mm down: two holes 42 mm apart about their middle.
    assert [hole["down"] for hole in entry["holes"]] == ["-21.0 mm", "21.0 mm"]
    assert entry["source"].startswith("made from the holes of the small tom on ")
    said = plain(bench.look())
    assert "No such fitting" not in said
    assert "is partly guessed from its holes" in said


def test_a_lug_is_written_from_what_was_measured(bench, shop):
    bench.write("row", "0", head="batter", lugs="6", fitting="old lug", first="30 deg",
                **{"near.0": "37.5 mm", "near.1": "79.5 mm"}, hole="6 mm")  # fmt: skip
    assert "No such fitting in the book" in plain(bench.look())
    lug = {"apart": "42 mm", "hole": "6 mm", "width": "24 mm", "height": "57 mm",
           "thread": "7/32-24", "screws": "2"}  # fmt: skip
    bench.ask.post(f"{bench.at}/lug", data={"row": "0"} | {f"_lug_{k}": v for k, v in lug.items()})
    (entry,) = drawer(shop)["book"].table["fitting"]
    assert entry["name"] == "old lug"
    assert entry["base"]["width"] == "24.0 mm"
    assert entry["thread"] == "7/32-24"
    assert entry["source"].startswith("measured at this bench on ")
    assert "No such fitting" not in plain(bench.look())


def test_a_lug_that_cannot_be_is_refused_in_words(bench):
    data = {"row": "0", "_lug_name": "x", "_lug_apart": "3 mm", "_lug_hole": "6 mm"}
    answer = bench.ask.post(f"{bench.at}/lug", data=data)
    assert answer.status_code == 422
    assert "runs into hole" in plain(answer.text)


# --- two at once -------------------------------------------------------------------------------


def test_the_same_thing_written_twice_shows_both(bench):
    seen = bench.kept().number
    bench.write("finish", based_on=seen, kind="wrap", thickness="0.5 mm")
    answer = bench.write("finish", based_on=seen, kind="lacquer", says="<b>")
    assert answer.status_code == 409
    said = plain(answer.text)
    assert "Two versions: choose one" in said
    assert bench.survey["finish"]["kind"] == "wrap"
    # Keep theirs: nothing is written. Keep mine: sent again on top of theirs.
    again = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', answer.text))
    assert bench.ask.post(f"{bench.at}/finish", data=again | {"keep": "theirs"}).status_code == 303
    assert bench.survey["finish"]["kind"] == "wrap"
    assert bench.ask.post(f"{bench.at}/finish", data=again | {"keep": "mine"}).status_code == 303
    assert bench.survey["finish"]["kind"] == "lacquer"


def test_the_same_words_written_twice_are_no_conflict(bench):
    seen = bench.kept().number
    for _ in range(2):
        answer = bench.write("finish", based_on=seen, kind="wrap")
        assert answer.status_code == 303


def test_a_new_hole_sent_twice_is_one_hole(bench):
    """A phone sends again when it does not hear that the first was kept."""
    seen, other = bench.kept().number, HOLE | {"along": "lug 3 + 42 mm"}
    assert bench.write("hole", "new", based_on=seen, **HOLE).status_code == 303
    assert bench.write("hole", "new", based_on=seen, **HOLE).status_code == 303
    assert bench.survey["holes"] == [HOLE]
    assert bench.write("hole", "new", based_on=seen, **other).status_code == 303
    late = bench.write("hole", "new", based_on=seen, headers=PART, done="", **HOLE)
    assert 'name="at" id="hole-new-at" value="0"' in late.text
    assert bench.survey["holes"] == [HOLE, other]
    # One that is alike and was seen is meant: it is a second one.
    bench.write("hole", "new", **HOLE)
    assert bench.survey["holes"] == [HOLE, other, HOLE]


def test_a_new_hole_sent_half_and_then_whole_is_one_hole(bench):
    """The answer to the half was lost, and typing went on: the page still takes it for new."""
    seen, half = bench.kept().number, {"along": HOLE["along"]}
    bench.write("hole", "new", based_on=seen, **half)
    assert bench.survey["holes"] == [half]
    bench.write("hole", "new", based_on=seen, **HOLE)
    assert bench.survey["holes"] == [HOLE]


def test_a_page_of_a_version_that_never_was_is_refused(bench):
    assert bench.write("finish", based_on=99, kind="wrap").status_code in (409, 422)
    assert "finish" not in bench.survey


# --- as found ----------------------------------------------------------------------------------


def test_once_settled_a_change_shows_old_beside_new_and_asks_why(bench):
    assert bench.settle().status_code == 303
    asked = bench.write("shell", circumference="952 mm", wall="6 mm", depth="200 mm", heads="1")
    assert asked.status_code == 200
    assert "Wall 5 mm 6 mm" in plain(asked.text)
    assert bench.survey["wall"] == "5 mm"
    again = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', asked.text))
    done = bench.ask.post(f"{bench.at}/shell", data=again | {"why": "read on the ring"})
    assert done.status_code == 303
    assert bench.survey["wall"] == "6 mm"
    said = plain(bench.look())
    assert "Wall 5 mm 6 mm read on the ring" in said
    assert "Undo the last step" not in said
    history = f"/jobs/{bench.job}/history/{bench.kept().document_id}"
    assert "Corrected, because: read on the ring" in plain(bench.ask.get(history).text)
    back = bench.ask.post(history, data={"number": 1, "based_on": bench.kept().number})
    assert back.status_code == 409


def test_what_is_wanted_changes_freely_once_settled(bench):
    bench.settle()
    assert bench.write("wish", "new", based_on=0, want="second head").status_code == 303
    assert bench.kept("wish").table["wish"]


def test_settling_a_sheet_that_somebody_changed_is_refused(bench):
    seen = bench.kept().number
    bench.write("hole", "new", **HOLE)
    answer = bench.ask.post(f"{bench.at}/settle", data={"based_on": seen})
    assert answer.status_code == 409
    assert bench.kept().as_found is None


# --- back --------------------------------------------------------------------------------------


def test_undo_and_history_in_words(bench):
    bench.write("hole", "new", **HOLE)
    kept = bench.kept()
    data = {"kind": "survey", "number": kept.number - 1, "based_on": kept.number}
    assert bench.ask.post(f"{bench.at}/undo", data=data).status_code == 303
    assert "holes" not in bench.survey
    # Pressed again, because the answer was lost: it is found again. Saved since: refused.
    number = bench.kept().number
    assert bench.ask.post(f"{bench.at}/undo", data=data).status_code == 303
    assert bench.kept().number == number
    bench.write("finish", kind="wrap")
    assert bench.ask.post(f"{bench.at}/undo", data=data).status_code == 409
    page = bench.ask.get(f"/jobs/{bench.job}/history/{kept.document_id}")
    assert "Version 1 was chosen again." in plain(page.text)
    assert "All of the holes" in plain(page.text)


# --- what is not there -------------------------------------------------------------------------


@pytest.mark.parametrize(
    "address",
    [
        "/jobs/nix/drums/nix/shell",
        "/jobs/{job}/drums/nix/shell",
        "/jobs/{job}/drums/{drum}/shell/nix",
        "/jobs/{job}/drums/{drum}/shell/hole?at=x",
        "/jobs/{job}/drums/{drum}/shell/edge?at=3",
        "/jobs/{job}/drums/{drum}/shell/job",
        "/jobs/{job}/history/nix",
        "/jobs/nix/drums/new",
    ],
)
def test_what_is_not_there_is_said(bench, address):
    answer = bench.ask.get(address.format(job=bench.job, drum=bench.drum), headers=PART)
    assert answer.status_code == 404
    assert "no such" in plain(answer.text).lower()


def test_the_history_of_another_job_is_not_shown(bench, shop):
    other = Bench(shop)
    answer = bench.ask.get(f"/jobs/{bench.job}/history/{other.kept().document_id}")
    assert answer.status_code == 404


# --- parts for the script ----------------------------------------------------------------------


def test_while_typing_only_what_changed_is_sent(bench):
    data = {"at": "new", "based_on": bench.kept().number, "along": "lug 2 + 42 mm"}
    answer = bench.ask.post(f"{bench.at}/hole", data=data, headers=PART).text
    assert "<html" not in answer
    for target in ("#flat-picture", "#adds-up-body", "#hole-new-fields", "#foot-says"):
        assert f'hx-target="{target}"' in answer
    # It has a place of its own from now on; what is not typed yet is not held against it.
    assert re.search(r'id="hole-new-at" value="0"', answer)
    fields = answer.split('hx-target="#hole-new-fields"')[1].split("</hx-partial>")[0]
    assert "aria-invalid" not in fields


def test_the_form_of_a_new_hole_goes_on_being_kept_however_slowly_it_is_typed(bench):
    # Each answer must bring the form that stands on the page up to date: the second one named
    # fields that were not there, so the third met its own bench as somebody else's change.
    data = {
        "form_on_page": "hole-new", "at": "new", "based_on": bench.kept().number,
        "along": "lug 2 + 42 mm",
    }  # fmt: skip
    for name, words in (("near", "96 mm"), ("dia", "10 mm"), ("purpose", "clamp")):
        answer = bench.ask.post(f"{bench.at}/hole", data=data, headers=PART)
        assert answer.status_code == 200
        for hidden in ("at", "based_on"):
            ident = f"hole-new-{hidden.replace('_', '-')}"
            data[hidden] = re.search(rf'id="{ident}" value="(\d+)"', answer.text)[1]
        data[name] = words
    assert bench.ask.post(f"{bench.at}/hole", data=data, headers=PART).status_code == 200
