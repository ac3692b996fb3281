"""Exact laws: the datum may lie anywhere, and a drum in a mirror is planned alike."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest

from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.errors import BadInput, Grade
from counterhoop.scheme.schemes import schemes_for
from counterhoop.shell.drum import Drum, PlacedFitting, Row, Seam
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import Move, PutOn

HANDED = ("lever-fouled", "straps-fouled")
"""Findings on parts that are themselves left- or right-handed; a mirror changes those."""
LEVEL = (4,)
"""Here a row may go as far to the left as to the right; right is taken, in a mirror too."""
SEEDS = [*range(28), *(pytest.param(n, marks=pytest.mark.full) for n in range(28, 400))]
MIRRORED = [
    *(n for n in range(28) if n not in LEVEL),
    *(pytest.param(n, marks=pytest.mark.full) for n in range(28, 40) if n not in LEVEL),
]


class Turned:
    """A drum with every place on it taken elsewhere."""

    def __init__(self, along: Callable[[float], float], *, mirrored: bool) -> None:
        self.along = along
        self.mirrored = mirrored

    def place(self, place: Place) -> Place:
        return Place(self.along(place.along_deg), place.down_mm)

    def outline(self, outline: Outline) -> Outline:
        if not self.mirrored:
            return outline
        return Outline(tuple((-x, y) for x, y in reversed(outline.points)))

    def fitting(self, plan: PlacedFitting) -> PlacedFitting:
        turned = -plan.turned_deg % 360.0 if self.mirrored else plan.turned_deg
        return replace(plan, place=self.place(plan.place), turned_deg=turned)

    def row(self, row: Row) -> Row:
        lugs = tuple(map(self.fitting, row.lugs))
        if self.mirrored:  # lugs are numbered along, so a mirror counts them the other way
            labels = [lug.label for lug in lugs]
            named = zip(reversed(lugs), labels, strict=True)
            lugs = tuple(replace(lug, label=label) for lug, label in named)
        return replace(row, lugs=lugs)

    def seam(self, seam: Seam | None) -> Seam | None:
        if seam is None:
            return None
        ends = [self.along(seam.from_deg) % 360.0, self.along(seam.to_deg) % 360.0]
        start, end = reversed(ends) if self.mirrored else ends
        return Seam(from_deg=start, to_deg=end)

    def drum(self, drum: Drum) -> Drum:
        return replace(
            drum,
            holes=tuple(replace(hole, place=self.place(hole.place)) for hole in drum.holes),
            rows=tuple(map(self.row, drum.rows)),
            fittings=tuple(map(self.fitting, drum.fittings)),
            marks=tuple(
                replace(m, place=self.place(m.place), outline=self.outline(m.outline))
                for m in drum.marks
            ),
            seam=self.seam(drum.seam),
            lines=tuple(
                replace(one, along_deg=self.along(one.along_deg) % 360.0) for one in drum.lines
            ),
        )

    def wanted(self, wanted: DrumWanted) -> DrumWanted:
        wishes = tuple(
            replace(wish, near=self.place(wish.near))
            if isinstance(wish, PutOn | Move) and wish.near is not None
            else wish
            for wish in wanted.wishes
        )
        return replace(wanted, drum=self.drum(wanted.drum), wishes=wishes)


def told(wanted: DrumWanted, shop, *, but_for: tuple[str, ...] = ()) -> list[str]:
    """Everything of all schemes that has no left or right, as text that can be compared.

    The margin counts a lever's room too, so it is left out with the findings on levers.
    """
    ranked = schemes_for(wanted, shop=shop)
    schemes = (*ranked.shown, *(aside.scheme for aside in ranked.set_aside))
    lines = []
    for scheme in schemes:
        criteria = scheme.criteria
        findings = [f for f in scheme.findings if f.code not in but_for]
        figures = (
            scheme.pattern,
            any(finding.grade is Grade.STOP for finding in findings),
            scheme.centred,
            criteria.cut,
            round(criteria.shows_mm2 + 1e-4),
            round(criteria.shows_inside_mm2 + 1e-4),
            criteria.money_minor,
            None if but_for else round(criteria.margin_mm + 1e-4, 1),
            sorted(Counter(str(plan.verdict) for plan in scheme.layout.holes).items()),
            sorted(Counter(finding.code for finding in findings).items()),
        )
        lines.append(repr(figures))
    return sorted(lines)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_datum_may_lie_anywhere(seed, drums, bench, shop):
    wanted = drums.random_wanted(seed, bench=bench)
    dice = random.Random(seed)
    turn = dice.choice([dice.uniform(0.0, 360.0), 90.0, 180.0, 1.0])
    turned = Turned(lambda along: along + turn, mirrored=False).wanted(wanted)
    try:
        before = told(wanted, shop)
    except BadInput:
        with pytest.raises(BadInput):
            told(turned, shop)
        return
    assert told(turned, shop) == before


@pytest.mark.parametrize("seed", MIRRORED)
def test_a_drum_in_a_mirror_is_planned_alike(seed, drums, bench, shop):
    wanted = drums.random_wanted(seed, bench=bench)
    mirrored = Turned(lambda along: -along, mirrored=True).wanted(wanted)
    try:
        before = told(wanted, shop, but_for=HANDED)
    except BadInput:
        with pytest.raises(BadInput):
            told(mirrored, shop, but_for=HANDED)
        return
    assert told(mirrored, shop, but_for=HANDED) == before
