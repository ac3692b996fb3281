"""What was found of a drum, and what was done to it, in the client's words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from counterhoop.bench.change.found import FoundOnDrum
from counterhoop.bench.change.typed import ON_THE_WAY
from counterhoop.bench.folders.drum_state import DrumState
from counterhoop.bench.price.work_words import done_of
from counterhoop.papers.client_words import can_be_undone, cut_for_good, seen_afterwards
from counterhoop.papers.facts import Lengths, listed
from counterhoop.quantities.day import say_day
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.drum import Drum
from counterhoop.store.work_log.working import Working

BY_THE_LOG = "By the log of work: "
HARM = {"crack": "A crack", "lifted ply": "A lifted ply"}


def found_said(
    drum: Drum | None, later: FoundOnDrum, *, with_answers: bool = True
) -> tuple[str, ...]:
    """Return what harms a shell by its survey, then what was found on the way, a sentence each.

    Parameters
    ----------
    with_answers : bool
        Whether it is said who answered what.
    """
    said = []
    for line in drum.lines if drum else ():
        # What was found on the way stands in the survey too.
        if (name := HARM.get(line.kind)) and not line.says.startswith(ON_THE_WAY):
            words = line.says.rstrip(".")
            said.append(f"{name}: {words}." if words else f"{name}.")
    for one in later.stands:
        answer = later.answer_to(one) if with_answers else None
        day = f" on {say_day(one.on)}" if one.on else ""
        said.append(f"{one.says} Found on the way{day}{f'; {answer.words}' if answer else ''}.")
    return tuple(said)


def done_said(scheme: Scheme, left: Layout, *, say: Lengths) -> tuple[str, ...]:
    """Return what was done to a shell, as far as it was ticked."""
    as_done = replace(scheme, layout=left)
    cut = cut_for_good(as_done, say=say)
    said = [f"{_first(listed(cut))}."] if cut else []
    said += [line for line in can_be_undone(as_done) if line.startswith("Bolted on")]
    shows = seen_afterwards(as_done, say=say)
    return (*said, f"What shows of it: {shows}.") if cut else tuple(said)


def agreed_said(state: DrumState) -> tuple[str, ...]:
    """Return who said yes to what cannot be undone."""
    return tuple(
        f"{one.says()}{f', {one.how}' if one.how else ''}, to what cannot be undone."
        for one in state.yes
    )


def worked_said(rows: Iterable[Working], *, names: Iterable[str]) -> tuple[str, ...]:
    """Return what the log says was done on a drum, in one sentence.

    Parameters
    ----------
    names : iterable of str
        What the log calls the drum.
    """
    known = {*names}
    done: Counter[str] = Counter()
    for one in rows:
        if one.drum in known and not one.struck and not one.is_open:
            done[one.operation] += one.count
    each = done_of({name: max(1, many) for name, many in done.items()})
    return (f"{BY_THE_LOG}{'; '.join(each)}.",) if each else ()


def bag_said(bag: Any, *, off: str, spares: Iterable[tuple[str, str]], says: Iterable[str]) -> (
    tuple[str, ...]
):  # fmt: skip
    """Return what is in the bag, by what was ticked when it was packed.

    Parameters
    ----------
    bag : dict
        Of the hand-over: what was ticked.
    off : str
        The parts that came off for good.
    spares : iterable of (str, str)
        Under which tick a spare goes, and what it is.
    """
    table = bag if isinstance(bag, dict) else {}
    said = []
    if table.get("originals"):
        said.append(f"What came off: {off}." if off else "Original parts.")
    held: dict[str, list[str]] = {}
    for tick, what in spares:
        if table.get(tick):
            held.setdefault(tick, []).append(what)
    said += [f"Spare: {listed(each)}." for each in held.values()]
    for tick, what in PLAIN.items():
        if table.get(tick) and tick not in held:
            said.append(what)
    return (*said, *says)


PLAIN = {
    "screws": "Spare screws.", "washers": "Washers.", "rod": "One rod.",
    "small": "Spare nuts, gaskets, springs and inserts.",
}  # fmt: skip


def _first(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
