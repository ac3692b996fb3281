"""What a job lacks, in lines: for which drums, what lies on the shelf, what can be set aside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.bench.parts.wants_of_job import DrumLacks, Lack, SortLacking, ToSetAside
from counterhoop.bench.shelf.cards import card_of
from counterhoop.bench.shelf.of_fittings import Lying
from counterhoop.bench.shelf.whose import key_of, said
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.facts import count, listed
from counterhoop.papers.wants_list import places_of
from counterhoop.parts.movement import MovementKind
from counterhoop.store.shelf.look_up import Kept


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedLine:
    """One sort that a job lacks.

    Attributes
    ----------
    count, piece : int, str
    drums : tuple of (str, str)
        For which drum, and where it goes.
    state : str
        What is there for it, in words.
    lies : tuple of (Kept, int, str)
        Pieces on the shelf, how many of each are free, and what else to know.
    presses : tuple of ToSetAside
    to_find : int
    """

    count: int
    piece: str
    drums: tuple[tuple[str, str], ...]
    state: str
    lies: tuple[tuple[Kept, int, str], ...]
    presses: tuple[ToSetAside, ...]
    to_find: int


def wanted_lines(found: Sequence[SortLacking]) -> tuple[WantedLine, ...]:
    """Return the sorts that lack, those to find first."""
    lines = [
        WantedLine(
            count=one.count, piece=one.sort.piece,
            drums=tuple((lack.name, _for(lack)) for lack in one.lacks),
            state=_state(one),
            lies=tuple((lies.kept, lies.stock.free, _of_a_set(lies, one)) for lies in one.offered),
            presses=one.to_set_aside, to_find=one.to_find,
        )
        for one in found
    ]  # fmt: skip
    return tuple(sorted(lines, key=lambda line: not line.to_find))


def wanted_face(found: Sequence[SortLacking], drums: Sequence[DrumLacks]) -> str:
    """Say what a job lacks in one line."""
    total = sum(one.count for one in found)
    if not total:
        if any(one.wants.uncounted for one in drums):
            return "Nothing is wanted of what has been counted so far."
        return "Nothing is wanted."
    parts = [f"{count(total, 'piece')} of {count(len(found), 'sort')} wanted"]
    for number, words in (
        (sum(lack.used for one in found for lack in one.lacks), "fitted"),
        (sum(lack.aside for one in found for lack in one.lacks), "set aside"),
        (sum(one.free for one in found), "in stock"),
        (sum(one.to_find for one in found), "to find or buy"),
    ):
        if number:
            parts.append(f"{number} {words}")
    return f"{'; '.join(parts)}."


def _for(lack: Lack) -> str:
    spoilt = f"; {lack.want.spoilt} found, no use again" if lack.want.spoilt else ""
    return f"{places_of(lack.want)}{spoilt}"


def _state(one: SortLacking) -> str:
    parts = []
    for number, words in (
        (sum(lack.used for lack in one.lacks), "fitted"),
        (sum(lack.aside for lack in one.lacks), "set aside"),
        (sum(press.count for press in one.to_set_aside), "on the shelf"),
        (min(one.short, one.stock), "in the box by the workshop's figures"),
        (one.to_find, "to find or buy"),
    ):
        if number:
            parts.append(f"{number} {words}")
    if one.to_find and one.elsewhere:
        parts += [
            f"{count} on the shelf {'is' if count == 1 else 'are'} set aside for {whom}"
            for whom, count in one.elsewhere
        ]
    return listed(parts) if parts else "all there"


def _of_a_set(lies: Lying, one: SortLacking) -> str:
    return "a matched set, not parted for so few" if one.parts_a_set(lies) else ""


def not_moved(
    shop: Workshop, piece_id: str, *, kind: MovementKind, key: str, fault: BadInput
) -> str:
    """Say why a press moved nothing: the page that it stood on was of before.

    Raises
    ------
    BadInput
        When there is no such piece.
    """
    there = card_of(shop, piece_id)
    number, held = there.kept.piece.number, there.stock.set_aside.get(key, 0)
    if kind == "set aside" and held:
        free = f"{there.stock.free} more {'is' if there.stock.free == 1 else 'are'} free"
        return (
            f"{held} of number {number} {'is' if held == 1 else 'are'} set aside for"
            f" {said(shop, key)} already; {free if there.stock.free else 'no more is free'}."
        )
    step = f" {fault.step}." if fault.step else ""
    return f"Nothing was moved of number {number}: {fault.what}.{step}"


def key_for(job_id: str, one: ToSetAside) -> str:
    """Return for whom a press sets aside."""
    return key_of(job_id, one.drum)
