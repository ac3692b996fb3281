"""A place on a drum as an address asks for it: which holes, what may go there, how it may stand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal
from urllib.parse import urlencode

from starlette.datastructures import QueryParams

from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind
from counterhoop.quantities.length import parse_length
from counterhoop.web.bench_fault import bench_fault

if TYPE_CHECKING:
    from counterhoop.bench.parts.place_asked import PlaceAsked
    from counterhoop.parts.places.match import Turn
    from counterhoop.shell.drum import Drum

UPRIGHT: Final[Literal["upright"]] = "upright"
TURNS: Final[tuple[tuple[Turn, str], ...]] = (
    (UPRIGHT, "upright"),
    ("half turn too", "upright or upside down"),
    ("any", "any way round"),
)
KINDS: Final = (
    *(Kind.LUG, Kind.LONG_LUG, Kind.BRACKET, Kind.LEG_BRACKET, Kind.SPUR, Kind.STRAINER),
    *(Kind.BUTT, Kind.DAMPER, Kind.BADGE, Kind.COVER_PLATE),
)
ANYTHING: Final = "anything"
MOST_NAMED: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceTyped:
    """What was asked, as it was chosen and typed.

    Attributes
    ----------
    holes : tuple of int
    kind : str
        A kind, ``ANYTHING``, or empty for what stood there.
    turn, takes, show : str
        How it may stand; the arm as typed; which fitting is drawn.
    mirror : bool
    """

    holes: tuple[int, ...] = ()
    kind: str = ""
    turn: str = "upright"
    mirror: bool = False
    takes: str = ""
    show: str = ""

    def query(self, *, show: str = "") -> str:
        """Return it as the end of an address, with another fitting drawn."""
        pairs = [("holes", str(number)) for number in self.holes]
        pairs += [("kind", self.kind)] if self.kind else []
        pairs += [("turn", self.turn)] if self.turn != "upright" else []
        pairs += [("mirror", "yes")] if self.mirror else []
        pairs += [("takes", self.takes)] if self.takes else []
        return urlencode([*pairs, *([("show", show)] if show else [])])

    def asked(self) -> PlaceAsked:
        """Return what is asked of the place.

        Raises
        ------
        BadInput
            When the arm cannot be read; ``where`` is "takes".
        """
        from counterhoop.bench.parts.place_asked import PlaceAsked

        takes_mm = None
        if self.takes:
            try:
                takes_mm = parse_length(self.takes).mm
            except BadInput as fault:
                raise fault.at("takes") from None
        kinds: tuple[Kind, ...] = (Kind(self.kind),) if self.kind not in ("", ANYTHING) else ()
        if self.kind == ANYTHING:
            kinds = KINDS
        turn = next((name for name, _ in TURNS if name == self.turn), UPRIGHT)
        return PlaceAsked(
            holes=self.holes, kinds=kinds, turn=turn, mirror=self.mirror, takes_mm=takes_mm
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleTick:
    """One hole of the list that is ticked."""

    number: int
    says: str
    on: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleGroup:
    """Holes of one fitting, or of none; ``query`` chooses them all."""

    says: str
    holes: tuple[HoleTick, ...]
    query: str = ""
    row: bool = False


def typed_in(query: QueryParams) -> PlaceTyped:
    """Read an address; what it cannot mean is left out."""
    texts = query.getlist("holes")[:MOST_NAMED]
    numbers = dict.fromkeys(int(text) for text in texts if text.isdecimal() and len(text) < 5)
    kind = query.get("kind", "")
    known = {ANYTHING, *(one.value for one in KINDS)}
    return PlaceTyped(
        holes=tuple(numbers),
        kind=kind if kind in known else "",
        turn=query.get("turn", "upright"),
        mirror=bool(query.get("mirror")),
        takes=query.get("takes", "").strip()[:60],
        show=query.get("show", "")[:200],
    )


def hole_groups(drum: Drum, typed: PlaceTyped) -> tuple[HoleGroup, ...]:
    """Return the holes of a drum: those of no fitting, then fitting by fitting, then row by row."""
    chosen, left = set(typed.holes), {hole.number: hole for hole in drum.holes}
    groups: list[HoleGroup] = []

    def group(says: str, numbers: Sequence[int], *, row: bool = False) -> None:
        ticks = tuple(
            HoleTick(
                number=number,
                says=f"{number}" + (f", {left[number].purpose}" if left[number].purpose else ""),
                on=number in chosen,
            )
            for number in numbers
            if number in left
        )
        if ticks:
            query = PlaceTyped(holes=tuple(one.number for one in ticks)).query()
            groups.append(HoleGroup(says=says, holes=ticks, query=query, row=row))

    of_fittings = {number for one in drum.everything for number in one.holes}
    for one in drum.fittings:
        group(f"the {one.label}{' (missing)' if one.missing else ''}", one.holes)
    for row in drum.rows:
        for lug in row.lugs:
            group(f"the {lug.label}{' (missing)' if lug.missing else ''}", lug.holes, row=True)
    group("no fitting", [number for number in left if number not in of_fittings])
    return tuple(groups)


def said(fault: BadInput) -> str:
    """Say a fault without its path."""
    plain = bench_fault(fault)
    return str(BadInput(plain.what, given=plain.given, wanted=plain.wanted, step=plain.step))
