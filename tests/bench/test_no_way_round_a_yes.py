"""A drilling paper of anything but the revision that was approved is DRAFT; brute force over ways.

Each way starts from a survey whose scheme the client said yes to, and changes one thing as a
person would; then the real papers are made. An approved one is held against them, so that the
check can fail.
"""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2 as pdfium
import pytest

from counterhoop.bench.folders.decide import tick
from counterhoop.bench.open_job import opened_tables
from counterhoop.bench.paper_set import paper_set
from counterhoop.bench.paper_sorts import (
    BENCH_SHEET,
    FLAT_DRAWING,
    FLAT_DXF,
    HOLE_LIST,
    ROLL_TEMPLATE,
    TEMPLATE,
    TRUING_SHEET,
)
from counterhoop.bench.plan_job import JobPlan, plan_job
from counterhoop.errors import CannotDo
from counterhoop.job.yes.changes import lines_of
from counterhoop.scheme.plan import Scheme

EXAMPLES = Path(__file__).parents[2] / "examples"
TOM = "floor tom"
Tables = dict[str, Any]
DRILLING = tuple(
    sort.named("A4" if sort is TEMPLATE else "")
    for sort in (HOLE_LIST, BENCH_SHEET, TEMPLATE, ROLL_TEMPLATE, FLAT_DRAWING, FLAT_DXF)
)
OWN_BOOK = """
source = "invented for the tests"
seen = true

[[fitting]]
name = "Corvane round lug"
kind = "lug"
base = { shape = "rounded", width = "24 mm", height = "57 mm", corner = "12 mm" }
holes = [
  { down = "-21 mm", hole = "6.5 mm", screw = "4.8 mm", called = "upper" },
  { down = "21 mm", hole = "6.5 mm", screw = "4.8 mm", called = "lower" },
]
reach = "20 mm"
mouth = "-28.5 mm"
rod_line = "9.5 mm"
free_depth = "30 mm"
thread = "12-24"
"""


def survey() -> Tables:
    return tomllib.loads((EXAMPLES / "single-tom.toml").read_text(encoding="utf-8"))


def planned(tables: Tables, *, book: str = "") -> JobPlan:
    return plan_job(opened_tables(tables, books={"own.toml": book} if book else {}))


def scheme_in(plan: JobPlan, number: int = 0, drum: str = TOM) -> Scheme:
    one = plan.drum(drum)
    if number:
        return next(scheme for scheme in one.ranked.every if scheme.number == number)
    return one.chosen or one.ranked.shown[0]


@cache
def agreed() -> tuple[str, tuple[str, ...], str]:
    """Code, lines and heading of what the client said yes to."""
    scheme = scheme_in(planned(survey()))
    return scheme.code, lines_of(scheme), scheme.title


def approved(tables: Tables, *, drum: str = TOM, **changes: Any) -> Tables:
    code, lines, _ = agreed()
    yes = {
        "drum": drum, "who": "Nell Ashby", "when": "2026-11-02", "how": "signed at the bench",
        "covers": code, "lines": list(lines),
    }  # fmt: skip
    return {**copy.deepcopy(tables), "approval": [yes | changes]}


def of_drum(tables: Tables, **changes: Any) -> Tables:
    made = copy.deepcopy(tables)
    made["drums"][TOM] |= changes
    return made


def turned() -> Tables:
    """Every place along a degree further, as with another pencil tick for a datum."""
    tables = survey()
    drum = tables["drums"][TOM]
    drum["rows"][0]["first"] = "23.5 deg"
    for one in (*drum["fittings"], *drum["holes"]):
        one["along"] = f"{float(one['along'].split()[0]) + 1.0} deg"
    return tables


def overlooked() -> Tables:
    """An old hole that nobody had seen lies where a new one is to be drilled."""
    scheme = scheme_in(planned(survey()))
    new = next(plan for plan in scheme.layout.holes if plan.verdict.drills)
    tables = survey()
    tables["drums"][TOM]["holes"].append(
        {
            "along": f"{new.place.along_deg:.2f} deg", "dia": "5 mm",
            "near": f"{new.place.down_mm - 2.5:.1f} mm",
        }
    )  # fmt: skip
    return tables


def moved(**shift: str) -> Tables:
    code, _, _ = agreed()
    row = {"row": "resonant", "right": "0 mm", "down": "0 mm"} | shift
    return of_drum(survey(), chosen={"scheme": code, "moved": [row]})


def two_drums() -> Tables:
    tables = survey()
    tables["drums"]["other tom"] = copy.deepcopy(tables["drums"][TOM])
    return tables


def renamed() -> Tables:
    tables = survey()
    tables["drums"] = {"large tom": tables["drums"][TOM]}
    return tables


def trued() -> Tables:
    return of_drum(survey(), finish_plan={"true_resonant": "1 mm"})


def yes_to(tables: Tables, of: Tables) -> Tables:
    scheme = scheme_in(planned(of))
    return approved(tables, covers=scheme.code, lines=list(lines_of(scheme)))


def no_edge() -> Tables:
    tables = survey()
    tables["drums"][TOM]["edges"]["resonant"] = {"there": False}
    return tables


WAYS: dict[str, Callable[[], tuple[JobPlan, Scheme]]] = {}


IN_TURN: list[Any] = []
"""Twelve ways in the reduced counts, the rest in the full ones."""


def way(
    says: str, *, full: bool = False, number: int = 0, drum: str = TOM, book: str = ""
) -> Callable[..., Any]:
    def note(make: Callable[[], Tables]) -> Callable[[], Tables]:
        def made() -> tuple[JobPlan, Scheme]:
            plan = planned(make(), book=book)
            return plan, scheme_in(plan, number, drum)

        WAYS[says] = made
        IN_TURN.append(pytest.param(says, marks=[pytest.mark.full] if full else []))
        return make

    return note


way("a row a tenth of a millimetre down")(lambda: approved(moved(down="0.1 mm")))
way("a row dragged along by hand")(lambda: approved(moved(right="2.5 mm")))
way("another size of hole in the own book", book=OWN_BOOK)(lambda: approved(survey()))
way("an old hole found under a new one")(lambda: approved(overlooked()))
way("another scheme of the list", number=2)(lambda: approved(survey()))
way("everything turned at the datum")(lambda: approved(turned()))
way("another truing")(lambda: approved(trued()))
way("another finish")(lambda: approved(of_drum(survey(), finish_plan={"kind": "paint"})))
way("an edge to be made as well")(lambda: approved(no_edge()))
way("the depth read again", full=True)(lambda: approved(of_drum(survey(), depth="13 3/4 in")))
way("once round read again", full=True)(
    lambda: approved(of_drum(survey(), circumference="43 31/32 in"))
)
way("the code of one drum typed for its twin", drum="other tom")(
    lambda: approved(two_drums(), drum="other tom")
)
way("the yes of one drum beside its twin", full=True, drum="other tom")(
    lambda: approved(two_drums())
)
way("the drum called otherwise", full=True, drum="large tom")(
    lambda: approved(renamed(), drum="large tom")
)
way("the yes taken back")(
    lambda: approved(survey(), taken_back="2026-11-03", taken_back_how="by telephone")
)
way("a yes to what was undone since")(lambda: yes_to(survey(), of=trued()))
way("the lines of another yes beside the code", full=True)(
    lambda: approved(survey(), lines=list(lines_of(scheme_in(planned(trued())))))
)
way("half a code", full=True)(lambda: approved(survey(), covers=agreed()[0][:4], lines=[]))
way("no yes at all", full=True)(survey)


def says_draft(name: str, content: bytes) -> bool:
    """Whether a paper says DRAFT: in its words, and of a PDF on the picture of every sheet."""
    if not name.endswith(".pdf"):
        return b"DRAFT" in content
    document = pdfium.PdfDocument(content)
    pages = [page.get_textpage().get_text_range() for page in document]
    told = "DRAFT: not approved. Do not drill by this paper." in re.sub(
        r"\s+", " ", " ".join(pages)
    )
    marked = []
    for page in document:
        grey = page.render(scale=0.4).to_numpy()[:, :, 0]
        shares = np.bincount(grey.ravel(), minlength=256)[150:250] / grey.size
        marked.append(bool(shares.max() > 0.02))
    assert all(marked) is any(marked), f"{name}: some sheets say DRAFT and others do not"
    assert told is all(marked), f"{name}: the words and the picture say two things"
    return told


def papers_of(plan: JobPlan, scheme: Scheme) -> dict[str, Callable[[], bytes]]:
    made = paper_set(plan, drum=scheme.drum, scheme=0 if scheme.moved else scheme.number).makers
    return {
        name.rpartition("/")[2]: maker
        for name, maker in made.items()
        if name.rpartition("/")[2] in (*DRILLING, TRUING_SHEET.named())
    }


@pytest.mark.parametrize(
    "names", [DRILLING[:3], pytest.param(DRILLING[3:], marks=pytest.mark.full)], ids=["few", "rest"]
)
def test_what_is_approved_says_draft_nowhere(names: tuple[str, ...]) -> None:
    """The other half: were the marks everywhere, the ways below would prove nothing."""
    plan = planned(approved(survey()))
    scheme = scheme_in(plan)
    assert scheme.approved == "by Nell Ashby on 2 November 2026, signed at the bench"
    papers = papers_of(plan, scheme)
    assert set(DRILLING) <= set(papers)
    assert [name for name in names if says_draft(name, papers[name]())] == []


@pytest.mark.parametrize("says", IN_TURN)
def test_any_other_revision_is_a_draft(says: str) -> None:
    """One sort of paper a way, in turn; all of them in the full counts."""
    plan, scheme = WAYS[says]()
    assert scheme.draft
    name = DRILLING[list(WAYS).index(says) % len(DRILLING)]
    assert says_draft(name, papers_of(plan, scheme)[name]())
    # It is refused before the workshop or the drum is looked at.
    nowhere: Any = None
    with pytest.raises(CannotDo, match="No yes"):
        tick(nowhere, "", nowhere, scheme=scheme, hole=1, done=True, by="")


@pytest.mark.full
@pytest.mark.parametrize("says", WAYS)
def test_every_paper_of_any_other_revision_is_a_draft(says: str) -> None:
    papers = papers_of(*WAYS[says]())
    assert set(DRILLING) <= set(papers)
    assert [name for name, make in papers.items() if not says_draft(name, make())] == []


def test_a_scheme_of_the_same_heading_is_another_one() -> None:
    """The heading is no part of a yes: only what is cut."""
    plan = planned(approved(survey()))
    scheme = scheme_in(plan)
    other = scheme_in(plan, 2)
    assert replace(other, title=scheme.title).draft
    assert not replace(scheme, title=other.title).draft
