"""The fittings book as it is looked through: packaged and own entries by kind, found by words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final, Literal

from counterhoop.bench.folders.own_book import OwnBook, OwnEntry
from counterhoop.fittings.book import name_key
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.fittings.read_book import packaged_book
from counterhoop.fittings.show import describe
from counterhoop.sources import load_table

Units = Literal["mm", "in"]
NO_KIND: Final = "not said yet"
BRIEF: Final[dict[Kind, tuple[tuple[str, str], ...]]] = {
    Kind.LUG: (("holes apart", "holes {} apart"), ("thread", "{}")),
    Kind.LONG_LUG: (("mouth to mouth", "{} from mouth to mouth"), ("thread", "{}")),
    Kind.HOOP: (("for a head of", "for a head of {}"), ("ears", "{} ears")),
    Kind.ROD: (("length under the head", "{} under the head"), ("thread", "{}")),
    Kind.T_ROD: (("length under the head", "{} under the head"), ("thread", "{}")),
    Kind.WASHER: (("diameter", "{} across"), ("hole", "hole {}")),
    Kind.SCREW: (("thread and length", "{}"),),
    Kind.LEG: (("diameter", "{} thick"), ("length", "{} long")),
    Kind.SPUR: (("diameter", "{} thick"), ("length", "{} long")),
    Kind.WIRES: (("length", "{} long"), ("width", "{} wide")),
    Kind.CLAW: (("hole for the rod", "hole for the rod {}"),),
    Kind.GATE: (("opening", "opening {}"),),
    Kind.LUG_SPRING: (("diameter", "{} across"), ("length", "{} long")),
}
"""What a list says of an entry, by its kind; of others the base."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BookLine:
    """One entry as a list has it.

    Attributes
    ----------
    name, kind, says : str
        What it is called, its kind in words, and its most telling figures.
    own : OwnEntry or None
        The workshop's own entry; None for a packaged one.
    over : bool
        Whether it is an own one laid over a packaged one.
    fitting : Fitting or None
        What it comes to; None while it cannot be read.
    """

    name: str
    kind: str
    says: str
    own: OwnEntry | None = None
    over: bool = False
    fitting: Fitting | None = None

    @property
    def unread(self) -> bool:
        """Whether it cannot be read yet."""
        return self.fitting is None


def book_lines(own: OwnBook, *, units: Units) -> tuple[BookLine, ...]:
    """Return every entry that a job can name, and own ones that cannot be read yet."""
    packaged = {name_key(entry.name) for entry in packaged_book()}
    mine = {name_key(one.name) for one in own.entries}
    lines = [_own(one, over=name_key(one.name) in packaged, units=units) for one in own.entries]
    lines += [
        BookLine(name=entry.name, kind=entry.kind.value, says=brief(entry, units), fitting=entry)
        for entry in packaged_book()
        if name_key(entry.name) not in mine
    ]
    return tuple(lines)


def found(lines: Iterable[BookLine], *, words: str, kind: str) -> tuple[BookLine, ...]:
    """Return the entries of a kind in which each word begins some word: name, thread, size."""
    wanted = words.casefold().split()
    return tuple(
        line
        for line in lines
        if (not kind or line.kind == kind)
        and all(any(one.startswith(word) for one in _words(line)) for word in wanted)
    )


def packaged_item(name: str) -> dict[str, Any] | None:
    """Return a packaged entry as it is written; None when there is none of that name."""
    rows = load_table("counterhoop.fittings", "book.toml")
    key = name_key(name)
    return next((dict(row.values) for row in rows if name_key(row.values["name"]) == key), None)


def packaged_entry(name: str) -> Fitting | None:
    """Return a packaged entry; None when there is none of that name."""
    key = name_key(name)
    return next((entry for entry in packaged_book() if name_key(entry.name) == key), None)


def _own(one: OwnEntry, *, over: bool, units: Units) -> BookLine:
    item: Mapping[str, Any] = one.item if isinstance(one.item, dict) else {}
    kind = str(item.get("kind") or NO_KIND)
    says = brief(one.fitting, units) if one.fitting else ""
    if one.fitting:
        kind = one.fitting.kind.value
    return BookLine(
        name=one.name or "an entry without a name", kind=kind, says=says, own=one, over=over,
        fitting=one.fitting,
    )  # fmt: skip


@lru_cache(maxsize=2000)
def brief(entry: Fitting, units: Units) -> str:
    """Return the most telling figures of an entry in one line.

    Examples
    --------
    >>> brief(packaged_book().find("rod M6 x 42 mm"), "mm")
    '42.0 mm (1 21/32 in) under the head, M6'
    """
    told = dict(describe(entry, units=units))
    wanted = BRIEF.get(entry.kind, (("base", "base {}"), ("thickness", "{} thick")))
    parts = [says.format(told[label]) for label, says in wanted if label in told]
    if entry.kind is Kind.HOOP:
        parts = [parts[0], parts[-1] if entry.ears else "for claws", entry.hoop_kind]
    return ", ".join(parts)


@lru_cache(maxsize=2000)
def _said(entry: Fitting) -> frozenset[str]:
    every = [entry.name, entry.kind.value]
    every += [line.value for line in describe(entry)]
    return _split(" ".join(every))


def _words(line: BookLine) -> frozenset[str]:
    return _said(line.fitting) if line.fitting else _split(f"{line.name} {line.kind}")


def _split(text: str) -> frozenset[str]:
    return frozenset(word.strip("(),;:") for word in text.casefold().split())
