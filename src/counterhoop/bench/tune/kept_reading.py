"""What was heard, as it is kept in a drum's document, and back.

Names are left out where there is nothing to say: a survey file cannot hold nothing at all.
"""

from __future__ import annotations

import dataclasses
import math
import types
from collections.abc import Mapping
from functools import cache
from typing import Any, Literal, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from counterhoop.bench.tune.heard import Heard
from counterhoop.errors import BadInput
from counterhoop.store.body import Json

VERSION = 1
_DIGITS = 6
"""Figures kept of a number: no reading is finer."""

_LARGEST = 1e12

R = TypeVar("R")


def to_json(heard: Heard) -> dict[str, Json]:
    """Return a reading as it is kept; ``from_json`` gives it back to six figures.

    Examples
    --------
    >>> to_json(Heard(seconds=2.5, rate_hz=44_100))
    {'version': 1, 'seconds': 2.5, 'rate_hz': 44100}
    """
    kept = _written(heard)
    assert isinstance(kept, dict)
    return {"version": VERSION, **kept}


def from_json(kept: object, *, where: str = "result") -> Heard:
    """Return a reading that was kept.

    Parameters
    ----------
    kept : object
        As ``to_json`` wrote it; a person may have changed it in a file.
    where : str
        Its place, for messages.

    Raises
    ------
    BadInput
        When it is of another version, or not as it is kept.
    """
    if not isinstance(kept, Mapping):
        raise BadInput("not a reading that was kept", where=where, wanted="a table")
    if kept.get("version") != VERSION:
        raise BadInput(
            "kept by another version of this program",
            where=f"{where}.version",
            given=kept.get("version"),
            wanted=str(VERSION),
            step="Put the recording in again.",
        )
    held = {name: value for name, value in kept.items() if name != "version"}
    return _record(Heard, held, where=where)


def _written(value: Any) -> Json:
    """Return a record, a list or a plain value as JSON."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        found = {}
        for part in dataclasses.fields(value):
            inner = getattr(value, part.name)
            if inner is not None and not _usual(part, inner):
                found[part.name] = _written(inner)
        return found
    if isinstance(value, tuple | list):
        return [_written(one) for one in value]
    if isinstance(value, complex):
        return [_figures(value.real), _figures(value.imag)]
    if isinstance(value, float):
        return _figures(value)
    assert isinstance(value, str | int)
    return value


def _usual(part: dataclasses.Field[Any], value: object) -> bool:
    """Tell whether a value is what is taken anyway, the same sort of value too."""
    return type(part.default) is type(value) and bool(part.default == value)


def _figures(value: float) -> float:
    if not math.isfinite(value):
        raise BadInput("a figure without an end cannot be kept", where="result", given=value)
    return float(f"{value:.{_DIGITS}g}")


def _record(kind: type[R], held: object, *, where: str) -> R:
    if not isinstance(held, Mapping):
        raise _wrong(held, where=where, wanted="a table")
    hints = _hints(cast(Any, kind))
    parts = {part.name: part for part in dataclasses.fields(cast(Any, kind))}
    for name in held:
        if name not in parts:
            raise BadInput("not as it was kept", where=f"{where}.{name}", given=str(name)[:40])
    for name, part in parts.items():
        needed = part.default is dataclasses.MISSING and (
            part.default_factory is dataclasses.MISSING
        )
        if needed and name not in held and type(None) not in get_args(hints[name]):
            raise BadInput("is missing", where=f"{where}.{name}", wanted="what was kept")
    given = {
        name: _read(hints[name], value, where=f"{where}.{name}") for name, value in held.items()
    }
    return kind(**given)


@cache
def _hints(kind: Any) -> dict[str, Any]:
    """Return the sorts of a record's fields; some of theirs are named for the reader alone."""
    from counterhoop.listen.partial import Partial
    from counterhoop.listen.strokes import Stroke

    return get_type_hints(kind, localns={"Partial": Partial, "Stroke": Stroke})


def _read(kind: Any, value: object, *, where: str) -> Any:
    origin, args = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType):
        (inner,) = (one for one in args if one is not type(None))
        return _read(inner, value, where=where)
    if origin is Literal:
        if value not in args:
            raise _wrong(value, where=where, wanted=" or ".join(map(str, args)))
        return value
    if origin is tuple:
        if not isinstance(value, list | tuple):
            raise _wrong(value, where=where, wanted="a list")
        return tuple(
            _read(args[0], one, where=f"{where}[{place}]") for place, one in enumerate(value, 1)
        )
    if dataclasses.is_dataclass(kind):
        assert isinstance(kind, type)
        return _record(kind, value, where=where)
    return _plain(kind, value, where=where)


def _plain(kind: Any, value: object, *, where: str) -> Any:
    if kind is bool or kind is str:
        if isinstance(value, kind):
            return value
        raise _wrong(value, where=where, wanted="true or false" if kind is bool else "a text")
    if kind is complex:
        if isinstance(value, list | tuple) and len(value) == 2:
            real, imaginary = (_plain(float, one, where=where) for one in value)
            return complex(real, imaginary)
        raise _wrong(value, where=where, wanted="two numbers")
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _wrong(value, where=where, wanted="a number")
    if not -_LARGEST < value < _LARGEST or (kind is int and value != int(value)):
        raise _wrong(value, where=where, wanted="a number")
    return kind(value)


def _wrong(value: object, *, where: str, wanted: str) -> BadInput:
    huge = isinstance(value, int) and abs(value) >= _LARGEST
    given = value if isinstance(value, str | int | float) and not huge else None
    return BadInput("not as it was kept", where=where, given=given, wanted=wanted)
