"""Read the reference: the packaged one, which is invented, and a workshop's own over it."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache
from importlib.resources import files
from typing import Any

from pydantic import ValidationError

from counterhoop.errors import BadInput
from counterhoop.evidence.reference import Reference, Value, after, key_of
from counterhoop.evidence.rows import ROWS
from counterhoop.fittings.explain import explained
from counterhoop.quantities.nearest import did_you_mean

_PACKAGED = "reference.toml"
_TOP = ("source", "seen")
_LONGEST_TEXT = 5_000_000


@cache
def packaged_reference() -> Reference:
    """Return the reference that comes with the program: invented, to show how one is written."""
    return check_reference(make_reference(packaged_rows(), name=_PACKAGED), name=_PACKAGED)


@cache
def packaged_rows() -> Mapping[str, Sequence[Any]]:
    """Return its rows by their sort, in the words of the file."""
    text = (files("counterhoop.evidence") / "tables" / _PACKAGED).read_text("utf-8")
    return rows_in(text, name=_PACKAGED)


def read_reference(text: str, *, name: str, beneath: Reference | None = None) -> Reference:
    """Read a reference from the text of a TOML file.

    Parameters
    ----------
    text : str
        ``[[line]]``, ``[[part]]``, ``[[feature]]``, ``[[value]]`` and ``[[serial]]`` tables;
        ``source`` once at the top serves all rows that have none of their own.
    name : str
        What the file is called, for messages.
    beneath : Reference, optional
        What it will be laid over: a value may follow one of those too.

    Raises
    ------
    BadInput
        Names the row and the field, what was found and what was wanted.

    Examples
    --------
    >>> mine = read_reference('''
    ... source = "catalogues on our shelf"
    ... [[line]]
    ... family = "Corvane"
    ... name = "Standard"
    ... from = 1948
    ... to = 1966
    ... ''', name="mine.toml")
    >>> mine.lines[0].ends.year
    1966.0
    """
    return make_reference(rows_in(text, name=name), name=name, beneath=beneath)


def rows_in(text: str, *, name: str) -> dict[str, list[Any]]:
    """Return the rows of a reference file by their sort, each with its source, unchecked.

    Raises
    ------
    BadInput
        When it is no TOML, or holds anything else.
    """
    if len(text) > _LONGEST_TEXT:
        raise BadInput(
            "longer than a reference can be meant to be", where=name,
            given=f"{len(text)} characters", wanted=f"at most {_LONGEST_TEXT}",
        )  # fmt: skip
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadInput(f"this is not TOML: {fault}", where=name) from fault
    except RecursionError as fault:
        raise BadInput("brackets within brackets without end", where=name) from fault
    for word, rows in raw.items():
        if word not in (*_TOP, *ROWS):
            raise BadInput(
                f'"{word}" is not known here', where=name,
                wanted="tables such as " + ", ".join(f"[[{one}]]" for one in ROWS),
                step=did_you_mean(word, (*_TOP, *ROWS)),
            )  # fmt: skip
        if word in ROWS and not (
            isinstance(rows, list) and all(isinstance(row, dict) for row in rows)
        ):
            raise BadInput(
                "a row stands in single brackets", where=f"{name}: {word}",
                wanted=f"[[{word}]] in double brackets before each row",
            )  # fmt: skip
    top = {"source": raw["source"]} if "source" in raw else {}
    return {word: [_without_seen(top | row) for row in raw.get(word, ())] for word in ROWS}


def make_reference(
    rows: Mapping[str, Sequence[Any]], *, name: str, beneath: Reference | None = None
) -> Reference:
    """Make records of rows by their words; every row is checked, alone and against the others."""
    made = {
        word: tuple(
            _made(row, word=word, where=f"{name}: {word} {_called(row, number)}")
            for number, row in enumerate(rows.get(word, ()), 1)
        )
        for word in ROWS
    }
    for word in ("line", "part", "feature", "value"):
        _once(made[word], where=f"{name}: {word}")
    for row in (*made["line"], *made["value"]):
        if row.begins and row.ends and row.ends.year < row.begins.year:
            raise BadInput(
                "it ends before it begins", where=f"{name}: {row.name}.to",
                given=f"{row.begins.year:g} to {row.ends.year:g}",
            )  # fmt: skip
    values = _followed(made["value"], name=name, beneath=beneath.values if beneath else ())
    return Reference(
        lines=made["line"], parts=made["part"], features=made["feature"],
        values=values, serials=made["serial"],
    )  # fmt: skip


def check_reference(reference: Reference, *, name: str) -> Reference:
    """Return a whole reference, own rows over others, when every name in it is known in it."""
    parts = [part.name for part in reference.parts]
    features = [feature.name for feature in reference.features]
    for feature in reference.features:
        _known(feature.part, parts, word="part", where=f"{name}: feature {feature.name}.part")
    for value in reference.values:
        where = f"{name}: value {value.name}"
        _known(value.feature, features, word="feature", where=f"{where}.feature")
        _known(value.family, reference.families, word="family", where=f"{where}.family")
        lines = [one.name for one in reference.lines if one.family == value.family]
        for line in value.lines:
            _known(line, lines, word="line", where=f"{where}.lines")
    _check_turns(reference.values, name=name)
    for serial in reference.serials:
        where = f"{name}: serial {serial.written}"
        _known(serial.family, reference.families, word="family", where=f"{where}.family")
        _known(serial.part, parts, word="part", where=f"{where}.part")
    return reference


def _check_turns(values: Iterable[Value], *, name: str) -> None:
    """See that each value which others follow ends, and before they do."""
    values = tuple(values)
    ends = {key_of(value): value.ends for value in values}
    for value in values:
        if not value.follows:
            continue
        end = ends.get((value.family, value.feature, value.follows))
        where = f"{name}: value {value.follows}.to"
        if end is None:
            raise BadInput(
                f"“{value.name}” took over when it ended, so that it has a last year", where=where,
                step=f"Write it, or a row of “{value.name}” with a first year of its own.",
            )  # fmt: skip
        if value.ends is not None and value.ends.year < after(end).year:
            raise BadInput(
                f"“{value.name}” took over when it ended, and would end before it begins",
                where=where, given=f"{end.year:g}", wanted=f"a year before {value.ends.year:g}",
            )  # fmt: skip


def _known(given: str, known: Iterable[str], *, word: str, where: str) -> None:
    known = list(known)
    if given not in known:
        raise BadInput(
            f"no such {word} here", where=where, given=given,
            wanted="one of " + (", ".join(known) or f"those that [[{word}]] rows name"),
            step=did_you_mean(given, known),
        )  # fmt: skip


def _without_seen(row: dict[str, Any]) -> dict[str, Any]:
    return {word: value for word, value in row.items() if word != "seen"}


def _called(row: dict[str, Any], number: int) -> str:
    called = row.get("name", row.get("number"))
    return str(called)[:80] if called else f"{number}"


def _made(row: dict[str, Any], *, word: str, where: str) -> Any:
    model = ROWS[word]
    for name, field in model.model_fields.items():
        written = field.alias or name
        if field.is_required() and written not in row:
            raise BadInput(
                "this is missing", where=f"{where}.{written}",
                wanted=field.description or "something to read",
            )  # fmt: skip
    try:
        return model.model_validate(row).made_of()
    except ValidationError as fault:
        raise explained(fault, model=model, where=where) from fault
    except BadInput as fault:
        raise fault.at(where) from fault


def _once(rows: Iterable[object], *, where: str) -> None:
    seen: set[tuple[str, ...]] = set()
    for row in rows:
        if key_of(row) in seen:
            raise BadInput(
                "two rows have this name", where=where, given=" ".join(filter(None, key_of(row))),
                wanted="one of each name", step="Rename one, or take one out.",
            )  # fmt: skip
        seen.add(key_of(row))


def _followed(
    values: tuple[Value, ...], *, name: str, beneath: tuple[Value, ...]
) -> tuple[Value, ...]:
    """Return values with the beginning of each that follows another."""
    found = []
    by_key = {key_of(value): value for value in (*beneath, *values)}
    for value in values:
        if not value.follows:
            found.append(value)
            continue
        where = f"{name}: value {value.name}.follows"
        before = by_key.get((value.family, value.feature, value.follows))
        if value.begins is not None:
            raise BadInput(
                'it says "from" too', where=where, wanted="one of the two: it begins when that ends"
            )
        if before is None or before.ends is None:
            known = [
                key[2]
                for key, one in by_key.items()
                if key[:2] == (value.family, value.feature) and one.ends
            ]
            raise BadInput(
                "no value of this feature has this name and an end", where=where,
                given=value.follows, wanted="one of " + ", ".join(known),
                step=did_you_mean(value.follows, known),
            )  # fmt: skip
        seen, ended = {value.name}, before.ends
        while before is not None and before.follows:
            if before.name in seen:
                raise BadInput("it follows itself in the end", where=where, given=value.follows)
            seen.add(before.name)
            # What is not there is said of the row that names it.
            before = by_key.get((value.family, value.feature, before.follows))
        begins = after(ended)
        if value.ends and value.ends.year < begins.year:
            raise BadInput(
                f"it ends before it begins: it follows “{value.follows}”",
                where=f"{name}: value {value.name}.to",
                given=f"{begins.year:g} to {value.ends.year:g}",
            )  # fmt: skip
        found.append(replace(value, begins=begins))
    return tuple(found)
