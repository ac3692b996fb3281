"""The same taps recorded again with the phone in another place, and whether they belong together.

From one place an even head sounds like one whose tight axis runs through the phone: there one of
its two pitches lies still. From a second place an eighth of the way round both are heard.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.bench.tune.rods_at import RodAt
from counterhoop.bench.tune.rods_tapped import matched, miscounted
from counterhoop.listen.read_round_rim import FEWEST_TAPS, read_round_rim
from counterhoop.listen.refuse import refuse
from counterhoop.listen.rim_words import too_few
from counterhoop.listen.round_rim import RimReading, Tap
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

ONE_HEAD_CENTS = 100.0
"""Further apart no one head is heard from two places: a split that wide nobody leaves on a drum."""
OTHER_PITCH = (
    "It rings at another pitch than the first: was the other head tapped, or a rod turned between "
    "them? It is left out. Tap round again from both places without turning anything."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Also:
    """A recording of the same taps with the phone in another place.

    Attributes
    ----------
    data, name :
        The file, and what it is called.
    rods, first_rod, back, phone_deg :
        As in ``listened``.
    """

    data: bytes
    name: str = ""
    rods: Sequence[int | None] | None = None
    first_rod: int = 1
    back: bool = False
    phone_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PhonePlace:
    """Taps as they were heard from one place.

    Attributes
    ----------
    sound, strokes : Sound, tuple of Stroke
    near : tuple of int or None
        The rod of each stroke, as ``matched`` has it.
    phone_deg : float or None
    refusal : str
        Why nothing can be read in it; "" where something can.
    """

    sound: Sound
    strokes: tuple[Stroke, ...]
    near: tuple[int | None, ...]
    phone_deg: float | None = None
    refusal: str = ""

    @property
    def used(self) -> list[tuple[Stroke, int]]:
        """Strokes of use, each with its rod."""
        pairs = zip(self.strokes, self.near, strict=True)
        return [(one, rod) for one, rod in pairs if not one.dropped and rod is not None]

    def taps(self, rods: Sequence[RodAt]) -> list[Tap]:
        """Return its strokes of use as taps near rods."""
        at = {rod.number: rod.along_deg for rod in rods}
        return [Tap(rod=rod, along_deg=at[rod], stroke=stroke) for stroke, rod in self.used]


def another_place(
    also: Also, *, sound: Sound, strokes: tuple[Stroke, ...], count: int
) -> PhonePlace:
    """Return a further place, refused where its taps are too few or do not come out even.

    Parameters
    ----------
    count : int
        How many rods the head has.
    """
    near = matched(strokes, count=count, rods=also.rods, first_rod=also.first_rod, back=also.back)
    place = PhonePlace(sound=sound, strokes=strokes, near=tuple(near), phone_deg=also.phone_deg)
    refusal = refuse(sound, strokes)
    if not refusal and also.rods is None:
        refusal = miscounted(strokes, count=count)
    if not refusal and len(place.used) < FEWEST_TAPS:
        refusal = too_few(len(place.used))
    return PhonePlace(
        sound=sound, strokes=strokes, near=place.near, phone_deg=also.phone_deg, refusal=refusal
    )


def read_from(
    places: Sequence[PhonePlace], *, rods: Sequence[RodAt], near_hz: float | None
) -> RimReading:
    """Read taps from all places of the phone together."""
    first, *more = places
    return read_round_rim(
        first.sound,
        first.taps(rods),
        also=[(place.sound, place.taps(rods)) for place in more],
        near_hz=near_hz,
        phone_deg=[place.phone_deg for place in places],
    )


def belongs(alone: RimReading, place: PhonePlace, *, rods: Sequence[RodAt]) -> bool:
    """Tell whether a further place heard the head that the first one heard.

    Two pitches of two heads, put together, would be taken for those of one that is uneven.
    """
    there = read_from([place], rods=rods, near_hz=None)
    if alone.mean_hz is None or there.mean_hz is None:
        return True
    return abs(1200.0 * math.log2(there.mean_hz / alone.mean_hz)) < ONE_HEAD_CENTS
