"""Readings that were kept of a drum: each as it was heard, and those that are set side by side."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.taps_told import ENDS
from counterhoop.bench.tune.heard import Heard
from counterhoop.bench.tune.kept_reading import from_json
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.quantities.print_pitch import print_cents, print_pitch
from counterhoop.shell.tuning import ReadingKept

HEADS: Final[dict[End, str]] = {"batter": "batter head", "resonant": "the other head"}
STAGES: Final = {"before": "before", "between": "on the way", "after": "after"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadAgain:
    """A reading that was kept.

    Attributes
    ----------
    kept : ReadingKept
        When, by whom, of what.
    heard : Heard or None
        What was heard; None where what stands there cannot be read.
    fault : str
        Why not.
    """

    kept: ReadingKept
    heard: Heard | None
    fault: str = ""

    @property
    def title(self) -> str:
        """What it is of, such as "batter head, before"."""
        return f"{HEADS[self.kept.head]}, {STAGES[self.kept.stage]}"

    @property
    def says(self) -> str:
        """What was heard, in a line."""
        return heard_says(self.heard) if self.heard else self.fault


def kept_readings(found: Iterable[ReadingKept]) -> tuple[ReadAgain, ...]:
    """Return readings as they were heard, in the order in which they were kept."""
    made = []
    for one in found:
        try:
            made.append(ReadAgain(kept=one, heard=from_json(one.result)))
        except BadInput as fault:
            made.append(ReadAgain(kept=one, heard=None, fault=f"cannot be read: {fault}"))
    return tuple(made)


def side_by_side(readings: Sequence[ReadAgain]) -> list[tuple[str, Heard]]:
    """Return for each head its last reading before anything was turned, and its last since."""
    made: list[tuple[str, Heard]] = []
    for end in ENDS:
        own = [one for one in readings if one.kept.head == end and one.heard and one.heard.rim]
        before = [one for one in own if one.kept.stage == "before"][-1:]
        since = [one for one in own if one.kept.stage != "before"][-1:]
        made += [(one.title, one.heard) for one in (*before, *since) if one.heard]
    return made


def heard_says(heard: Heard) -> str:
    """Return what was heard in a line: the pitch, and how far it differs round the rim."""
    if heard.hz is None:
        return heard.refusal or "no pitch was read"
    said = print_pitch(heard.hz)
    rim = heard.rim
    if rim is None or rim.coupled_pair:
        return said
    if rim.split_cents is not None:
        return f"{said}, and it differs by {print_cents(rim.split_cents)} round the rim"
    if rim.split_below_cents is not None:
        return f"{said}, and it differs by less than {print_cents(rim.split_below_cents, up=True)}"
    return said
