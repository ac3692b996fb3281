"""What happened to the parts of a drum: put on, taken off, moved, no use again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from counterhoop.papers.facts import labels
from counterhoop.papers.handover_record import PartDone
from counterhoop.parts.ticked import Counted
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.shell.hole import Origin

OFF, ADDED_OFF = "taken off", "taken off, was added later"


def parts_done(left: Layout | None, counted: Sequence[Counted], *, bagged: bool) -> tuple[
    PartDone, ...
]:  # fmt: skip
    """Return what was done, part by part.

    Parameters
    ----------
    left : Layout or None
        The drum as it goes; None where no scheme was followed.
    counted : sequence of Counted
        Of the strip-down.
    bagged : bool
        Whether the original parts that came off go with the drum.
    """
    return (*(_by_scheme(left, bagged=bagged) if left else ()), *_by_count(counted))


def taken_off(left: Layout | None) -> str:
    """Return what came off for good, in words; nothing where nothing did."""
    if left is None:
        return ""
    off = [one.label for one in left.fittings if _gone(one, left)]
    return labels(off, numbered=False) if off else ""


def _by_scheme(left: Layout, *, bagged: bool) -> Iterable[PartDone]:
    moved = left.put_on_again
    new = [one for one in left.fittings if one.status == "new"]
    gone = {one.label for one in left.fittings if _gone(one, left)}
    for name in dict.fromkeys(one.fitting.name for one in new):
        mine = [one for one in new if one.fitting.name == name]
        again = [one.label for one in mine if one.label in moved]
        fresh = [one.label for one in mine if one.label not in moved]
        if again:
            yield PartDone(part=labels(again), done="moved", says="the drum's own")
        if fresh:
            for_old = [label for label in fresh if label in gone]
            done = "replaced" if for_old else "added"
            yield PartDone(part=labels(fresh), done=done, says=name)
    for hoop in left.hoops:
        if hoop.new:
            yield PartDone(part=f"{hoop.head} hoop", done="new", says=hoop.hoop.name)
    added = {one.label for one in left.drum.everything if one.origin is Origin.EXTRA}
    off = [one.label for one in left.fittings if _gone(one, left)]
    bag = "in the bag, yours" if bagged else ""
    for its, done in (
        ([one for one in off if one not in added], OFF),
        ([one for one in off if one in added], ADDED_OFF),
    ):
        if its:
            yield PartDone(part=labels(its), done=done, says=bag)


def _gone(one: FittingPlan, left: Layout) -> bool:
    return one.status == "goes" and one.label not in left.put_on_again


def _by_count(counted: Sequence[Counted]) -> Iterable[PartDone]:
    """Yield what the strip-down says of pieces: no use again, gone before it came."""
    spoilt: dict[str, int] = {}
    lost: dict[str, int] = {}
    for one in counted:
        piece = one.expected.sort.piece
        short = one.expected.count - (one.found or 0) if one.found is not None else 0
        spoilt[piece] = spoilt.get(piece, 0) + one.spoilt
        lost[piece] = lost.get(piece, 0) + max(0, short)
    for piece, many in spoilt.items():
        if many:
            yield PartDone(part=f"{many} x {piece}", done="no use again")
    for piece, many in lost.items():
        if many:
            yield PartDone(part=f"{many} x {piece}", done="missing as it came")
