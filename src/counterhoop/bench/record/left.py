"""A drum as it goes: its scheme, as far as the ticks of the hole list say that it was done."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.ticks import ticks_of
from counterhoop.scheme.code import PERMANENT
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import HolePlan, Verdict


def ticked(drum: KeptDrum, scheme: Scheme) -> frozenset[int]:
    """Return the holes that are done; a plug that was drilled through was done before that."""
    said = ticks_of(drum, scheme=scheme)
    done = {plan.number for plan in scheme.layout.holes if str(plan.number) in said}
    for plan in scheme.layout.holes:
        if plan.number in done:
            done.update(plan.through)
    return frozenset(done)


def not_ticked(layout: Layout, done: Collection[int]) -> tuple[int, ...]:
    """Return the holes of a scheme that are to be cut or closed, and that nobody ticked."""
    return tuple(
        plan.number
        for plan in layout.holes
        if plan.verdict in PERMANENT and plan.number not in done
    )


def as_left(layout: Layout, done: Collection[int]) -> Layout:
    """Return the drum as a scheme leaves it, without what is not ticked.

    A hole that was to be made is not there; an old one is open as it was found.
    """
    undone = {*not_ticked(layout, done)}
    kept = (plan if plan.number not in undone else _undone(plan) for plan in layout.holes)
    return replace(layout, holes=tuple(plan for plan in kept if plan is not None))


def _undone(plan: HolePlan) -> HolePlan | None:
    if plan.old is None or plan.verdict.drills:
        return None
    return replace(
        plan, verdict=Verdict.LEAVE_OPEN, new=plan.old, new_place=None, plug_mm=None,
        plug_place=None, backing_washer_mm=None, serves="", of="",
    )  # fmt: skip
