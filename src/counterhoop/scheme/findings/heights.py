"""Rows on their proper heights and angles: long lugs on the middle, a second row like the first."""

from __future__ import annotations

import math

from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import both, figure, first_up
from counterhoop.scheme.heads import HeadPlan, heads_of
from counterhoop.scheme.layout import FittingPlan

HAIR_MM = 1e-6
"""A slip repeats what was taken off to the last digits; a search for old holes does not."""
LEVEL_MM = 0.1
"""Heights of one row that differ by no more are one height: finer than anything at the bench."""


def check_heights(after: Afterwards, tally: Tally) -> None:
    """Go through long lugs, and through a second row against the first."""
    _long_lugs(after, tally)
    heads = {head.head: head for head in heads_of(after.layout)}
    for head in heads.values():
        _level(after, tally, head)
    if "batter" not in heads or "resonant" not in heads:
        return
    batter, resonant = heads["batter"], heads["resonant"]
    second = [lug for lug in resonant.lugs if lug.row == "resonant"]
    if not second or not any(lug.status == "new" for lug in (*batter.lugs, *second)):
        return
    _second_height(after, tally, batter, resonant)
    _second_turn(after, tally, batter, resonant)


def _long_lugs(after: Afterwards, tally: Tally) -> None:
    off: dict[float, list[FittingPlan]] = {}
    for lug in after.layout.standing:
        if lug.fitting.kind is not Kind.LONG_LUG or lug.status != "new":
            continue
        middle = after.flat.depth_at_mm(lug.place.along_deg) / 2.0
        by = lug.height_mm(lug.fitting.middle_down_mm) - middle
        off.setdefault(round(by, 2), []).append(lug)
    for by, lugs in off.items():
        labels = both(lug.label for lug in lugs) if len(lugs) < 4 else "the long lugs"
        toward = "batter" if by < 0.0 else "resonant"
        tally.hold(
            "long-lug-off-middle",
            abs(by),
            limit=after.rules.off_middle_mm,
            doubt=0.0,
            grade=Grade.TAKE_CARE,
            fact=(
                f"{labels} {'stands' if len(lugs) == 1 else 'stand'} {figure(abs(by))} mm off the"
                f" middle, toward the {toward} edge"
            ),
            rule="off_middle_mm",
            remedy="Set them on the middle and drill anew, or show the client.",
            where=labels,
            place=lugs[0].place,
            most=True,
        )


def _second_height(after: Afterwards, tally: Tally, batter: HeadPlan, resonant: HeadPlan) -> None:
    """The second row lies as far from its edge as the first from its own."""
    if batter.lugs[0].fitting.name != resonant.lugs[0].fitting.name:
        return
    if not batter.mouths or not resonant.mouths:
        return
    first = sum(m.below_edge_mm for m in batter.mouths) / len(batter.mouths)
    second = sum(m.below_edge_mm for m in resonant.mouths) / len(resonant.mouths)
    off = second - first
    removed = after.layout.truing.resonant.mean_mm, after.layout.truing.batter.mean_mm
    # A height carried over from before truing is off by just what was taken off that edge. A row
    # that lies there for the old holes that it uses, or by chance to a hair, is no slip.
    labels = {lug.label for lug in resonant.lugs}
    uses_old = any(hole.of in labels and hole.old is not None for hole in after.layout.holes)
    if not uses_old and any(mm > 0.1 and abs(abs(off) - mm) < HAIR_MM for mm in removed):
        tally.say(
            Finding(
                code="height-before-truing",
                grade=Grade.STOP,
                says=(
                    f"The second row stands {figure(abs(off))} mm off, just what truing takes off"
                    " an edge: its heights are from before truing."
                ),
                where="resonant row",
                along_deg=resonant.lugs[0].place.along_deg,
                down_mm=resonant.lugs[0].place.down_mm,
                measured=abs(off),
                limit=0.0,
                rule="heights after truing",
                remedy="True the edges first, then measure the row from the new edge.",
            )
        )
        return
    tally.hold(
        "second-row-height",
        abs(off),
        limit=after.rules.off_middle_mm,
        doubt=0.0,
        grade=Grade.TAKE_CARE,
        fact=(
            f"the second row stands {figure(abs(off))} mm"
            f" {'farther from' if off > 0.0 else 'nearer to'} its edge than the first"
        ),
        rule="off_middle_mm",
        remedy="Set it to the height of the first row, or show the client.",
        where="resonant row",
        place=resonant.lugs[0].place,
        most=True,
    )


def _level(after: Afterwards, tally: Tally, head: HeadPlan) -> None:
    """A new row follows its own edge: along a slanting one no two lugs have one height."""
    heights = [
        after.flat.from_end_mm(lug.place.down_mm, end=head.head, along_deg=lug.place.along_deg)
        for lug in head.lugs
        if lug.status == "new" and lug.row == head.head
    ]
    if not heights or max(heights) - min(heights) <= LEVEL_MM:
        return
    tally.say(
        Finding(
            code="height-before-truing",
            grade=Grade.STOP,
            says=(
                f"The new {head.head} row stands {figure(min(heights))} to {figure(max(heights))}"
                " mm from its edge: its heights are not from the edge that will be there."
            ),
            where=f"{head.head} row",
            along_deg=head.lugs[0].place.along_deg,
            down_mm=head.lugs[0].place.down_mm,
            measured=max(heights) - min(heights),
            limit=0.0,
            rule="heights after truing",
            remedy=f"Measure each lug from the {head.head} edge at its own place.",
        )
    )


def _second_turn(after: Afterwards, tally: Tally, batter: HeadPlan, resonant: HeadPlan) -> None:
    """In line, or exactly half a lug spacing along; anything else is said."""
    count = len(batter.lugs)
    if count != len(resonant.lugs) or count < 2:
        return
    spacing = after.surface.circumference_mm / count
    turn = _row_deg(resonant.lugs) - _row_deg(batter.lugs)
    off_line = math.remainder(after.surface.along_mm(turn), spacing)
    off_half = math.remainder(off_line - spacing / 2.0, spacing)
    nearest, off = ("in line with", off_line)
    if abs(off_half) < abs(off_line):
        nearest, off = ("half a lug spacing along from", off_half)
    if abs(off) > after.rules.look_further_mm:
        degrees = off_line * 360.0 / after.surface.circumference_mm
        tally.say(
            Finding(
                code="second-row-turned",
                grade=Grade.TAKE_CARE,
                says=first_up(
                    f"the second row is turned {figure(abs(degrees))} degrees from the first:"
                    " neither in line nor half a lug spacing along."
                ),
                where="resonant row",
                along_deg=resonant.lugs[0].place.along_deg,
                down_mm=resonant.lugs[0].place.down_mm,
                measured=abs(degrees),
                unit="deg",
                rule="look_further_mm",
                remedy="Drill only when the client has seen it drawn.",
            )
        )
        return
    tally.hold(
        "second-row-off",
        abs(off),
        limit=after.rules.half_spacing_mm,
        doubt=0.0,
        grade=Grade.TAKE_CARE,
        fact=(
            f"the second row is {figure(abs(off))} mm off, {nearest} the first: it will look like"
            " a mistake"
        ),
        rule="half_spacing_mm",
        remedy="Turn it to stand exactly there.",
        where="resonant row",
        place=resonant.lugs[0].place,
        most=True,
    )


def _row_deg(lugs: tuple[FittingPlan, ...]) -> float:
    """Turn of a row modulo its spacing: the mean over all lugs, so that one off counts little."""
    step = 360.0 / len(lugs)
    start = lugs[0].place.along_deg
    offs = [
        math.remainder(lug.place.along_deg - start - index * step, 360.0)
        for index, lug in enumerate(lugs)
    ]
    return start + sum(offs) / len(offs)
