"""What is wrong with an entry, in one line that a person can act on."""

from __future__ import annotations

from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean

_SHAPES = ("rounded", "rectangle", "disc", "polygon")
_WANTED = {
    "string_type": "text in quotes",
    "bool_type": "true or false, without quotes",
    "bool_parsing": "true or false, without quotes",
    "int_type": "a whole number, without quotes",
    "int_parsing": "a whole number, without quotes",
    "int_from_float": "a whole number",
    "tuple_type": "a list in square brackets",
    "model_type": "a table in curly brackets",
    "model_attributes_type": "a table in curly brackets",
    "string_pattern_mismatch": "something to read",
    "string_too_short": "something to read",
}


def explained(fault: ValidationError, *, model: type[BaseModel], where: str) -> BadInput:
    """Return the first complaint that explains the others.

    A field that is not known comes before one that is missing: a slip of spelling causes both.
    """
    return complaints(fault, model=model, where=where)[0]


def complaints(
    fault: ValidationError, *, model: type[BaseModel], where: str
) -> tuple[BadInput, ...]:
    """Return every complaint, what explains the others first."""
    said = []
    for error in sorted(fault.errors(), key=lambda e: _order(str(e["type"]))):
        loc = tuple(part for part in error["loc"] if part not in _SHAPES)
        place = f"{where}.{_spelled(loc)}" if loc else where
        said.append(_one(error, model=model, loc=loc, place=place))
    return tuple(said)


def _order(kind: str) -> int:
    return {"extra_forbidden": 0, "missing": 2}.get(kind, 1)


def _spelled(loc: tuple[int | str, ...]) -> str:
    said = ""
    for part in loc:
        said += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if said else part
    return said


def _one(error: Any, *, model: type[BaseModel], loc: tuple[int | str, ...], place: str) -> BadInput:
    kind, given = error["type"], error["input"]
    inner = error.get("ctx", {}).get("error")
    if isinstance(inner, BadInput):
        return inner.at(place)
    if kind == "extra_forbidden":
        known = _fields_at(model, loc[:-1])
        step = did_you_mean(str(loc[-1]), known)
        wanted = "" if step else "one of " + ", ".join(known)
        return BadInput("no such field here", where=place, wanted=wanted, step=step)
    if kind == "missing":
        return BadInput("this is missing", where=place, wanted=_example(model, loc))
    if kind in ("union_tag_invalid", "union_tag_not_found"):
        shape = given.get("shape") if isinstance(given, dict) else given
        step = did_you_mean(shape, _SHAPES) if isinstance(shape, str) else ""
        return BadInput(
            "no such outline",
            where=f"{place}.shape",
            given=shape,
            wanted=", ".join(_SHAPES),
            step=step,
        )
    if kind == "literal_error":
        wanted = error["ctx"]["expected"].replace("'", '"')
        known = [word.strip(' "') for word in wanted.replace(" or ", ",").split(",")]
        step = did_you_mean(given, known) if isinstance(given, str) else ""
        return BadInput("not known here", where=place, given=given, wanted=wanted, step=step)
    if kind in ("too_short", "too_long"):
        short = kind == "too_short"
        count = error["ctx"]["min_length" if short else "max_length"]
        return BadInput(
            f"too {'few' if short else 'many'} in this list",
            where=place,
            given=len(given),
            wanted=f"{count} or {'more' if short else 'fewer'}",
        )
    message = str(error["msg"]).removeprefix("Input should be ")
    wanted = _WANTED.get(kind, message[:1].lower() + message[1:])
    return BadInput("cannot be used", where=place, given=given, wanted=wanted)


def _fields_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> list[str]:
    """Names of the fields of the table that a place lies in."""
    tables = [model]
    for part in loc:
        if isinstance(part, str):
            tables = [
                inner
                for table in tables
                if part in table.model_fields
                for inner in _models(table.model_fields[part].annotation)
            ]
    names = [name for table in tables for name in table.model_fields]
    return list(dict.fromkeys(names))


def _models(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models(part)]


_EXAMPLES = {
    "source": '"measured", or where the figures come from',
    "base": 'its outline, such as {shape = "rounded", width = "24 mm", height = "57 mm", '
    'corner = "12 mm"}',
    "holes": 'what it wants in the shell, such as [{down = "-21 mm", hole = "6 mm", '
    'screw = "4.8 mm"}]',
    "mouth": 'its height from the reference point, such as "-28.5 mm"',
    "mouths": 'two, such as {down = "-67 mm", toward = "batter"}',
    "thread": 'a name such as "12-24"',
    "hoop_kind": '"flanged", "die-cast" or "wood"',
    "name": "what it is called",
    "shape": ", ".join(_SHAPES),
    "toward": '"batter" or "resonant"',
}


def _example(model: type[BaseModel], loc: tuple[int | str, ...]) -> str:
    return _EXAMPLES.get(str(loc[-1]), 'a length with its unit, such as "12.7 mm"')
