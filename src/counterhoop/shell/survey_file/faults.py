"""What is wrong in the file, said by place and line, in the order of the file."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.shell.survey_file.lines import lines_of, path_of
from counterhoop.shell.survey_file.shown import listed, shown

MOST_FAULTS = 100
"""Faults that are listed; a file with more is wrong as a whole."""
MOST_LOOKED_AT = 2000

_CENTRE = (
    "Nobody reads a hole's centre: write near (its side nearest the edge) with dia, or near and far"
)
_MEANT = {
    **dict.fromkeys(("down", "centre", "center", "height", "from_batter"), _CENTRE),
    "diameter": 'Did you mean "dia"?',
    "size": 'Did you mean "dia"?',
}


class BadSurvey(BadInput):
    """The first fault of a survey file; ``faults`` holds all that were found.

    Attributes
    ----------
    faults : tuple of BadInput
        In the order of the file, this first one included.
    """

    def __init__(self, faults: tuple[BadInput, ...]) -> None:
        first = faults[0]
        self.faults = faults
        super().__init__(
            first.what,
            where=first.where,
            given=first.given,
            wanted=first.wanted,
            step=first.step,
        )

    def __reduce__(self) -> tuple[type[BadSurvey], tuple[tuple[BadInput, ...]]]:
        # It must come whole out of the process that read the survey.
        return (BadSurvey, (self.faults,))


@dataclass(slots=True)
class Faults:
    """Faults gathered while a file is read, each by its path in the file."""

    text: str
    name: str
    found: list[BadInput] = field(default_factory=list)

    def add(self, fault: BadInput) -> None:
        """Note one fault; its ``where`` is the path in the file."""
        self.found.append(fault)

    def raise_if_any(self) -> None:
        """Raise the first fault in the order of the file, with its line; the rest go along.

        Raises
        ------
        BadSurvey
            When anything was noted.
        """
        if not self.found:
            return
        lines = lines_of(self.text)
        placed = [(_line(fault.where, lines), fault) for fault in self.found[:MOST_FAULTS]]
        placed.sort(key=lambda pair: (pair[0] is None, pair[0] or 0))
        said = {str(fault): fault for fault in (self._said(one, line) for line, one in placed)}
        raise BadSurvey(tuple(said.values()))

    def _said(self, fault: BadInput, line: int | None) -> BadInput:
        front = f"{self.name} line {line}" if line else self.name
        where = ", ".join(part for part in (front, fault.where) if part)
        return BadInput(
            fault.what,
            where=where,
            given=fault.given,
            wanted=fault.wanted,
            step=fault.step,
        )


def _line(where: str, lines: dict[str, int]) -> int | None:
    while where:
        if where in lines:
            return lines[where]
        cut = max(where.rfind("."), where.rfind("["))
        where = where[:cut] if cut > 0 else ""
    return None


def faults_of(error: ValidationError, *, raw: Any, model: type[BaseModel]) -> Iterable[BadInput]:
    """Yield every complaint of pydantic in our own words, with the path in the file."""
    misspelt: set[str] = set()
    missing: list[BadInput] = []
    for fault in error.errors(include_url=False)[:MOST_LOOKED_AT]:
        said, inner = _real_path(fault["loc"], raw=raw)
        where = path_of(said)
        words = _in_words(fault, where=where, given=inner, model=model)
        if fault["type"] == "missing":
            missing.append(words)
            continue
        meant = re.fullmatch(r'Did you mean "(.*)"\?', words.step)
        if fault["type"] == "extra_forbidden" and meant:
            misspelt.add(path_of((*said[:-1], meant[1])))
        yield words
    # What is missing only because its name is misspelt is said once, as the misspelling.
    yield from (fault for fault in missing if fault.where not in misspelt)


def _real_path(parts: tuple[str | int, ...], *, raw: Any) -> tuple[tuple[str | int, ...], Any]:
    """Drop what is no place in the file (the tags of a choice) and find what stands there."""
    said: list[str | int] = []
    here = raw
    for number, part in enumerate(parts):
        if part == "[key]":
            continue
        in_table = isinstance(here, dict) and part in here
        in_list = isinstance(here, list | tuple) and isinstance(part, int) and part < len(here)
        if in_table or in_list:
            said.append(part)
            here = here[part]
        elif isinstance(here, dict) and number == len(parts) - 1 and isinstance(part, str):
            said.append(part)
            here = None
    return tuple(said), here


def _in_words(fault: Any, *, where: str, given: Any, model: type[BaseModel]) -> BadInput:
    kind, parts = fault["type"], fault["loc"]
    inner = fault.get("ctx", {}).get("error")
    if isinstance(inner, BadInput):
        return inner.at(where)
    if kind == "missing":
        return BadInput("nothing is written for it", where=where, wanted=_example(str(parts[-1])))
    if kind == "extra_forbidden":
        name = str(parts[-1])
        known = _known_at(model, parts[:-1])
        step = did_you_mean(name[:80], known, likeness=0.7)
        if not step and "near" in known:
            step = _MEANT.get(name, "")
        wanted = "" if step else f"one of {', '.join(sorted(known))}"
        return BadInput("a name that is not known here", where=where, wanted=wanted, step=step)
    if kind.startswith("union_tag"):
        return _not_of_a_choice(fault, where=where, given=given)
    if where == "format":
        return BadInput(
            "a format of the file that is not known", where=where, given=shown(given), wanted="1"
        )
    if kind in ("too_short", "too_long"):
        limit = fault["ctx"].get("min_length", fault["ctx"].get("max_length"))
        words = "at least" if kind == "too_short" else "at most"
        return BadInput(
            "too few" if kind == "too_short" else "too many",
            where=where,
            given=shown(given),
            wanted=f"{words} {limit}",
        )
    wanted = {
        "tuple_type": "a list in [ ], or [[several tables]]",
        "dict_type": "a [table]",
        "model_type": "a [table]",
        "model_attributes_type": "a [table]",
    }.get(kind, "something else here")
    return BadInput("the wrong sort of thing", where=where, given=shown(given), wanted=wanted)


def _not_of_a_choice(fault: Any, *, where: str, given: Any) -> BadInput:
    context = fault["ctx"]
    name = str(context["discriminator"]).strip("'")
    words = tuple(re.findall(r"'([^']*)'", str(context.get("expected_tags", ""))))
    written = given.get(name) if isinstance(given, dict) else given
    words = words or _CHOICES.get(name, ())
    if not isinstance(given, dict):
        return BadInput(
            "the wrong sort of thing", where=where, given=shown(given), wanted="a [table]"
        )
    if written is None:
        return BadInput(
            f"it does not say its {name}", where=where, wanted=f"{name} = {listed(words)}"
        )
    return BadInput(
        "not one of the words known here",
        where=f"{where}.{name}",
        given=shown(written),
        wanted=listed(words),
        step=did_you_mean(written[:80], words) if isinstance(written, str) else "",
    )


_CHOICES = {
    "want": (
        *("second head", "other lugs", "back to factory", "take out", "put on", "move"),
        *("shorten", "kit snare"),
    ),
    "shape": ("rounded", "rectangle", "disc", "polygon"),
}

_EXAMPLES = {
    "format": "format = 1 at the top of the file",
    "number": 'number = "24-017"',
    "wall": 'the thickness of the bare shell, wall = "5 mm"',
    "depth": 'the depth from edge to edge, depth = "203 mm"',
    "job": 'a table [job] with number = "24-017"',
    "drums": 'at least one drum, [drums."small tom"]',
    "hole": 'the diameter of the lug\'s holes, hole = "6 mm"',
    "lugs": "how many lugs, lugs = 6",
    "head": 'head = "batter", "resonant" or "both"',
    "fitting": "the lug's or fitting's name in the book, fitting = \"Corvane single lug 42\"",
    "along": 'a place along, along = "90 deg"',
    "wide": 'wide = "25 mm"',
    "thick": 'thick = "5 mm"',
    "width": 'width = "50 mm"',
    "height": 'height = "38 mm"',
    "corner": 'corner = "4 mm"',
    "diameter": 'diameter = "30 mm"',
    "outline": 'outline = { shape = "rectangle", width = "50 mm", height = "38 mm" }',
    "when": "when = 2026-11-03",
    "lug": "lug = 3 for an exception, the lug's name for a wish",
    "cut": 'the cut of the edge, cut = "round-over"',
    "collar": 'the inside of the head\'s collar, collar = "304.5 mm"',
    "of": 'whose thread it is, of = "batter rods"',
    "outside": 'over the crests, outside = "5.44 mm"',
    "temperature": 'temperature = "18 C"',
    "humidity": 'humidity = "55 %"',
    "thickness": 'thickness = "0.5 mm"',
    "length": 'length = "1500 mm"',
    "label": 'what it is called on this drum, label = "bracket"',
}


def _example(name: str) -> str:
    return _EXAMPLES.get(name, f'{name} = "..."')


def _known_at(model: type[BaseModel], parts: tuple[str | int, ...]) -> tuple[str, ...]:
    """Return the names that the table at this place may hold."""
    here: list[Any] = [model]
    for part in parts:
        models = [m for found in here for m in _models_in(found)]
        named = [m for m in models if part in _names(m)]
        tagged = [m for m in models if _tag(m) == part]
        if named:
            here = [_names(m)[str(part)] for m in named]
        elif tagged:
            here = list(tagged)
    names = [name for found in here for m in _models_in(found) for name in _names(m)]
    return tuple(dict.fromkeys(names))


def _names(model: type[BaseModel]) -> dict[str, Any]:
    return {f.alias or name: f.annotation for name, f in model.model_fields.items()}


def _tag(model: type[BaseModel]) -> str:
    for name in ("want", "shape"):
        found = model.model_fields.get(name)
        if found is not None and get_origin(found.annotation) is Literal:
            return str(get_args(found.annotation)[0])
    return ""


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    if get_origin(annotation) in (Annotated, Union, UnionType, tuple, list, dict):
        return [model for inner in get_args(annotation) for model in _models_in(inner)]
    return []
