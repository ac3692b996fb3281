"""The survey of a drum as short lines in the order of the work, each with its form behind it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal, TypeAlias

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.look_over import LookedOver
from counterhoop.errors import BadInput
from counterhoop.shell.drum import Drum
from counterhoop.shell.survey_file.lines import path_of
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.forms import THINGS, Form, Spot, item_at, make_form, spot_of, spots_in
from counterhoop.web.item_words import item_name, item_words

At: TypeAlias = int | str | None
NEW: Final = "new"
"""What stands for the place of a thing that is not written yet."""
ENDS: Final = ("batter", "resonant")
SHEETS: Final = (
    ("shell-itself", "The shell", ("shell", "finish", "seam", "ring", "line", "air of the drum")),
    ("places", "Rows, fittings and holes", ("row", "fitting", "hole", "mark", "inside")),
    ("round-the-ends", "Edges, how round, heads", ("edge", "round", "fit", "bed")),
    ("metal", "Hoops and screws", ("hoops", "thread")),
    ("wanted", "What is wanted", ("wish", "finish plan")),
)
ALWAYS_THERE: Final = "hole"
"""The thing whose empty form stands open: a tap on the drawing fills it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One thing that is or may be written.

    Attributes
    ----------
    thing, at : str
        Whose form, and which of them: a number from 0, an end, "new", or nothing.
    ident : str
        Its id on the page.
    name, says : str
        What it is called, and what is written of it.
    wrong, written : bool
        Whether anything in it cannot be read; whether anything is written at all.
    form : Form or None
        Where it is open.
    based_on : int
        The revision of its document that the form shows.
    """

    thing: str
    at: str
    ident: str
    name: str
    says: str
    wrong: bool = False
    written: bool = True
    form: Form | None = None
    based_on: int = 0

    @property
    def slug(self) -> str:
        """The thing as it stands in an address."""
        return slug_of(self.thing)

    @property
    def new(self) -> bool:
        """Whether it is the empty one behind the others."""
        return self.at == NEW


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """All things of one sort."""

    thing: str
    ident: str
    heading: str
    says: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of the page."""

    ident: str
    heading: str
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """What lines are made from.

    Attributes
    ----------
    offers : callable
        Returns the names to choose from; asked only when a form is open.
    open : str
        The id of the line whose form is open, or nothing.
    """

    drum: KeptDrum
    looked: LookedOver
    units: Literal["mm", "in"]
    offers: Callable[[], Mapping[str, Sequence[str]]]
    open: str = ""

    def sheets(self) -> tuple[Sheet, ...]:
        """Return all sheets."""
        return tuple(
            Sheet(ident=ident, heading=heading, parts=tuple(self.part(one) for one in things))
            for ident, heading, things in SHEETS
        )

    def part(self, thing: str) -> Part:
        """Return all things of one sort, with the empty one behind them."""
        what = THINGS[thing]
        places: list[At] = [None]
        if what.lies == "list":
            count = sum(name == thing for name, _ in spots_in(what.document, self.body(thing)))
            places = [*range(count), NEW]
        elif what.lies == "ends":
            places = list(ENDS)
        return Part(
            thing=thing,
            ident=f"part-{slug_of(thing)}",
            heading=what.title,
            says=what.says,
            lines=tuple(self.line(thing, at) for at in places),
        )

    def body(self, thing: str) -> Mapping[str, Any]:
        """Return the document that a thing stands in."""
        return self.drum.kept(THINGS[thing].document).table

    def line(self, thing: str, at: At) -> Line:
        """Return one line, with its form when that is open."""
        ident = ident_of(thing, at)
        item = {} if at == NEW else item_at(thing, self.body(thing), at)
        faults = self.faults(thing, at)
        what = THINGS[thing]
        opened = ident == self.open or (at == NEW and thing == ALWAYS_THERE)
        return Line(
            thing=thing, at="" if at is None else str(at), ident=ident, name=self.name(thing, at),
            says="" if at == NEW else item_words(thing, item), wrong=bool(faults),
            written=bool(item), form=self.form(thing, at, item=item) if opened else None,
            based_on=self.drum.kept(what.document).number,
        )  # fmt: skip

    def form(
        self, thing: str, at: At, *, item: object, hushed: bool = False, ident: str = ""
    ) -> Form:
        """Return the form of a thing.

        Parameters
        ----------
        ident : str
            Its id, where the page knows it by another than its place.
        hushed : bool
            While it is being typed: what is not there yet is not held against it.
        """
        faults = [one for one in self.faults(thing, at) if not hushed or one.given is not None]
        return make_form(
            thing, item, ident=ident or ident_of(thing, at), units=self.units,
            title=self.name(thing, at), faults=[bench_fault(one) for one in faults],
            offers=self.offers(),
        )  # fmt: skip

    def faults(self, thing: str, at: At) -> tuple[BadInput, ...]:
        """Return what cannot be read of a thing; ``where`` is a path within it."""
        found = []
        for fault in self.looked.faults:
            spot = self.spot(fault)
            if spot is not None and (spot.thing, spot.at) == (thing, at):
                found.append(
                    BadInput(
                        fault.what, where=spot.where, given=fault.given, wanted=fault.wanted,
                        step=fault.step,
                    )
                )  # fmt: skip
        return tuple(found)

    def spot(self, fault: BadInput) -> Spot | None:
        """Return whose form a fault belongs to; None for what stands outside of this drum."""
        if fault.where.split(".")[0].split("[")[0] not in _of_the_drum():
            return None
        name = self.drum.name
        return spot_of(f"{path_of(('drums', name))}.{fault.where}", drum=name)

    def name(self, thing: str, at: At) -> str:
        """Return what a thing is called: a hole by its number on the drawing."""
        if at == NEW:
            what = THINGS[thing]
            return _another(what.title) if self.body(thing).get(what.place) else what.title
        number = self.hole_numbers().get(at) if thing == "hole" and isinstance(at, int) else None
        if number:
            return f"Hole {number}"
        return item_name(thing, at)

    def hole_numbers(self) -> dict[int, int]:
        """Return the numbers that the drawing gives the single holes, by their place in the list.

        Those that cannot be read have none.
        """
        one = self.looked.surveyed
        listed = self.body("hole").get("holes")
        if one is None or not isinstance(listed, list):
            return {}
        own = {at: hole.get("number") for at, hole in enumerate(listed) if isinstance(hole, dict)}
        wrong = {at for at in own if self.faults("hole", at)}
        read = [at for at in own if at not in wrong]
        named = {at: number for at in read if isinstance(number := own[at], int)}
        free = [number for number in single_holes(one.drum) if number not in named.values()]
        rest = [at for at in read if at not in named]
        return named | (dict(zip(rest, free, strict=True)) if len(rest) == len(free) else {})


def single_holes(drum: Drum) -> list[int]:
    """Return the numbers of the holes that no lug and no fitting stands on."""
    taken = {number for placed in drum.everything for number in placed.holes}
    return [hole.number for hole in drum.holes if hole.number not in taken]


def slug_of(thing: str) -> str:
    """Return a thing as it stands in an address.

    Examples
    --------
    >>> slug_of("finish plan"), thing_of("finish-plan")
    ('finish-plan', 'finish plan')
    """
    return thing.replace(" ", "-")


def thing_of(slug: str) -> str:
    """Return the thing that an address names.

    Raises
    ------
    BadInput
        When no sheet of a drum has it.
    """
    thing = slug.replace("-", " ")
    if not any(thing in things for _, _, things in SHEETS):
        raise BadInput("no such thing in a survey", where="thing", given=slug)
    return thing


def ident_of(thing: str, at: At) -> str:
    """Return the id of a line: "hole-3", "edge-batter", "shell"."""
    return slug_of(thing) if at is None else f"{slug_of(thing)}-{at}"


def read_at(thing: str, text: str) -> At:
    """Return which of its sort is meant.

    Raises
    ------
    BadInput
        When there can be none of that name.
    """
    lies = THINGS[thing].lies
    if lies == "list" and (text == NEW or (text.isdecimal() and len(text) < 5)):
        return NEW if text == NEW else int(text)
    if lies == "ends" and text in ENDS:
        return text
    if lies in ("fields", "table") and not text:
        return None
    raise BadInput("no such place in the survey", where=thing, given=text)


def _another(title: str) -> str:
    """Return what the empty one behind others is called."""
    for article in ("A ", "An "):
        if title.startswith(article):
            return f"Another {title.removeprefix(article)}"
    return title


def _of_the_drum() -> frozenset[str]:
    from counterhoop.shell.survey_file.models_job import DrumWritten

    return frozenset({*DrumWritten.model_fields, ""})
