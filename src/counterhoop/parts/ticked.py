"""The count as it is ticked off: found, soaked, dry, refitted, and what is no use again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from counterhoop.errors import BadInput
from counterhoop.parts.strip_down import Expected, StripDown
from counterhoop.quantities.nearest import did_you_mean


class Stage(StrEnum):
    """What was counted."""

    FOUND = "found"
    SPOILT = "no use again"
    SOAKED = "soaked"
    DRY = "dry"
    REFITTED = "refitted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """So many of one piece at one place have come so far.

    A later tick of the same place, piece and stage takes the earlier one's place.
    """

    place: str
    piece: str
    stage: Stage
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """One line of the count with what was ticked.

    Attributes
    ----------
    expected : Expected
        What should be there.
    found : int or None
        None when nobody has counted yet; 0 for a part that the survey says is gone.
    spoilt : int
        Of those found, no use again: broken, stripped, pitted through.
    soaked, dry, refitted : int
        Of those found. What is soaked and not dry is still wet.
    """

    expected: Expected
    found: int | None = None
    spoilt: int = 0
    soaked: int = 0
    dry: int = 0
    refitted: int = 0

    @property
    def wet(self) -> int:
        """How many still lie in the soak or drip."""
        return self.soaked - self.dry

    @property
    def missing(self) -> int:
        """How many are wanted; none while nobody has counted."""
        if self.found is None:
            return 0
        return max(0, self.expected.count - (self.found - self.spoilt))

    @property
    def over(self) -> int:
        """How many more were found than should be there."""
        return max(0, (self.found or 0) - self.expected.count)


def count_off(stripped: StripDown, ticks: Iterable[Tick]) -> tuple[Counted, ...]:
    """Return every line of a strip-down with what was ticked, in the same order.

    Parameters
    ----------
    stripped : StripDown
        What should be there.
    ticks : iterable of Tick
        Oldest first.

    Raises
    ------
    BadInput
        For a place or piece that is not on the list, a count below zero, or counts that
        contradict each other: more soaked than found, more dry than soaked, a wet or spoilt
        piece put back.
    """
    keys = {(line.place, line.sort.piece) for line in stripped.lines}
    latest: dict[tuple[str, str], dict[Stage, int]] = {}
    for tick in ticks:
        key = (tick.place, tick.piece)
        if key not in keys:
            raise _not_on_the_list(tick, keys)
        if tick.count < 0:
            raise BadInput(
                "fewer than none", where=f"{tick.place}, {tick.piece}", given=tick.count,
                wanted="0 or more",
            )  # fmt: skip
        latest.setdefault(key, {})[tick.stage] = tick.count
    return tuple(
        _checked(line, latest.get((line.place, line.sort.piece), {})) for line in stripped.lines
    )


def _checked(line: Expected, ticked: dict[Stage, int]) -> Counted:
    one = Counted(
        expected=line,
        found=ticked.get(Stage.FOUND, 0 if line.lost else None),
        spoilt=ticked.get(Stage.SPOILT, 0),
        soaked=ticked.get(Stage.SOAKED, 0),
        dry=ticked.get(Stage.DRY, 0),
        refitted=ticked.get(Stage.REFITTED, 0),
    )
    found = one.found or 0
    ready = found - one.spoilt - one.wet
    for count, most, what in (
        (one.spoilt, found, f"more no use again than the {found} found"),
        (one.soaked, found, f"more soaked than the {found} found"),
        (one.dry, one.soaked, f"more dry than the {one.soaked} soaked"),
        (one.refitted, ready, f"more refitted than the {max(ready, 0)} that are sound and dry"),
    ):
        if count > most:
            raise BadInput(
                what, where=f"{line.place}, {line.sort.piece}", given=count,
                step="Tick the earlier stage first, or put the count right.",
            )  # fmt: skip
    return one


def _not_on_the_list(tick: Tick, keys: set[tuple[str, str]]) -> BadInput:
    places = sorted({place for place, _ in keys})
    if tick.place not in places:
        return BadInput(
            "no such place on this drum", where="strip-down", given=tick.place,
            step=did_you_mean(tick.place, places),
        )  # fmt: skip
    pieces = sorted(piece for place, piece in keys if place == tick.place)
    return BadInput(
        "no such piece there", where=tick.place, given=tick.piece, wanted=", ".join(pieces),
        step=did_you_mean(tick.piece, pieces),
    )  # fmt: skip
