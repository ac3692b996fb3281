"""The workshop's own fittings: what can be read serves, what cannot is left out and said."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

from counterhoop.bench.folders.folder import Kept, KeptJob
from counterhoop.bench.folders.kinds import BOOK
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book, name_key
from counterhoop.fittings.entry import Fitting
from counterhoop.fittings.read_book import packaged_book, read_book
from counterhoop.store.body import Json

ENTRIES: Final = "fitting"
AWAY: Final = "away"
"""Entries that were put away; they stand here until they are taken out again."""
TITLE: Final = "the workshop's fittings book"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnEntry:
    """One entry of the workshop's own book.

    Attributes
    ----------
    at : int
        Its place in the book, from 0.
    item : Json
        What is written, as typed.
    name : str
        What it is called; empty while nothing is written for it.
    fitting : Fitting or None
        What it comes to; None while it cannot be read.
    fault : BadInput or None
        Why it cannot; ``where`` is a path within the entry.
    """

    at: int
    item: Json
    name: str
    fitting: Fitting | None = None
    fault: BadInput | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnBook:
    """The workshop's own book.

    Attributes
    ----------
    entries : tuple of OwnEntry
        In the order in which they were written.
    """

    entries: tuple[OwnEntry, ...] = ()

    @property
    def unread(self) -> tuple[OwnEntry, ...]:
        """The entries that cannot be read."""
        return tuple(one for one in self.entries if one.fitting is None)

    @property
    def text(self) -> str:
        """The book as every job reads it; empty when nothing is written in it.

        An entry that cannot be read takes its name out of the packaged book too: whoever wrote
        it says that the packaged figures are not those of the part in hand.
        """
        import tomli_w

        whole = [one.item for one in self.entries if one.fitting is not None]
        read = {name_key(one.name) for one in self.entries if one.fitting is not None}
        without = [one.name for one in self.unread if one.name and name_key(one.name) not in read]
        tables: dict[str, Any] = {"without": without} if without else {}
        tables |= {ENTRIES: whole} if whole else {}
        return tomli_w.dumps(tables) if tables else ""

    @property
    def book(self) -> Book:
        """The packaged book with this one over it."""
        return packaged_book().merged(read_book(self.text, name=TITLE))

    def named(self, name: str) -> OwnEntry | None:
        """Return the entry of a name; of two, the one that serves."""
        found = [one for one in self.entries if name_key(one.name) == name_key(name)]
        return found[0] if found else None


def own_book(shop: Mapping[str, Kept]) -> OwnBook:
    """Return the workshop's own book out of its drawer."""
    return _read(json.dumps(shop.get(BOOK, Kept()).table))


def own_books(job: KeptJob, shop: Mapping[str, Kept]) -> dict[str, str]:
    """Return the texts of the fittings books that go over the packaged one, in order."""
    text = own_book(shop).text
    return ({TITLE: text} if text else {}) | dict(job.books)


@lru_cache(maxsize=4)
def _read(body: str) -> OwnBook:
    table = json.loads(body)
    listed = table.get(ENTRIES, [])
    made: list[OwnEntry] = []
    seen: set[str] = set()
    for at, item in enumerate(listed if isinstance(listed, list) else [listed]):
        one = _entry(at, item, source=table.get("source"))
        key = name_key(one.name)
        if one.fitting is not None and key in seen:
            fault = BadInput(
                "your book has two entries of this name, and the first one serves", where="name",
                given=one.name, wanted="a name of its own",
            )  # fmt: skip
            one = OwnEntry(at=at, item=one.item, name=one.name, fault=fault)
        if one.fitting is not None:
            seen.add(key)
        made.append(one)
    return OwnBook(entries=tuple(made))


def _entry(at: int, item: Any, *, source: Any) -> OwnEntry:
    import tomli_w

    if not isinstance(item, dict):
        fault = BadInput("this is no entry", given=item, wanted="what the part is, and its figures")
        return OwnEntry(at=at, item=item, name="", fault=fault)
    whole = {"source": source, **item} if source else item
    name = item["name"].strip() if isinstance(item.get("name"), str) else ""
    try:
        read = read_book(tomli_w.dumps({ENTRIES: [whole]}), name="-")
    except BadInput as fault:
        front = f"-: {name[:80] or 'entry 1'}"
        where = fault.where.removeprefix(front).removeprefix(".")
        said = BadInput(
            fault.what, where=where, given=fault.given, wanted=fault.wanted, step=fault.step
        )
        return OwnEntry(at=at, item=item, name=name, fault=said)
    except (TypeError, ValueError):
        # An empty value, or a sign that no file can hold.
        return OwnEntry(at=at, item=item, name=name, fault=BadInput("this cannot be read"))
    return OwnEntry(at=at, item=whole, name=name, fitting=read.entries[0])
