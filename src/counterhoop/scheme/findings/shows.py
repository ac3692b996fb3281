"""What can be seen afterwards: shadows and imprints, bare plugs, open holes."""

from __future__ import annotations

import math
from typing import TypeAlias

from counterhoop.development.cover import Patch, uncovered_mm2
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.polygon import covers
from counterhoop.development.shape import HoleShape, Rectangle, Slot
from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards, Base, Plug
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import area, counted, figure, first_up, holes_named, the
from counterhoop.shell.drum import Mark

Box: TypeAlias = tuple[float, float, float, float]
SEEN_MM2 = 2.0  # less than the line of a soft pencil along a base
SHADOW_DOUBT_MM = 0.5


def check_marks(after: Afterwards, tally: Tally) -> None:
    """Say which shadows and imprints show, and how much of them.

    A mark that is covered by less than the rule is said too: a base set down half a millimetre
    askew brings its line to light.
    """
    for mark in after.layout.marks:
        box = mark.outline.bounds_mm
        near = [b for b in after.bases if _meet(after, box, mark.place, b)]
        if any(_same(mark, base) for base in near):
            continue
        covers: list[Patch] = [(b.outline, b.place) for b in near]
        target: Patch = (mark.outline, mark.place)
        shown = uncovered_mm2([target], covers, surface=after.surface)
        if shown > SEEN_MM2:
            _mark_shows(tally, mark, shown)
        elif near:
            _just_covered(after, tally, mark, near)


def _mark_shows(tally: Tally, mark: Mark, shown: float) -> None:
    tally.say(
        Finding(
            code=f"{mark.kind}-shows",
            grade=Grade.TAKE_CARE,
            says=f"{area(shown)} of {_mark_words(mark)} will show.",
            where=_mark_words(mark),
            along_deg=mark.place.along_deg,
            down_mm=mark.place.down_mm,
            measured=shown,
            limit=0.0,
            unit="mm2",
            rule="shadow_cover_mm",
            remedy=(
                "Show it to the client: polish may not take it out."
                if mark.kind == "shadow"
                else "Steam or fill the dent before the finish, or take a larger base."
            ),
        )
    )


def _just_covered(after: Afterwards, tally: Tally, mark: Mark, near: list[Base]) -> None:
    # No base alone covers it, and no more than a sliver shows: that is nothing to spare.
    margin = max(0.0, *(_margin_mm(after, mark, base) for base in near))
    tally.hold(
        "mark-just-covered",
        margin,
        limit=after.rules.shadow_cover_mm,
        doubt=SHADOW_DOUBT_MM,
        grade=Grade.TAKE_CARE,
        fact=(
            f"{_mark_words(mark)} is covered by no more than {figure(margin)} mm"
            if margin >= 0.05
            else f"{_mark_words(mark)} is covered with nothing to spare"
        ),
        again=_mark_words(mark),
        rule="shadow_cover_mm",
        remedy="Set the base down to the mark, or take one a little larger.",
        where=_mark_words(mark),
        place=mark.place,
    )


def _margin_mm(after: Afterwards, mark: Mark, base: Base) -> float:
    """Least distance from inside a base's rim to a mark under it; infinite when not under it."""
    import shapely

    x = after.surface.apart_mm(base.place.along_deg, mark.place.along_deg)
    y = mark.place.down_mm - base.place.down_mm
    rim = shapely.Polygon(base.outline.points)
    shape = shapely.Polygon(mark.outline.moved(x, y).points)
    if not rim.buffer(1e-6).covers(shape):
        return -math.inf
    return float(rim.exterior.distance(shape))


def _mark_words(mark: Mark) -> str:
    return f"the {mark.kind} of {the(mark.of)}" if mark.of else f"a {mark.kind}"


def check_plugs_seen(after: Afterwards, tally: Tally) -> None:
    """Say which plugs show outside and inside, and which open holes nothing covers."""
    _plugs_outside(after, tally)
    _holes_outside(after, tally)
    inside = sorted(n for plug in after.plugs for n in plug.numbers)
    if inside:
        bare = sum(_area_mm2(plug.shape) for plug in after.plugs)
        tally.say(
            Finding(
                code="plug-inside",
                grade=Grade.NOTE,
                says=f"{counted(len(inside), 'plug')} can be seen inside, {area(bare)}.",
                where=holes_named(inside),
                measured=bare,
                limit=0.0,
                unit="mm2",
                remedy="Tone in, and leave any stamp or label alone.",
                holes=tuple(inside),
            )
        )


def _plugs_outside(after: Afterwards, tally: Tally) -> None:
    if after.layout.finish.hides_plugs:
        return
    shown = _plugs_shown(after)
    if not shown:
        return
    numbers = sorted(n for plug, _ in shown for n in plug.numbers)
    bare = sum(mm2 for _, mm2 in shown)
    new = any(plug.fresh for plug, _ in shown)
    first = shown[0][0].place
    tally.say(
        Finding(
            code="bare-plug",
            grade=Grade.TAKE_CARE if new else Grade.NOTE,
            says=first_up(
                f"{counted(len(numbers), 'plug')} will show outside,"
                f" {area(bare)}: {holes_named(numbers, most=8)}."
            ),
            where=holes_named(numbers),
            along_deg=first.along_deg,
            down_mm=first.down_mm,
            measured=bare,
            limit=0.0,
            unit="mm2",
            remedy="Cover with a base or a plate, or show the client a plug toned in.",
            holes=tuple(numbers),
        )
    )


def _holes_outside(after: Afterwards, tally: Tally) -> None:
    idle = [o for o in after.openings if not o.is_vent and not o.of and not o.cut]
    areas = _uncovered(after, [(hole.shape, hole.place) for hole in idle])
    shown = [pair for pair in zip(idle, areas, strict=True) if pair[1] > SEEN_MM2]
    if not shown:
        return
    numbers = tuple(sorted(hole.number for hole, _ in shown))
    bare = sum(mm2 for _, mm2 in shown)
    first = shown[0][0].place
    tally.say(
        Finding(
            code="open-hole-shows",
            grade=Grade.TAKE_CARE,
            says=first_up(
                f"{holes_named(numbers, most=8)} {'stays' if len(numbers) == 1 else 'stay'} open"
                f" and bare, {area(bare)}."
            ),
            where=holes_named(numbers),
            along_deg=first.along_deg,
            down_mm=first.down_mm,
            measured=bare,
            limit=0.0,
            unit="mm2",
            remedy="Plug, cover with a plate, or tell the client that it stays so.",
            holes=numbers,
        )
    )


def _plugs_shown(after: Afterwards) -> list[tuple[Plug, float]]:
    areas = _uncovered(after, [(plug.shape, plug.place) for plug in after.plugs])
    return [pair for pair in zip(after.plugs, areas, strict=True) if pair[1] > SEEN_MM2]


def _uncovered(after: Afterwards, patches: list[tuple[HoleShape, Place]]) -> list[float]:
    """Area of each patch that no base hides; the few that boxes do not decide are cut out."""
    areas = []
    for shape, place in patches:
        wide, high = shape.size_mm
        box = (-wide / 2, -high / 2, wide / 2, high / 2)
        near: list[Patch] = [
            (b.outline, b.place) for b in after.bases if _meet(after, box, place, b)
        ]
        if not near:
            areas.append(_area_mm2(shape))
        elif any(
            covers(o, p, place, shape, surface=after.surface)
            for o, p in near
            if isinstance(o, Outline)
        ):
            areas.append(0.0)
        else:
            areas.append(uncovered_mm2([(shape, place)], near, surface=after.surface))
    return areas


def _area_mm2(shape: HoleShape) -> float:
    wide, high = shape.size_mm
    if isinstance(shape, Rectangle):
        return wide * high
    if isinstance(shape, Slot):
        return shape.width_mm * (shape.length_mm - shape.width_mm * (1.0 - math.pi / 4.0))
    return math.pi / 4.0 * wide * high


def _meet(after: Afterwards, box: Box, place: Place, base: Base) -> bool:
    """Whether a box about a place and a base's box touch."""
    left, top, right, bottom = base.box_mm
    down = place.down_mm - base.plan.place.down_mm
    if down + box[1] > bottom or down + box[3] < top:
        return False
    along = abs(after.surface.apart_mm(base.plan.place.along_deg, place.along_deg))
    return along < max(-left, right) + max(-box[0], box[2])


def _same(mark: Mark, base: Base) -> bool:
    """The very base that left the mark stands on it."""
    return mark.outline == base.outline and mark.place == base.place
