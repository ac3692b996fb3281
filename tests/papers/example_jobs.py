"""An invented job round the example shell: findings, parts, work, rods and a kit of three."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

from example_shells import scheme_of, small_tom

from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.kit import choose_kit
from counterhoop.scheme.kit_choice import KitChoice
from counterhoop.scheme.layout import Layout, RodPlan
from counterhoop.scheme.plan import PartLine, Scheme
from counterhoop.scheme.price import work_of
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.hole import Hole, Origin
from counterhoop.shell.job import DrumWanted, Job
from counterhoop.shell.operations import default_figures
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import FinishPlan, SecondHead

FIGURES = default_figures()
FINDINGS = (
    Finding(
        code="web-thin", grade=Grade.TAKE_CARE, where="holes 2 and 3",
        says="Between holes 2 and 3 stand 4.0 mm of wood; your rule asks for 6.",
        remedy="Plug hole 3 wider and drill hole 2 through it.",
    ),
    Finding(
        code="base-on-badge", grade=Grade.STOP, where="long lug 3",
        says="The base of long lug 3 stands 2.0 mm into the badge.",
        remedy="Turn the row by 3 degrees.",
    ),
    Finding(
        code="shadow-shows", grade=Grade.NOTE, where="long lug 1", says="A shadow shows.",
        too_close=True,
    ),
)  # fmt: skip
PARTS = (
    PartLine(name="Long tube", count=5, bought=3, each_minor=1850),
    PartLine(name="Rod 60", count=10, bought=0, each_minor=120),
    PartLine(name="Hoop 12, 5 ears", count=1, bought=1, each_minor=None),
)
ROD = Fitting(name="Rod 60", kind=Kind.ROD, source="invented for the tests", rod_length_mm=60.0)


def job_of(layout: Layout | None = None, **changes: Any) -> Job:
    """A job of one drum."""
    layout = layout or small_tom()
    wanted = DrumWanted(drum=layout.drum, wishes=(SecondHead(),), finish=layout.finish)
    job = Job(
        number="17", client="A. Player", date=dt.date(2026, 3, 4), measured_by="B. Maker",
        drums=(wanted,), rules=default_rules(), figures=FIGURES,
    )  # fmt: skip
    return replace(job, **changes)


def full_scheme(*, approved: str = "", finish: FinishPlan | None = None, **drum: Any) -> Scheme:
    """A scheme with something of everything; ``drum`` changes the drum as found."""
    layout = small_tom()
    layout = replace(
        layout, drum=replace(layout.drum, **drum), finish=finish or FinishPlan(),
        truing=Truing(batter=Removal(0.8, 0.3, 0.1), resonant=Removal(0.5)),
        rods=(
            RodPlan(
                head="batter", count=5, thread="7/32-24", least_mm=58.0, most_mm=66.0, rod=ROD
            ),
            RodPlan(head="resonant", count=5, thread="7/32-24", least_mm=68.0, most_mm=66.0),
        ),
    )  # fmt: skip
    return replace(
        scheme_of(layout, approved=approved), findings=FINDINGS, parts=PARTS,
        work=work_of(layout, extra=(), figures=FIGURES), extra_holes=10,
        why="The only one to choose from.",
    )  # fmt: skip


def before(layout: Layout) -> Layout:
    """The same drum as it was found."""
    return replace(
        layout,
        fittings=tuple(replace(f, status="stays") for f in layout.fittings if f.status != "new"),
        holes=tuple(h for h in layout.holes if h.old is not None),
    )


def many_holes(count: int) -> Scheme:
    """A shell with so many holes that the list runs over several sheets."""
    layout = small_tom()
    verdicts = (Verdict.KEEP, Verdict.PLUG, Verdict.DRILL)
    holes = []
    for n in range(1, count + 1):
        verdict = verdicts[n % 3]
        place = Place(360.0 * n / count, 20.0 + n % 7 * 20.0)
        holes.append(
            HolePlan(
                number=n, verdict=verdict, place=place,
                old=None if verdict is Verdict.DRILL else Round(6.0),
                new=None if verdict is Verdict.PLUG else Round(6.5),
            )
        )  # fmt: skip
    found = tuple(
        Hole(number=h.number, place=h.place, shape=h.old, origin=Origin.EXTRA, who_says="the owner")
        for h in holes
        if h.old is not None
    )
    drum = replace(layout.drum, holes=found)
    return scheme_of(replace(layout, holes=tuple(holes), drum=drum))


def kit_of_three() -> KitChoice:
    """Three toms of which two must match, with a stock that suffices for one."""
    scheme = replace(full_scheme(), findings=())
    other = (PartLine(name="Short lug", count=5, bought=5, each_minor=900),)
    offered = {
        drum: (
            replace(scheme, drum=drum, code=f"A{n}"),
            replace(
                scheme, drum=drum, code=f"B{n}", number=2, pattern="second row in line",
                title="Second row in line", parts=other,
            ),
        )
        for n, drum in enumerate(("small tom", "large tom", "floor tom"))
    }  # fmt: skip
    return choose_kit(
        offered, match=(("small tom", "large tom"),), stock=(("Long tube", 7), ("Rod 60", 20)),
        rules=default_rules(), figures=FIGURES,
    )  # fmt: skip
