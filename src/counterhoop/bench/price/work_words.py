"""The agreed work of a drum in one line, for the client: what was done, not how it was reckoned."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Final

from counterhoop.bench.price.kept_quote import Accepted
from counterhoop.job.price.in_one import WorkOf
from counterhoop.job.price.line import Kind, QuoteLine
from counterhoop.quantities.day import say_day
from counterhoop.scheme.phrases import counted, listed

DONE: Final[tuple[tuple[str, Mapping[str, str]], ...]] = (
    ("taken apart", {"strip a drum": ""}),
    ("cleaned", {
        "soak and clean a lug": "lug", "clean a hoop": "hoop", "clean a rod": "rod",
        "chase a thread": "thread", "clean a shell": "shell",
    }),
    ("freed of rust", {"de-rust a fitting": "fitting"}),
    ("polished", {"polish a lug": "lug", "polish a hoop": "hoop", "polish a finish": "finish"}),
    ("silenced", {"silence a lug spring": "lug spring"}),
    ("taken off", {"take a wrap off": "old wrap"}),
    ("glued", {"glue a lifted ply": "lifted ply", "glue a seam": "seam", "glue in a ring": "ring"}),
    ("laid down", {"lay a lifted wrap down": "lifted place of wrap"}),
    ("plugged", {"plug a hole": "hole"}),
    ("sawn off", {"cut an end off": "end"}),
    ("trued", {"true an edge": "edge"}),
    ("cut", {"make an edge": "bearing edge", "cut a snare bed": "snare bed"}),
    ("drilled", {"drill a hole": "hole"}),
    ("made larger", {"enlarge a hole": "hole"}),
    ("made longer", {"slot a hole": "hole"}),
    ("wrapped anew", {"wrap a shell": ""}),
    ("lacquered", {"lacquer": ""}),
    ("painted", {"paint": ""}),
    ("touched in", {"touch in a patch": "patch"}),
    ("put on", {
        "fit a lug": "lug", "fit a bracket": "bracket", "fit strainer and butt": "strainer",
        "fit a cover plate": "cover plate",
    }),
    ("put together", {"put on hoop and head": ""}),
    ("tuned", {"tune a drum": ""}),
)  # fmt: skip
"""What operations of the book make of a drum, in the order of the trade; each noun is counted."""
GOES_WITHOUT: Final = frozenset(
    {
        "photograph and book in", "survey a drum", "lay out a row", "refit a lug",
        "refit a fitting", "pack a drum",
    }
)  # fmt: skip
"""Operations that a client takes to be in the others."""
PLURALS: Final = {"lifted ply": "lifted plies", "lifted place of wrap": "lifted places of wrap"}
WORK: Final = "work: "


def works_agreed(accepted: Accepted) -> tuple[WorkOf, ...]:
    """Return how an invoice says the work of an accepted offer, a row for each drum."""
    names = {one.id: one.name for one in accepted.offer.drums}
    return works_said(accepted.offer.quote.lines, names, agreed=accepted.yes.when)


def works_said(
    lines: Iterable[QuoteLine], names: Mapping[str, str], *, agreed: dt.date | None = None
) -> tuple[WorkOf, ...]:
    """Return how the work of each drum is said in one row.

    Parameters
    ----------
    lines : iterable of QuoteLine
        Of the quote; struck ones are not said.
    names : mapping of str to str
        What drums are called, by their names for programs.
    agreed : datetime.date, optional
        On which day the client said yes to its price.
    """
    kept = [line for line in lines if line.counts and line.kind is Kind.WORK]
    on = f", as agreed on {say_day(agreed)}" if agreed else ""
    its = {drum: [ln for ln in kept if ln.key.startswith(f"{drum}/")] for drum in names}
    return tuple(
        WorkOf(drum=drum, says=f"Work on the {name}{on}: {_done(its[drum], f'{name}: ')}")
        for drum, name in names.items()
        if its[drum]
    )


def each_done(lines: Iterable[QuoteLine], name: str) -> tuple[str, ...]:
    """Return what is done on a drum and put on it, line by line; what goes without is not said."""
    said = []
    for line in lines:
        own = line.key.partition("/")[2]
        if not line.counts or own.removeprefix(WORK) in GOES_WITHOUT:
            continue
        work = line.kind is Kind.WORK
        said.append(_done([line], f"{name}: ") if work else line.stands.says)
    return tuple(said)


def _done(lines: Iterable[QuoteLine], before: str) -> str:
    counts: dict[str, int] = {}
    own = []
    for line in lines:
        name = line.key.partition("/")[2].removeprefix(WORK)
        says = line.stands.says.removeprefix(before)
        if says == name:
            counts[name] = line.stands.count
        else:
            own.append(says)
    said = [*done_of(counts), *own]
    return listed(said) if said else "looked over"


def done_of(counts: Mapping[str, int]) -> tuple[str, ...]:
    """Return operations of the book as what was done, in the order of the trade; own ones last.

    Examples
    --------
    >>> done_of({"soak and clean a lug": 12, "strip a drum": 1, "pack a drum": 1, "wax": 1})
    ('taken apart', '12 lugs cleaned', 'wax')
    """
    rest, said = dict(counts), []
    for verb, nouns in DONE:
        there = [(noun, rest.pop(name)) for name, noun in nouns.items() if name in rest]
        if there:
            said.append(" ".join([*_things(there), verb]))
    return (*said, *(name for name in rest if name not in GOES_WITHOUT))


def _things(there: Iterable[tuple[str, int]]) -> list[str]:
    nouns = [_counted(count, noun) for noun, count in there if noun]
    return [listed(nouns)] if nouns else []


def _counted(count: int, noun: str) -> str:
    plural = PLURALS.get(noun)
    return counted(count, noun) if plural is None or count == 1 else f"{count} {plural}"
