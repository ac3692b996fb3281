"""A place in a document as a person would say it: "row 1, near side, line 2"."""

from __future__ import annotations

from typing import Any

from counterhoop.bench.folders.kinds import SALES, TICKS, WORDS
from counterhoop.store.pointer import Nothing, read_pointer
from counterhoop.web.forms.shapes import (
    ByWord,
    Named,
    Pair,
    Several,
    Shape,
    Table,
    Text,
    Ways,
)
from counterhoop.web.forms.things import THINGS, Thing, inner_table
from counterhoop.web.forms.words import Words, words_in

LONGEST = 160
"""Signs of a value that are shown beside another; more is cut short."""


def place_words(kind: str, pointer: str) -> str:
    """Return a place of a document in the words of its forms.

    Parameters
    ----------
    kind : str
        Of the document: "survey", "wish" and so on.
    pointer : str
        The place in its body; empty for all of it.

    Examples
    --------
    >>> place_words("survey", "/rows/0/near/1")
    'row 1, edge to the near side of each hole 2'
    >>> place_words("survey", "/wall"), place_words("ticks", "/done/44/by")
    ('wall', 'hole 44, by')
    """
    steps = read_pointer(pointer) if pointer else []
    if not steps:
        return WORDS.get(kind, kind)
    if kind == TICKS and steps[0] == "done" and len(steps) > 1:
        return ", ".join([f"hole {steps[1]}", *steps[2:]])
    if kind == SALES and len(steps) > 1:
        # Between the two stands the sale's name for programs.
        return ", ".join(["a sale", *(step.replace("_", " ") for step in steps[2:])])
    thing = _thing(kind, steps)
    if thing is None:
        return ", ".join(_counted(step) for step in steps)
    front, rest = _front(thing, steps)
    return ", ".join([*front, *_below(thing.shape, rest, words=words_in(thing.words))])


def _thing(kind: str, steps: list[str]) -> Thing | None:
    """Return the thing whose table or list a place lies in, else the one of bare fields."""
    known = [thing for thing in THINGS.values() if thing.document == kind and not thing.short]
    placed = (thing for thing in known if thing.place == steps[0])
    return next(placed, None) or next((thing for thing in known if not thing.place), None)


def _front(thing: Thing, steps: list[str]) -> tuple[list[str], list[str]]:
    one = thing.one.removeprefix("the ")
    rest = steps[1:] if thing.place else steps
    match thing.lies:
        case "fields":
            return [], rest
        case "list":
            if not rest or not rest[0].isdigit():
                return [f"all of the {one}s"], rest[1:]
            return [counted(thing, int(rest[0]))], rest[1:]
        case "ends" | "named":
            return [" ".join([*rest[:1], one])], rest[1:]
    return [one], rest


def counted(thing: Thing, at: int) -> str:
    """Return one of a list by its place in it.

    A hole is not called by its place: the drawing numbers the holes of rows and fittings first.

    Examples
    --------
    >>> counted(THINGS["row"], 0), counted(THINGS["hole"], 0)
    ('row 1', 'first other hole')
    """
    one = thing.one.removeprefix("the ")
    if thing.name != "hole":
        return f"{one} {at + 1}"
    nth = ("first", "second", "third")[at] if at < 3 else f"{at + 1}th"
    return f"{nth} other hole"


def _below(shape: Shape, steps: list[str], *, words: dict[tuple[str, str], Words]) -> list[str]:
    said: list[str] = []
    here: Shape = shape
    model = shape.model if isinstance(shape, Table) else ""
    for step in steps:
        match here:
            case Table() | ByWord():
                parts = (
                    ((here, part) for part in here.parts)
                    if isinstance(here, Table)
                    else here.every_part
                )
                found = next(((t, p) for t, p in parts if p.name == step), None)
                if found is None:
                    said.append(step)
                    here = Text()
                    continue
                model = found[0].model
                said.append(_small(words[model, step].label if (model, step) in words else step))
                here = found[1].shape
            case Several() | Pair() | Ways() if step.isdigit():
                inner = _of(here, int(step))
                one = inner_table(inner.model).one if isinstance(inner, Table) else ""
                number = str(int(step) + 1)
                if one or not said:
                    said.append(f"{one or 'line'} {number}")
                else:
                    said[-1] += f" {number}"
                here = inner
            case Named() | Ways():
                said.append(step)
                here = here.of if isinstance(here, Named) else Text()
            case _:
                said.append(_counted(step))
    return said


def _of(shape: Several | Pair | Ways, place: int) -> Shape:
    match shape:
        case Several():
            return shape.of
        case Pair():
            return shape.of[place] if place < len(shape.of) else Text()
    return shape.several.of if shape.several else Text()


def _small(label: str) -> str:
    """Return a label as it stands within a sentence."""
    return label[:1].lower() + label[1:]


def _counted(step: str) -> str:
    return str(int(step) + 1) if step.isdigit() else step.replace("_", " ")


def value_words(value: Any | Nothing) -> str:
    """Return a value as typed, tables and lists in one line.

    Examples
    --------
    >>> value_words({"near": ["37.5 mm", "79.5 mm"], "rusty": True})
    'near: 37.5 mm, 79.5 mm; rusty: yes'
    """
    said = _said(value)
    return said if len(said) <= LONGEST else said[: LONGEST - 1].rstrip() + "…"


def _said(value: Any | Nothing) -> str:
    match value:
        case None | Nothing():
            return "nothing"
        case bool():
            return "yes" if value else "no"
        case dict():
            inner = [f"{name.replace('_', ' ')}: {_said(one)}" for name, one in value.items()]
            return "; ".join(inner) or "nothing"
        case list():
            deep = any(isinstance(one, dict | list) for one in value)
            return (" · " if deep else ", ").join(_said(one) for one in value) or "nothing"
    return str(value) or "nothing"
