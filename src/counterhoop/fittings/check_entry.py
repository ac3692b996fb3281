"""What geometry says of an entry: books are typed by people, and slips show in the figures."""

from __future__ import annotations

import math

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.fittings.outline_sides import room_mm
from counterhoop.standards.threads import find_thread

MOUTH_BEYOND_BASE_MM = 20.0
"""A lug's mouth may stand out over its base by this much (common practice, no source)."""
SCREW_MAY_DIFFER_MM = 0.5
"""Between a screw's nominal diameter and what the book says goes through the hole (common
practice, no source): worn and plated screws differ by less, other sizes by more."""
SHANK_MAY_DIFFER_MM = 1.5
"""Between a rod's shank and its thread (common practice, no source)."""
_ROUNDING_MM = 1e-6


def check_entry(entry: Fitting, *, where: str) -> None:
    """Refuse an entry whose figures contradict each other.

    Raises
    ------
    BadInput
        Names the entry and the field.
    """
    _check_holes(entry, where=where)
    _check_mouths(entry, where=where)
    _check_screw(entry, where=where)
    _check_rod(entry, where=where)
    _check_hoop(entry, where=where)
    _check_washers(entry, where=where)


def _check_holes(entry: Fitting, *, where: str) -> None:
    for number, hole in enumerate(entry.holes, 1):
        place = f"{where}.holes[{number}]"
        if hole.screw_mm >= hole.hole_mm:
            raise BadInput(
                "the screw does not go through its hole",
                where=f"{place}.screw",
                given=f"{hole.screw_mm:g} mm",
                wanted=f"less than the hole, {hole.hole_mm:g} mm",
            )
        if entry.base is None:
            continue
        room = room_mm(entry.base, right_mm=hole.right_mm, down_mm=hole.down_mm)
        if room < hole.hole_mm / 2 - _ROUNDING_MM:
            raise BadInput(
                f"the base ends {room:.1f} mm from this hole's centre"
                if room >= 0
                else f"this hole lies {-room:.1f} mm outside the base",
                where=place,
                given=f"{hole.right_mm:g} mm right, {hole.down_mm:g} mm down",
                wanted=f"{hole.hole_mm / 2:g} mm or more of base all round its centre",
            )
        for other, second in enumerate(entry.holes[: number - 1], 1):
            apart = math.hypot(hole.right_mm - second.right_mm, hole.down_mm - second.down_mm)
            if apart < (hole.hole_mm + second.hole_mm) / 2:
                raise BadInput(
                    f"this hole runs into hole {other}",
                    where=place,
                    given=f"{apart:g} mm between centres",
                    wanted="holes with wood between them",
                )


def _check_mouths(entry: Fitting, *, where: str) -> None:
    if not entry.mouths or entry.base is None:
        return
    _, top, _, bottom = entry.base.bounds_mm
    for mouth in entry.mouths:
        if not top - MOUTH_BEYOND_BASE_MM <= mouth.down_mm <= bottom + MOUTH_BEYOND_BASE_MM:
            raise BadInput(
                "the mouth lies far from the base",
                where=f"{where}.mouth",
                given=f"{mouth.down_mm:g} mm",
                wanted=f"between {top - MOUTH_BEYOND_BASE_MM:g} and "
                f"{bottom + MOUTH_BEYOND_BASE_MM:g} mm from the reference point",
            )
    span = entry.span_mm
    if span is not None:
        _check_long(entry, where=where, span_mm=span)
    elif entry.mouths[0].down_mm > (top + bottom) / 2.0:
        raise BadInput(
            "the mouth lies in the lower half of the base",
            where=f"{where}.mouth",
            given=f"{entry.mouths[0].down_mm:g} mm",
            wanted="the lug drawn with its mouth toward the batter edge; up is below zero",
        )
    elif entry.free_depth_mm is not None:
        deepest = bottom + MOUTH_BEYOND_BASE_MM - entry.mouths[0].down_mm
        if entry.free_depth_mm > deepest:
            raise BadInput(
                "a rod could go further in than the lug is long",
                where=f"{where}.free_depth",
                given=f"{entry.free_depth_mm:g} mm",
                wanted=f"at most {deepest:g} mm",
            )
    if set(entry.serves) - {mouth.toward for mouth in entry.mouths} or len(
        set(entry.serves)
    ) != len(entry.serves):
        raise BadInput(
            "it serves a head that no mouth looks to, or one twice",
            where=f"{where}.serves",
            given=", ".join(entry.serves),
            wanted=", ".join(mouth.toward for mouth in entry.mouths),
        )
    if entry.rod_line_mm is not None and entry.rod_line_mm > entry.reach_mm:
        raise BadInput(
            "the rod's line stands further out than the lug reaches",
            where=f"{where}.rod_line",
            given=f"{entry.rod_line_mm:g} mm",
            wanted=f"at most its reach, {entry.reach_mm:g} mm",
        )


def _check_long(entry: Fitting, *, where: str, span_mm: float) -> None:
    upper, lower = sorted(entry.mouths, key=lambda mouth: mouth.down_mm)
    if (upper.toward, lower.toward) != ("batter", "resonant"):
        raise BadInput(
            "the mouths do not look away from each other",
            where=f"{where}.mouths",
            given=f"upper toward {upper.toward}, lower toward {lower.toward}",
            wanted="the upper one toward the batter edge, the lower one toward the resonant",
        )
    if entry.free_depth_mm is not None and entry.free_depth_mm > span_mm:
        raise BadInput(
            "a rod could go further in than the lug is long",
            where=f"{where}.free_depth",
            given=f"{entry.free_depth_mm:g} mm",
            wanted=f"at most {span_mm:g} mm, the length from mouth to mouth",
        )
    least, most = entry.suits_from_mm, entry.suits_to_mm
    if least is not None and most is not None and not span_mm < least <= most:
        raise BadInput(
            "these depths do not go with the lug",
            where=f"{where}.suits",
            given=f"{least:g} to {most:g} mm",
            wanted=f"least before most, both more than its {span_mm:g} mm from mouth to mouth",
        )


def _check_screw(entry: Fitting, *, where: str) -> None:
    if not entry.screw_thread or not entry.holes:
        return
    major_mm = find_thread(entry.screw_thread).major_mm
    if not any(abs(hole.screw_mm - major_mm) <= SCREW_MAY_DIFFER_MM for hole in entry.holes):
        raise BadInput(
            "no hole is meant for this screw",
            where=f"{where}.screw.thread",
            given=entry.screw_thread,
            wanted=f'a hole with screw = "{major_mm:.1f} mm"',
        )


def _check_rod(entry: Fitting, *, where: str) -> None:
    length, threaded = entry.rod_length_mm, entry.thread_length_mm
    if length is not None and threaded is not None and threaded > length:
        raise BadInput(
            "more thread than rod",
            where=f"{where}.thread_length",
            given=f"{threaded:g} mm",
            wanted=f"at most the length, {length:g} mm",
        )
    if entry.shank_mm is not None:
        major_mm = find_thread(entry.thread).major_mm
        if abs(entry.shank_mm - major_mm) > SHANK_MAY_DIFFER_MM:
            raise BadInput(
                "the shank does not go with the thread",
                where=f"{where}.shank",
                given=f"{entry.shank_mm:g} mm",
                wanted=f"about {major_mm:.1f} mm, as {entry.thread} has",
            )


def _check_hoop(entry: Fitting, *, where: str) -> None:
    if entry.kind is not Kind.HOOP or entry.nominal_mm is None or entry.inside_mm is None:
        return
    if entry.ears is not None and entry.ear_hole_mm is None:
        raise BadInput(
            "a hoop with ears does not say how wide their holes are",
            where=f"{where}.ear_hole",
            wanted='a length with its unit, such as "7 mm"',
        )
    if not entry.nominal_mm <= entry.inside_mm <= entry.nominal_mm + 30.0:
        raise BadInput(
            "the hoop does not go round a head of this size",
            where=f"{where}.inside",
            given=f"{entry.inside_mm:g} mm",
            wanted=f"a few millimetres more than {entry.nominal_mm:g} mm",
        )
    if entry.ear_circle_mm is not None and entry.ear_circle_mm <= entry.inside_mm:
        raise BadInput(
            "the ears stand inside the hoop",
            where=f"{where}.ear_circle",
            given=f"{entry.ear_circle_mm:g} mm",
            wanted=f"more than its inside, {entry.inside_mm:g} mm",
        )
    below, seat = entry.below_edge_mm, entry.seat_below_edge_mm
    if below is not None and seat is not None and entry.ears is not None and seat > below:
        raise BadInput(
            "the washer seat lies under the hoop's lowest part",
            where=f"{where}.seat_below_edge",
            given=f"{seat:g} mm",
            wanted=f"at most {below:g} mm",
        )


def _check_washers(entry: Fitting, *, where: str) -> None:
    behind = entry.behind
    widest = max((hole.hole_mm for hole in entry.holes), default=0.0)
    if 0.0 < behind.washer_diameter_mm <= widest:
        raise BadInput(
            "the washer behind falls through the hole",
            where=f"{where}.behind.washer_diameter",
            given=f"{behind.washer_diameter_mm:g} mm",
            wanted=f"more than the hole, {widest:g} mm",
        )
    if (behind.washer_mm > 0.0) != (behind.washer_diameter_mm > 0.0):
        raise BadInput(
            "a washer behind needs its thickness and its diameter",
            where=f"{where}.behind",
            wanted='both, such as {washer = "1.2 mm", washer_diameter = "14 mm"}',
        )
    if (
        entry.kind is Kind.WASHER
        and entry.inside_mm is not None
        and entry.diameter_mm is not None
        and entry.inside_mm >= entry.diameter_mm
    ):
        raise BadInput(
            "the hole is as wide as the washer",
            where=f"{where}.hole",
            given=f"{entry.inside_mm:g} mm",
            wanted=f"less than its diameter, {entry.diameter_mm:g} mm",
        )
