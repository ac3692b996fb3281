"""Read the fittings book: the packaged one, and one's own that is laid over it."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from functools import cache
from typing import Any, cast, get_args

from pydantic import TypeAdapter, ValidationError

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book, name_key
from counterhoop.fittings.check_entry import check_entry
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.fittings.explain import explained
from counterhoop.fittings.kinds import AnyEntry, Entry
from counterhoop.fittings.make_entry import make_entry
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.sources import load_table

_WORD = "fitting"
_WITHOUT = "without"
_TOP = ("source", "seen", _WITHOUT, _WORD)
_LONGEST_TEXT = 5_000_000
_READER: TypeAdapter[AnyEntry] = TypeAdapter(AnyEntry)
MODELS: dict[str, type[Entry]] = {
    kind: model
    for model in get_args(get_args(AnyEntry)[0])
    for kind in get_args(model.model_fields["kind"].annotation)
}
"""The model of each kind, by the kind's name."""


@cache
def packaged_book() -> Book:
    """Return the book that comes with the program.

    Raises
    ------
    TableError, BadInput
        When it is not what it must be: a fault of this package.
    """
    rows = load_table("counterhoop.fittings", "book.toml")
    return _book([{**row.values, "source": row.source.text} for row in rows], name="book.toml")


def read_book(text: str, *, name: str) -> Book:
    """Read a book from the text of a TOML file.

    Parameters
    ----------
    text : str
        One ``[[fitting]]`` table an entry; ``source`` once at the top serves all entries that do
        not have their own. ``without`` there names entries of the books beneath that are not to
        be used.
    name : str
        What the file is called, for messages.

    Returns
    -------
    Book
        In the order of the file; lay it over another with ``Book.merged``.

    Raises
    ------
    BadInput
        Names the entry and the field, what was found, what was wanted and the nearest spelling.

    Examples
    --------
    >>> mine = read_book('''
    ... [[fitting]]
    ... name = "rod 12-24 x 45 mm"
    ... kind = "rod"
    ... source = "measured"
    ... thread = "12-24"
    ... length = "45 mm"
    ... thread_length = "28 mm"
    ... shank = "5.4 mm"
    ... ''', name="mine.toml")
    >>> mine.find("Rod 12-24 x 45 mm").rod_length_mm
    45.0
    """
    if len(text) > _LONGEST_TEXT:
        raise BadInput(
            "longer than a fittings book can be meant to be",
            where=name,
            given=f"{len(text)} characters",
            wanted=f"at most {_LONGEST_TEXT}",
        )
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadInput(f"this is not TOML: {fault}", where=name) from fault
    except RecursionError as fault:
        raise BadInput("brackets within brackets without end", where=name) from fault
    for word, value in raw.items():
        if word not in _TOP:
            raise BadInput(
                f'"{word}" is not known here',
                where=name,
                wanted="one [[fitting]] table an entry",
                step=did_you_mean(word, _TOP),
            )
        if word == _WORD and not _is_tables(value):
            raise BadInput(
                "an entry stands in single brackets",
                where=f"{name}: {_WORD}",
                wanted="[[fitting]] in double brackets before each entry",
            )
    without = raw.get(_WITHOUT, [])
    if not (isinstance(without, list) and all(isinstance(one, str) for one in without)):
        raise BadInput(
            "names are wanted here", where=f"{name}: {_WITHOUT}", given=without,
            wanted='names of fittings in square brackets, such as ["Corvane round lug"]',
        )  # fmt: skip
    top = {"source": raw["source"]} if "source" in raw else {}
    made = _book([{**top, **entry} for entry in raw.get(_WORD, ())], name=name)
    return replace(made, without=tuple(without))


def book_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of the book's file.

    Lengths, threads and prices are text in the file; their own readers refuse more than the
    schema can say.
    """
    entry = _READER.json_schema(ref_template="#/$defs/{model}")
    definitions = entry.pop("$defs")
    for definition in definitions.values():
        if "source" in definition.get("properties", {}):
            # It may stand at the top of the file instead.
            definition["required"].remove("source")
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Fittings book",
        "type": "object",
        "additionalProperties": False,
        "properties": {
            "source": {"type": "string", "minLength": 1},
            "seen": {"type": "boolean"},
            _WITHOUT: {"type": "array", "items": {"type": "string"}},
            _WORD: {"type": "array", "items": entry},
        },
        "$defs": definitions,
    }


def _is_tables(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(entry, dict) for entry in value)


def _book(rows: list[dict[str, Any]], *, name: str) -> Book:
    entries: dict[str, Fitting] = {}
    for number, row in enumerate(rows, 1):
        entry = _entry(row, where=_where(row, number=number, name=name))
        key = name_key(entry.name)
        if key in entries:
            raise BadInput(
                "two entries have this name",
                where=name,
                given=entry.name,
                wanted="one of each name",
                step="Rename one, or take one out.",
            )
        entries[key] = entry
    return Book(tuple(entries.values()))


def _where(row: dict[str, Any], *, number: int, name: str) -> str:
    called = row.get("name")
    if isinstance(called, str) and called.strip():
        return f"{name}: {called.strip()[:80]}"
    return f"{name}: entry {number}"


def _entry(row: dict[str, Any], *, where: str) -> Fitting:
    kind = row.get("kind")
    if not isinstance(kind, str) or kind not in MODELS:
        step = did_you_mean(kind, MODELS) if isinstance(kind, str) else ""
        raise BadInput(
            "no such kind of fitting" if "kind" in row else "it does not say what kind it is",
            where=f"{where}.kind",
            given=kind,
            wanted="" if step else ", ".join(kind.value for kind in Kind),
            step=step,
        )
    model = MODELS[kind]
    try:
        written = model.model_validate(row)
    except ValidationError as fault:
        raise explained(fault, model=model, where=where) from fault
    made = make_entry(cast(AnyEntry, written))
    check_entry(made, where=where)
    return made
