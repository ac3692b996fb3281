"""From an entry as written to the record that the core works with."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.fittings.entry import Fitting, Kind, Mouth
from counterhoop.fittings.kinds import (
    AnyEntry,
    AnyLug,
    Bracket,
    Claw,
    Entry,
    Gasket,
    Gate,
    Hoop,
    Leg,
    LegBracket,
    LongLug,
    Lug,
    LugSpring,
    Mounted,
    Rod,
    Screw,
    Spur,
    Strainer,
    Washer,
    Wires,
)


def make_entry(written: AnyEntry) -> Fitting:
    """Return the record of an entry that has been read.

    A lug's ``serves`` is, where the book does not say, the ends that its mouths look to as it
    stands upright; turned by 180 degrees it serves the other.
    """
    made = _common(written, kind=Kind(written.kind))
    if isinstance(written, Mounted):
        made = _mounted(made, written)
    if isinstance(written, AnyLug):
        return _lug(made, written)
    match written:
        case Hoop():
            return _hoop(made, written)
        case Rod():
            return replace(
                made,
                thread=written.thread,
                rod_length_mm=written.length,
                thread_length_mm=written.thread_length,
                shank_mm=written.shank,
                washer_mm=written.washer,
            )
        case Claw():
            return replace(
                made,
                ear_hole_mm=written.rod_hole,
                reach_mm=written.reach,
                washer_mm=written.washer,
            )
        case Bracket() | LegBracket():
            return replace(made, diameter_mm=written.takes)
        case Leg() | LugSpring() | Spur():
            return replace(made, diameter_mm=written.diameter, length_mm=written.length)
        case Strainer():
            throw = written.throw.outline() if written.throw else None
            return replace(made, throw=throw, opposite=written.opposite)
        case Gate():
            return replace(made, length_mm=written.width)
        case Wires():
            return replace(made, length_mm=written.length, diameter_mm=written.width)
        case Washer():
            return replace(
                made,
                inside_mm=written.hole,
                diameter_mm=written.diameter,
                washer_mm=written.thickness,
            )
        case Gasket():
            return replace(made, base=written.base.outline(), gasket_mm=written.thickness)
        case Screw():
            return replace(made, screw_thread=written.thread, screw_length_mm=written.length)
    return made


def _common(written: Entry, *, kind: Kind) -> Fitting:
    return Fitting(
        name=written.name,
        kind=kind,
        maker=written.maker,
        family=written.family,
        finish=written.finish,
        source=written.source,
        says=written.says,
        mass_g=written.mass,
        price_minor=written.price.minor if written.price else None,
        currency=written.price.currency if written.price else "",
    )


def _mounted(made: Fitting, written: Mounted) -> Fitting:
    screw = written.screw
    return replace(
        made,
        base=written.base.outline(),
        holes=tuple(hole.record() for hole in written.holes),
        reach_mm=written.reach,
        inside_reach_mm=written.inside_reach,
        gasket_mm=written.gasket,
        behind=written.behind.record(),
        screw_thread=screw.thread if screw else "",
        screw_length_mm=screw.length if screw else None,
        screw_depth_mm=screw.depth if screw else None,
        inserts=written.inserts,
    )


def _lug(made: Fitting, written: AnyLug) -> Fitting:
    mouths: tuple[Mouth, ...] = ()
    least = most = None
    if isinstance(written, Lug):
        mouths = (Mouth(down_mm=written.mouth, toward="batter"),)
    elif isinstance(written, LongLug):
        mouths = tuple(Mouth(down_mm=m.down, toward=m.toward) for m in written.mouths)
        if written.suits:
            least, most = written.suits.least, written.suits.most
    return replace(
        made,
        mouths=mouths,
        serves=written.serves or tuple(mouth.toward for mouth in mouths),
        rod_line_mm=written.rod_line,
        free_depth_mm=written.free_depth,
        free_rod_mm=written.free_rod,
        thread=written.thread,
        swivel=written.swivel,
        suits_from_mm=least,
        suits_to_mm=most,
    )


def _hoop(made: Fitting, written: Hoop) -> Fitting:
    return replace(
        made,
        hoop_kind=written.hoop_kind,
        ears=written.ears,
        nominal_mm=written.nominal,
        inside_mm=written.inside,
        height_mm=written.height,
        bending_n_m2=written.bending,
        ear_hole_mm=written.ear_hole,
        ear_circle_mm=written.ear_circle,
        below_edge_mm=written.below_edge,
        seat_below_edge_mm=written.seat_below_edge,
        washer_mm=written.washer,
    )
