"""Whether the gaps read between lugs add up to once round, and which reading is to blame."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from counterhoop.development.chord import arc_mm
from counterhoop.errors import BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """How a round of gaps closes.

    Attributes
    ----------
    total_mm : float
        All gaps together.
    girth_mm : float
        Once round, read by itself.
    misfit_mm : float
        Total less girth.
    doubt_mm : float
        Half-width of the misfit's doubt: root sum of squares of the readings' doubts.
    cause : {"closed", "one gap", "girth", "chords"}
        "one gap": putting right the suspect explains the misfit best. "girth": the gaps agree with
        each other, so the reading once round is the odd one. "chords": read straight across, as
        dividers step, they close when taken along the skin.
    suspect : int or None
        Index of the gap to read again (0 is the first), for "one gap".
    as_likely : tuple of int
        Other gaps that would explain it as well within the doubt.
    corrected_mm : float or None
        What the suspect gap would have to be.
    """

    total_mm: float
    girth_mm: float
    misfit_mm: float
    doubt_mm: float
    cause: Literal["closed", "one gap", "girth", "chords"]
    suspect: int | None = None
    as_likely: tuple[int, ...] = ()
    corrected_mm: float | None = None

    @property
    def closed(self) -> bool:
        """Whether the gaps add up within the doubt."""
        return self.cause == "closed"


def close_gaps(
    gaps_mm: Sequence[float],
    *,
    girth_mm: float,
    gap_doubt_mm: float = 0.5,
    girth_doubt_mm: float = 0.5,
) -> Closing:
    """Check that gaps between lugs add up to the circumference, and name the suspect.

    Parameters
    ----------
    gaps_mm : sequence of float
        Along the skin from each lug to the next, all the way round, read with the tape that read
        ``girth_mm``.
    girth_mm : float
        Once round on the same skin.
    gap_doubt_mm, girth_doubt_mm : float
        Half-widths of the doubt of one reading; 0.5 for tape and rule (common practice, no
        source).

    Returns
    -------
    Closing
        Lugs are taken to be meant equally spaced. Changing gap ``i`` by the misfit lowers the sum
        of squares about equal spacing by ``misfit (2 (g_i - C/N) - misfit)``: the gap farthest
        from equal spacing in the direction of the misfit explains it best. A lug that really
        sits off its place makes one gap long and its neighbour short, and still closes.

    Examples
    --------
    >>> found = close_gaps([158.5, 158.5, 168.5, 158.0, 158.5, 158.5], girth_mm=950.5)
    >>> found.misfit_mm, found.suspect, found.corrected_mm
    (10.0, 2, 158.5)
    """
    if not gaps_mm or not all(0.0 < gap < math.inf for gap in gaps_mm):
        raise BadInput(
            "a gap between two lugs is more than nothing",
            where="gaps_mm",
            given=list(gaps_mm),
            wanted="one length for each lug, in mm",
        )
    if not 0.0 < girth_mm < math.inf:
        raise BadInput("the girth is more than nothing", where="girth_mm", given=girth_mm)
    total = math.fsum(gaps_mm)
    misfit = total - girth_mm
    doubt = math.hypot(gap_doubt_mm * math.sqrt(len(gaps_mm)), girth_doubt_mm)
    if abs(misfit) <= doubt:
        cause: Literal["closed", "girth", "chords"] = "closed"
    elif _close_as_chords(gaps_mm, girth_mm, doubt):
        cause = "chords"
    elif len(gaps_mm) > 1 and max(gaps_mm) - min(gaps_mm) <= 2.0 * gap_doubt_mm:
        cause = "girth"
    else:
        toward = math.copysign(1.0, misfit)
        order = sorted(range(len(gaps_mm)), key=lambda i: (-toward * gaps_mm[i], i))
        suspect = order[0]
        return Closing(
            total_mm=total,
            girth_mm=girth_mm,
            misfit_mm=misfit,
            doubt_mm=doubt,
            cause="one gap",
            suspect=suspect,
            as_likely=tuple(
                sorted(
                    i for i in order[1:] if abs(gaps_mm[i] - gaps_mm[suspect]) <= 2.0 * gap_doubt_mm
                )
            ),
            corrected_mm=gaps_mm[suspect] - misfit,
        )
    return Closing(total_mm=total, girth_mm=girth_mm, misfit_mm=misfit, doubt_mm=doubt, cause=cause)


def _close_as_chords(gaps_mm: Sequence[float], girth_mm: float, doubt_mm: float) -> bool:
    radius_mm = girth_mm / (2.0 * math.pi)
    if max(gaps_mm) > 2.0 * radius_mm:
        return False
    along = math.fsum(arc_mm(gap, radius_mm=radius_mm) for gap in gaps_mm)
    return abs(along - girth_mm) <= doubt_mm
