"""The pitches of a kit: what the player wishes, within what each drum and its castings can do."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from counterhoop.heads import kit_words as words
from counterhoop.heads.air import air_at
from counterhoop.heads.even_steps import Range, even_steps, stuck_at
from counterhoop.heads.kit import KitDrum, KitPlan, PitchWish, PlannedDrum, WishedPitch, check_kit
from counterhoop.heads.mode import Standing
from counterhoop.heads.planned_head import planned_head
from counterhoop.heads.rising_order import rising_order
from counterhoop.heads.working_range import Voice
from counterhoop.quantities.print_pitch import cents, moved_hz, print_pitch

_REACHED_CENTS = 1.0
"""A wish that is off what a drum can do by less is met."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ranged:
    voice: Voice
    tensions: tuple[float, float]
    low_hz: float
    high_hz: float
    fixed_hz: float | None = None

    @property
    def name(self) -> str:
        return self.voice.drum.name

    @property
    def middle_hz(self) -> float:
        return math.sqrt(self.low_hz * self.high_hz)

    def range(self, a4_hz: float) -> Range:
        if self.fixed_hz is not None:
            at = round(cents(self.fixed_hz, above_hz=a4_hz))
            return Range(low=at, high=at, middle=at)
        low = math.ceil(cents(self.low_hz, above_hz=a4_hz))
        return Range(
            low=low,
            high=max(math.floor(cents(self.high_hz, above_hz=a4_hz)), low),
            middle=round(cents(self.middle_hz, above_hz=a4_hz)),
        )


def kit_plan(drums: Sequence[KitDrum], wish: PitchWish | None = None) -> KitPlan:
    """Return pitches for a kit of 1 to 8 drums.

    Parameters
    ----------
    drums : sequence of KitDrum
        In any order.
    wish : PitchWish, optional
        What the player wishes; nothing, if left out.

    Returns
    -------
    KitPlan
        The larger a drum the lower: they rise as the lowest pitches that they can do, whatever
        castings or wishes hold one back. Where nothing fits so, they rise in the order that
        differs least from it (``rising_order``), and the plan says so. In that order
        steps are as even as they can be, then each drum as near the middle of its range as can
        be, in whole cents; proven best, for the choice is exact (``even_steps``). Where the wish
        cannot be met in any order a ``refusal`` says which drum and what would do.

    Raises
    ------
    BadInput
        For a kit or a wish that cannot be read: see ``check_kit``.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> thick, thin = film_head(254e-6), film_head(190.5e-6)
    >>> kit = [KitDrum(name=name, radius_m=across * 0.0127, depth_m=deep * 0.0254, batter=thick,
    ...                resonant=thin, rods=rods)
    ...        for name, across, deep, rods in (("small", 12, 8, 6), ("floor", 16, 16, 8))]
    >>> plan = kit_plan(kit)
    >>> [drum.name for drum in plan.drums], plan.refusal
    (['floor', 'small'], '')
    """
    drums, wish = tuple(drums), wish or PitchWish()
    check_kit(drums, wish)
    left_out = tuple(words.calf_left_out(drum) for drum in drums if _has_calf(drum))
    ranged: list[_Ranged] = []
    for drum in drums:
        if _has_calf(drum):
            continue
        found = _ranged(drum, wish)
        if isinstance(found, str):
            return KitPlan(refusal=found, left_out=left_out)
        ranged.append(found)
    if not ranged:
        return KitPlan(left_out=left_out, refusal=words.NOTHING_TO_PLAN)
    ends = _ends(ranged, wish)
    wished = _wished(ranged, wish, ends)
    if isinstance(wished, str):
        return KitPlan(refusal=wished, left_out=left_out)
    ranges = [one.range(wish.a4_hz) for one in wished]
    order = rising_order(
        ranges, least=wish.least_step_cents, first=bool(ends[0]), last=bool(ends[1])
    )
    if order is None:
        stuck = stuck_at(ranges, least=wish.least_step_cents)
        return KitPlan(refusal=_stuck(wished, stuck, wish), left_out=left_out)
    wished = [wished[place] for place in order]
    chosen = even_steps([ranges[place] for place in order], least=wish.least_step_cents) or ()
    planned = tuple(_planned(one, at, wish) for one, at in zip(wished, chosen, strict=True))
    steps = tuple(high - low for low, high in pairwise(chosen))
    return KitPlan(
        drums=planned, steps_cents=steps, left_out=left_out,
        says=tuple(words.of_plan(steps, heard=wish.heard, out_of_order=_turned(wished))),
    )  # fmt: skip


def _turned(wished: Sequence[_Ranged]) -> list[tuple[str, str]]:
    """Neighbours of which the lower one is the smaller drum: the lower, the upper."""
    return [(low.name, up.name) for low, up in pairwise(wished) if low.low_hz > up.low_hz]


def _has_calf(drum: KitDrum) -> bool:
    return drum.batter.calf or (drum.resonant is not None and drum.resonant.calf)


def _ranged(drum: KitDrum, wish: PitchWish) -> _Ranged | str:
    bottom = wish.bottom_cents if drum.bottom_cents is None else drum.bottom_cents
    air = wish.air or air_at()
    voice = Voice(drum=drum, bottom_cents=bottom, heard=wish.heard, air=air)
    low, high = voice.tensions()
    if low > high:
        return words.no_range(voice)
    return _Ranged(voice=voice, tensions=(low, high), low_hz=voice.hz(low), high_hz=voice.hz(high))


def _ends(ranged: Sequence[_Ranged], wish: PitchWish) -> tuple[str, str]:
    """The drums that are to be the lowest and the highest that were wished for, or ""."""
    lowest, highest = wish.lowest, wish.highest
    names = [one.name for one in ranged]
    first = lowest.drum if lowest else ""
    last = highest.drum if highest else ""
    rising = sorted(ranged, key=_size)
    if lowest is not None and not first:
        others = [one for one in rising if one.name != last] or rising
        goes_down = (
            one for one in others
            if cents(_span(one, lowest, wish)[0], above_hz=lowest.hz) <= _REACHED_CENTS
        )  # fmt: skip
        first = next(goes_down, others[0]).name
    if highest is not None and not last:
        others = [one for one in reversed(rising) if one.name != first] or rising
        goes_up = (
            one for one in others
            if cents(highest.hz, above_hz=_span(one, highest, wish)[1]) <= _REACHED_CENTS
        )  # fmt: skip
        last = next(goes_up, others[0]).name
    return (first if first in names else "", last if last in names else "")


def _size(one: _Ranged) -> tuple[float, float, str]:
    """By this drums rise: how low each goes with slack heads, whatever its castings stand."""
    return one.low_hz, one.middle_hz, one.name


def _span(one: _Ranged, want: WishedPitch, wish: PitchWish) -> tuple[float, float]:
    """What a drum can do, as a wished pitch names it."""
    if (want.heard or wish.heard) == wish.heard:
        return one.low_hz, one.high_hz
    voice = replace(one.voice, heard=want.heard or wish.heard)
    return voice.hz(one.tensions[0]), voice.hz(one.tensions[1])


def _wished(
    ranged: Sequence[_Ranged], wish: PitchWish, ends: tuple[str, str]
) -> list[_Ranged] | str:
    """The drums by rising pitch, those that were wished for settled; or what is wrong."""
    named = {one.name: one for one in ranged}
    first, last = ends
    fixed: dict[str, float] = {}
    wants = [(want.drum, want) for want in wish.as_heard]
    wants += [
        (end, want)
        for end, want in zip(ends, (wish.lowest, wish.highest), strict=True)
        if end and want is not None
    ]
    for name, want in wants:
        if name not in named:
            continue
        hz = _as_named(named[name], want, wish)
        if isinstance(hz, str):
            return hz
        before = fixed.setdefault(name, hz)
        if abs(cents(hz, above_hz=before)) > _REACHED_CENTS:
            return words.wished_twice(name, before, hz, a4_hz=wish.a4_hz)

    def place(one: _Ranged) -> tuple[int, float, float, str]:
        end = int(bool(last) and one.name == last) - int(bool(first) and one.name == first)
        return end, one.low_hz, fixed.get(one.name, one.middle_hz), one.name

    return [replace(one, fixed_hz=fixed.get(one.name)) for one in sorted(ranged, key=place)]


def _as_named(one: _Ranged, want: WishedPitch, wish: PitchWish) -> float | str:
    """The wished pitch of a drum as this kit names pitches; or why the drum cannot have it."""
    voice = replace(one.voice, heard=want.heard or wish.heard)
    low, high = one.tensions
    low_hz, high_hz = _span(one, want, wish)
    below = cents(low_hz, above_hz=want.hz) > _REACHED_CENTS
    if below or cents(want.hz, above_hz=high_hz) > _REACHED_CENTS:
        return words.out_of_reach(voice, want.hz, low_hz=low_hz, high_hz=high_hz, a4_hz=wish.a4_hz)
    if voice.heard == wish.heard:
        return want.hz
    return one.voice.hz(voice.batter_n_per_m(want.hz, low=low, high=high))


def _stuck(wished: list[_Ranged], stuck: tuple[int, int], wish: PitchWish) -> str:
    upper, lower = (wished[place] for place in stuck)
    return words.too_close(
        upper.name, lower.name, steps=stuck[0] - stuck[1], least_cents=wish.least_step_cents,
        upper_hz=upper.fixed_hz or upper.high_hz, upper_wished=upper.fixed_hz is not None,
        lower_hz=lower.fixed_hz or lower.low_hz, lower_wished=lower.fixed_hz is not None,
        heard=wish.heard, a4_hz=wish.a4_hz,
    )  # fmt: skip


def _planned(one: _Ranged, at: int, wish: PitchWish) -> PlannedDrum:
    voice, (low, high) = one.voice, one.tensions
    hz = one.fixed_hz or moved_hz(wish.a4_hz, cents=float(at))
    batter = min(max(voice.batter_n_per_m(hz, low=low, high=high), low), high)
    resonant = voice.resonant_n_per_m(batter)
    middle_hz = voice.middle_hz(batter)
    heads = [planned_head(voice, "batter", batter, a4_hz=wish.a4_hz)]
    if resonant is not None:
        heads.append(planned_head(voice, "resonant", resonant, a4_hz=wish.a4_hz))
    note = print_pitch(middle_hz, a4_hz=wish.a4_hz)
    standing = Standing.UNCHECKED if resonant is None else Standing.CHECKED
    return PlannedDrum(
        name=one.name,
        middle_hz=middle_hz,
        note=note,
        low_hz=one.low_hz,
        high_hz=one.high_hz,
        wished=one.fixed_hz is not None,
        batter=heads[0],
        resonant=heads[1] if resonant is not None else None,
        standing=standing,
        says=tuple(words.of_drum(note, two=resonant is not None, standing=standing)),
    )
