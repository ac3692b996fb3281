"""From an order to a better one: many small changes, each worked through.

Most of the lateness of a shop hangs on what keeps its air: lacquer that dries over a weekend
costs nothing, edges sanded between two coats cost a day. Hence changes that bring wet work
together and dust before it, and work that is held back on purpose.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice
from math import log
from typing import NamedTuple

import numpy as np

from counterhoop.job.schedule.numbered import Numbered
from counterhoop.job.schedule.worked import Worked, worked

Progress = Callable[[float], None]
Stop = Callable[[], bool]

WALKS = 6
"""So many starts are walked from; the other half of the effort goes on from the best of all."""
AGAIN = 3
HOT, COLD = 0.02, 0.0005
"""What is accepted for worse, as a share of the lateness with which a walk began."""
LEAST_LATE = 100 * 480 * 5
"""A walk from next to nothing late is as bold as from a working week late, in hundredths."""
ASKED_EVERY = 64
DRAWS = 5


class Found(NamedTuple):
    """An order worked through as ``work``, and by number what in it is held."""

    work: Worked
    held: list[bool]

    @property
    def value(self) -> tuple[int, int]:
        """What plans are compared by: lateness, then the finishes of all jobs."""
        return self.work.late, self.work.finish


def better_order(
    numbered: Numbered,
    starts: Sequence[Found],
    *,
    chance: np.random.Generator,
    decodings: int,
    progress: Progress,
    stop: Stop,
) -> Found:
    """Return the best order found from some, at least as good as the best of them.

    Parameters
    ----------
    numbered : Numbered
    starts : sequence of Found
        At least one, best first.
    chance : numpy.random.Generator
        The same chance finds the same order again.
    decodings : int
        How many orders are worked through.
    progress : callable
        Told the share that is done.
    stop : callable
        Asked now and then; where it answers true, the best so far is returned.

    Notes
    -----
    Simulated annealing (Kirkpatrick, Gelatt and Vecchi 1983, from memory): a change for the
    worse by d is kept with the chance exp(-d / T), T falling. How much worse is drawn before
    an order is worked through, so that this ends as soon as it is later than that.
    """
    best = starts[0]
    first = min(WALKS, len(starts))
    lengths = [decodings // (2 * first)] * first + [decodings // (2 * AGAIN)] * AGAIN
    before = 0
    for walk, length in enumerate(lengths):
        begin = starts[walk] if walk < first else best

        def share(done: int, since: int = before) -> None:
            progress((since + done) / max(decodings, 1))

        found = _walk(numbered, begin, chance=chance, length=length, progress=share, stop=stop)
        best = min(best, found, key=lambda one: one.value)
        before += length
        if stop() or best.value[0] == 0:
            break
    return best


def _walk(
    numbered: Numbered,
    begin: Found,
    *,
    chance: np.random.Generator,
    length: int,
    progress: Callable[[int], None],
    stop: Stop,
) -> Found:
    """Walk from one order, ever less willing to take a worse one."""
    best = here = begin
    hot = HOT * max(begin.work.late, LEAST_LATE)
    changes = Changes(numbered)
    for done in range(0, length, ASKED_EVERY):
        progress(done)
        if stop():
            break
        draws = chance.random((ASKED_EVERY, DRAWS)).tolist()
        for step, draw in enumerate(islice(draws, length - done)):
            bold = hot * (COLD / HOT) ** ((done + step) / length)
            most = here.work.late - int(bold * log(1.0 - draw[0]))
            order, held = changes.change(here.work.order, here.held, draw)
            work = worked(
                numbered, numbered.in_turn(order), held=held, minutes=numbered.minutes, most=most
            )
            if work.late <= most:
                here = Found(work, held)
                if here.value < best.value:
                    best = here
    return best


class Changes:
    """Small changes of an order, picked by numbers between 0 and 1."""

    def __init__(self, numbered: Numbered) -> None:
        self._job = numbered.job
        self._air = [
            one for one in range(len(numbered.keys)) if numbered.dust[one] or numbered.wet[one]
        ]

    def change(
        self, order: list[int], held: list[bool], draw: Sequence[float]
    ) -> tuple[list[int], list[bool]]:
        """Return an order and what is held in it, changed in one way."""
        _, kind, where, how, far = draw
        count = len(order)
        place = int(where * count)
        one = order[place]
        if kind < 0.15:
            changed = list(held)
            waiting = [each for each in order if held[each]]
            if waiting and how < 0.6:
                changed[waiting[int(where * len(waiting))]] = False
                return order, changed
            changed[one] = True
            return self._moved(order, place, place + int(far * 12)), changed
        if kind < 0.35:
            return self._pulled(order, place, int(far * far * 40) + 1, rest=how < 0.6), held
        if kind < 0.45:
            return self._pushed(order, place, int(far * far * 40) + 1), held
        if kind < 0.55:
            return self._swapped(order, place, self._job[order[int(how * count)]], far < 0.5), held
        if kind < 0.65 and len(self._air) > 1:
            one = self._air[int(where * len(self._air))]
            beside = order.index(self._air[int(how * len(self._air))])
            return self._pulled_to(order, order.index(one), beside, rest=False), held
        reach = int(far * far * count / 2) + 1
        return self._moved(order, place, place + (reach if how < 0.5 else -reach)), held

    def _moved(self, order: list[int], place: int, to: int) -> list[int]:
        """Move one piece of work."""
        changed = list(order)
        changed.insert(max(0, to), changed.pop(place))
        return changed

    def _pulled(self, order: list[int], place: int, by: int, *, rest: bool) -> list[int]:
        """Bring work of one job forward together."""
        return self._pulled_to(order, place, max(0, place - by), rest=rest)

    def _pulled_to(self, order: list[int], place: int, to: int, *, rest: bool) -> list[int]:
        """Bring work forward to a place with all of its job on the way, and the rest of it."""
        if to >= place:
            return self._moved(order, place, to)
        job, its = self._job, self._job[order[place]]
        until = len(order) if rest else place + 1
        window = order[to:until]
        return [
            *order[:to],
            *(one for one in window if job[one] == its),
            *(one for one in window if job[one] != its),
            *order[until:],
        ]

    def _pushed(self, order: list[int], place: int, by: int) -> list[int]:
        """Put work of one job off together."""
        job, its = self._job, self._job[order[place]]
        until = place + 1 + by
        window = order[place:until]
        return [
            *order[:place],
            *(one for one in window if job[one] != its),
            *(one for one in window if job[one] == its),
            *order[until:],
        ]

    def _swapped(self, order: list[int], place: int, other: int, first: bool) -> list[int]:
        """From a place on, let all of one job have the turns of both jobs before the other."""
        job, its = self._job, self._job[order[place]]
        turns = [at for at in range(place, len(order)) if job[order[at]] in (its, other)]
        work = sorted((order[at] for at in turns), key=lambda one: (job[one] == its) is first)
        changed = list(order)
        for at, one in zip(turns, work, strict=True):
            changed[at] = one
        return changed
