"""What a model of the survey file or of the book lets one write, as plain shapes for a form.

The published JSON Schema of a model is the vocabulary: whatever a program may read from it, a form
offers, and nothing is written down twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

LONG_TEXT = 1000
"""A text that may be longer than this gets several lines."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """Words or a measure, kept as typed."""

    long: bool = False
    measure: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """A whole number, or what else was typed in its place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A bare number, or a measure in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class YesNo:
    """Yes or no."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One of these words."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Several:
    """A list, each entry alike; ``most`` entries where there is a limit."""

    of: Shape
    most: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A list of a fixed number of entries."""

    of: tuple[Shape, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One field of a table.

    Attributes
    ----------
    name : str
        As in the file.
    needed : bool
        Whether it must be there.
    usual : str or bool or int or None
        What holds when it is left out, where that can be said.
    """

    name: str
    shape: Shape
    needed: bool = False
    usual: str | bool | int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table with named fields; ``model`` is the name of its class."""

    model: str
    parts: tuple[Part, ...]

    def named(self, name: str) -> Part | None:
        """Return a field by its name."""
        return next((part for part in self.parts if part.name == name), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class ByWord:
    """A table whose fields hang on the word in one of them."""

    tag: str
    tables: tuple[tuple[str, Table], ...]

    @property
    def words(self) -> tuple[str, ...]:
        """The words that may stand in ``tag``."""
        return tuple(word for word, _ in self.tables)

    def table(self, word: object) -> Table | None:
        """Return the table of one word."""
        return next((table for known, table in self.tables if known == word), None)

    @property
    def every_part(self) -> tuple[tuple[Table, Part], ...]:
        """Every field of any of the tables but the word itself, each name once."""
        found: dict[str, tuple[Table, Part]] = {}
        for _, table in self.tables:
            for part in table.parts:
                if part.name != self.tag:
                    found.setdefault(part.name, (table, part))
        return tuple(found.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A table whose names are the person's own."""

    of: Shape


@dataclass(frozen=True, slots=True, kw_only=True)
class Untyped:
    """A table that the program writes and nobody types; no form asks for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """One reading, or several of them in a list, or each with the place it was read at."""

    one: Shape
    several: Several | None = None
    named: Named | None = None


Shape: TypeAlias = (
    Text
    | Count
    | Figure
    | YesNo
    | Choice
    | Several
    | Pair
    | Table
    | ByWord
    | Named
    | Untyped
    | Ways
)


def shape_of(schema: Mapping[str, Any], *, defs: Mapping[str, Any]) -> Shape:
    """Return the shape that a JSON Schema describes.

    Parameters
    ----------
    schema : Mapping
        As pydantic writes it, by alias.
    defs : Mapping
        The ``$defs`` that it refers to.

    Raises
    ------
    TypeError
        For what no form has a place for: a fault of this program.

    Examples
    --------
    >>> shape_of({"type": "string", "enum": ["batter", "resonant"]}, defs={})
    Choice(words=('batter', 'resonant'))
    """
    if "$ref" in schema:
        name = schema["$ref"].rsplit("/", 1)[-1]
        return _table(defs[name], model=name, defs=defs)
    if "discriminator" in schema:
        return _by_word(schema, defs=defs)
    kinds = [one for one in schema.get("anyOf", schema.get("oneOf", ())) if one != _NULL]
    if kinds:
        return _one_of(kinds, defs=defs)
    match schema.get("type"):
        case "boolean":
            return YesNo()
        case "integer":
            return Count()
        case ["string", "number"]:
            return Figure()
        case "array" if "prefixItems" in schema:
            return Pair(of=tuple(shape_of(one, defs=defs) for one in schema["prefixItems"]))
        case "array":
            most = schema.get("maxItems")
            return Several(of=shape_of(schema["items"], defs=defs), most=most)
        case "object" if isinstance(schema.get("additionalProperties"), dict):
            return Named(of=shape_of(schema["additionalProperties"], defs=defs))
        case "object":
            return Untyped()
        case "string":
            return _text(schema)
    raise TypeError(f"no form has a place for {schema}")


_NULL = {"type": "null"}


def _text(schema: Mapping[str, Any]) -> Shape:
    if "const" in schema:
        return Choice(words=(schema["const"],))
    if "enum" in schema:
        return Choice(words=tuple(schema["enum"]))
    words = "maxLength" in schema or "minLength" in schema
    return Text(long=schema.get("maxLength", 0) > LONG_TEXT, measure=not words)


def _one_of(kinds: list[Mapping[str, Any]], *, defs: Mapping[str, Any]) -> Shape:
    shapes = [shape_of(one, defs=defs) for one in kinds]
    if len(shapes) == 1:
        return shapes[0]
    if any(isinstance(one, Count) for one in shapes):
        return Count()
    several = next((one for one in shapes if isinstance(one, Several)), None)
    named = next((one for one in shapes if isinstance(one, Named)), None)
    one = next((one for one in shapes if isinstance(one, Text)), None)
    if several is not None and one is None and named is None:
        # A list, or one of its entries without the list.
        return several
    if one is None or several is None:
        raise TypeError(f"no form has a place for {kinds}")
    return Ways(one=one, several=several, named=named)


def _by_word(schema: Mapping[str, Any], *, defs: Mapping[str, Any]) -> ByWord:
    told = schema["discriminator"]
    tables = []
    for word, ref in told["mapping"].items():
        name = ref.rsplit("/", 1)[-1]
        tables.append((word, _table(defs[name], model=name, defs=defs)))
    return ByWord(tag=told["propertyName"], tables=tuple(tables))


def _table(schema: Mapping[str, Any], *, model: str, defs: Mapping[str, Any]) -> Table:
    needed = set(schema.get("required", ()))
    return Table(
        model=model,
        parts=tuple(
            Part(
                name=name,
                shape=shape_of(field, defs=defs),
                needed=name in needed,
                usual=_usual(field.get("default")),
            )
            for name, field in schema.get("properties", {}).items()
        ),
    )


def _usual(default: object) -> str | bool | int | None:
    return default if isinstance(default, str | bool | int) and default != "" else None
