"""Wood between holes, and between a new hole and a plug."""

from __future__ import annotations

import math

from counterhoop.development.place import Place
from counterhoop.development.polygon import covers
from counterhoop.development.shape import HoleShape
from counterhoop.development.web import Web, web
from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards, Opening, Plug
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import figure, first_up, holes_named
from counterhoop.shell.hole import Condition

OTHER_PLACE = "Turn or move the row, or take a fitting with another pattern."


def check_webs(after: Afterwards, tally: Tally) -> None:
    """Hold the wood between every two open holes against the rule.

    A fitting's own pattern is exempt. Two holes that were there before are only noted.
    """
    mm_per_deg, web_mm = _bore_mm_per_deg(after), after.rules.web_mm
    boxes = [_Box(o.place, o.shape, mm_per_deg) for o in after.openings]
    for index, one in enumerate(after.openings):
        box = boxes[index]
        # 1.0: no reading of a centre is worse, and what is nearer is looked at exactly.
        clear = max(web_mm, box.size) + max(1.0, tally.margin_mm)
        for at in range(index + 1, len(boxes)):
            least = box.least_mm(boxes[at])
            if least > clear:
                continue
            limit = max(web_mm, min(box.size, boxes[at].size))
            if least - limit > 1.0 and least - limit > tally.margin_mm:
                continue
            other = after.openings[at]
            if one.of and one.of == other.of:
                continue
            doubt = together(one.doubt_mm, other.doubt_mm)
            cut = one.cut or other.cut
            if tally.worth(least, limit=limit, doubt=doubt, counts=cut):
                _hold_web(after, tally, one, other, limit=limit, doubt=doubt)


def _hold_web(
    after: Afterwards, tally: Tally, one: Opening, other: Opening, *, limit: float, doubt: float
) -> None:
    found = web(one.place, one.shape, other.place, other.shape, flat=after.flat)
    numbers = (one.number, other.number)
    cut = one.cut or other.cut
    new = one if one.cut else other

    if found.least_mm < 0.0:
        fact = f"{holes_named(numbers)} run into each other by {figure(-found.least_mm)} mm"
    else:
        fact = f"{holes_named(numbers)} leave {figure(found.least_mm)} mm of wood {_skin(found)}"

    tally.hold(
        "web-thin" if cut else "web-thin-as-found",
        found.least_mm,
        limit=limit,
        doubt=doubt,
        grade=Grade.STOP if cut else Grade.NOTE,
        fact=fact,
        again=_again(one, other),
        rule="web_mm",
        remedy=OTHER_PLACE if cut else "Both were there before; put a washer over them inside.",
        where=holes_named(numbers),
        place=new.place,
        holes=numbers,
        counts=cut,
    )


def check_plugs(after: Afterwards, tally: Tally) -> None:
    """Hold every hole that is cut against the plugs beside and round it.

    Face grain is wood again: it wants its own, smaller web, and a hole may be drilled in it when
    it lies wholly inside and is backed. A dowel shows end grain and holds nothing, so a hole
    keeps as far from it as from an open one.
    """
    if not after.plugs:
        return
    mm_per_deg, rules = _bore_mm_per_deg(after), after.rules
    boxes = [_Box(p.place, p.shape, mm_per_deg) for p in after.plugs]
    for opening in after.openings:
        box = _Box(opening.place, opening.shape, mm_per_deg)
        reach = max(rules.web_mm, box.size) + 1.0
        for plug, plug_box in zip(after.plugs, boxes, strict=True):
            least = box.least_mm(plug_box)
            if opening.cut and least <= max(reach, rules.plug_web_mm + tally.margin_mm):
                _hold_plug(after, tally, opening, plug)
            elif least < 0.0 and plug.fresh and not opening.cut:
                _cut_by_plug(after, tally, opening, plug)


def _hold_plug(after: Afterwards, tally: Tally, opening: Opening, plug: Plug) -> None:
    found = web(opening.place, opening.shape, plug.place, plug.shape, flat=after.flat)
    if plug.condition is Condition.DOWEL:
        limit = after.rules.web_needed_mm(max(opening.shape.size_mm), max(plug.shape.size_mm))
        _beside(tally, opening, plug, found, limit=limit, code="plug-cannot-hold")
    elif found.least_mm >= 0.0:
        _beside(tally, opening, plug, found, limit=after.rules.plug_web_mm, code="plug-beside")
    else:
        _inside(after, tally, opening, plug)


def _beside(
    tally: Tally, opening: Opening, plug: Plug, found: Web, *, limit: float, code: str
) -> None:
    dowel = code == "plug-cannot-hold"
    what = "the dowel in" if dowel else "the plug in"

    which = f"{what} {holes_named(plug.numbers)}"
    if found.least_mm < 0.0:
        fact = f"hole {opening.number} runs into {which}, which is end grain and holds nothing"
    else:
        wood = f"{figure(found.least_mm)} mm of wood {_skin(found)}"
        fact = f"hole {opening.number} leaves {wood} to {which}"

    tally.hold(
        code,
        found.least_mm,
        limit=limit,
        doubt=together(opening.doubt_mm, plug.doubt_mm),
        grade=Grade.STOP,
        fact=fact,
        again=holes_named(
            (*plug.numbers, *((opening.number,) if opening.doubt_mm else ())),
        ),
        rule="web_mm" if dowel else "plug_web_mm",
        rule_says="" if found.least_mm < 0.0 else None,
        remedy=(
            "Bore the dowel out and glue in a face-grain plug wide enough to drill again."
            if dowel
            else "Widen the plug so that the new hole lies wholly inside it, or move the hole."
        ),
        where=holes_named((opening.number, *plug.numbers)),
        place=opening.place,
        holes=(opening.number, *plug.numbers),
        counts=True,
    )


def _inside(after: Afterwards, tally: Tally, opening: Opening, plug: Plug) -> None:
    left = _wood_round_mm(after, opening, plug)
    numbers = (opening.number, *plug.numbers)
    which = f"the plug in {holes_named(plug.numbers)}"
    # A plug that is bored for this hole lies where the plan puts it, not where a tape found it.
    doubt = together(opening.doubt_mm, 0.0 if plug.fresh else plug.doubt_mm)
    before = len(tally.findings)

    if left < 0.0:
        fact = f"hole {opening.number} lies half in {which} and half in old wood"
    else:
        fact = f"hole {opening.number}, in {which}, leaves {figure(left)} mm of plug round it"

    tally.hold(
        "hole-half-in-plug",
        left,
        limit=after.rules.plug_web_mm,
        doubt=doubt,
        grade=Grade.STOP,
        fact=fact,
        again=holes_named(plug.numbers),
        rule="plug_web_mm",
        remedy=f"Bore for a plug about {figure(after.rules.plug_factor)} times the new hole.",
        where=holes_named(numbers),
        place=opening.place,
        holes=numbers,
        counts=True,
    )
    if len(tally.findings) == before:
        _drilled_again(after, tally, opening, plug, left=left)


def _drilled_again(
    after: Afterwards, tally: Tally, opening: Opening, plug: Plug, *, left: float
) -> None:
    """Wholly inside a face-grain plug: allowed with a base over it and a washer behind."""
    size = max(plug.shape.size_mm)
    covered = any(
        covers(b.outline, b.place, plug.place, plug.shape, surface=after.surface)
        for b in after.bases
        if b.label == opening.of
    )
    washer = opening.plan.backing_washer_mm or 0.0
    needs = [] if covered else ["no base covers the plug"]
    if washer < size:
        needs.append(f"a backing washer of at least {figure(size)} mm is missing")
    says = f"hole {opening.number} is drilled in the plug in {holes_named(plug.numbers)}"
    if needs:
        says += f", but {' and '.join(needs)}."
    else:
        says += ": glue it well, let it cure, and put the backing washer behind."
    tally.say(
        Finding(
            code="hole-in-plug",
            grade=Grade.STOP if needs else Grade.TAKE_CARE,
            says=first_up(says),
            where=holes_named((opening.number, *plug.numbers)),
            along_deg=opening.place.along_deg,
            down_mm=opening.place.down_mm,
            measured=left,
            limit=after.rules.plug_web_mm,
            doubt=opening.doubt_mm,
            rule="plug_web_mm",
            remedy="Cover the plug with the base and back it with a wide washer inside.",
            holes=(opening.number, *plug.numbers),
        )
    )


def _cut_by_plug(after: Afterwards, tally: Tally, opening: Opening, plug: Plug) -> None:
    found = web(opening.place, opening.shape, plug.place, plug.shape, flat=after.flat)
    numbers = (opening.number, *plug.numbers)
    if found.least_mm >= 0.0:
        return
    tally.say(
        Finding(
            code="plug-cuts-hole",
            grade=Grade.STOP,
            says=(
                f"The plug for {holes_named(plug.numbers)} bores {figure(-found.least_mm)} mm into"
                f" hole {opening.number}, which stays open."
            ),
            where=holes_named(numbers),
            along_deg=opening.place.along_deg,
            down_mm=opening.place.down_mm,
            measured=found.least_mm,
            limit=0.0,
            doubt=together(opening.doubt_mm, plug.doubt_mm),
            rule="plug_factor",
            remedy="Take a narrower plug, or plug both holes and drill again.",
            holes=numbers,
        )
    )


def _wood_round_mm(after: Afterwards, opening: Opening, plug: Plug) -> float:
    """Least plug left round a hole drilled in it; exact for round holes in round plugs.

    Any other hole counts by the circle round it and any other plug by the circle in it, so the
    figure is never too great.
    """
    x = after.surface.apart_mm(plug.place.along_deg, opening.place.along_deg)
    y = opening.place.down_mm - plug.place.down_mm
    return min(plug.shape.size_mm) / 2 - math.hypot(x, y) - max(opening.shape.size_mm) / 2


def _skin(found: Web) -> str:
    return "at the bore" if found.bore_mm < found.skin_mm else "on the skin"


def _again(*openings: Opening) -> str:
    return holes_named(o.number for o in openings if o.doubt_mm > 0.0)


class _Box:
    """A hole's box at the bore, for a quick lower bound of the web to another."""

    __slots__ = ("along", "down", "high", "mm_per_deg", "size", "wide")

    def __init__(self, place: Place, shape: HoleShape, mm_per_deg: float) -> None:
        wide, high = shape.size_mm
        self.along, self.down = place.along_deg, place.down_mm
        self.wide, self.high, self.size = wide / 2, high / 2, max(wide, high)
        self.mm_per_deg = mm_per_deg

    def least_mm(self, other: _Box) -> float:
        turn = abs(self.along - other.along)
        x = (turn if turn <= 180.0 else 360.0 - turn) * self.mm_per_deg - self.wide - other.wide
        y = abs(self.down - other.down) - self.high - other.high
        return x if x > y else y


def _bore_mm_per_deg(after: Afterwards) -> float:
    """Millimetres to the degree where the wall is thickest: the nearest that holes can draw."""
    flat = after.flat
    thick = flat.wall_mm + max((ring.thick_mm for ring in flat.rings), default=0.0)
    radius = flat.surface.radius_mm
    return flat.surface.circumference_mm / 360.0 * (radius - thick) / radius
