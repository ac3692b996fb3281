"""From a shape and what is written so far to inputs, one question after another."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from counterhoop.web.forms.fields import Field, Group, Item
from counterhoop.web.forms.inputs import Inputs, as_text
from counterhoop.web.forms.names import AT, IS, UNKNOWN, Path, input_id, input_name, said
from counterhoop.web.forms.shapes import (
    ByWord,
    Choice,
    Named,
    Pair,
    Part,
    Several,
    Shape,
    Table,
    Text,
    Ways,
)
from counterhoop.web.forms.things import inner_table
from counterhoop.web.forms.words import Words

LINES_NOT_KNOWN = 8
"""Lines that stand ready where as many belong as there are lugs, and nobody has said how many."""


@dataclass(slots=True, kw_only=True)
class Ask:
    """Makes the inputs of one form.

    Attributes
    ----------
    inputs : Inputs
        Makes each of them.
    words : Mapping
        Of every field, by model and name.
    short : bool
        Whether other ways to give a reading are left out, unless they are in use.
    """

    inputs: Inputs
    words: Mapping[tuple[str, str], Words]
    short: bool = False

    def table(
        self, table: Table, value: object, *, path: Path = (), first: Sequence[str] = ()
    ) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
        """Return the inputs of a table: those that are seen at once, and the rest."""
        held = _held(value)
        first = first or inner_table(table.model).first or _needed(table)
        asked = {
            part.name: self.part(part, held, model=table.model, path=path) for part in table.parts
        }
        seen = [asked[name] for name in first if name in asked]
        rest = [one for name, one in asked.items() if name not in first]
        strange = self.strange(held, known=asked, path=path)
        return (*seen, *strange), tuple(rest)

    def by_word(
        self, choice: ByWord, value: object, *, path: Path = (), all_shown: bool = False
    ) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
        """Return the word to choose, and the fields that go with it.

        Parameters
        ----------
        all_shown : bool
            Whether the fields of the other words are there as well, beneath.
        """
        held = _held(value)
        table = choice.table(held.get(choice.tag))
        model = (table or choice.tables[0][1]).model
        tag = Part(name=choice.tag, shape=Choice(words=choice.words), needed=True)
        word = self.part(tag, held, model=model, path=path)
        own = {
            part.name: self.part(part, held, model=model, path=path)
            for part in (table.parts if table else ())
            if part.name != choice.tag
        }
        first = (inner_table(model).first or _needed(table)) if table else ()
        at_once = [own[name] for name in first if name in own]
        rest = [one for name, one in own.items() if name not in first]
        for owner, part in choice.every_part:
            # What belongs to another word but stands here has to be seen to be taken out.
            stands = part.name in held
            if part.name in own or not (all_shown or stands):
                continue
            one = self.part(part, held, model=owner.model, path=path)
            plain = table is None and part.needed and isinstance(one, Field)
            (at_once if stands or plain else rest).append(one)
        known = {choice.tag, *(part.name for _, part in choice.every_part)}
        return (word, *at_once, *self.strange(held, known=known, path=path)), tuple(rest)

    def strange(self, held: Mapping[str, Any], *, known: Iterable[str], path: Path) -> list[Field]:
        """Return an input for every name that may not stand here but does."""
        return [
            Field(
                name=input_name((*path, UNKNOWN, name)),
                id=input_id(self.inputs.ident, (*path, UNKNOWN, name)),
                label=name or "As it stands",
                value=as_text(value),
                said=said((*path, name)),
            )
            for name, value in held.items()
            if name not in set(known)
        ]

    def part(self, part: Part, held: Mapping[str, Any], *, model: str, path: Path) -> Item:
        """Return the inputs of one field of a table."""
        words = self.words[model, part.name]
        lines = words.lines
        if isinstance(lines, str):
            beside = held.get(lines)
            lines = beside if isinstance(beside, int) else -LINES_NOT_KNOWN
        return self.item(
            (*path, part.name), part.shape, held.get(part.name), words=words, part=part, lines=lines
        )

    def item(
        self,
        path: Path,
        shape: Shape,
        value: object,
        *,
        words: Words,
        part: Part | None = None,
        lines: int = 1,
    ) -> Item:
        """Return the inputs of one value.

        Parameters
        ----------
        lines : int
            Of a list, how many stand ready; above 1 so many and no more, unless more are in use.
        """
        needed = bool(part and part.needed)
        group = self.inputs.group
        match shape:
            case Table():
                parts, more = self.table(shape, value, path=path)
                return group(path, "table", words, parts=parts, more=more, needed=needed)
            case ByWord():
                parts, more = self.by_word(shape, value, path=path, all_shown=True)
                return group(path, "table", words, parts=parts, more=more, needed=needed)
            case Several():
                return self._several(path, shape, value, words=words, needed=needed, lines=lines)
            case Named():
                return self._named(path, shape, value, words=words)
            case Ways():
                return self._ways(path, shape, value, words=words, part=part, lines=lines)
            case _:
                return self.inputs.field(path, shape, value, words=words, part=part)

    def _ways(
        self,
        path: Path,
        shape: Ways,
        value: object,
        *,
        words: Words,
        part: Part | None,
        lines: int,
    ) -> Item:
        several = value if isinstance(value, list) else None
        named = value if isinstance(value, dict) else None
        plain = None if several is not None or named is not None else value
        one = self.inputs.field(path, shape.one, plain, words=words, part=part)
        inner = replace(words, help="")
        more: list[Item] = []
        known = {end: (named or {}).get(end) for end in words.ends}
        if not self.short or several is not None or named is not None:
            if shape.named is not None:
                more += [
                    self.inputs.field(
                        (*path, end), shape.named.of, held, words=Words(label=end, help="")
                    )
                    for end, held in known.items()
                ]
                rest = {name: held for name, held in (named or {}).items() if name not in known}
                if rest or not known:
                    more.append(self._named(path, shape.named, rest, words=inner))
            # Readings without their places are worth less: offered only where nothing else is.
            if shape.several is not None and (several is not None or shape.named is None):
                more.append(self._several(path, shape.several, several, words=inner, lines=lines))
        if not more:
            return one
        return self.inputs.group(
            path, "ways", inner, parts=(one,), more=tuple(more), otherwise=words.otherwise
        )

    def _several(
        self,
        path: Path,
        shape: Several,
        value: object,
        *,
        words: Words,
        needed: bool = False,
        lines: int = 1,
    ) -> Group:
        held = value if isinstance(value, list) else [] if value is None else [value]
        exact = isinstance(words.lines, str) and lines > 0
        ready = max(abs(lines), len(held) if exact else len(held) + 1)
        count = max(len(held), min(ready, shape.most or ready))
        filled = [*held, *[None] * (count - len(held))]
        match shape.of:
            case Table() | ByWord():
                one = _one(shape.of) or words.label.lower()
                entries = tuple(
                    self._entry((*path, n), shape.of, entry, one=one, n=n, spare=n >= len(held))
                    for n, entry in enumerate(filled)
                )
                return self.inputs.group(path, "tables", words, parts=entries, needed=needed)
            case Pair():
                pairs = tuple(
                    self._pair((*path, n), shape.of, entry, words=words, n=n)
                    for n, entry in enumerate(filled)
                )
                return self.inputs.group(path, "pairs", words, parts=pairs, needed=needed)
        each = words.each or "{n}"
        lines_of = tuple(
            self.inputs.field(
                (*path, n),
                shape.of,
                entry,
                words=Words(
                    label=each.format(n=n + 1), help="", offers=words.offers, shown=words.shown
                ),
            )
            for n, entry in enumerate(filled)
        )
        return self.inputs.group(path, "several", words, parts=lines_of, needed=needed)

    def _entry(
        self, path: Path, shape: Table | ByWord, value: object, *, one: str, n: int, spare: bool
    ) -> Group:
        if isinstance(shape, ByWord):
            parts, more = self.by_word(shape, value, path=path, all_shown=True)
        else:
            parts, more = self.table(_plain(shape) if spare else shape, value, path=path)
        title = inner_table(shape.model).title(value) if isinstance(shape, Table) else ""
        label = title or (f"one more {one}" if spare and n else f"{one} {n + 1}")
        words = Words(label=label[:1].upper() + label[1:], help="")
        return self.inputs.group(path, "table", words, parts=parts, more=more, spare=spare)

    def _pair(self, path: Path, shape: Pair, value: object, *, words: Words, n: int) -> Group:
        held = value if isinstance(value, list) else [] if value is None else [value]
        filled = [*held, *[None] * (len(shape.of) - len(held))]
        inputs = tuple(
            self.inputs.field(
                (*path, k), shape.of[k], entry, words=Words(label=words.pair[k], help="")
            )
            for k, entry in enumerate(filled[: len(shape.of)])
        )
        label = words.each.format(n=n + 1)
        return self.inputs.group(path, "pair", Words(label=label, help=""), parts=inputs)

    def _named(self, path: Path, shape: Named, value: object, *, words: Words) -> Group:
        held = list(_held(value).items())
        lines = words.lines if isinstance(words.lines, int) else 1
        count = max(lines, len(held) + 1)
        # The helps stand once, over all lines.
        at = Words(label=words.at, help="", offers=words.at_offers)
        pairs = []
        for n in range(count):
            name, entry = held[n] if n < len(held) else ("", None)
            place = (*path, name)
            first = self.inputs.field((*path, AT, n), Text(), name, words=at)
            second = self.inputs.field(
                (*path, IS, n), shape.of, entry, words=Words(label=words.value, help="")
            )
            group = self.inputs.group(
                (*path, n), "pair", Words(label=str(n + 1), help=""), parts=(first, second)
            )
            pairs.append(_said(group, said(place) if name else ""))
        says = " ".join(one for one in (words.at_help, words.helped(self.inputs.units)) if one)
        helps = Words(label=words.label, help=says)
        return self.inputs.group(path, "named", helps, parts=tuple(pairs))


def _held(value: object) -> dict[str, Any]:
    """Return a table; what is none stands in it without a name, so that it is seen."""
    if isinstance(value, dict):
        return value
    return {"": value} if value else {}


def _plain(table: Table) -> Table:
    """Return a table without the lists of tables in it: they wait until it is written down."""
    kept = tuple(
        part
        for part in table.parts
        if not (isinstance(part.shape, Several) and isinstance(part.shape.of, Table))
    )
    return replace(table, parts=kept)


def _needed(table: Table) -> tuple[str, ...]:
    return tuple(part.name for part in table.parts if part.needed)


def _one(shape: Table | ByWord) -> str:
    return inner_table(shape.model).one if isinstance(shape, Table) else ""


def _said(group: Group, place: str) -> Group:
    """Return a pair whose value is what faults speak of by the pair's own name."""
    name, value = group.parts
    return replace(group, said="", parts=(replace(name, said=""), replace(value, said=place)))
