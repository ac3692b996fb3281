"""Papers had from the pages: what is listed, the files, their pictures, how far they are."""

from __future__ import annotations

import html
import io
import re
import zipfile

import pypdf
import pytest
from worked_drums import PLANNED, WorkedJob

from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.answers import Working, failed
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.paper_list import listed_papers
from counterhoop.bench.workshop import Workshop
from counterhoop.web.paper_asked import known_to_list, printing_for
from counterhoop.web.plans import plan_for

SNARE, TOM = "marching snare", "floor tom"


@pytest.fixture
def job(shop):
    return WorkedJob(shop, SNARE, TOM)


def said(answer):
    return html.unescape(answer.text)


def had(job, name, *, drum="", **asked):
    params = {"name": name, "drum": job.drum(drum).id if drum else "", **asked}
    return job.ask.get(f"/jobs/{job.id}/papers/file", params=params)


def listed_in(job, shop, *, drum=""):
    """Return the papers that the app has: a drum's folder knows what it is."""
    known = known_to_list(job.kept)
    return listed_papers(plan_for(shop, job.kept).plan, drum=drum, known=known)


def words_of(pdf):
    return " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages)


# --- what is listed -----------------------------------------------------------------------------


def test_every_paper_is_listed_once(job, shop):
    page = said(job.ask.get(f"/jobs/{job.id}/papers"))
    listed = listed_in(job, shop)
    files = re.findall(r'href="(/jobs/[^"]+/papers/file\?[^"]+)"', page)
    assert len(files) == len(set(files)) == len(listed)
    for one in listed:
        assert f"<p>{one.says[0].upper()}{one.says[1:]}.</p>" in page
    pictures = re.findall(r'<img src="[^"]+/papers/preview\?', page)
    shown = [one for one in listed if one.name.endswith((".pdf", ".svg"))]
    assert len(pictures) == len(shown)


def test_a_drum_has_its_own_papers_and_those_of_the_job(job, shop):
    page = said(job.ask.get(job.bench(SNARE)))
    listed = listed_in(job, shop)
    wanted = sum(one.drum in ("", SNARE) for one in listed)
    assert page.count("/papers/file?") == wanted
    assert "floor+tom" not in page


def test_an_unmeasured_printer_is_told(job, shop):
    assert "has not been measured" in said(job.ask.get(job.bench(SNARE)))
    body = {"measured": "179.6 mm, 249.5 mm"}
    write_down(shop, None, Change(kind="printer", value=body, based_on=0), by="bench")
    assert "has not been measured" not in said(job.ask.get(job.bench(SNARE)))


def test_the_correction_is_of_one_printer_alone(job, shop):
    body = {"measured": "179.6 mm, 249.5 mm", "thickness": "0.2 mm"}
    write_down(shop, None, Change(kind="printer", value=body, based_on=0), by="bench")
    # Hand-worked: the bars are 180 and 250 mm long on paper.
    own = printing_for(shop, paper="")
    assert own.correction.short_factor == pytest.approx(180 / 179.6)
    assert printing_for(shop, paper="A3").correction == own.correction
    roll = printing_for(shop, paper="roll").correction
    assert (roll.short_factor, roll.long_factor, roll.paper_mm) == (1.0, 1.0, 0.2)


def test_the_identity_sheet_says_what_the_folder_knows(job, shop):
    """Truth: the worked job's own facts, and the years in its text as the page has them."""
    facts = {"maker": {"family": "Corvane"}, "serial": {"says": "9 800"},
             "badge": {"value": "round, nailed", "sure": "seen"}}  # fmt: skip
    drum = job.drum(SNARE).id
    write_down(shop, job.id, Change(kind="facts", name=drum, value=facts, based_on=0), by="bench")
    said_on = words_of(had(job, "1 marching snare/identity sheet.pdf", drum=SNARE).content)
    face = re.search(r'<p class="face">(Most likely made [^<]+?)(?:\.|<)', said(
        job.ask.get(f"/jobs/{job.id}/drums/{drum}")))[1]  # fmt: skip
    assert " ".join(face.split()) in " ".join(said_on.split())
    assert "serial number 9 800" in said_on
    assert "badge: round, nailed" in said_on


# --- files --------------------------------------------------------------------------------------


def test_a_draft_is_a_draft_and_a_yes_is_none(job):
    snare = had(job, "1 marching snare/2 hole list.pdf", drum=SNARE)
    assert snare.headers["content-type"] == "application/pdf"
    assert snare.headers["content-disposition"] == (
        'attachment; filename="26-031 - marching snare - 2 hole list.pdf"'
    )
    assert "DRAFT" not in words_of(snare.content)
    tom = had(job, "2 floor tom/2 hole list.pdf", drum=TOM)
    assert "DRAFT" in words_of(tom.content)


def test_other_paper_other_template(job):
    # ISO 216: A3 is 297 mm wide, 841.9 points of 1/72 in.
    name = "1 marching snare/4 template A3.pdf"
    pdf = had(job, name, drum=SNARE, paper="A3")
    box = pypdf.PdfReader(io.BytesIO(pdf.content)).pages[0].mediabox
    assert sorted((float(box.width), float(box.height)))[0] == pytest.approx(841.9, abs=0.5)
    assert had(job, name, drum=SNARE).status_code == 404
    assert had(job, name, drum=SNARE, paper="B5").status_code == 404


def test_drawings_and_all_in_one(job, shop):
    assert had(job, "1 marching snare/shell laid flat.svg", drum=SNARE).text.startswith("<svg")
    assert b"SECTION" in had(job, "1 marching snare/shell laid flat.dxf", drum=SNARE).content
    drum = job.drum(TOM).id
    answer = job.ask.get(f"/jobs/{job.id}/papers/all", params={"drum": drum})
    assert 'filename="26-031 - floor tom - papers.zip"' in answer.headers["content-disposition"]
    listed = listed_in(job, shop, drum=TOM)
    with zipfile.ZipFile(io.BytesIO(answer.content)) as packed:
        assert sorted(packed.namelist()) == sorted(one.name for one in listed)


def test_a_paper_is_kept_by_no_browser(job):
    # The guard says no-store of all that is private (RFC 9111, 5.2.2.5, from memory): what is not
    # stored cannot be asked about again, so nothing tags it.
    assert "etag" not in had(job, "1 marching snare/2 hole list.pdf", drum=SNARE).headers


def test_what_is_not_there(job):
    assert had(job, "1 marching snare/letter to the queen.pdf", drum=SNARE).status_code == 404
    assert had(job, "../../etc/passwd", drum=SNARE).status_code == 404
    assert job.ask.get("/jobs/none/papers").status_code == 404
    address = f"/jobs/{job.id}/papers/preview"
    missing = {"name": "1 marching snare/2 hole list.pdf", "drum": job.drum(SNARE).id, "sheet": 99}
    assert job.ask.get(address, params=missing).status_code == 404


def test_pictures(job):
    asked = {"name": "1 marching snare/3 bench sheet.pdf", "drum": job.drum(SNARE).id}
    picture = job.ask.get(f"/jobs/{job.id}/papers/preview", params={**asked, "wide": 360})
    assert picture.headers["content-type"] == "image/png"
    assert int.from_bytes(picture.content[16:20], "big") == 360
    pages = len(pypdf.PdfReader(io.BytesIO(had(job, asked["name"], drum=SNARE).content)).pages)
    look = said(job.ask.get(f"/jobs/{job.id}/papers/look", params=asked))
    assert look.count('class="paper-page"') == pages > 1
    assert f"Page {pages} of {pages}" in look


def test_papers_of_no_job(job):
    survey = job.ask.get("/papers/blank-survey")
    assert survey.headers["content-disposition"] == 'attachment; filename="blank survey A4.pdf"'
    assert "survey" in words_of(survey.content).casefold()
    letter = job.ask.get("/papers/check-sheet", params={"paper": "Letter"})
    # 8.5 x 11 in of 72 points.
    box = pypdf.PdfReader(io.BytesIO(letter.content)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((612, 792), abs=0.5)
    assert job.ask.get("/papers/check-sheet", params={"paper": "roll"}).status_code == 404


# --- while it is being made ---------------------------------------------------------------------


class Slow(WorksAtOnce):
    """Has plans at once; papers are under way until they may be done, or come to nothing."""

    def __init__(self):
        super().__init__()
        self.may, self.stopped = False, False

    def ask(self, asked):
        if asked.line == "plans":
            return PLANNED.ask(asked)
        return super().ask(asked) if self.may else self.wait(asked.id, 0)

    def wait(self, id_, seconds):
        if self.may:
            return super().wait(id_, seconds)
        if self.stopped:
            return failed(id_, "stopped")
        return Working(id=id_, says="3 bench sheet.pdf", share=0.4)


@pytest.fixture
def slow(shop):
    works = Slow()
    job = WorkedJob(Workshop(store=shop.store, works=works), SNARE, TOM)
    return works, job


def test_how_far_a_paper_is(slow):
    works, job = slow
    answer = had(job, "1 marching snare/3 bench sheet.pdf", drum=SNARE)
    assert answer.status_code == 303
    page = job.ask.get(answer.headers["location"])
    assert page.status_code == 202
    assert "40 %" in said(page)
    assert "/stop" in said(page)
    works.stopped = True
    page = job.ask.get(answer.headers["location"])
    assert "Stopped before it was done" in said(page)
    assert "/again" in said(page)
    works.may = True
    page = job.ask.get(answer.headers["location"])
    assert page.status_code == 200
    assert "It is ready" in said(page)
    file = re.search(r'href="(/jobs/[^"]+/papers/file[^"]+)"', said(page))[1]
    assert job.ask.get(file).content.startswith(b"%PDF")


def test_how_far_all_papers_are(slow):
    _, job = slow
    answer = job.ask.get(f"/jobs/{job.id}/papers/all")
    assert answer.status_code == 303
    assert job.ask.get(answer.headers["location"]).status_code == 202
