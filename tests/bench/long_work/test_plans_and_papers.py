"""Real plans and papers: the same beside the pages and at once, and as the commands make them."""

from __future__ import annotations

import io
import json
import subprocess
import sys
import tomllib
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image

from counterhoop.bench.listing import listing
from counterhoop.bench.long_work.answers import Done, Failed
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.long_work.beside import WorksBeside
from counterhoop.bench.long_work.picture import MOST_PIXELS
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.works import Works
from counterhoop.bench.long_work.zipped import zipped
from counterhoop.bench.open_job import open_job
from counterhoop.bench.paper_list import listed_papers
from counterhoop.bench.paper_set import paper_set
from counterhoop.bench.plan_job import JobPlan, plan_job
from counterhoop.bench.printing import Printing
from counterhoop.shell.survey_file.faults import BadSurvey

CASES = Path(__file__).parents[2] / "cases"
CASE = CASES / "a_corvane.toml"
DEMO = Path(__file__).parents[3] / "examples" / "survey.toml"
LONG_S = 300.0
LETTER = Printing.read(paper="Letter", measured="179.6 mm, 249.5 mm")


def source_of(path: Path, **changed: object) -> JobSource:
    tables = tomllib.loads(path.read_text()) | changed
    books = tuple((name, (path.parent / name).read_text()) for name in own_books(path))
    return JobSource(tables_json=json.dumps(tables, default=str).encode(), books=books)


def own_books(path: Path) -> tuple[str, ...]:
    return open_job(path).job.book_files


@pytest.fixture(scope="module")
def planned() -> JobPlan:
    return plan_job(open_job(CASE))


@pytest.fixture(scope="module")
def second_scheme(planned: JobPlan) -> dict[str, bytes]:
    return paper_set(planned, scheme=2).made()


@pytest.fixture(scope="module")
def beside() -> Iterator[Works]:
    opened = WorksBeside()
    yield opened
    opened.close()


@pytest.fixture(scope="module", params=["beside", "at once"])
def works(request: pytest.FixtureRequest, beside: Works) -> Works:
    return beside if request.param == "beside" else WorksAtOnce()


def value(works, answer):
    answer = works.wait(answer.id, LONG_S)
    assert isinstance(answer, Done), answer
    return answer.value


def test_a_plan_is_what_the_command_works_out(works, planned):
    plan = value(works, works.plan(source_of(CASE)))
    assert listing(plan) == listing(planned)


@pytest.mark.parametrize("name", ["1 Corvane tom/2 hole list.pdf", "1 Corvane tom/as found.svg"])
def test_one_paper_is_the_same_file_as_out_of_all(works, planned, name):
    source = source_of(CASE)
    paper = value(works, works.paper(source, name, printing=LETTER))
    assert paper.name == name
    assert paper.content == paper_set(planned, printing=LETTER).made_one(name)
    assert (
        paper.media_type
        == {listed.name: listed.media_type for listed in listed_papers(planned, printing=LETTER)}[
            name
        ]
    )


def test_all_papers_come_in_one_file_that_is_the_same_each_time(works, second_scheme):
    source = source_of(CASE)
    content = value(works, works.paper_set(source, scheme=2)).content
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert archive.testzip() is None
        found = {name: archive.read(name) for name in archive.namelist()}
        assert {one.date_time for one in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert found == second_scheme
    assert content == zipped(second_scheme)


def test_a_page_is_shown_as_pypdfium2_counts_it_and_no_larger_than_allowed(works, planned):
    source = source_of(CASE)
    name = "1 Corvane tom/4 template A4.pdf"
    pages = len(pypdfium2.PdfDocument(paper_set(planned).made_one(name)))
    shown = value(works, works.preview(source, name, page=pages, wide_px=400))
    assert (shown.page, shown.pages, shown.media_type) == (pages, pages, "image/png")
    assert abs(Image.open(io.BytesIO(shown.content)).width - 400) <= 1
    strip = value(works, works.preview(source, "1 Corvane tom/5 template roll.pdf", wide_px=9000))
    size = Image.open(io.BytesIO(strip.content)).size
    assert size[0] * size[1] <= MOST_PIXELS * 1.01
    assert size[0] <= 1600
    drawing = value(works, works.preview(source, "1 Corvane tom/as found.svg"))
    assert drawing.media_type == "image/svg+xml"
    assert drawing.content == paper_set(planned).made_one("1 Corvane tom/as found.svg")


@pytest.mark.parametrize(
    ("name", "page", "says"),
    [("1 Corvane tom/2 hole list.pdf", 99, "no such page"),
     ("1 Corvane tom/2 hole list.pdf", 0, "no such page"),
     ("1 Corvane tom/shell laid flat.dxf", 1, "no picture"),
     ("../letter.pdf", 1, "no paper of that name")],
)  # fmt: skip
def test_what_cannot_be_shown_is_said(works, name, page, says):
    answer = works.preview(source_of(CASE), name, page=page)
    answer = works.wait(answer.id, LONG_S)
    assert isinstance(answer, Failed)
    assert answer.why == "refused"
    assert says in answer.says


def test_a_survey_that_cannot_be_read_comes_back_with_every_fault(works):
    source = source_of(CASE, job={"number": "1", "client": 3, "colour": "red"})
    answer = works.wait(works.plan(source).id, LONG_S)
    assert isinstance(answer, Failed)
    assert isinstance(answer.fault, BadSurvey)
    assert len(answer.fault.faults) >= 2
    assert answer.says == str(answer.fault)


def test_wraps_are_laid_out_for_the_chosen_schemes(works):
    plans = value(works, works.wraps(source_of(DEMO)))
    assert {plan.stock.name for plan in plans} <= {w.name for w in open_job(DEMO).job.wraps}
    assert sum(len(plan.drums) for plan in plans) >= 2


def test_the_pages_load_no_large_library_to_fetch_a_plan():
    """A fresh process asks for a plan and says which of the large libraries it then holds."""
    asks = (
        "import sys\n"
        "from counterhoop.bench.long_work.works import open_works\n"
        "from counterhoop.bench.long_work.source import JobSource\n"
        "from counterhoop.bench.paper_list import listed_papers\n"
        "works = open_works()\n"
        "answer = works.plan(JobSource(tables_json=sys.stdin.buffer.read()))\n"
        "plan = works.wait(answer.id, 300.0).value\n"
        "assert listed_papers(plan)\n"
        "print(sorted({'scipy', 'ortools', 'typst', 'ezdxf', 'pypdf', 'pypdfium2'}"
        " & set(sys.modules)))\n"
        "works.close()\n"
    )
    said = subprocess.run(
        [sys.executable, "-c", asks],
        input=source_of(DEMO).tables_json,
        capture_output=True,
        check=True,
    )
    assert said.stdout.decode().strip() == "[]"
    assert said.stderr == b""
