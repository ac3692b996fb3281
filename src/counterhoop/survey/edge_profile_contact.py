"""Where a head's film lies on a bearing edge."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.survey.edge_profile import BACK_CUT, EdgeProfile

BELOW_MM = 10.0
"""How far below the edge the film leaves the head's rim (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """The stretch of edge under the film, from outside to the apex.

    Attributes
    ----------
    from_outside_mm, from_down_mm : float
        Where the film meets the wood: from the outside inward, and down from the apex.
    to_outside_mm : float
        Where it leaves it: at the apex.
    length_mm : float
        Along the section between the two; 0 where the film lies on a line.
    collar_off_mm : float
        How far the collar stands off the bare wood.
    """

    from_outside_mm: float
    from_down_mm: float
    to_outside_mm: float
    length_mm: float
    collar_off_mm: float

    @property
    def to_down_mm(self) -> float:
        """The film leaves at the apex, from which heights are counted."""
        return 0.0


def film_contact(
    profile: EdgeProfile, *, bare_mm: float, collar_mm: float, below_mm: float = BELOW_MM
) -> Contact:
    """Return where the film lies on the edge.

    The film is taken as a taut string of no thickness: it leaves the collar at the collar's own
    radius ``below_mm`` below the apex, runs straight to where it touches the outer side, round
    that to the apex, and from there level to the middle of the drum.

    Parameters
    ----------
    profile : EdgeProfile
    bare_mm : float
        Diameter of the bare shell.
    collar_mm : float
        Inside of the head's collar.
    below_mm : float
        How far below the apex the film leaves the collar.

    Raises
    ------
    BadInput
        A collar that does not go over the shell, or a film that starts above the edge.

    Examples
    --------
    A back-cut of 45 degrees is touched all over by a head that fits without room:

    >>> from counterhoop.shell.readings import ProfileRead
    >>> from counterhoop.survey.edge_profile import edge_profile
    >>> cut = edge_profile(ProfileRead(cut="45 with back-cut", apex_mm=2.0), wall_mm=6.0)
    >>> round(film_contact(cut, bare_mm=300.0, collar_mm=300.0).length_mm, 3)
    2.828
    """
    off_mm = (collar_mm - bare_mm) / 2.0
    if not off_mm >= 0.0:
        raise BadInput(
            "the head does not go over the bare shell",
            where="fit.collar",
            given=f"{collar_mm:g} mm",
            wanted=f"at least the shell's {bare_mm:.1f} mm",
        )
    if not below_mm > 0.0:
        raise BadInput(
            "the film comes up from below the edge",
            where="below",
            given=f"{below_mm:g} mm",
            wanted="more than 0 mm",
        )
    apex, outer = profile.apex_mm, profile.outer_mm
    if outer == 0.0:
        start, length = (0.0, 0.0), apex
    elif profile.cut == BACK_CUT:
        start, length = _on_back_cut(apex, outer, off_mm=off_mm, below_mm=below_mm)
    else:
        start, length = _on_arc(profile, off_mm=off_mm, below_mm=below_mm)
    return Contact(
        from_outside_mm=start[0],
        from_down_mm=start[1],
        to_outside_mm=apex,
        length_mm=length,
        collar_off_mm=off_mm,
    )


def _on_back_cut(
    apex: float, down: float, *, off_mm: float, below_mm: float
) -> tuple[tuple[float, float], float]:
    """Touch the whole counter-cut where its foot stands out beyond the string, else the apex."""
    string = below_mm * apex / (apex + off_mm)
    if down < string:
        return (0.0, down), math.hypot(apex, down)
    return (apex, 0.0), 0.0


def _on_arc(
    profile: EdgeProfile, *, off_mm: float, below_mm: float
) -> tuple[tuple[float, float], float]:
    """Touch the round-over where the line from the collar is its tangent."""
    apex, r = profile.apex_mm, profile.outer_mm
    over = min(apex, r)
    whole = math.acos((r - over) / r)
    # From the arc's centre to where the film starts: (off + r) outward and (below - outside) down.
    out, under = off_mm + r, below_mm - profile.outside_mm
    turn = math.acos(min(1.0, r / math.hypot(out, under))) - math.atan2(under, out)
    turn = min(max(turn, 0.0), whole)
    start = (r * (1.0 - math.cos(turn)), profile.outside_mm - r * math.sin(turn))
    return start, r * (whole - turn) + (apex - over)
