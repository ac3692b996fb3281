"""Everything that the demonstration writes, and at random whatever the schemas allow."""

from __future__ import annotations

import json
import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from hypothesis import strategies as st

from counterhoop.web.forms import THINGS, item_at, spots_in

WISH = ("wish", "finish_plan")


def as_json(value: Any) -> Any:
    """Return what a TOML file holds as a document keeps it: days as texts."""
    return json.loads(json.dumps(value, default=str))


def demonstration() -> dict[str, Any]:
    text = (files("counterhoop.bench") / "demonstration" / "survey.toml").read_text("utf-8")
    return as_json(tomllib.loads(text))


def packaged_entries() -> list[dict[str, Any]]:
    text = (files("counterhoop.fittings") / "tables" / "book.toml").read_text("utf-8")
    raw = as_json(tomllib.loads(text))
    return [{"source": raw["source"], **entry} for entry in raw["fitting"]]


def documents() -> dict[str, list[Any]]:
    """Return the bodies of all documents that the demonstration comes to, by their kind."""
    raw = demonstration()
    drums = list(raw["drums"].values())
    return {
        "job": [{name: value for name, value in raw.items() if name not in ("drums", "kit")}],
        "survey": [{k: v for k, v in drum.items() if k not in (*WISH, "tuning")} for drum in drums],
        "tuning": [drum["tuning"] for drum in drums if "tuning" in drum],
        "kit": [raw["kit"]] if "kit" in raw else [],
        "wish": [{k: v for k, v in drum.items() if k in WISH} for drum in drums],
        "approval": [[{k: v for k, v in yes.items() if k != "drum"} for yes in raw["approval"]]],
        "book": [{"fitting": packaged_entries()}],
    }


@cache
def written() -> list[tuple[str, Any]]:
    """Return every thing of the demonstration: its name and what is written of it."""
    return [
        (thing, item_at(thing, body, at))
        for kind, bodies in documents().items()
        for body in bodies
        for thing, at in spots_in(kind, body)
    ]


# What a person may type, printable or not to be understood; no control signs, as in a browser.
TYPED = st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), max_size=20)


def at_random(thing: str) -> st.SearchStrategy[Any]:
    """Return bodies of a thing's shape, drawn from the JSON Schema alone."""
    schema = THINGS[thing].wrapper.model_json_schema(by_alias=True)
    return _drawn(schema["properties"]["item"], schema.get("$defs", {}))


def _drawn(
    schema: dict[str, Any], defs: dict[str, Any], *, blank: bool = False
) -> st.SearchStrategy[Any]:
    """Draw one value; ``blank`` where a text that says nothing has a meaning or none at all."""
    if "$ref" in schema:
        return _drawn(defs[schema["$ref"].rsplit("/", 1)[-1]], defs)
    for name in ("anyOf", "oneOf"):
        if name in schema:
            kinds = [one for one in schema[name] if one != {"type": "null"}]
            drawn = st.one_of([_drawn(one, defs, blank=blank) for one in kinds])
            # Where a count belongs, no schema allows a text of figures alone.
            counts = any(one.get("type") == "integer" for one in kinds)
            return (
                drawn.filter(lambda v: not isinstance(v, str) or _no_number(v)) if counts else drawn
            )
    if "const" in schema:
        return st.just(schema["const"])
    if "enum" in schema:
        return st.sampled_from(schema["enum"])
    typed = TYPED if blank else TYPED.filter(str.strip)
    match schema["type"]:
        case "integer":
            return st.integers(0, 99999)
        case "boolean":
            return st.booleans()
        case ["string", "number"]:
            return st.one_of(typed.filter(_no_number), st.integers(0, 999), st.just(2.5))
        case "string":
            return st.one_of(st.sampled_from(schema.get("examples", ["12 mm"])), typed)
        case "array" if "prefixItems" in schema:
            return st.tuples(*(_drawn(one, defs) for one in schema["prefixItems"])).map(list)
        case "array":
            # A measure may be missing in its place; a name that is missing is no name.
            measure = "maxLength" not in schema["items"]
            return st.lists(_drawn(schema["items"], defs, blank=measure), max_size=3)
        case "object" if "properties" in schema:
            fields = {k: _drawn(v, defs, blank=True) for k, v in schema["properties"].items()}
            needed = {name: fields.pop(name) for name in schema.get("required", ())}
            return st.fixed_dictionaries(needed, optional=fields)
        case "object" if not isinstance(schema.get("additionalProperties"), dict):
            return st.dictionaries(st.sampled_from("abc"), st.integers(0, 9), max_size=2)
        case "object":
            names = st.text("abc.[]%? 1", min_size=1, max_size=6).map(str.strip).filter(bool)
            return st.dictionaries(names, _drawn(schema["additionalProperties"], defs), max_size=3)
    raise AssertionError(schema)


def _no_number(text: str) -> bool:
    return not text.strip().lstrip("-").replace(".", "").isdigit()


def kept(value: Any) -> Any:
    """Return what is left of a body when ends are trimmed and what says nothing is left out.

    A blank among measures stays, for it keeps the others in their places.
    """
    match value:
        case str():
            return value.strip()
        case list():
            inner = [kept(one) for one in value]
            while inner and inner[-1] in ("", [], {}):
                inner.pop()
            return inner
        case dict():
            found = {name: kept(one) for name, one in value.items()}
            return {name: one for name, one in found.items() if one not in ("", [], {})}
    return value
