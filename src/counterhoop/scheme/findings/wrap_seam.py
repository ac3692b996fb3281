"""Holes and bases against the wrap's seam: wholly on it, or well clear of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards, Base
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import counted, figure, first_up, the
from counterhoop.scheme.nearest import Nearest
from counterhoop.shell.drum import Seam

SEAM_DOUBT_MM = 0.5  # found with the same tape as a hole


@dataclass(frozen=True, slots=True, kw_only=True)
class OnSeam:
    """How something lies to the seam: ``clear_mm`` below 0 means half on it."""

    wholly: bool
    clear_mm: float


def on_seam(
    seam: Seam, along_deg: float, *, left_mm: float, right_mm: float, after: Afterwards
) -> OnSeam:
    """Say how what reaches so far left (below 0) and right of a place lies to the seam.

    A hole 6 wide in the middle of an overlap of 10 lies wholly on it, 2 clear of both its ends.
    """
    mm = after.surface.along_mm
    girth = after.surface.circumference_mm
    wide = mm((seam.to_deg - seam.from_deg) % 360.0)
    low = mm((along_deg - seam.from_deg) % 360.0) + left_mm
    size = right_mm - left_mm
    low %= girth
    high = low + size
    if high <= wide:
        return OnSeam(wholly=True, clear_mm=min(low, wide - high))
    if low >= wide:
        return OnSeam(wholly=False, clear_mm=min(low - wide, girth - high))
    return OnSeam(wholly=False, clear_mm=-min(wide - low, size))


def check_seam(after: Afterwards, tally: Tally) -> None:
    """Hold holes and bases against the seam, where the old wrap stays on."""
    seam = after.layout.drum.seam
    if seam is None or after.layout.finish.kind != "stays":
        return
    for opening in after.openings:
        half = opening.shape.size_mm[0] / 2
        lies = on_seam(seam, opening.place.along_deg, left_mm=-half, right_mm=half, after=after)
        if lies.wholly:
            continue
        number, clear = opening.number, lies.clear_mm
        tally.hold(
            "hole-half-on-seam" if clear < 0.0 else "hole-near-seam",
            clear,
            limit=after.rules.seam_clear_mm,
            doubt=together(opening.doubt_mm, SEAM_DOUBT_MM),
            grade=opening.grade,
            fact=_says(f"hole {number}", clear),
            again=f"hole {number} and the wrap's seam",
            rule="seam_clear_mm",
            rule_says=_rule_says(after),
            remedy="Turn the row so that it lies wholly on the seam or well clear of it.",
            where=f"hole {number}",
            place=opening.place,
            holes=(number,),
            counts=opening.cut,
        )
    for base in after.bases:
        for finding in _base(after, tally, seam, base):
            tally.say(finding)


def _base(after: Afterwards, tally: Tally, seam: Seam, base: Base) -> Iterator[Finding]:
    left, _, right, _ = base.box_mm
    lies = on_seam(seam, base.place.along_deg, left_mm=left, right_mm=right, after=after)
    if lies.wholly:
        return
    if lies.clear_mm >= 0.0:
        tally.hold(
            "base-near-seam",
            lies.clear_mm,
            limit=after.rules.seam_clear_mm,
            doubt=together(base.doubt_mm, SEAM_DOUBT_MM),
            grade=Grade.STOP if base.new else Grade.NOTE,
            fact=_says(base.label, lies.clear_mm),
            again=f"{the(base.label)} and the wrap's seam",
            rule="seam_clear_mm",
            rule_says=_rule_says(after),
            remedy="Turn the row clear of the seam.",
            where=base.label,
            place=base.place,
            counts=base.new,
        )
        return
    if base.new:
        tally.near(
            lies.clear_mm - after.rules.seam_clear_mm,
            Nearest(
                fact=f"{the(base.label)} stands half on the wrap's seam", where=base.label,
                rule="seam_clear_mm", measured_mm=lies.clear_mm,
                limit_mm=after.rules.seam_clear_mm, doubt_mm=SEAM_DOUBT_MM,
            ),
        )  # fmt: skip
    step = after.layout.drum.finish.thickness_mm
    tenths = round(step * 10)
    by = f", by {counted(tenths, 'tenth')} of a millimetre" if tenths else ""
    yield Finding(
        code="base-half-on-seam",
        grade=Grade.STOP if base.new else Grade.NOTE,
        says=first_up(f"{the(base.label)} stands half on the wrap's seam and rocks{by}."),
        where=base.label,
        along_deg=base.place.along_deg,
        down_mm=base.place.down_mm,
        measured=lies.clear_mm,
        limit=after.rules.seam_clear_mm,
        doubt=together(base.doubt_mm, SEAM_DOUBT_MM),
        rule="seam_clear_mm",
        remedy="Turn the row so that it lies wholly on the seam or clear of it"
        + (f", or pack the low side with {figure(step)} mm." if tenths else "."),
    )


def _rule_says(after: Afterwards) -> str:
    return f"your rule is wholly on it, or {figure(after.rules.seam_clear_mm)} clear"


def _says(what: str, clear_mm: float) -> str:
    if clear_mm < 0.0:
        return f"{what} lies half on the wrap's seam"
    return f"{what} lies {figure(clear_mm)} mm from the wrap's seam"
