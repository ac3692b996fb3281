"""The one question that a search asks the database, put together for what is looked for.

No text that anybody typed goes into it but as a parameter. Both databases take it as it is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from sqlalchemy import Connection, text

ENOUGH = 5000
"""How far is counted to see what is rare: more is common."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A measurement that is looked for, in whole nanometres."""

    dimension: str
    value_nm: int
    doubt_nm: int


Wanted: TypeAlias = int | Asked
"""A word by its number, or a measurement."""

Rarity: TypeAlias = Mapping[Wanted, int]
"""Of how many pieces something that is wanted is true."""


@dataclass(slots=True)
class _Question:
    """Parts of one question; each value gets a name of its own."""

    before: str = ""
    tables: list[str] = field(default_factory=list)
    where: list[str] = field(default_factory=list)
    off: list[str] = field(default_factory=list)
    values: dict[str, Any] = field(default_factory=dict)

    def value(self, given: int | str) -> str:
        name = f"v{len(self.values)}"
        self.values[name] = given
        return f":{name}"


def how_many(connection: Connection, *, words: Sequence[int], measures: Sequence[Asked]) -> Rarity:
    """Return how many pieces have each word and measurement, counted up to a few thousand."""
    wanted: list[Wanted] = [*words, *measures]
    found: dict[Wanted, int] = dict.fromkeys(wanted, 0)
    if len(wanted) < 2:
        return found
    for one in wanted:
        question = _Question()
        _look_through(question, one)
        inner = f"SELECT 1 FROM {_joined(question)} WHERE {' AND '.join(question.where)}"
        counting = f"{question.before}SELECT count(*) FROM ({inner} LIMIT {ENOUGH}) AS few"
        found[one] = connection.execute(text(counting), question.values).scalar_one()
    return found


def entries_that_fit(
    connection: Connection, *, words: Sequence[int], fit: Sequence[Asked],
    not_taken: Sequence[Asked], rarity: Rarity, client: str | None, only_free: bool,
    with_hidden: bool, limit: int,
) -> list[tuple[int, int]]:  # fmt: skip
    """Return entry and thousandths off of the pieces that have all the words and measurements.

    Parameters
    ----------
    connection : sqlalchemy.Connection
    words : sequence of int
        Numbers of the words.
    fit, not_taken : sequence of Asked
        What fits, and what was not taken on them.
    rarity : Rarity
        Of all of these.
    client, only_free, with_hidden, limit :
        As for ``find``.

    Returns
    -------
    list of tuple of int
        The least off first, and of equal ones the last that came.
    """
    question = _Question()
    wanted: list[Wanted] = [*words, *fit]
    first = min(wanted, key=lambda one: rarity[one], default=None)
    _look_through(question, first)
    for one in fit:
        if one != first:
            _also_fits(question, one)
    for number in words:
        if number != first:
            its = f"w.word_id = {question.value(number)} AND w.entry = c.entry"
            question.where.append(f"EXISTS (SELECT 1 FROM piece_word AS w WHERE {its})")
    for one in not_taken:
        its = f"u.entry = c.entry AND u.dimension = {question.value(one.dimension)}"
        question.where.append(f"NOT EXISTS (SELECT 1 FROM piece_measure AS u WHERE {its})")
    _may_be_had(question, client=client, only_free=only_free, with_hidden=with_hidden)
    off = " + ".join(question.off) or "0"
    order = "off, c.entry DESC" if question.off else "c.entry DESC"
    where = f" WHERE {' AND '.join(question.where)}" if question.where else ""
    asked = (
        f"{question.before}SELECT c.entry, {off} AS off FROM {_joined(question)}{where}"
        f" ORDER BY {order} LIMIT {question.value(limit)}"
    )
    return [
        (int(entry), int(far)) for entry, far in connection.execute(text(asked), question.values)
    ]


def _look_through(question: _Question, first: Wanted | None) -> None:
    if first is None:
        question.tables.append("piece_stock AS c")
    elif isinstance(first, int):
        question.tables.append("piece_word AS c")
        question.where.append(f"c.word_id = {question.value(first)}")
    else:
        # Doubts are few: for each, all that can fit lies in one stretch of the index.
        dimension, value = question.value(first.dimension), question.value(first.value_nm)
        doubt = question.value(first.doubt_nm)
        least = f"SELECT min(doubt_nm) FROM piece_measure WHERE dimension = {dimension}"
        question.before = (
            f"WITH RECURSIVE doubts (nm) AS ({least} UNION ALL SELECT ({least} AND doubt_nm > nm)"
            " FROM doubts WHERE nm IS NOT NULL) "
        )
        question.tables += ["doubts", "piece_measure AS c"]
        question.where += [
            f"c.dimension = {dimension}",
            "c.doubt_nm = doubts.nm",
            f"c.value_nm BETWEEN {value} - {doubt} - doubts.nm AND {value} + {doubt} + doubts.nm",
        ]
        question.off.append(_off("c", value, doubt))


def _also_fits(question: _Question, one: Asked) -> None:
    name = f"m{len(question.tables)}"
    value, doubt = question.value(one.value_nm), question.value(one.doubt_nm)
    question.tables.append(f"piece_measure AS {name}")
    question.where += [
        f"{name}.entry = c.entry",
        f"{name}.dimension = {question.value(one.dimension)}",
        f"abs({name}.value_nm - {value}) <= {name}.doubt_nm + {doubt}",
    ]
    question.off.append(_off(name, value, doubt))


def _may_be_had(
    question: _Question, *, client: str | None, only_free: bool, with_hidden: bool
) -> None:
    name = "c" if question.tables == ["piece_stock AS c"] else "s"
    conditions = []
    if client is not None:
        conditions.append(f"{name}.owner IN ('', {question.value(client)})")
    if only_free:
        conditions.append(f"{name}.free > 0")
    if conditions and name == "s":
        question.tables.append("piece_stock AS s")
        conditions.append("s.entry = c.entry")
    if not with_hidden and (conditions or name == "c"):
        conditions.append(f"{name}.hidden = 0")
    elif not with_hidden:
        # They are few, and an index of their own holds them.
        conditions.append(
            "c.entry NOT IN (SELECT h.entry FROM piece_stock AS h WHERE h.hidden = 1)"
        )
    question.where += conditions


def _off(name: str, value: str, doubt: str) -> str:
    """Return how far off a reading is, in whole thousandths of what the doubts allow.

    The one added parts nothing by nothing for counts, which have no doubt.
    """
    return f"1000 * abs({name}.value_nm - {value}) / ({name}.doubt_nm + {doubt} + 1)"


def _joined(question: _Question) -> str:
    # In SQLite these words also mean: in this order.
    return " CROSS JOIN ".join(question.tables)
