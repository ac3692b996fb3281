"""From what a browser sends back to what is kept: exactly what was typed, and nothing else."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, TypeAlias

from counterhoop.web.forms.inputs import NO, YES
from counterhoop.web.forms.names import AT, IS, UNKNOWN, parts_of
from counterhoop.web.forms.shapes import (
    ByWord,
    Count,
    Figure,
    Named,
    Pair,
    Several,
    Shape,
    Table,
    Text,
    Ways,
    YesNo,
)
from counterhoop.web.forms.things import THINGS

Given: TypeAlias = Mapping[str, object] | Iterable[tuple[str, object]]

MOST_FIELDS: Final = 6000
"""Inputs of the largest form that can be filled in; more is no form of ours."""
DEEPEST = 8
NAME: Final = "_name"
"""The input that holds the name of a thing that is kept under one."""
_NOTHING: Final = object()
_WHOLE = re.compile(r"[0-9]{1,9}")
_NUMBER = re.compile(r"-?(?:[0-9]{1,9}|[0-9]{1,9}\.[0-9]{1,9})")


@dataclass(slots=True)
class _Node:
    """What was sent for one place, and for the places below it."""

    text: str = ""
    below: dict[str, _Node] = field(default_factory=dict)

    def listed(self) -> list[_Node]:
        """Return what was sent for each place of a list, in order."""
        return [self.below[key] for key in _numbers(self.below)]


def read_form(thing: str, given: Given) -> dict[str, Any]:
    """Return what was typed into the form of a thing, as it is kept.

    Parameters
    ----------
    thing : str
        A name of ``THINGS``.
    given : Mapping or iterable of pairs
        Names of inputs and what stands in them. Names that are not the form's are passed over.

    Returns
    -------
    dict
        Texts as typed, their ends trimmed; what is empty is left out. Half of it may be missing
        or wrong: ``faults_in`` says so.

    Examples
    --------
    >>> read_form("row", {"lugs": "6", "near.0": " 37.5 mm", "near.1": "79.5 mm", "who": ""})
    {'lugs': 6, 'near': ['37.5 mm', '79.5 mm']}
    """
    what = THINGS[thing]
    read = _read(_tree(given), what.shape)
    item: dict[str, Any] = read if isinstance(read, dict) else {}
    if what.only:
        strange = what.shape.parts if isinstance(what.shape, Table) else ()
        others = {part.name for part in strange} - {name.split(".")[0] for name in what.only}
        item = {name: value for name, value in item.items() if name not in others}
    return item


def read_name(given: Given) -> str:
    """Return the name under which a thing is to be kept, single spaces, none at its ends."""
    for name, value in _pairs(given):
        if name == NAME and isinstance(value, str):
            return " ".join(value.split())
    return ""


def _pairs(given: Given) -> Iterable[tuple[str, object]]:
    if not isinstance(given, Mapping):
        return given
    many = getattr(given, "multi_items", given.items)
    pairs: Iterable[tuple[str, object]] = many()
    return pairs


def _tree(given: Given) -> _Node:
    root = _Node()
    for name, value in _pairs(given):
        parts = parts_of(name)
        if not isinstance(value, str) or len(parts) > DEEPEST:
            continue
        here = root
        for part in parts:
            here = here.below.setdefault(part, _Node())
        # A browser sends the line ends of a long text in its own way.
        here.text = value.replace("\r\n", "\n").strip()
    return root


def _numbers(keys: Iterable[str]) -> list[str]:
    return sorted((key for key in keys if _WHOLE.fullmatch(key)), key=int)


def _read(node: _Node, shape: Shape) -> Any:
    match shape:
        case Table():
            return _table(node, {part.name: part.shape for part in shape.parts})
        case ByWord():
            shapes: dict[str, Shape] = {part.name: part.shape for _, part in shape.every_part}
            return _table(node, {shape.tag: Text(), **shapes})
        case Several():
            return _several(node, shape)
        case Pair():
            texts = [_read_or_blank(node, str(n), one) for n, one in enumerate(shape.of)]
            return texts if any(text != "" for text in texts) else _own(node, Text())
        case Named():
            return _named(node, shape)
        case Ways():
            return _ways(node, shape)
        case _:
            return _own(node, shape)


def _own(node: _Node, shape: Shape) -> Any:
    text = node.text
    match shape:
        case _ if not text:
            return _NOTHING
        case Count() if _WHOLE.fullmatch(text):
            return int(text)
        case Figure() if _NUMBER.fullmatch(text):
            return float(text) if "." in text else int(text)
        case YesNo() if text.lower() in (YES, NO):
            return text.lower() == YES
    return text


def _read_or_blank(node: _Node, key: str, shape: Shape) -> Any:
    read = _read(node.below.get(key, _Node()), shape)
    return "" if read is _NOTHING else read


def _table(node: _Node, shapes: Mapping[str, Shape]) -> Any:
    found = {
        name: read
        for name, shape in shapes.items()
        if name in node.below and (read := _read(node.below[name], shape)) is not _NOTHING
    }
    if UNKNOWN in node.below:
        for name, below in node.below[UNKNOWN].below.items():
            if below.text and name not in shapes:
                found[name] = below.text
    return found or _own(node, Text())


def _several(node: _Node, shape: Several) -> Any:
    read = [_read(one, shape.of) for one in node.listed()]
    # The place of a measure in its list says which lug or hole it is of: a gap must stay a gap.
    if isinstance(shape.of, Text) and shape.of.measure:
        while read and read[-1] is _NOTHING:
            read.pop()
        return ["" if one is _NOTHING else one for one in read] or _own(node, Text())
    return [one for one in read if one is not _NOTHING] or _own(node, Text())


def _named(node: _Node, shape: Named) -> Any:
    names = node.below.get(AT, _Node()).below
    values = node.below.get(IS, _Node()).below
    found: dict[str, Any] = {}
    for key in _numbers({*names, *values}):
        name = names.get(key, _Node()).text
        value = _read_or_blank(_Node(below=values), key, shape.of)
        if name or value != "":
            found[_apart(name, found)] = value
    return found or _own(node, Text())


def _ways(node: _Node, shape: Ways) -> Any:
    """Return all that was given: what is given in two ways is kept, and found wrong as a whole."""
    one = _own(node, shape.one)
    below = _Node(below=node.below)
    several: Any = _several(below, shape.several) if shape.several else _NOTHING
    named: dict[str, Any] = {}
    if shape.named:
        pairs = _named(below, shape.named)
        named = dict(pairs) if isinstance(pairs, dict) else {}
        for name, held in node.below.items():
            if name not in (AT, IS) and not _WHOLE.fullmatch(name):
                read = _read(held, shape.named.of)
                if read is not _NOTHING:
                    named[_apart(name, named)] = read
    more = [] if several is _NOTHING else several
    if named:
        for value in ([] if one is _NOTHING else [one]) + more:
            named[_apart("", named)] = value
        return named
    if more:
        return more if one is _NOTHING else [one, *more]
    return one


def _apart(name: str, taken: Mapping[str, Any]) -> str:
    while name in taken:
        name += " "
    return name
