"""Tick a hole while another bench ticks others: only about the same hole can two disagree."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from counterhoop.bench.folders.decide import tick
from counterhoop.bench.folders.folder import KeptDrum, kept_job
from counterhoop.bench.folders.ticks import ticks_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.scheme.plan import Scheme
from counterhoop.store.save import Saved

MOST_TRIES = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class TickedOtherwise:
    """Another bench has changed the tick of the very hole since; nothing was kept.

    Attributes
    ----------
    when, by : str
        The tick that stands there now; both empty when there is none.
    """

    when: str
    by: str

    @property
    def seen(self) -> str:
        """What a bench that looked at it sends back."""
        return seen_of({"when": self.when, "by": self.by} if self.when else None)


def tick_off(
    shop: Workshop, job_id: str, drum_id: str, *, scheme: Scheme, hole: int, done: bool, seen: str,
    by: str,
) -> KeptDrum | TickedOtherwise:  # fmt: skip
    """Tick a hole, or take its tick back, on top of whatever others ticked meanwhile.

    Parameters
    ----------
    seen : str
        The tick of this hole that the page showed, as ``seen_of`` has it.

    Returns
    -------
    KeptDrum or TickedOtherwise
        The drum with its ticks as they are now. A hole that another bench did meanwhile is done.

    Raises
    ------
    BadInput
        For a hole that the scheme has not got.
    CannotDo
        When others were quicker every time.
    """
    for _ in range(MOST_TRIES):
        drum = kept_job(shop, job_id).drum(drum_id)
        mark = ticks_of(drum, scheme=scheme).get(str(hole))
        if (mark is not None) == done:
            return drum
        if seen_of(mark) != seen:
            return TickedOtherwise(when=_word(mark, "when"), by=_word(mark, "by"))
        answer = tick(shop, job_id, drum, scheme=scheme, hole=hole, done=done, by=by)
        if isinstance(answer, Saved):
            return kept_job(shop, job_id).drum(drum_id)
    raise CannotDo("Several benches are ticking at once, and this tick was not kept: press again.")


def seen_of(mark: Any) -> str:
    """Return a tick as a page sends it back, to be known again; empty for none."""
    return f"{_word(mark, 'when')} {_word(mark, 'by')}" if isinstance(mark, dict) else ""


def _word(mark: Any, name: str) -> str:
    value = mark.get(name) if isinstance(mark, dict) else None
    return value if isinstance(value, str) else ""
