"""Snare beds: ramps, likeness, opposite each other, under strainer and butt, after truing."""

from __future__ import annotations

from counterhoop.development.place import Place
from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Kind
from counterhoop.quantities.angle import print_deg
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.read_once import cut_away
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import counted, figure, the
from counterhoop.scheme.heads import heads_of
from counterhoop.shell.drum import Bed
from counterhoop.survey.snare_bed import (
    bed_after,
    deep_for_mm,
    from_opposite_mm,
    nearest_bed,
    ramp,
    says_lines,
    wide_for_mm,
    wood_off_mm,
)

# All common practice, no source.
DEEP_DOUBT_MM = 0.25  # half a rule's step, against a straight edge laid over the bed
MIDDLE_DOUBT_MM = 1.0  # a bed's middle is found from where its ramps begin
RAMP_DOUBT_MM = 2.0
DEEP_ALIKE_MM = 0.5
WIDE_ALIKE_MM = 10.0
WIDE_DOUBT_MM = 4.0


def check_beds(after: Afterwards, tally: Tally) -> None:
    """Go through the snare beds that are there afterwards.

    Beds that go with an offcut are cut anew; that is work of the scheme and no finding.
    """
    layout = after.layout
    _odd_lugs(after, tally)
    if not layout.drum.beds or cut_away(layout, "resonant"):
        return
    left = [bed for bed in (_after_truing(after, tally, b) for b in layout.drum.beds) if bed]
    for bed in left:
        _ramps(after, tally, bed)
        _ring(after, tally, bed)
    if len(left) == 2:
        _alike(tally, *left)
        _opposite(after, tally, *left)
    _under_strainer(after, tally, left)


def _after_truing(after: Afterwards, tally: Tally, bed: Bed) -> Bed | None:
    """Say how much shallower truing leaves a bed, and return what is left of it."""
    layout = after.layout
    off = wood_off_mm(layout.drum, truing=layout.truing, along_deg=bed.along_deg)
    if bed.deep_mm == 0.0:  # its depth was not read
        return bed
    left = bed_after(bed, off_mm=off)
    if off < DEEP_DOUBT_MM:
        return left
    now = "nothing is left of it" if left is None else f"it is {figure(left.deep_mm)} mm deep"
    tally.say(
        Finding(
            code="bed-shallower",
            grade=Grade.TAKE_CARE if left is None else Grade.NOTE,
            says=(
                f"The snare bed at {_at(bed)} is {figure(bed.deep_mm)} mm deep; once"
                f" {figure(off)} mm is off the edge there, {now}."
            ),
            where=f"snare bed at {_at(bed)}",
            along_deg=bed.along_deg,
            measured=0.0 if left is None else left.deep_mm,
            limit=bed.deep_mm,
            doubt=DEEP_DOUBT_MM,
            rule="what comes off the edge comes off the bed",
            remedy=f"Cut it to {figure(bed.deep_mm)} mm again after truing, ramps and all.",
        )
    )
    return left


def _ramps(after: Afterwards, tally: Tally, bed: Bed) -> None:
    slope, factor = ramp(bed), after.rules.bed_ramp_factor
    if slope is None:
        return
    wide = wide_for_mm(deep_mm=bed.deep_mm, flat_mm=bed.flat_mm, factor=factor)
    deep = deep_for_mm(wide_mm=bed.wide_mm, flat_mm=bed.flat_mm, factor=factor)
    best = "" if bed.flat_mm else " at best"
    tally.hold(
        "bed-steep",
        slope.factor,
        limit=factor,
        doubt=together(slope.factor * DEEP_DOUBT_MM, RAMP_DOUBT_MM) / slope.deep_mm,
        grade=Grade.NOTE,
        fact=(
            f"the snare bed at {_at(bed)} goes {figure(slope.deep_mm)} mm down over"
            f" {slope.long_mm:.0f} mm,{best} 1 in {slope.factor:.0f}"
        ),
        again="its depth, width and flat",
        rule="bed_ramp_factor",
        rule_says=f"your rule is 1 in {factor:.0f} at most",
        remedy=(
            f"So deep it wants to be {wide:.0f} mm wide; so wide it may be {figure(deep)} mm deep."
        ),
        where=f"snare bed at {_at(bed)}",
        place=_place(after, bed),
        unit="",
    )


def _ring(after: Afterwards, tally: Tally, bed: Bed) -> None:
    """What is left of the ring below a bed's bottom."""
    for ring in after.flat.rings:
        if ring.end == "resonant" and bed.deep_mm > 0.0:
            left = ring.wide_at_mm(bed.along_deg) - bed.deep_mm
            tally.hold(
                "bed-through-ring",
                left,
                limit=after.rules.ring_left_mm,
                doubt=together(DEEP_DOUBT_MM, 0.5),
                grade=Grade.NOTE,
                fact=f"the snare bed at {_at(bed)} leaves {figure(left)} mm of the ring below it",
                again="the ring and the bed",
                rule="ring_left_mm",
                remedy="Cut it no deeper, and take no more off this edge than you must.",
                where=f"snare bed at {_at(bed)}",
                place=_place(after, bed),
            )


def _alike(tally: Tally, first: Bed, second: Bed) -> None:
    what = (
        ("deep", second.deep_mm, first.deep_mm, DEEP_ALIKE_MM, DEEP_DOUBT_MM),
        ("wide", second.wide_mm, first.wide_mm, WIDE_ALIKE_MM, WIDE_DOUBT_MM),
    )
    for word, one, other, limit, doubt in what:
        if one > 0.0 and other > 0.0:
            tally.hold(
                "beds-unlike",
                abs(one - other),
                limit=limit,
                doubt=together(doubt, doubt),
                grade=Grade.NOTE,
                fact=(
                    f"one snare bed is {figure(max(one, other))} mm {word}, the other"
                    f" {figure(min(one, other))}; the wires lie alike only over beds alike"
                ),
                again="both beds",
                remedy="Cut the smaller one to the larger one.",
                where="snare beds",
                most=True,
            )


def _opposite(after: Afterwards, tally: Tally, first: Bed, second: Bed) -> None:
    off = abs(from_opposite_mm(first, second, surface=after.surface))
    tally.hold(
        "beds-not-opposite",
        off,
        limit=after.rules.off_middle_mm,
        doubt=together(MIDDLE_DOUBT_MM, MIDDLE_DOUBT_MM),
        grade=Grade.NOTE,
        fact=(
            f"the snare beds at {_at(first)} and {_at(second)} are {figure(off)} mm from opposite"
            " each other, so the wires cross one of them askew"
        ),
        again="where each bed begins and ends",
        rule="off_middle_mm",
        remedy="Ease the ramps of one so that its middle moves.",
        where="snare beds",
        place=_place(after, second),
        most=True,
    )


def _under_strainer(after: Afterwards, tally: Tally, beds: list[Bed]) -> None:
    """Hold strainer and butt over the middle of a bed."""
    for base in after.bases:
        if base.plan.fitting.kind not in (Kind.STRAINER, Kind.BUTT):
            continue
        bed = nearest_bed(beds, base.place.along_deg, surface=after.surface)
        if bed is None:
            continue
        off = abs(after.surface.apart_mm(base.place.along_deg, bed.along_deg))
        tally.hold(
            "bed-off-strainer",
            off,
            limit=after.rules.off_middle_mm,
            doubt=together(MIDDLE_DOUBT_MM, base.doubt_mm),
            grade=Grade.TAKE_CARE if base.new else Grade.NOTE,
            fact=(
                f"the middle of the nearest snare bed lies {figure(off)} mm along from"
                f" {the(base.label)}"
            ),
            again=f"the bed and {the(base.label)}",
            rule="off_middle_mm",
            remedy=f"Put {the(base.label)} over the bed, or cut a bed under it.",
            where=base.label,
            place=base.place,
            most=True,
        )


def _odd_lugs(after: Afterwards, tally: Tally) -> None:
    """Say what an odd number of lugs does not allow, where strainer and butt do not both stand.

    Where they do, each is held against the middle of its own gap.
    """
    kinds = {base.plan.fitting.kind for base in after.bases}
    snares = bool(after.layout.drum.beds) or bool(kinds & {Kind.STRAINER, Kind.BUTT})
    lugs = next((len(h.lugs) for h in heads_of(after.layout) if h.head == "resonant"), 0)
    if not snares or {Kind.STRAINER, Kind.BUTT} <= kinds or lugs < 3 or lugs % 2 == 0:
        return
    tally.say(
        Finding(
            code="odd-lugs",
            grade=Grade.NOTE,
            says=(
                f"With {counted(lugs, 'lug')} on the resonant side strainer and butt cannot both"
                " be between lugs and opposite each other."
            ),
            where="strainer and butt",
            measured=float(lugs),
            unit="",
            rule="what lies opposite a gap's middle is a lug",
            remedy=f"Possible is {says_lines(lugs)}.",
        )
    )


def _at(bed: Bed) -> str:
    return f"{print_deg(bed.along_deg).removesuffix(' deg')} degrees"


def _place(after: Afterwards, bed: Bed) -> Place:
    return Place(bed.along_deg, after.flat.depth_at_mm(bed.along_deg))
