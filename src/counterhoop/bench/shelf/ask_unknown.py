"""What a part is, asked in one line: what a colleague would answer."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, Literal

from counterhoop.bench.shelf.known import candidates_for
from counterhoop.bench.shelf.unknown import Told, told_of, what_is_it
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.book import name_key
from counterhoop.fittings.entry import Kind
from counterhoop.fittings.read_book import packaged_book
from counterhoop.parts.asked import Asked, asked
from counterhoop.parts.of_thread import of_thread
from counterhoop.parts.unknown.candidate import Candidates, candidates_of
from counterhoop.parts.unknown.odds import Seen
from counterhoop.quantities.nearest import did_you_mean

MOST_SAID: Final = 3


def ask_unknown(
    line: str, *, kind: str = "", seen: str = "", units: Literal["mm", "in"] = "mm",
    shop: Workshop | None = None,
) -> str:  # fmt: skip
    """Return what a part is as far as it is known, and what to measure next.

    Parameters
    ----------
    line : str
        Its measurements, as ``parts.asked`` reads them.
    kind : str
        What it looks like: "lug".
    seen : str
        Its finish where the book or the shelf knows such a finish, else its material.
    units : {"mm", "in"}
        What a length is in that has no unit.
    shop : Workshop, optional
        Whose own book and shelf it is held against; the packaged book alone where none is given.

    Raises
    ------
    BadInput
        For what is no measurement, or a kind that nobody has.

    Examples
    --------
    >>> print(ask_unknown("holes apart 42.1, base high 61.8 mm", kind="lug").splitlines()[1])
    It is almost surely Corvane round bass lug.
    """
    read = _with_threads(asked(line, units=units))
    kind = _kind(read, kind)
    if shop is None:
        book = packaged_book()
        candidates = candidates_of(book)
        looks = _seen(seen, kind=kind, candidates=candidates)
        told = told_of(read.measures, candidates, seen=looks, book=book)
        told = replace(told, odds=replace(told.odds, against="the book"))
    else:
        looks = _seen(seen, kind=kind, candidates=candidates_for(shop))
        told = what_is_it(shop, read.measures, seen=looks)
    if kind and name_key(kind) not in map(name_key, told.kinds):
        raise BadInput(
            "nothing of this kind in the book or on the shelf", where="kind", given=kind,
            wanted="a kind of the fittings book", step=did_you_mean(kind, told.kinds),
        )  # fmt: skip
    return "\n".join(_lines(read, told))


def _with_threads(read: Asked) -> Asked:
    """Return it with each thread's name taken for its pitch and what it measures across."""
    measures, words = list(read.measures), []
    for word in read.words:
        its = of_thread(word)
        words += [] if its else [word]
        taken = {one.dimension for one in measures}
        measures += [one for one in its if one.dimension not in taken]
    return replace(read, words=tuple(words), measures=tuple(measures))


def _lines(read: Asked, told: Told) -> list[str]:
    found, leader = told.odds, told.leader
    taken = f"Read: {'; '.join(read.read_as)}." if read.measures else "Nothing measured yet."
    lines = [taken, found.says]
    if leader is not None:
        lines += [f"  {penalty.says}" for penalty in leader.penalties]
    if not found.nothing_fits:
        several = found.ranked[:MOST_SAID] if read.measures else ()
        lines += [f"  {_percent(one.odds)} {one.candidate.name}" for one in several]
        lines += [f"  {_percent(found.none)} none of {found.against}"]
    if told.offered:
        lines.append(f"Next: {told.offered[0].says}")
    if told.too_alike and read.measures:
        lines.append(told.too_alike)
    if told.left_out:
        lines.append(f"{told.left_out} older pieces of the shelf were not held against it.")
    return lines


def _percent(odds: float) -> str:
    if odds > 0.99:
        return ">99 %"
    return f"{100.0 * odds:3.0f} %" if odds >= 0.01 else " <1 %"


def _kind(read: Asked, kind: str) -> str:
    """Return the kind: said by itself, or the one word among the measurements that is no number."""
    if read.unread:
        raise BadInput(read.unread[0].rstrip("."))
    rest = " ".join(read.words)
    if not rest or (kind and name_key(rest) == name_key(kind)):
        return kind
    if not kind and rest in {one.value for one in Kind}:
        return rest
    raise BadInput(
        "neither a measurement nor a kind of part", given=rest,
        wanted='"holes apart 42.5" "24 tpi"',
        step="What it looks like is said by --kind and --seen",
    )  # fmt: skip


def _seen(seen: str, *, kind: str, candidates: Candidates) -> Seen:
    finishes = {name_key(one.finish) for one in candidates if one.finish}
    if name_key(seen) in finishes:
        return Seen(kind=kind, finish=seen)
    return Seen(kind=kind, material=seen)
