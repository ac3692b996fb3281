"""Two schemes held against each other, in the figures that are printed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from counterhoop.quantities.print_length import TAPE_MM, nearest_step
from counterhoop.scheme.plan import Scheme

ENOUGH_MM = 5.0
"""More room than this to every limit is no advantage (common practice, no source)."""
UNSURE_MM = 1.0
"""Two readings of a rule may be out by so much: a margin below it may be none."""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Weight:
    """What schemes are compared by; less is better, in the order that decides.

    Attributes
    ----------
    stopped, off : bool
        A finding stops it; a row is off its proper height.
    cut, shows_mm2 : int
        Holes cut anew, whole mm2 outside.
    unsure : bool
        Something may stand at its limit: no pennies outweigh that.
    money_minor, inside_mm2 : int
        Smallest coins, whole mm2 inside.
    margin_mm : Fraction or float
        Least distance to a limit in half millimetres, the sign turned; ``ENOUGH_MM`` at most.
    """

    stopped: bool
    off: bool
    cut: int
    shows_mm2: int
    unsure: bool
    money_minor: int
    inside_mm2: int
    margin_mm: Fraction

    @property
    def decides(self) -> tuple[int | Fraction, ...]:
        """What one scheme can put another aside by: all but what shows inside."""
        return (
            self.stopped,
            self.off,
            self.cut,
            self.shows_mm2,
            self.unsure,
            self.money_minor,
            self.margin_mm,
        )

    def beats(self, other: Weight) -> bool:
        """Tell whether it is at least as good in all that decides, and better in one."""
        mine, theirs = self.decides, other.decides
        return mine != theirs and all(a <= b for a, b in zip(mine, theirs, strict=True))


def weigh(scheme: Scheme) -> Weight:
    """Return the figures of a scheme as a rule, a bill and a hole list would show them."""
    c = scheme.criteria
    return Weight(
        stopped=scheme.stopped,
        off=not scheme.centred,
        cut=c.cut,
        shows_mm2=_whole(c.shows_mm2),
        unsure=c.margin_mm < UNSURE_MM,
        money_minor=c.money_minor,
        inside_mm2=_whole(c.shows_inside_mm2),
        margin_mm=-_to_tape(min(c.margin_mm, ENOUGH_MM)),
    )


def same_work(first: Scheme, second: Scheme) -> bool:
    """Tell whether two schemes change the drum alike and use the same parts.

    The code covers the permanent changes only: two lugs that go on the same holes share it, and
    stay two schemes because their parts differ.
    """
    return (
        bool(first.code) and first.code == second.code and parts_used(first) == parts_used(second)
    )


def parts_used(scheme: Scheme) -> list[tuple[str, int]]:
    """Return names and counts of the parts, by name."""
    return sorted((line.name, line.count) for line in scheme.parts)


def _whole(value: float) -> int:
    return int(nearest_step(value, step=Fraction(1)))


def _to_tape(value_mm: float) -> Fraction:
    return nearest_step(value_mm, step=Fraction(TAPE_MM))
