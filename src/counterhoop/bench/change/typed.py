"""What is typed of a thing that was found, and what of it the survey says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from counterhoop.bench.change.found import SORTS
from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.errors import BadInput
from counterhoop.shell import hole
from counterhoop.store.body import Json

LONGEST: Final = 300
LINE_OF: Final = {"crack": "crack", "loose ply": "lifted ply"}
"""Sorts that the survey has as a line down the shell, by what it calls them."""
FIELDS: Final[dict[str, tuple[str, ...]]] = {
    "crack": ("along", "from", "to", "means"),
    "loose ply": ("along", "from", "to", "means"),
    "hole": ("along", "near", "dia", "origin", "means"),
    "thread": ("where", "size", "means"),
    "part": ("where", "size", "means"),
    "other": ("where", "size", "means"),
}
"""What is asked of each sort."""
MAY_BE_EMPTY: Final = ("origin", "means")
ON_THE_WAY: Final = hole.ON_THE_WAY


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundTyped:
    """A thing as it is typed.

    Attributes
    ----------
    sort : str
        One of ``SORTS``.
    words : mapping of str to str
        By field of ``FIELDS``.
    photographs : tuple of str
        Names of enclosures that show it.
    """

    sort: str
    words: Mapping[str, str]
    photographs: tuple[str, ...] = ()

    def word(self, name: str) -> str:
        """Return what stands in a field, spaces put in order."""
        return " ".join(self.words.get(name, "").split())

    @property
    def along(self) -> str:
        """Where along, as the survey wants it: "at lug 4" is lug 4 to it."""
        said = self.word("along")
        return said[3:] if said[:3].casefold() == "at " else said

    @property
    def where(self) -> str:
        """Where it is, in words."""
        said = self.word("where")
        return self.along or (said[3:] if said[:3].casefold() == "at " else said)

    @property
    def size(self) -> str:
        """How large it is, in words."""
        if self.sort in LINE_OF:
            ends = [self.word("from"), self.word("to")]
            return f"{' to '.join(ends)} down" if all(ends) else ""
        if self.sort == "hole":
            return f"{self.word('dia')} dia, near side {self.word('near')} down"
        return self.word("size")

    @property
    def in_survey(self) -> tuple[str, dict[str, Json]] | None:
        """The list of the survey that it goes into, and what stands there; None for none."""
        means = self.word("means")
        says: dict[str, Json] = {"says": f"{ON_THE_WAY}: {means}" if means else ON_THE_WAY}
        if self.sort in LINE_OF:
            ends: dict[str, Json] = {name: self.word(name) for name in ("from", "to")}
            return "lines", {"kind": LINE_OF[self.sort], "along": self.along, **ends, **says}
        if self.sort == "hole":
            read: dict[str, Json] = {name: self.word(name) for name in ("near", "dia")}
            if self.word("origin"):
                read["origin"] = self.word("origin")
            return "holes", {"along": self.along, **read, "purpose": ON_THE_WAY, **says}
        return None


def faults_of(
    job: KeptJob, drum: KeptDrum, typed: FoundTyped, *, held: Mapping[str, Kept]
) -> dict[str, str]:
    """Return what is wrong with what was typed, by field; nothing where it can be kept.

    What goes into the survey is read as the survey is, on this very drum: a lug that is not there
    is said at once.

    Parameters
    ----------
    held : mapping of str to Kept
        The workshop's own documents.
    """
    if typed.sort not in SORTS:
        return {"sort": f"Say what was found: {', '.join(SORTS.values())}."}
    faults = {
        name: f"At most {LONGEST} signs."
        for name in FIELDS[typed.sort]
        if len(typed.word(name)) > LONGEST
    }
    goes = typed.in_survey
    if goes is None:
        if not (typed.where or typed.word("means")):
            faults["where"] = "Say where it is, or what it means: a few words."
        return faults
    missing = {
        name: "This is wanted to draw it."
        for name in FIELDS[typed.sort]
        if name not in MAY_BE_EMPTY and not typed.word(name)
    }
    return faults | (missing or _on_the_drum(job, drum, *goes, held=held))


def _on_the_drum(
    job: KeptJob, drum: KeptDrum, place: str, item: dict[str, Json], *, held: Mapping[str, Kept]
) -> dict[str, str]:
    from counterhoop.bench.folders.read_so_far import read_so_far

    kept = drum.kept(SURVEY)
    body = with_one_more(kept.table, place, item)
    tried = replace(
        drum, documents={**drum.documents, SURVEY: replace(kept, body=body, number=kept.number + 1)}
    )
    front = f"{place}[{len(body[place])}]"
    found: dict[str, str] = {}
    for fault in read_so_far(job, tried, shop=held).faults:
        if fault.where == front or fault.where.startswith(f"{front}."):
            name = fault.where.removeprefix(front).removeprefix(".") or "along"
            plain = BadInput(fault.what, given=fault.given, wanted=fault.wanted, step=fault.step)
            found.setdefault(name if name in item else "along", _large(str(plain)))
    return found


def with_one_more(table: Mapping[str, Any], place: str, item: dict[str, Json]) -> dict[str, Any]:
    """Return a survey with one thing more in a list."""
    held = table.get(place)
    return {**table, place: [*(held if isinstance(held, list) else []), item]}


def without(table: Mapping[str, Any], place: str, item: Mapping[str, Any]) -> dict[str, Any] | None:
    """Return a survey without the last thing of a list that says just this; None for no such."""
    held = table.get(place)
    listed = list(held) if isinstance(held, list) else []
    if item not in listed:
        return None
    del listed[len(listed) - 1 - listed[::-1].index(item)]
    rest = {name: value for name, value in table.items() if name != place}
    return {**rest, place: listed} if listed else rest


def _large(text: str) -> str:
    return text[:1].upper() + text[1:]
