"""A form as plain records: what it asks, what stands there, and what is wrong with that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

Kind: TypeAlias = Literal["text", "long text", "whole number", "choice", "yes or no"]
Layout: TypeAlias = Literal["table", "several", "pair", "pairs", "named", "ways", "tables"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One word of a choice: what is sent, and how it is shown."""

    value: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One input.

    Attributes
    ----------
    name, id : str
        Of the input; no two inputs of a page share them.
    label, help : str
        In bench words; the help is one sentence, empty where an input before it has said it.
    help_id : str
        Of the element that holds the help, here or at the first input of its kind.
    kind : Kind
        How it is asked.
    value : str
        Exactly what was typed.
    options : tuple of Option
        Of a choice; the first may be the empty one, which leaves the field out.
    offers : str
        Which list of names is offered while one types.
    faults : tuple of str
        What is wrong, each in the words of the fault.
    needed : bool
        Whether the file must have it.
    place : str
        What a tap on the drawing fills in here: "along", "down", "near" or nothing.
    said : str
        The place as faults say it, from the item.
    """

    name: str
    id: str
    label: str
    help: str = ""
    help_id: str = ""
    kind: Kind = "text"
    value: str = ""
    options: tuple[Option, ...] = ()
    offers: str = ""
    faults: tuple[str, ...] = ()
    needed: bool = False
    place: str = ""
    said: str = ""

    @property
    def no_unit(self) -> bool:
        """Tell whether a bare number stands here that lacks mm or in."""
        return any(" what: " in fault and fault.endswith(" in?") for fault in self.faults)

    @property
    def speaks(self) -> bool:
        """Tell whether something stands here, or is wrong."""
        return bool(self.value or self.faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Inputs that belong together.

    Attributes
    ----------
    layout : Layout
        "table" has named fields, "several" lines of one sort, "pairs" lines of two inputs, each
        of them a "pair", "named" the same where the first is a name, "ways" one reading and,
        further down, other ways to give it, "tables" a list of tables.
    parts, more : tuple of Field or Group
        What is always seen, and what is rarely wanted.
    otherwise : str
        What stands over ``more``.
    spare : bool
        An empty one, offered so that one more can be written.
    """

    name: str
    id: str
    label: str
    layout: Layout
    help: str = ""
    help_id: str = ""
    parts: tuple[Item, ...] = ()
    more: tuple[Item, ...] = ()
    otherwise: str = "More"
    faults: tuple[str, ...] = ()
    needed: bool = False
    spare: bool = False
    said: str = ""

    @property
    def speaks(self) -> bool:
        """Tell whether anything stands in it, or is wrong."""
        return bool(self.faults) or any(one.speaks for one in (*self.parts, *self.more))

    @property
    def open(self) -> bool:
        """Tell whether what is rarely wanted has to be seen."""
        return any(one.speaks for one in self.more)


Item: TypeAlias = Field | Group


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One thing of a job, to be written down.

    Attributes
    ----------
    thing, id, title, says : str
        Which thing, the id of the form, its heading, and one sentence on how to read it.
    parts, more : tuple of Field or Group
        What is always seen, and what is rarely wanted.
    faults : tuple of str
        Faults of the whole, which belong to no one field.
    offers : tuple of (str, tuple of str)
        Names to choose from while typing, by list.
    """

    thing: str
    id: str
    title: str
    says: str
    parts: tuple[Item, ...]
    more: tuple[Item, ...] = ()
    faults: tuple[str, ...] = ()
    offers: tuple[tuple[str, tuple[str, ...]], ...] = ()

    @property
    def fields(self) -> tuple[Field, ...]:
        """Every input, from the first to the last."""
        return tuple(_flat((*self.parts, *self.more)))

    @property
    def wrong(self) -> bool:
        """Tell whether anything is wrong in it."""
        return bool(self.faults) or any(_wrong(one) for one in (*self.parts, *self.more))

    @property
    def open(self) -> bool:
        """Tell whether what is rarely wanted has to be seen."""
        return any(one.speaks for one in self.more)


def _flat(items: tuple[Item, ...]) -> Iterator[Field]:
    for one in items:
        if isinstance(one, Field):
            yield one
        else:
            yield from _flat((*one.parts, *one.more))


def _wrong(item: Item) -> bool:
    inner = (*item.parts, *item.more) if isinstance(item, Group) else ()
    return bool(item.faults) or any(_wrong(one) for one in inner)
