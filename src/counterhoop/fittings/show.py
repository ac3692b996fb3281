"""An entry of the book told in words and figures, for whoever holds the part in hand."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal, NamedTuple

from counterhoop.fittings.choose import suits_mm
from counterhoop.fittings.entry import Fitting, Kind, PatternHole
from counterhoop.quantities.money import Money, print_money
from counterhoop.quantities.print_length import CALIPER_MM, print_inch, print_length, print_mm

Units = Literal["mm", "in"]


class Line(NamedTuple):
    """One thing that the book says, and what it is called."""

    label: str
    value: str


def describe(entry: Fitting, *, units: Units = "mm") -> list[Line]:
    """Return what the book says of an entry, line by line, in both units.

    Parameters
    ----------
    entry : Fitting
        Any entry.
    units : "mm" or "in"
        Which comes first; the other stands in brackets. Millimetres to 0.1, inches to 1/32.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> for line in describe(packaged_book().find("rod M6 x 42 mm"))[:4]:
    ...     print(f"{line.label}: {line.value}")
    kind: rod
    finish: chrome
    length under the head: 42.0 mm (1 21/32 in)
    thread: M6
    """
    lines = [
        Line("kind", entry.kind.value if not entry.hoop_kind else f"{entry.hoop_kind} hoop"),
        Line("maker", entry.maker),
        Line("family", entry.family),
        Line("finish", entry.finish),
        Line("worth knowing", entry.says),
        *_on_the_shell(entry, units),
        *_lug(entry, units),
        *_hoop(entry, units),
        *_rod(entry, units),
        *_size(entry, units),
        *_mounting(entry, units),
        Line("belongs to it", ", ".join(entry.inserts)),
        Line("faces", entry.opposite),
        Line("mass", f"{entry.mass_g:g} g" if entry.mass_g is not None else ""),
        Line("price", _price(entry)),
        Line("source", entry.source),
    ]
    return [line for line in lines if line.value]


def _price(entry: Fitting) -> str:
    if entry.price_minor is None:
        return ""
    return print_money(Money(minor=entry.price_minor, currency=entry.currency))


def _both(value_mm: float | None, units: Units) -> str:
    if value_mm is None:
        return ""
    return print_length(value_mm, units=units, resolution_mm=CALIPER_MM)


def _drilled(value_mm: float, units: Units) -> str:
    """A hole's diameter, in the 64ths of an inch that drills are sold in."""
    return print_length(value_mm, units=units, resolution_mm=CALIPER_MM, denominator=64)


def _some(value_mm: float | None, units: Units) -> str:
    return _both(value_mm, units) if value_mm else ""


def _wide_tall(width_mm: float, height_mm: float, units: Units) -> str:
    metric = (
        f"{print_mm(width_mm, resolution_mm=CALIPER_MM, with_unit=False)} wide x "
        f"{print_mm(height_mm, resolution_mm=CALIPER_MM, with_unit=False)} tall mm"
    )
    inches = (
        f"{print_inch(width_mm, with_unit=False)} wide x "
        f"{print_inch(height_mm, with_unit=False)} tall in"
    )
    return f"{metric} ({inches})" if units == "mm" else f"{inches} ({metric})"


def _on_the_shell(entry: Fitting, units: Units) -> Iterator[Line]:
    if entry.base is not None:
        left, top, right, bottom = entry.base.bounds_mm
        yield Line("base", _wide_tall(right - left, bottom - top, units))
    if len(entry.holes) == 2:
        first, second = entry.holes
        apart = math.hypot(first.right_mm - second.right_mm, first.down_mm - second.down_mm)
        yield Line("holes apart", _both(apart, units))
    for number, hole in enumerate(entry.holes, 1):
        label = f"hole, {hole.called}" if hole.called else f"hole {number}"
        yield Line(label if len(entry.holes) > 1 else "hole", _hole(hole, units))
    if entry.holes and entry.base is not None:
        yield Line(
            "up and down are from", "the reference point, the fitting upright, seen from outside"
        )


def _hole(hole: PatternHole, units: Units) -> str:
    said = [
        f"{_drilled(hole.hole_mm, units)} for a screw of "
        f"{print_mm(hole.screw_mm, resolution_mm=CALIPER_MM)}",
        _where(hole.right_mm, hole.down_mm, units),
    ]
    for travel_mm, way in ((hole.slot_down_mm, "up and down"), (hole.slot_along_mm, "along")):
        if travel_mm:
            said.append(f"a slot in the part lets it move {_both(travel_mm, units)} {way}")
    return "; ".join(said)


def _where(right_mm: float, down_mm: float, units: Units) -> str:
    said = []
    if right_mm:
        said.append(f"{_both(abs(right_mm), units)} {'right' if right_mm > 0 else 'left'}")
    if down_mm:
        said.append(f"{_both(abs(down_mm), units)} {'down' if down_mm > 0 else 'up'}")
    return " and ".join(said) or "at the reference point"


def _lug(entry: Fitting, units: Units) -> Iterator[Line]:
    if not entry.mouths:
        return
    turned = "" if len(entry.mouths) > 1 else "; turned end for end the other one"
    yield Line("serves", f"{' and '.join(entry.serves)} head{turned}")
    for mouth in entry.mouths:
        yield Line(f"mouth toward the {mouth.toward} edge", _where(0.0, mouth.down_mm, units))
    if entry.span_mm is not None:
        least, most = suits_mm(entry)
        yield Line("mouth to mouth", _both(entry.span_mm, units))
        yield Line("goes with", f"{_both(least, units)} to {_both(most, units)} from edge to edge")
    yield Line("thread", f"{entry.thread}, {'swivel' if entry.swivel else 'fixed'}")
    yield Line("free depth for the rod", _both(entry.free_depth_mm, units))
    yield Line("rod's line from the shell", _both(entry.rod_line_mm, units))
    yield Line("rod free between ear and mouth", _both(entry.free_rod_mm, units))


def _hoop(entry: Fitting, units: Units) -> Iterator[Line]:
    if entry.kind is not Kind.HOOP:
        return
    yield Line("for a head of", _both(entry.nominal_mm, units))
    yield Line("ears", str(entry.ears) if entry.ears else "none: held by claws, any number")
    yield Line("inside", _both(entry.inside_mm, units))
    yield Line("height", _both(entry.height_mm, units))
    if entry.bending_n_m2 is not None:
        yield Line("stiffness against bending up and down", f"{entry.bending_n_m2:g} N m2")
    yield Line("holes in the ears", _both(entry.ear_hole_mm, units))
    yield Line("circle of the ears' holes", _both(entry.ear_circle_mm, units))
    yield Line("lowest part", _below(entry.below_edge_mm, units))
    yield Line("washer seat", _below(entry.seat_below_edge_mm, units))
    yield Line("washer under the rod", _some(entry.washer_mm, units))


def _below(value_mm: float | None, units: Units) -> str:
    if value_mm is None:
        return ""
    side = "below" if value_mm >= 0 else "above"
    return f"{_both(abs(value_mm), units)} {side} the edge, the head at pitch"


def _rod(entry: Fitting, units: Units) -> Iterator[Line]:
    if entry.kind not in (Kind.ROD, Kind.T_ROD):
        return
    yield Line("length under the head", _both(entry.rod_length_mm, units))
    yield Line("thread", entry.thread)
    yield Line("threaded over", _both(entry.thread_length_mm, units))
    yield Line("shank", _both(entry.shank_mm, units))
    yield Line("its washer", _some(entry.washer_mm, units))


_DIAMETER = {
    Kind.BRACKET: "takes an arm of",
    Kind.LEG_BRACKET: "takes a leg of",
    Kind.WIRES: "width",
}
_LENGTH = {Kind.GATE: "opening"}


def _size(entry: Fitting, units: Units) -> Iterator[Line]:
    yield Line(_DIAMETER.get(entry.kind, "diameter"), _some(entry.diameter_mm, units))
    yield Line(_LENGTH.get(entry.kind, "length"), _some(entry.length_mm, units))
    if entry.kind is Kind.WASHER:
        yield Line("hole", _both(entry.inside_mm, units))
        yield Line("thickness", _both(entry.washer_mm, units))
    if entry.kind is Kind.CLAW:
        yield Line("hole for the rod", _both(entry.ear_hole_mm, units))
        yield Line("washer under the rod", _some(entry.washer_mm, units))


def _mounting(entry: Fitting, units: Units) -> Iterator[Line]:
    if entry.screw_thread:
        length = _both(entry.screw_length_mm, units)
        depth = (
            f", into a thread {_both(entry.screw_depth_mm, units)} deep"
            if entry.screw_depth_mm
            else ""
        )
        label = "thread and length" if entry.kind is Kind.SCREW else "screws"
        yield Line(label, f"{entry.screw_thread} x {length}{depth}")
    behind = entry.behind
    if behind.washer_mm:
        yield Line(
            "washer behind",
            f"{_both(behind.washer_diameter_mm, units)}, "
            f"{print_mm(behind.washer_mm, resolution_mm=CALIPER_MM)} thick",
        )
    yield Line("nut behind", _some(behind.nut_mm, units))
    yield Line("gasket", _some(entry.gasket_mm, units))
    yield Line("stands out from the shell", _some(entry.reach_mm, units))
    yield Line("stands in from the bore", _some(entry.inside_reach_mm, units))
    if entry.throw is not None:
        left, top, right, bottom = entry.throw.bounds_mm
        yield Line("room for the lever", _wide_tall(right - left, bottom - top, units))
