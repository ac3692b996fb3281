"""A strip-down in lines to be ticked with a dirty thumb: sort by sort, and place by place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.bench.parts.count_words import of_one_sort
from counterhoop.bench.parts.stripped import Stripped
from counterhoop.bench.parts.tick_parts import Press, is_soaked, presses_for
from counterhoop.papers.facts import labels
from counterhoop.parts.rows_of_places import rows_of_places
from counterhoop.parts.ticked import Counted, Stage

SAYS = {
    Stage.FOUND: "found",
    Stage.SOAKED: "in the soak",
    Stage.DRY: "dry",
    Stage.REFITTED: "back on",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """A button that ticks many lines."""

    stage: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One sort or one place of the list.

    Attributes
    ----------
    ident : str
        For the page's own links.
    name : str
        The piece, or the place.
    how_far : str
        In words.
    lines : tuple of Counted
    presses : tuple of Pressed
    done : bool
        All of it is there, or back on.
    lacks : bool
        Something of it is missing, or there is more than should be.
    """

    ident: str
    name: str
    how_far: str
    lines: tuple[Counted, ...]
    presses: tuple[Pressed, ...]
    done: bool
    lacks: bool


def by_sort(stripped: Stripped) -> tuple[Shown, ...]:
    """Return the list sort by sort, in the order of the work."""
    found: dict[str, list[Counted]] = {}
    for one in stripped.counted:
        found.setdefault(one.expected.sort.piece, []).append(one)
    return tuple(
        _shown(f"sort-{number}", name, lines, presses_for(lines))
        for number, (name, lines) in enumerate(found.items(), 1)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Places one after another where the same comes off: the lugs of one row.

    Attributes
    ----------
    ident : str
    name : str
        "batter lugs 1 to 6".
    places : tuple of Shown
    presses : tuple of Pressed
        For all of them at once.
    """

    ident: str
    name: str
    places: tuple[Shown, ...]
    presses: tuple[Pressed, ...]

    @property
    def how_far(self) -> str:
        """In words, where all stand alike and nothing lacks; then one need not look at each."""
        said = {one.how_far for one in self.places}
        alike = len(said) == 1 and not any(one.lacks for one in self.places)
        return said.pop() if alike else ""


def by_place(stripped: Stripped) -> tuple[Group, ...]:
    """Return the list place by place, in the order of the work, alike neighbours together."""
    groups, number = [], 0
    for row in rows_of_places(stripped.counted):
        places = tuple(
            _shown(f"place-{number + n}", name, of, presses_for(of, soak=False), place=True)
            for n, (name, of) in enumerate(row, 1)
        )
        number += len(row)
        pressed = presses_for([line for _, of in row for line in of], soak=False)
        groups.append(
            Group(
                ident=f"places-{number}",
                name=labels(name for name, _ in row),
                places=places,
                presses=tuple(
                    Pressed(stage=one.stage.value, says=f"All {len(row)} {ALL[one.stage]}")
                    for one in pressed
                ),
            )
        )
    return tuple(groups)


ALL = {Stage.FOUND: "there", Stage.REFITTED: "back on"}


def _shown(
    ident: str,
    name: str,
    lines: Iterable[Counted],
    presses: Iterable[Press],
    *,
    place: bool = False,
) -> Shown:
    kept = tuple(lines)
    return Shown(
        ident=ident, name=name, how_far=of_one_sort(kept), lines=kept,
        presses=tuple(
            Pressed(stage=one.stage.value, says=_says(one, place=place)) for one in presses
        ),
        done=all(one.found is not None and not one.missing and not one.wet for one in kept),
        lacks=any(one.missing or one.over for one in kept),
    )  # fmt: skip


def _says(press: Press, *, place: bool) -> str:
    if place and press.stage is Stage.FOUND:
        return "All there"
    if place and press.stage is Stage.REFITTED:
        return "Back on"
    said = SAYS[press.stage]
    if press.count == 1:
        return said[0].upper() + said[1:]
    return f"All {press.count} {said}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One line of the form in which a place is counted piece by piece.

    Attributes
    ----------
    piece : str
        What it is.
    expected : int
        How many there should be.
    counts : tuple of (str, str, str)
        Name of the field, its label, and what stands in it.
    """

    piece: str
    expected: int
    counts: tuple[tuple[str, str, str], ...]


LABELS = {
    Stage.FOUND: "found",
    Stage.SPOILT: "no use again",
    Stage.SOAKED: "in the soak",
    Stage.DRY: "dry after it",
    Stage.REFITTED: "back on",
}
FIELDS = {stage: stage.name.lower() for stage in Stage}


def asked_of(one: Counted, typed: dict[Stage, str] | None = None) -> Asked:
    """Return the fields of one line; with ``typed``, as somebody filled them in."""
    now = {
        Stage.FOUND: "" if one.found is None else str(one.found),
        Stage.SPOILT: str(one.spoilt or ""),
        Stage.SOAKED: str(one.soaked or ""),
        Stage.DRY: str(one.dry or ""),
        Stage.REFITTED: str(one.refitted or ""),
    } | (typed or {})
    wet = is_soaked(one.expected) or one.soaked
    return Asked(
        piece=one.expected.sort.piece,
        expected=one.expected.count,
        counts=tuple(
            (FIELDS[stage], LABELS[stage], now[stage])
            for stage in Stage
            if wet or stage not in (Stage.SOAKED, Stage.DRY)
        ),
    )
