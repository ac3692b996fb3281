"""Strainer and butt: opposite each other, between lugs, lever and straps free."""

from __future__ import annotations

from counterhoop.development.polygon import gap_mm
from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.findings.afterwards import Afterwards, Base
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import counted, figure, first_up, the
from counterhoop.scheme.heads import heads_of
from counterhoop.survey.snare_bed import says_lines

STRAPS_MM = 12.0  # common practice, no source: half the width of a strap's way to the bed


def check_snare_line(after: Afterwards, tally: Tally) -> None:
    """Go through strainers and butts."""
    strainers = [b for b in after.bases if b.plan.fitting.kind is Kind.STRAINER]
    butts = [b for b in after.bases if b.plan.fitting.kind is Kind.BUTT]
    for strainer in strainers:
        for butt in butts:
            _opposite(after, tally, strainer, butt)
        _throw(after, tally, strainer)
    for one in (*strainers, *butts):
        _between_lugs(after, tally, one, both=bool(strainers and butts))
        _straps(after, tally, one)


def _opposite(after: Afterwards, tally: Tally, strainer: Base, butt: Base) -> None:
    off = abs(after.surface.apart_mm(strainer.place.along_deg + 180.0, butt.place.along_deg))
    new = strainer.new or butt.new
    tally.hold(
        "strainer-not-opposite",
        off,
        limit=after.rules.off_middle_mm,
        doubt=together(strainer.doubt_mm, butt.doubt_mm),
        grade=Grade.TAKE_CARE if new else Grade.NOTE,
        fact=(
            f"{the(strainer.label)} and {the(butt.label)} are {figure(off)} mm from opposite each"
            " other, so the wires pull askew"
        ),
        again=f"{the(strainer.label)} and {the(butt.label)}",
        rule="off_middle_mm",
        remedy="Move the new one onto the line through the other and the middle of the shell.",
        where=f"{strainer.label} and {butt.label}",
        place=strainer.place,
        most=True,
    )


def _between_lugs(after: Afterwards, tally: Tally, base: Base, *, both: bool) -> None:
    """Hold a strainer or butt against the middle of the gap of lugs that it stands in."""
    lugs = next((h.lugs for h in heads_of(after.layout) if h.head == "resonant"), ())
    if len(lugs) < 2:
        return
    at = base.place.along_deg
    right = min(lugs, key=lambda lug: (lug.place.along_deg - at) % 360.0)
    left = min(lugs, key=lambda lug: (at - lug.place.along_deg) % 360.0)
    gap_deg = (right.place.along_deg - left.place.along_deg) % 360.0 or 360.0
    off = after.surface.apart_mm(left.place.along_deg + gap_deg / 2.0, at)
    odd = len(lugs) % 2 == 1 and both
    why = (
        f"; with {counted(len(lugs), 'lug')} strainer and butt cannot both be between lugs and"
        " opposite"
        if odd
        else ""
    )
    tally.hold(
        "not-between-lugs",
        abs(off),
        limit=after.rules.off_middle_mm,
        doubt=together(base.doubt_mm, 0.5),
        grade=Grade.TAKE_CARE if base.new and not odd else Grade.NOTE,
        fact=(
            f"{the(base.label)} stands {figure(abs(off))} mm from the middle between {left.label}"
            f" and {right.label}{why}"
        ),
        again=base.label,
        rule="off_middle_mm",
        remedy=f"Possible is {says_lines(len(lugs))}."
        if odd
        else "Move it to the middle of the gap, or turn the row.",
        where=base.label,
        place=base.place,
        most=True,
    )


def _throw(after: Afterwards, tally: Tally, strainer: Base) -> None:
    """The lever's throw is free of bases and of the hoop at full travel."""
    throw = strainer.plan.fitting.throw
    if throw is None:
        return
    swing = throw.turned(strainer.plan.turned_deg)
    for base in after.bases:
        if base is strainer:
            continue
        gap = gap_mm(swing, strainer.place, base.outline, base.place, surface=after.surface)
        if gap < 0.0:
            _fouled(tally, strainer, base.label, -gap, new=strainer.new or base.new)
    _, top, _, bottom = swing.bounds_mm
    for head in heads_of(after.layout):
        hoop = head.hoop
        if hoop is None or hoop.below_edge_mm is None:
            continue
        down = strainer.place.down_mm + (top if head.head == "batter" else bottom)
        below = after.flat.from_end_mm(down, end=head.head, along_deg=strainer.place.along_deg)
        over = hoop.below_edge_mm + after.rules.head_stretch_mm - below
        if over > 0.0:
            _fouled(tally, strainer, f"the {head.head} hoop", over, new=strainer.new)


def _fouled(tally: Tally, strainer: Base, what: str, by_mm: float, *, new: bool) -> None:
    tally.say(
        Finding(
            code="lever-fouled",
            grade=Grade.STOP if new else Grade.NOTE,
            says=first_up(
                f"the lever of {the(strainer.label)} meets {what}:"
                f" {figure(by_mm)} mm too little room."
            ),
            where=strainer.label,
            along_deg=strainer.place.along_deg,
            down_mm=strainer.place.down_mm,
            measured=-by_mm,
            limit=0.0,
            doubt=strainer.doubt_mm,
            rule="the lever's throw is free",
            remedy="Move the strainer, or take one with a shorter throw.",
        )
    )


def _straps(after: Afterwards, tally: Tally, base: Base) -> None:
    """No base stands in the straps' way to the snare-side edge."""
    start = base.place.down_mm + base.box_mm[3]
    depth = after.flat.depth_at_mm(base.place.along_deg)
    for other in after.bases:
        if other is base:
            continue
        left, top, right, bottom = other.box_mm
        along = after.surface.apart_mm(base.place.along_deg, other.place.along_deg)
        low, high = other.place.down_mm + top, other.place.down_mm + bottom
        aside = max(along + left - STRAPS_MM, -STRAPS_MM - along - right)
        if aside < 0.0 and high > start and low < depth:
            tally.say(
                Finding(
                    code="straps-fouled",
                    grade=Grade.TAKE_CARE if base.new or other.new else Grade.NOTE,
                    says=first_up(
                        f"{the(other.label)} stands in the straps' way from {the(base.label)} to"
                        f" the edge, by {figure(min(-aside, 2 * STRAPS_MM))} mm."
                    ),
                    where=f"{base.label} and {other.label}",
                    along_deg=other.place.along_deg,
                    down_mm=other.place.down_mm,
                    measured=aside,
                    limit=0.0,
                    doubt=together(base.doubt_mm, other.doubt_mm),
                    rule="the straps' way is free",
                    remedy="Move one of them along the shell.",
                )
            )
