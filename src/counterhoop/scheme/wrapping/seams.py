"""Where the seam of a new wrap goes on one drum, in the words of its own lugs."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.development.flat import Development
from counterhoop.fittings.entry import Kind
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.findings.wording import the
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.phrases import listed, sentence
from counterhoop.scheme.wrapping.plan import SeamAdvice
from counterhoop.shell.drum import DrumKind
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wrap_stock import WrapStock
from counterhoop.wrap.cut_size import CutSize
from counterhoop.wrap.seam_place import Base, SeamPlace, Wrapped, judge_seam, seam_places

MOST_PLACES = 3
BESIDE = 1 / 24
"""Part of the way round within which two places are as good as one."""
FACING_DEG = 170.0
"""Two spurs further apart than this leave open on which side of them the bottom is."""


def seams_of(
    layout: Layout,
    stock: WrapStock,
    *,
    cut: CutSize,
    from_down_mm: float,
    bare_girth_mm: float,
    rules: ShopRules,
) -> tuple[tuple[SeamAdvice, ...], tuple[str, ...]]:
    """Return the best places for the seam, and what is to be said of them.

    Parameters
    ----------
    layout : Layout
        The drum as the scheme leaves it, on the new skin.
    from_down_mm : float
        Upper rim of the wrap.
    bare_girth_mm : float
        Once round the bare wood, on which places are given.
    """
    flat = layout.flat
    girth = flat.surface.circumference_mm
    turn = cut.lengths_mm[0] - cut.overlap_mm + cut.patch_arc_mm
    on = Wrapped(
        girth_mm=girth,
        from_down_mm=from_down_mm,
        to_down_mm=from_down_mm + cut.width_mm,
        overlap_mm=stock.overlap_mm,
        step_mm=stock.thickness_mm if stock.overlap_mm > 0 else 0.0,
        second_after_mm=cut.patch_arc_mm * girth / turn,
    )
    bases = _bases(layout)
    front = _front_mm(layout)
    bottom, says = _bottom_mm(layout)
    says += _narrow(bases, overlap_mm=stock.overlap_mm)
    clear = rules.seam_clear_mm
    places = seam_places(on=on, bases=bases, bottom_mm=bottom, front_mm=front, clear_mm=clear)
    if not places:
        says = [*says, _nowhere(on, bases, bottom=bottom, front=front, clear_mm=clear)]
    return (
        tuple(
            _advice(place, on=on, layout=layout, bare_girth_mm=bare_girth_mm)
            for place in _apart(places, on=on)
        ),
        tuple(says),
    )


def _apart(places: Sequence[SeamPlace], *, on: Wrapped) -> list[SeamPlace]:
    """The best places, none close beside a better one."""
    chosen: list[SeamPlace] = []
    for place in places:
        beside = (
            abs(on.apart_mm(one.along_mm[0], place.along_mm[0])) < BESIDE * on.girth_mm
            for one in chosen
        )
        if len(chosen) < MOST_PLACES and not any(beside):
            chosen.append(place)
    return chosen


def _bases(layout: Layout) -> list[Base]:
    """Every base on the skin, and every hole that no base covers."""
    found = []
    mm = layout.flat.surface.along_mm
    for plan in layout.standing:
        if plan.outline is None:
            continue
        left, top, right, bottom = plan.outline.bounds_mm
        found.append(
            Base(
                name=plan.label,
                along_mm=mm(plan.place.along_deg) + (left + right) / 2,
                breadth_mm=right - left,
                from_down_mm=plan.place.down_mm + top,
                to_down_mm=plan.place.down_mm + bottom,
                over_seam=bool(plan.row),
            )
        )
    for hole in layout.holes:
        if hole.new is None or hole.covered:
            continue
        wide, high = hole.new.size_mm
        place = hole.new_place or hole.place
        found.append(
            Base(
                name=f"hole {hole.number}",
                along_mm=mm(place.along_deg),
                breadth_mm=wide,
                from_down_mm=place.down_mm - high / 2,
                to_down_mm=place.down_mm + high / 2,
            )
        )
    return found


def _front_mm(layout: Layout) -> float | None:
    badge = next((f for f in layout.standing if f.fitting.kind is Kind.BADGE), None)
    return None if badge is None else layout.flat.surface.along_mm(badge.place.along_deg)


def _bottom_mm(layout: Layout) -> tuple[float | None, list[str]]:
    """Where the bottom of a bass drum is: the middle between its two spurs."""
    if layout.drum.kind is not DrumKind.BASS:
        return None, []
    surface = layout.flat.surface
    spurs = [f.place.along_deg for f in layout.standing if f.fitting.kind is Kind.SPUR]
    if len(spurs) == 2:
        apart_deg = (spurs[1] - spurs[0] + 180.0) % 360.0 - 180.0
        if abs(apart_deg) <= FACING_DEG:
            bottom = surface.along_mm((spurs[0] + apart_deg / 2) % 360.0)
            return bottom, ["The bottom is taken to be midway between the spurs."]
    return None, [
        "Where this drum's bottom is cannot be told from its spurs: of the places, take the lowest."
    ]


def _advice(place: SeamPlace, *, on: Wrapped, layout: Layout, bare_girth_mm: float) -> SeamAdvice:
    surface = layout.flat.surface
    share = bare_girth_mm / on.girth_mm
    half = on.overlap_mm / 2
    middles = tuple(along * share for along in place.along_mm)
    return SeamAdvice(
        along_deg=tuple(surface.along_deg(along) for along in place.along_mm),
        along_mm=middles,
        from_mm=tuple((along - half) % bare_girth_mm for along in middles),
        says=_says(place, on=on, layout=layout),
    )


def _says(place: SeamPlace, *, on: Wrapped, layout: Layout) -> str:
    where = [_at(along, place, layout=layout) for along in place.along_mm]
    long = len(where) * (on.to_down_mm - on.from_down_mm)
    sight = f"{print_mm(place.shows_mm)} of {print_mm(long)}"
    if place.shows_mm < 0.25:
        sight = "none of it"
    elif place.shows_mm > long - 0.25:
        sight = "all of it"
    both = f"one {where[0]}, the other {where[-1]}" if len(where) > 1 else where[0]
    said = f"{both}; {sight} in sight"
    if place.nearest:
        said += f"; {print_mm(place.clear_mm)} clear of {the(place.nearest)}"
    return sentence(said)


def _at(along_mm: float, place: SeamPlace, *, layout: Layout) -> str:
    """Say under which lugs, or between which lugs, a seam lies; without lugs from the datum."""
    flat = layout.flat
    at_deg = flat.surface.along_deg(along_mm)
    offs = {
        lug.label: abs(flat.surface.apart_mm(lug.place.along_deg, at_deg)) - _half_mm(lug, flat)
        for lug in layout.standing
        if lug.row
    }
    if not offs:
        return f"{print_mm(along_mm)} from the datum on the new wrap"
    on_it = [label for label, off in offs.items() if off < 0.0]
    if on_it:
        hidden = any(label in place.under for label in on_it)
        return (
            f"under {listed(on_it)}" if hidden else f"wider than {listed(on_it)}, which stand on it"
        )
    lugs = layout.lugs("batter") or layout.lugs("resonant")
    before = min(lugs, key=lambda lug: (at_deg - lug.place.along_deg) % 360.0)
    after = min(lugs, key=lambda lug: (lug.place.along_deg - at_deg) % 360.0)
    return f"between {before.label} and {after.label}"


def _narrow(bases: Sequence[Base], *, overlap_mm: float) -> list[str]:
    """Say so when lugs are too narrow to hide the overlap that is planned."""
    broad = [base.breadth_mm for base in bases if base.over_seam]
    if not broad or max(broad) >= overlap_mm or overlap_mm == 0:
        return []
    return [
        f"The overlap of {print_mm(overlap_mm)} is wider than any lug: one of "
        f"{print_mm(max(broad))} or less would hide under a line of them."
    ]


def _half_mm(lug: FittingPlan, flat: Development) -> float:
    outline = lug.outline
    if outline is None:
        return flat.surface.along_mm(0.5)
    left, _, right, _ = outline.bounds_mm
    return (right - left) / 2


def _nowhere(
    on: Wrapped,
    bases: Sequence[Base],
    *,
    bottom: float | None,
    front: float | None,
    clear_mm: float,
) -> str:
    """Say why there is no place, by the least bad of those one would hope for."""
    hoped = [base.along_mm for base in bases if base.over_seam]
    hoped += [bottom] if bottom is not None else []
    hoped += [front + on.girth_mm / 2] if front is not None else []
    judged = [judge_seam(at, on=on, bases=bases, clear_mm=clear_mm) for at in hoped or [0.0]]
    least = min(judged, key=lambda place: (len(place.troubles), -place.clear_mm))
    return (
        f"No place for the seam is wholly under a lug or {clear_mm:g} mm clear of everything. "
        f"The least bad: {' '.join(least.troubles)}"
    )
