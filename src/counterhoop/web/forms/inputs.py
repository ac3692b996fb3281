"""One input, or a group of them, with its id, its help and its choices."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from counterhoop.web.forms.fields import Field, Group, Item, Option
from counterhoop.web.forms.names import Path, input_id, input_name, said
from counterhoop.web.forms.shapes import Choice, Count, Part, Shape, Text, YesNo
from counterhoop.web.forms.words import Units, Words

YES, NO = "yes", "no"


def as_text(value: object) -> str:
    """Return what is written, as it stands in an input.

    Examples
    --------
    >>> as_text("5 1/2 in"), as_text(6), as_text(True), as_text(None)
    ('5 1/2 in', '6', 'yes', '')
    """
    match value:
        case None:
            return ""
        case bool():
            return YES if value else NO
        case str():
            return value.strip()
        case int() | float():
            return str(value)
    # Not what belongs here, but what stands here: shown, so that it can be put right.
    return json.dumps(value, ensure_ascii=False, default=str)


@dataclass(slots=True, kw_only=True)
class Inputs:
    """Makes inputs of one form, and gives each help once.

    Attributes
    ----------
    ident : str
        Id of the form.
    units : "mm" or "in"
        What the person works in.
    """

    ident: str
    units: Units
    helped: set[str] = field(default_factory=set)

    def group(
        self,
        path: Path,
        layout: Any,
        words: Words,
        *,
        parts: tuple[Item, ...],
        more: tuple[Item, ...] = (),
        needed: bool = False,
        spare: bool = False,
        otherwise: str = "More",
    ) -> Group:
        """Return inputs that belong together."""
        help_id, says = self._help(path, words, of=f"{layout}-help")
        return Group(
            name=input_name(path),
            id=f"{input_id(self.ident, path)}-{layout}",
            label=words.label,
            layout=layout,
            help=says,
            help_id=help_id,
            parts=parts,
            more=more,
            otherwise=otherwise,
            needed=needed,
            spare=spare,
            said=said(path),
        )

    def field(
        self, path: Path, shape: Shape, value: object, *, words: Words, part: Part | None = None
    ) -> Field:
        """Return one input with what stands in it."""
        text = as_text(value)
        kind: Any = "text"
        options: tuple[Option, ...] = ()
        match shape:
            case Text(long=True):
                kind = "long text"
            case Count():
                kind = "whole number"
            case YesNo():
                kind = "yes or no"
                options = _options((YES, NO), text, words=words, part=part)
            case Choice():
                kind = "choice"
                options = _options(shape.words, text, words=words, part=part)
        help_id, says = self._help(path, words)
        return Field(
            name=input_name(path),
            id=input_id(self.ident, path),
            label=words.label,
            help=says,
            help_id=help_id,
            kind=kind,
            value=text,
            options=options,
            offers=words.offers,
            needed=bool(part and part.needed),
            place=words.place if len(path) == 1 else "",
            said=said(path),
        )

    def _help(self, path: Path, words: Words, *, of: str = "help") -> tuple[str, str]:
        """Return the id of a field's help, and the help where it has not been given yet."""
        text = words.helped(self.units)
        if not text:
            return "", ""
        plain = tuple(part for part in path if isinstance(part, str))
        help_id = f"{input_id(self.ident, plain)}-{of}"
        if help_id in self.helped:
            return help_id, ""
        self.helped.add(help_id)
        return help_id, text


def _options(
    known: Sequence[str], value: str, *, words: Words, part: Part | None
) -> tuple[Option, ...]:
    def shown(word: str) -> str:
        return words.shown.get(word, word)

    usual = as_text(part.usual) if part and part.usual is not None else ""
    if usual:
        empty = f"as usual: {shown(usual)}"
    else:
        empty = "choose" if part and part.needed else "not said"
    options = [Option(value="", says=empty), *(Option(value=w, says=shown(w)) for w in known)]
    if value and value not in known:
        options.append(Option(value=value, says=f"{value} (as written)"))
    return tuple(options)
