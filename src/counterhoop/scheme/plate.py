"""What holds a cover plate: screws in sound holes and new ones; the rest stay open under it."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.development.web import web
from counterhoop.scheme.draft import Cut, Draft
from counterhoop.scheme.phrases import listed
from counterhoop.shell.hole import Hole

LEAST_SCREWS = 2  # common practice, no source: one screw lets a plate turn


def held_by_sound_holes(before: Draft, after: Draft) -> Draft:
    """Leave out a plate's screw that falls on a hole which cannot hold it.

    Two screws hold a plate, so a broken hole under it may stay as it is. With fewer, that hole is
    plugged and drilled again.

    Parameters
    ----------
    before, after : Draft
        Without the plate, and with it as the last row put on.
    """
    numbers = after.rows[-1].wanted.over
    holes = [hole for hole in after.ground.holes if hole.number in numbers]
    screws = len(after.uses) - len(before.uses)
    new = after.cuts[len(before.cuts) :]
    falls = {cut: [h for h in holes if _meets(cut, h, after)] for cut in new}
    idle = [cut for cut, met in falls.items() if met]
    if not idle:
        return _open(after, numbers)
    lost = {hole.number for cut in idle for hole in falls[cut]}
    if screws + len(new) - len(idle) < LEAST_SCREWS:
        return _open(after, tuple(n for n in numbers if n not in lost))
    named = listed([str(n) for n in sorted(lost)])
    says = (
        f"The plate is held by {screws + len(new) - len(idle)} screws:"
        f" {'hole' if len(lost) == 1 else 'holes'} {named} cannot hold one and"
        f" {'stays' if len(lost) == 1 else 'stay'} open under it."
    )
    cuts = (*before.cuts, *(cut for cut in new if cut not in idle))
    return _open(replace(after, cuts=cuts), numbers).saying(says).only_here(says)


def _open(draft: Draft, numbers: tuple[int, ...]) -> Draft:
    return replace(draft, open_under=(*draft.open_under, *numbers))


def _meets(cut: Cut, hole: Hole, draft: Draft) -> bool:
    return web(cut.place, cut.shape, hole.place, hole.shape, flat=draft.ground.flat).least_mm <= 0.0
