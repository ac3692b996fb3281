"""The papers of a job in a folder: all or nothing, named in plain letters, DRAFT until approved."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from counterhoop.bench import paper_set as module
from counterhoop.bench.open_job import open_job
from counterhoop.bench.paper_names import folder_name, plain_name
from counterhoop.bench.plan_job import JobPlan, plan_job
from counterhoop.bench.printing import Printing
from counterhoop.bench.write_papers import Written, write_papers
from counterhoop.errors import BadInput, CannotDo
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.shell.approval import Approval
from planned_once import planned_demo

CASES = Path(__file__).parents[1] / "cases"
EVERY = sorted(p.stem for p in CASES.glob("*.toml") if p.stem != "book")
PAPERS = (
    "survey sheet.pdf",
    "1 scheme sheet for the client.pdf",
    "1 approval sheet for the client.pdf",
    "2 hole list.pdf",
    "3 bench sheet.pdf",
    "4 template A4.pdf",
    "5 template roll.pdf",
    "shell laid flat.svg",
    "shell laid flat.dxf",
    "as found.svg",
    "strip-down sheet.pdf",
    "bag labels.pdf",
)


@cache
def planned(case: str = "a_corvane", approved: str = "") -> JobPlan:
    opened = open_job(CASES / f"{case}.toml")
    if approved:
        key = opened.job.drums[0].drum.key
        yes = Approval(
            drum=key, who="the owner", when=dt.date(2026, 3, 5), how="signed", covers=approved
        )
        opened = replace(opened, shop=replace(opened.shop, approvals=(yes,)))
    return plan_job(opened)


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Written:
    return write_papers(planned(), folder=tmp_path_factory.mktemp("job") / "papers")


def said(path: Path) -> str:
    document = pdfium.PdfDocument(path.read_bytes())
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    return re.sub(r"\s+", " ", text.replace("\ufffe", "-"))


def test_every_paper_is_there_and_the_first_is_the_clients(written: Written) -> None:
    inside = "1 Corvane tom"
    assert written.names == (
        "READ ME FIRST.txt", "check sheet A4.pdf", "kit sheet.pdf", "head fit sheet.pdf",
        "thread and rod list.pdf", "wants list.pdf", "tuning sheet.pdf",
        *(f"{inside}/{name}" for name in PAPERS),
    )  # fmt: skip
    assert written.first == f"{inside}/1 scheme sheet for the client.pdf"
    for name in written.names:
        content = (written.folder / name).read_bytes()
        starts = {".pdf": b"%PDF", ".svg": b"<svg", ".dxf": b"  0", ".txt": b"Job"}
        assert content.startswith(starts[name[-4:]]), name
    assert [p.name for p in written.folder.parent.iterdir()] == ["papers"]


@pytest.mark.parametrize("case", EVERY)
def test_the_hole_list_of_each_bench_case_has_every_hole(case: str, tmp_path: Path) -> None:
    plan = planned(case)
    written = write_papers(plan, folder=tmp_path / "papers")
    scheme = plan.drums[0].chosen
    assert scheme is not None
    text = said(written.folder / next(n for n in written.names if n.endswith("2 hole list.pdf")))
    for hole in scheme.layout.holes:
        assert re.search(rf"\b{hole.number} \d+\.\d ", text), hole.number
        assert hole.verdict.value in text
    assert f"{len(scheme.layout.holes)} holes:" in text
    bench = said(written.folder / next(n for n in written.names if n.endswith("bench sheet.pdf")))
    for finding in gathered(scheme.findings):
        assert re.sub(r"\s+", " ", finding.says) in bench


def test_papers_say_draft_until_the_code_is_approved(written: Written, tmp_path: Path) -> None:
    drafted = written
    scheme = planned().drums[0].chosen
    assert scheme is not None
    assert len(drafted.drafts) == 1
    assert scheme.code in drafted.drafts[0]
    assert scheme.code in (drafted.folder / "READ ME FIRST.txt").read_text()
    for name in ("2 hole list.pdf", "3 bench sheet.pdf", "4 template A4.pdf"):
        assert "DRAFT" in said(drafted.folder / "1 Corvane tom" / name)
    assert b"DRAFT" in (drafted.folder / "1 Corvane tom" / "shell laid flat.dxf").read_bytes()
    approved = write_papers(planned(approved=scheme.code), folder=tmp_path / "approved")
    assert approved.drafts == ()
    for name in PAPERS:
        path = approved.folder / "1 Corvane tom" / name
        text = said(path) if name.endswith(".pdf") else path.read_text()
        assert "DRAFT" not in text, name


def test_an_approval_of_other_changes_does_not_count() -> None:
    scheme = planned(approved="AAAA-AAAA").drums[0].chosen
    assert scheme is not None
    assert scheme.approved == ""


def test_nothing_is_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "papers"
    write_papers(planned(), folder=folder)
    before = {p: p.read_bytes() for p in folder.rglob("*") if p.is_file()}

    def fails(*_args: object, **_more: object) -> bytes:
        raise CannotDo("no ink")

    monkeypatch.setattr(module, "kit_sheet_pdf", fails)
    for where in (folder, tmp_path / "new"):
        with pytest.raises(CannotDo, match="no ink"):
            write_papers(planned(), folder=where)
    assert {p: p.read_bytes() for p in folder.rglob("*") if p.is_file()} == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["papers"]


def test_the_same_job_gives_the_same_bytes(written: Written, tmp_path: Path) -> None:
    one = written
    two = write_papers(planned(), folder=tmp_path / "two")
    for name in one.names:
        assert (one.folder / name).read_bytes() == (two.folder / name).read_bytes(), name


def test_a_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("mine")
    with pytest.raises(BadInput, match="other files"):
        write_papers(planned(), folder=tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == ["letter.txt"]


def test_another_scheme_can_be_asked_for_and_leaves_the_kit_sheet_out(tmp_path: Path) -> None:
    written = write_papers(planned(), folder=tmp_path / "p", drum="corvane TOM", scheme=2)
    second = planned().drums[0].ranked.shown[1]
    assert "kit sheet.pdf" not in written.names
    assert second.code in written.drafts[0]
    assert second.code in said(written.folder / "1 Corvane tom" / "2 hole list.pdf")
    with pytest.raises(BadInput, match="no scheme of that number"):
        write_papers(planned(), folder=tmp_path / "q", scheme=99)
    with pytest.raises(BadInput, match="no drum of that name"):
        write_papers(planned(), folder=tmp_path / "q", drum="gong")
    assert not (tmp_path / "q").exists()


@pytest.mark.parametrize(
    ("paper", "sheets"),
    [("A3", ["check sheet A3", "4 template A3"]), ("Letter", ["check sheet Letter"]),
     ("roll", ["check sheet A4", "4 template roll"])],
)  # fmt: skip
def test_other_papers(paper: str, sheets: list[str], tmp_path: Path) -> None:
    printing = Printing.read(paper=paper)
    told: list[float] = []
    names = write_papers(
        planned(), folder=tmp_path / "p", printing=printing,
        progress=lambda _says, share: told.append(share),
    ).names  # fmt: skip
    assert told == sorted(told)
    assert told[-1] == 1.0
    for sheet in sheets:
        assert any(sheet in name for name in names), sheet
    assert sum("roll" in name for name in names) == 1


def test_printing_is_read_as_it_is_typed() -> None:
    """180 / 179.1 and 250 / 250.5: the bars of the check sheet over what was measured."""
    found = Printing.read(paper="a4", measured="179.1 mm, 250.5 mm", thickness="0.15 mm")
    assert found.paper == "A4"
    assert found.correction.short_factor == pytest.approx(180.0 / 179.1)
    assert found.correction.long_factor == pytest.approx(250.0 / 250.5)
    assert found.correction.paper_mm == pytest.approx(0.15)
    same = Printing.read(paper="A4", measured="179,1 mm; 250,5 mm", thickness="0.15 mm")
    assert same == found
    assert Printing.read() == Printing()
    for wrong in ("179.1 mm", "179.1, 250.5", "150 mm, 250 mm", "a, b, c"):
        with pytest.raises(BadInput):
            Printing.read(measured=wrong)
    with pytest.raises(BadInput, match="no such paper"):
        Printing.read(paper="B7")


@pytest.mark.parametrize(
    "key",
    ["../../etc", "a/b\\c:d*?", "\U0001f941", "CON", "   ", "." * 90, "Ünïcode tom", "x" * 300],
)
def test_folders_have_plain_names(key: str) -> None:
    name = folder_name(3, key)
    assert re.fullmatch(r"3 [A-Za-z0-9][A-Za-z0-9 .\-]*", name)
    assert ".." not in name
    assert len(name) <= 64
    assert plain_name(name).startswith(name[:60].rstrip())


def test_signs_without_a_picture_do_not_keep_papers_from_being_made(tmp_path: Path) -> None:
    plan = planned()
    strange = "Band \U0001f941 鼓"
    job = replace(plan.opened.job, client=strange, measured_by=strange)
    plan = replace(plan, opened=replace(plan.opened, job=job))
    written = write_papers(plan, folder=tmp_path / "p")
    for name in PAPERS[:5]:
        assert "Band □ □" in said(written.folder / "1 Corvane tom" / name), name


def test_where_nothing_is_cut_nothing_speaks_of_a_template(tmp_path: Path) -> None:
    plan = planned_demo()
    untouched = [d.key for d in plan.drums if not (d.chosen or d.ranked.shown[0]).permanent]
    assert untouched
    written = write_papers(plan, folder=tmp_path / "papers", drum=untouched[0])
    assert not [name for name in written.names if "template" in name or "check sheet" in name]
    assert written.drafts == ()
    text = (written.folder / "READ ME FIRST.txt").read_text()
    assert not re.search("template|check bars|DRAFT|measure both bars", text)
    told = re.findall(r"^(\d) [a-z]", text, flags=re.MULTILINE)
    assert told == [str(n) for n in range(1, len(told) + 1)]
