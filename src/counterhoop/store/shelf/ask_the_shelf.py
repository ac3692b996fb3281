"""What a search asks: how common a thing is, and the best of the pieces of which it is true."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from sqlalchemy import Connection, text

from counterhoop.parts.dimension import Measured
from counterhoop.store.shelf.dimension_numbers import NUMBERS
from counterhoop.store.shelf.question import (
    MOST_DOUBTS,
    Asked,
    Had,
    Question,
    Wanted,
    begin,
    begin_among,
    fits,
    fits_where_taken,
    narrow,
    readings,
)
from counterhoop.store.shelf.reckoned import in_whole

MOST_READINGS, MOST_TIERS = 2000, 60
"""Of one measurement, so many readings are told apart, and so many distances looked at in turn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hit:
    """A piece that fits.

    Attributes
    ----------
    entry : int
        Of the piece.
    fits : tuple of Asked
        The measurements that were taken on it: all of these fit.
    off : int
        How far off they are together, in thousandths of what the doubts allow.
    """

    entry: int
    fits: tuple[Asked, ...]
    off: int


def rank(hit: Hit) -> tuple[int, int, int]:
    """Return what pieces are put in order by: most measured first, then least off, then newest."""
    return -len(hit.fits), hit.off, -hit.entry


def asked_of(connection: Connection, one: Measured) -> Asked:
    """Return what is asked of the database for a measurement."""
    value_nm, doubt_nm = in_whole(one)
    dimension = NUMBERS[one.dimension]
    least = "SELECT min(doubt_nm) FROM piece_measure WHERE dimension = :dimension"
    # From one to the next by the index, past all that have the same.
    doubts = connection.execute(
        text(
            f"WITH RECURSIVE doubts (nm) AS ({least} UNION ALL SELECT ({least} AND doubt_nm > nm)"
            " FROM doubts WHERE nm IS NOT NULL) SELECT nm FROM doubts WHERE nm IS NOT NULL"
        ),
        {"dimension": dimension},
    ).scalars()
    return Asked(dimension=dimension, value_nm=value_nm, doubt_nm=doubt_nm, doubts=tuple(doubts))


def how_many(connection: Connection, one: Wanted, *, enough: int) -> int:
    """Return of how many pieces something is true, counted no further than what is enough."""
    if isinstance(one, Asked) and not one.doubts:
        return 0
    question = Question()
    begin(question, one)
    where = f" WHERE {' AND '.join(question.where)}" if question.where else ""
    counting = (
        f"SELECT count(*) FROM (SELECT 1 FROM {question.tables}{where} LIMIT {enough}) AS few"
    )
    return int(connection.execute(text(counting), question.values).scalar_one())


MOST_AMONG = 4000
"""Of so many pieces each is looked up by itself."""


def lays_side_by_side(connection: Connection) -> bool:
    """Tell whether this database finds what two measurements share sooner than piece by piece.

    Of a million pieces, 20,000 and 28,000 that two measurements fit: PostgreSQL hashes both in
    15 ms and looks one of them up in the other in 80; for SQLite it is 35 ms and 20.
    """
    return connection.dialect.name == "postgresql"


def fit_all(connection: Connection, all_of: Sequence[Asked]) -> tuple[int, ...] | None:
    """Return the pieces that several measurements fit, or nothing where it is of no use to know."""
    if not lays_side_by_side(connection):
        return None
    question = Question()
    sets = " INTERSECT ".join(
        f"SELECT entry FROM ({readings(question, one)}) AS its" for one in all_of
    )
    entries = connection.execute(text(f"{sets} LIMIT {MOST_AMONG + 1}"), question.values).scalars()
    among = tuple(int(entry) for entry in entries)
    return among if len(among) <= MOST_AMONG else None


def look_through(
    connection: Connection, first: Wanted | None, *, words: Sequence[int], also: Sequence[Asked],
    not_taken: Sequence[Asked], had: Had, limit: int, all_taken: bool = False,
    among: Sequence[int] | None = None,
) -> list[Hit]:  # fmt: skip
    """Return the best of the pieces that are or measure one thing, and that nothing rules out.

    Parameters
    ----------
    connection : sqlalchemy.Connection
    first : Wanted or None
        All pieces of which this is true are looked through; without it, all there are.
    words : sequence of int
        Numbers of words that they all have.
    also : sequence of Asked
        Measurements that fit where they were taken; the rarest first.
    not_taken : sequence of Asked
        Measurements that were not taken on them.
    had : Had
        Which may be had at all.
    limit : int
        How many at most.
    all_taken : bool
        Whether only pieces are wanted on which all that is asked was taken.
    among : sequence of int, optional
        Entries of all pieces that come into question, where they are known.

    Returns
    -------
    list of Hit
        In their order: see ``rank``.
    """
    if isinstance(first, Asked) and not first.doubts:
        return []
    question = Question()
    if among is not None and isinstance(first, Asked):
        if not among:
            return []
        begin_among(question, first, among)
    else:
        begin(question, first)
    for one in also:
        (fits if all_taken else fits_where_taken)(question, one)
    narrow(question, words=[one for one in words if one != first], not_taken=not_taken, had=had)
    off = " + ".join(question.off) or "0"
    order = [f"{' + '.join(question.taken)} DESC"] if question.taken else []
    order += ["off"] if question.off else []
    where = f" WHERE {' AND '.join(question.where)}" if question.where else ""
    columns = ", ".join(["c.entry", f"{off} AS off", *question.taken])
    asked = (
        f"SELECT {columns} FROM {question.tables}{where}"
        f" ORDER BY {', '.join([*order, 'c.entry DESC'])} LIMIT {question.value(limit)}"
    )
    sure: tuple[Asked, ...] = (first,) if isinstance(first, Asked) else ()
    unsure = also
    if all_taken:
        sure, unsure = (*sure, *also), ()
    return [
        Hit(
            entry=int(entry),
            off=int(far),
            fits=(*sure, *(one for one, there in zip(unsure, taken, strict=True) if there)),
        )
        for entry, far, *taken in connection.execute(text(asked), question.values)
    ]


def look_outward(
    connection: Connection, first: Asked, *, words: Sequence[int],
    counts: Sequence[Asked] = (), not_taken: Sequence[Asked], had: Had, limit: int,
) -> list[Hit]:  # fmt: skip
    """Return what ``look_through`` does with nothing else to fit, from the nearest reading outward.

    Only pieces on which all of ``counts`` were taken and fit; where these are asked for, it may
    come back with none although there are some.

    Readings are read off instruments: of a million pieces thousands have the very same one, and
    the last of these that came are found without a look at the others.
    """
    readings = _readings_that_fit(connection, first)
    tiers = [(off, [*alike]) for off, alike in groupby(readings, key=lambda one: one[0])]
    all_known = len(first.doubts) <= MOST_DOUBTS and len(readings) < MOST_READINGS
    hits: list[Hit] = []
    for off, alike in tiers[:MOST_TIERS] if all_known else ():
        for _, doubt_nm, value_nm in alike:
            entries = _with_reading(
                connection, first, doubt_nm=doubt_nm, value_nm=value_nm, words=words,
                counts=counts, not_taken=not_taken, had=had, limit=limit,
            )  # fmt: skip
            hits += [Hit(entry=entry, fits=(first, *counts), off=off) for entry in entries]
        if len(hits) >= limit:
            break
    else:
        if len(tiers) > MOST_TIERS or not all_known:
            # Hardly any of them may be had: one question for all is quicker than many.
            if counts:
                return []
            return look_through(
                connection, first, words=words, also=(), not_taken=not_taken, had=had, limit=limit
            )
    return sorted(hits, key=rank)[:limit]


def _with_reading(
    connection: Connection, one: Asked, *, doubt_nm: int, value_nm: int, words: Sequence[int],
    counts: Sequence[Asked], not_taken: Sequence[Asked], had: Had, limit: int,
) -> list[int]:  # fmt: skip
    question = Question(tables="piece_measure AS c")
    question.where += [
        f"c.dimension = {question.value(one.dimension)}",
        f"c.doubt_nm = {question.value(doubt_nm)}",
        f"c.value_nm = {question.value(value_nm)}",
    ]
    for count in counts:
        its = f"n.entry = c.entry AND n.dimension = {question.value(count.dimension)}"
        its = f"{its} AND n.value_nm = {question.value(count.value_nm)}"
        question.where.append(f"EXISTS (SELECT 1 FROM piece_measure AS n WHERE {its})")
    narrow(question, words=words, not_taken=not_taken, had=had)
    asked = (
        f"SELECT c.entry FROM {question.tables} WHERE {' AND '.join(question.where)}"
        f" ORDER BY c.entry DESC LIMIT {question.value(limit)}"
    )
    return [int(entry) for entry in connection.execute(text(asked), question.values).scalars()]


def _readings_that_fit(connection: Connection, one: Asked) -> list[tuple[int, int, int]]:
    """Return how far off each reading is that stands on any piece, its doubt, its value.

    The nearest come first; when there are ``MOST_READINGS`` of them, some may be missing.
    """
    if not 0 < len(one.doubts) <= MOST_DOUBTS:
        return []
    question = Question()
    its = (
        f"SELECT min(value_nm) FROM piece_measure WHERE dimension = {question.value(one.dimension)}"
    )
    middle, doubt = question.value(one.value_nm), question.value(one.doubt_nm)
    begun = []
    for doubt_nm in one.doubts:
        at = f"CAST({question.value(doubt_nm)} AS BIGINT)"
        least = question.value(one.value_nm - one.doubt_nm - doubt_nm)
        begun.append(
            f"SELECT {at} AS doubt, ({its} AND doubt_nm = {at} AND value_nm >= {least}) AS reading"
        )
    fits = f"reading <= {middle} + {doubt} + doubt"
    asked = (
        f"WITH RECURSIVE readings AS (SELECT doubt, reading FROM ({' UNION ALL '.join(begun)})"
        f" AS begun UNION ALL SELECT doubt, ({its} AND doubt_nm = doubt AND value_nm > reading)"
        f" FROM readings WHERE {fits})"
        f" SELECT doubt, reading FROM readings WHERE {fits} LIMIT {MOST_READINGS}"
    )
    rows = connection.execute(text(asked), question.values)
    return sorted(
        (1000 * abs(reading - one.value_nm) // (its_doubt + one.doubt_nm + 1), its_doubt, reading)
        for its_doubt, reading in rows
    )
