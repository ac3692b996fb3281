"""The ways in which a tape, a caliper or a rule is misread, and what was then meant."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

BY_MM = ((25.4, "an inch"), (10.0, "a centimetre"), (100.0, "ten centimetres"))
"""What a scale is misread by (common practice, no source)."""
TIMES = (
    (25.4, "in inches and not mm"),
    (1.0 / 25.4, "in mm and taken for inches"),
    (10.0, "with its point one place too far left"),
    (0.1, "with its point one place too far right"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """What a reading should have been, and what happened to it, in words."""

    right_mm: float
    says: str


def slips_of(read_mm: float) -> tuple[Slip, ...]:
    """Return everything that one reading may have been meant to say.

    Examples
    --------
    >>> [slip.says for slip in slips_of(381.4) if abs(slip.right_mm - 356.0) < 0.1]
    ['an inch too much']
    """
    found = [Slip(right_mm=read_mm * factor, says=says) for factor, says in TIMES]
    for size, name in BY_MM:
        found.append(Slip(right_mm=read_mm - size, says=f"{name} too much"))
        found.append(Slip(right_mm=read_mm + size, says=f"{name} too little"))
    return tuple(found)


def slip_between(
    read_mm: float, right_mm: float, *, within_mm: float, least_mm: float = 0.0
) -> str:
    """Return the slip that turns the right size into what was read, or nothing.

    The nearest comes first where several would do. Nobody meant to write less than ``least_mm``,
    what the instrument shows at the least.

    Examples
    --------
    >>> slip_between(203.0, 193.2, within_mm=0.5), slip_between(2.5, 0.26, within_mm=0.1)
    ('a centimetre too much', 'with its point one place too far right')
    """
    near = [
        s
        for s in slips_of(read_mm)
        if s.right_mm >= least_mm and abs(s.right_mm - right_mm) <= within_mm
    ]
    return min(near, key=lambda s: abs(s.right_mm - right_mm)).says if near else ""


def any_of(suspects: Iterable[str]) -> str:
    """Return suspects as one says them: the one, or the other."""
    return ", or ".join(suspects)
