"""The parts of the one question that a search asks the database.

No text that anybody typed goes into it but as a parameter. Both databases take it as it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, TypeAlias


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A measurement that is looked for, in whole nanometres.

    Attributes
    ----------
    dimension : int
        What is measured, by its number.
    value_nm, doubt_nm : int
        The reading.
    doubts : tuple of int
        Each doubt with which it was ever taken: few, among millions of readings.
    """

    dimension: int
    value_nm: int
    doubt_nm: int
    doubts: tuple[int, ...]


MOST_DOUBTS = 60
"""With so many at once, each is asked for by itself."""

Wanted: TypeAlias = int | Asked
"""A word by its number, or a measurement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Had:
    """Which pieces may be had at all; see ``find``."""

    client: str | None
    only_free: bool
    with_hidden: bool


@dataclass(slots=True)
class Question:
    """Parts of one question about pieces; the table with their entries is called c.

    Attributes
    ----------
    tables : str
        What stands after FROM.
    where : list of str
        Conditions that all hold.
    off, taken : list of str
        Of each measurement that is to fit: how far off it is; of those that fit where they were
        taken: 1 or 0, whether they were.
    values : dict
        Parameters by name.
    last : str
        The table in which a piece stands that all that is to fit has not ruled out.
    """

    tables: str = ""
    where: list[str] = field(default_factory=list)
    off: list[str] = field(default_factory=list)
    taken: list[str] = field(default_factory=list)
    values: dict[str, Any] = field(default_factory=dict)
    last: str = "c"

    def value(self, given: int | str) -> str:
        """Take a value as a parameter, and return how the question names it."""
        name = f"v{len(self.values)}"
        self.values[name] = given
        return f":{name}"


def begin(question: Question, first: Wanted | None) -> None:
    """Ask about all pieces that have one word, that one measurement fits, or simply about all.

    The measurement must have been taken on some piece.
    """
    if first is None:
        question.tables = "piece_stock AS c"
    elif isinstance(first, int):
        question.tables = "piece_word AS c"
        question.where.append(f"c.word_id = {question.value(first)}")
    else:
        question.tables = f"({readings(question, first)}) AS c"
        value, doubt = question.value(first.value_nm), question.value(first.doubt_nm)
        question.off.append(how_far_off("c", value, doubt))


def begin_among(question: Question, first: Asked, among: Sequence[int]) -> None:
    """Ask about those of these pieces that a measurement fits."""
    value, doubt = question.value(first.value_nm), question.value(first.doubt_nm)
    entries = ", ".join(str(int(one)) for one in among)
    question.tables = "piece_measure AS c"
    question.where += [
        f"c.dimension = {question.value(first.dimension)} AND c.entry IN ({entries})",
        f"abs(c.value_nm - {value}) <= c.doubt_nm + {doubt}",
    ]
    question.off.append(how_far_off("c", value, doubt))


def readings(question: Question, one: Asked) -> str:
    """Return the question for all readings that fit a measurement.

    For each doubt they lie in one stretch of the index.
    """
    its = "SELECT entry, value_nm, doubt_nm FROM piece_measure WHERE dimension ="
    its = f"{its} {question.value(one.dimension)}"
    if len(one.doubts) > MOST_DOUBTS:
        value, doubt = question.value(one.value_nm), question.value(one.doubt_nm)
        return f"{its} AND abs(value_nm - {value}) <= doubt_nm + {doubt}"
    stretches = []
    for doubt_nm in one.doubts:
        least = question.value(one.value_nm - one.doubt_nm - doubt_nm)
        most = question.value(one.value_nm + one.doubt_nm + doubt_nm)
        at = question.value(doubt_nm)
        stretches.append(f"{its} AND doubt_nm = {at} AND value_nm BETWEEN {least} AND {most}")
    return " UNION ALL ".join(stretches)


def narrow(
    question: Question, *, words: Sequence[int], not_taken: Sequence[Asked], had: Had
) -> None:
    """Leave out the pieces without these words, with these measurements, or not to be had."""
    for number in words:
        its = f"w.word_id = {question.value(number)} AND w.entry = c.entry"
        question.where.append(f"EXISTS (SELECT 1 FROM piece_word AS w WHERE {its})")
    for one in not_taken:
        # By the last table's entry SQLite looks only when the others have ruled most pieces out.
        its = f"u.entry = {question.last}.entry AND u.dimension = {question.value(one.dimension)}"
        question.where.append(f"NOT EXISTS (SELECT 1 FROM piece_measure AS u WHERE {its})")
    _may_be_had(question, had)


def fits(question: Question, one: Asked) -> None:
    """Leave out the pieces on which a measurement was not taken, or that it rules out."""
    name = f"m{len(question.off)}"
    value, doubt = question.value(one.value_nm), question.value(one.doubt_nm)
    # In SQLite these words also mean: in this order.
    question.tables += f" CROSS JOIN piece_measure AS {name}"
    question.where += [
        f"{name}.entry = c.entry AND {name}.dimension = {question.value(one.dimension)}",
        f"abs({name}.value_nm - {value}) <= {name}.doubt_nm + {doubt}",
    ]
    question.off.append(how_far_off(name, value, doubt))
    question.last = name


def fits_where_taken(question: Question, one: Asked) -> None:
    """Leave out the pieces that a measurement rules out; those without it stay."""
    name = f"m{len(question.off)}"
    value, doubt = question.value(one.value_nm), question.value(one.doubt_nm)
    its = f"{name}.entry = c.entry AND {name}.dimension = {question.value(one.dimension)}"
    question.tables += f" LEFT JOIN piece_measure AS {name} ON {its}"
    near = f"abs({name}.value_nm - {value}) <= {name}.doubt_nm + {doubt}"
    question.where.append(f"({name}.entry IS NULL OR {near})")
    question.off.append(f"COALESCE({how_far_off(name, value, doubt)}, 0)")
    question.taken.append(f"CASE WHEN {name}.entry IS NULL THEN 0 ELSE 1 END")


def _may_be_had(question: Question, had: Had) -> None:
    name = "c" if question.tables.startswith("piece_stock AS c") else "s"
    conditions = []
    if had.client is not None:
        conditions.append(f"{name}.owner IN ('', {question.value(had.client)})")
    if had.only_free:
        conditions.append(f"{name}.free > 0")
    if not had.with_hidden and (conditions or name == "c"):
        conditions.append(f"{name}.hidden = 0")
    elif not had.with_hidden:
        # They are few, and an index of their own holds them.
        hidden = "SELECT h.entry FROM piece_stock AS h WHERE h.hidden = 1"
        question.where.append(f"c.entry NOT IN ({hidden})")
    if conditions and name == "s":
        question.tables += " CROSS JOIN piece_stock AS s"
        conditions.append("s.entry = c.entry")
    question.where += conditions


def how_far_off(name: str, value: str, doubt: str) -> str:
    """Return how far off a reading is, in whole thousandths of what the doubts allow.

    The one added parts nothing by nothing for counts, which have no doubt.
    """
    return f"1000 * abs({name}.value_nm - {value}) / ({name}.doubt_nm + {doubt} + 1)"
