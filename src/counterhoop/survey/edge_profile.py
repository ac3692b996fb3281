"""The cut of a bearing edge: its section in lines and arcs, as it was read or as the trade cuts it.

In the section x runs from the outside of the bare wood inward and y down from the highest line of
the edge, in millimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.shell.drum import Drum
from counterhoop.shell.readings import CUTS, ProfileRead

Point = tuple[float, float]

BACK_CUT = "45 with back-cut"
BACK_CUT_MM = 2.0
"""How far a counter-cut usually comes in from the outside (common practice, no source)."""
INNER_DEG: dict[str, float | None] = {
    "round-over": None,
    "round-over and 45 inside": 45.0,
    BACK_CUT: 45.0,
    "single 45": 45.0,
    "30": 30.0,
}
"""Usual slope of the inner cut, None where it is rounded (common practice, no source)."""
APEX_SHARE = {"round-over": 2.0, "round-over and 45 inside": 3.0, "30": 3.0}
"""A round-over usually takes a half or a third of the wall (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeProfile:
    """The section of one bearing edge.

    Attributes
    ----------
    cut : str
        One of ``CUTS``.
    wall_mm : float
        Bare wood at the edge, with the ring where there is one.
    ply_mm : float or None
        One ply of the shell, when they were counted.
    apex_mm : float
        From the outside to the highest line.
    inner_deg : float or None
        Slope of the inner cut against the plane of the edge; None where it is rounded.
    outer_mm : float
        Radius of the outer round-over; of a counter-cut, how far down it reaches; 0 for neither.
    outside_mm, inside_mm : float
        How far down the cuts reach outside and inside.
    bore_mm : float or None
        Ring left straight below the inner cut, when there is a ring.
    points, bulges : tuple
        From the end of the outer cut over the apex to the end of the inner one. A bulge belongs to
        the stretch from its point to the next: tan of a quarter of the arc, 0 for a line.
    usual : tuple of str
        What nobody read and is therefore the trade's usual figure.
    """

    cut: str
    wall_mm: float
    ply_mm: float | None
    apex_mm: float
    inner_deg: float | None
    outer_mm: float
    outside_mm: float
    inside_mm: float
    bore_mm: float | None
    points: tuple[Point, ...]
    bulges: tuple[float, ...]
    usual: tuple[str, ...] = ()

    @property
    def ply_left(self) -> bool | None:
        """Whether the inner cut leaves the outermost ply its whole thickness.

        Then the shell can stand on that ply while its other side is cut, and a guide has it to
        ride on. None when the plies were not counted.
        """
        return None if self.ply_mm is None else self.apex_mm >= self.ply_mm - 1e-9

    def head_mm(self, bare_mm: float) -> float:
        """Diameter of film that sounds: across the highest line of a shell of this diameter.

        Examples
        --------
        >>> edge_profile(ProfileRead(cut="single 45", apex_mm=2.0), wall_mm=6.0).head_mm(300.0)
        296.0
        """
        return bare_mm - 2.0 * self.apex_mm


def profile_of(drum: Drum, end: End) -> EdgeProfile | None:
    """Return the section of an edge as found, None where its cut was not read.

    Raises
    ------
    BadInput
        A cut that does not fit the wall.
    """
    read = drum.readings.at(end).profile
    if read is None:
        return None
    ring = next((ring for ring in drum.rings if ring.end == end), None)
    return edge_profile(
        read,
        wall_mm=drum.wall_mm,
        ring_mm=0.0 if ring is None else ring.thick_mm,
        ring_wide_mm=None if ring is None else ring.wide_mm,
        plies=drum.plies,
    )


def edge_profile(
    read: ProfileRead,
    *,
    wall_mm: float,
    ring_mm: float = 0.0,
    ring_wide_mm: float | None = None,
    plies: int | None = None,
) -> EdgeProfile:
    """Return the section that a profile as read stands for.

    Figures that were not read are the trade's usual ones and are named in ``usual``. An outer
    round-over is cut by a bit whose guide rides the outside: its arc leaves the outside smoothly
    and ends at the apex, or in a flat land up to it where the apex lies further in than the radius.

    Parameters
    ----------
    read : ProfileRead
        The cut by its name and what was measured of it.
    wall_mm : float
        Bare wood of the shell.
    ring_mm, ring_wide_mm : float
        Thickness of the ring at this end, 0 for none, and its width where that is known.
    plies : int, optional
        Plies of the shell, without the ring.

    Raises
    ------
    BadInput
        A cut that the trade has no name for, or one that does not fit the wall.

    Examples
    --------
    >>> found = edge_profile(ProfileRead(cut="30", apex_mm=3.0), wall_mm=6.0, ring_mm=3.0)
    >>> round(found.inside_mm, 2), found.outer_mm, found.usual
    (3.46, 3.0, ('slope of the inner cut', 'radius outside'))
    """
    _check_wall(read, wall_mm=wall_mm, ring_mm=ring_mm)
    whole_mm = wall_mm + ring_mm
    apex_mm, outer_mm = _outside(read, whole_mm=whole_mm)
    inner_deg = INNER_DEG[read.cut] if read.inner_deg is None else read.inner_deg
    _check_outside(read.cut, apex_mm=apex_mm, outer_mm=outer_mm, whole_mm=whole_mm)
    if inner_deg is not None and not 0.0 < inner_deg < 90.0:
        raise BadInput(
            "no slope of an inner cut",
            where="profile.inner",
            given=inner_deg,
            wanted='an angle over 0 and under 90 degrees, such as "45 deg"',
        )
    points, bulges = _outer_chain(read.cut, apex_mm=apex_mm, outer_mm=outer_mm)
    width = whole_mm - apex_mm
    inside_mm = width if inner_deg is None else width * math.tan(math.radians(inner_deg))
    if ring_mm > 0.0 and ring_wide_mm is not None and inside_mm > ring_wide_mm:
        raise BadInput(
            "the inner cut runs out below the ring",
            where="profile.inner",
            given=f"{inside_mm:.1f} mm down inside",
            wanted=f"at most the ring's width, {ring_wide_mm:.1f} mm",
            step="read the slope and the apex again",
        )
    usual = []
    if read.apex_mm is None:
        usual.append("apex")
    if read.inner_deg is None:
        usual.append("slope of the inner cut" if inner_deg is not None else "round inside")
    if read.outer_mm is None and outer_mm > 0.0:
        usual.append("depth of the counter-cut" if read.cut == BACK_CUT else "radius outside")
    return EdgeProfile(
        cut=read.cut,
        wall_mm=whole_mm,
        ply_mm=wall_mm / plies if plies else None,
        apex_mm=apex_mm,
        inner_deg=inner_deg,
        outer_mm=outer_mm,
        outside_mm=points[0][1],
        inside_mm=inside_mm,
        bore_mm=ring_wide_mm - inside_mm if ring_mm > 0.0 and ring_wide_mm is not None else None,
        points=(*points, (whole_mm, inside_mm)),
        bulges=(*bulges, math.tan(math.pi / 8.0) if inner_deg is None else 0.0),
        usual=tuple(usual),
    )


def _outside(read: ProfileRead, *, whole_mm: float) -> tuple[float, float]:
    """Return apex and outer radius or counter-cut; what was not read follows from the other."""
    apex_mm, outer_mm = read.apex_mm, read.outer_mm
    if apex_mm is None:
        apex_mm = outer_mm
    if apex_mm is None and read.cut in APEX_SHARE:
        apex_mm = whole_mm / APEX_SHARE[read.cut]
    if apex_mm is None:
        apex_mm = min(BACK_CUT_MM, whole_mm / 3.0) if read.cut == BACK_CUT else 0.0
    if outer_mm is None:
        # A counter-cut of 45 degrees is as deep as it is wide; a round-over ends at its apex.
        outer_mm = 0.0 if read.cut == "single 45" else apex_mm
    return float(apex_mm), float(outer_mm)


def _outer_chain(
    cut: str, *, apex_mm: float, outer_mm: float
) -> tuple[tuple[Point, ...], tuple[float, ...]]:
    """Points from the end of the outer cut to the apex, and the bulges between them."""
    top = (apex_mm, 0.0)
    if outer_mm == 0.0:
        return (((0.0, 0.0), top), (0.0,)) if apex_mm > 0.0 else ((top,), ())
    if cut == BACK_CUT:
        return ((0.0, outer_mm), top), (0.0,)
    over = min(apex_mm, outer_mm)
    arc = math.acos((outer_mm - over) / outer_mm)
    start = (0.0, outer_mm * math.sin(arc))
    if apex_mm > outer_mm:
        return (start, (over, 0.0), top), (math.tan(arc / 4.0), 0.0)
    return (start, top), (math.tan(arc / 4.0),)


def _check_wall(read: ProfileRead, *, wall_mm: float, ring_mm: float) -> None:
    if read.cut not in CUTS:
        raise BadInput(
            "no cut of an edge that has a name here",
            where="profile.cut",
            given=read.cut,
            wanted=" or ".join(f'"{cut}"' for cut in CUTS),
        )
    if not wall_mm > 0.0 or not ring_mm >= 0.0:
        raise BadInput(
            "an edge has a wall",
            where="wall",
            given=wall_mm if not wall_mm > 0.0 else ring_mm,
            wanted="a wall over 0 and a ring of 0 or more mm",
        )


def _check_outside(cut: str, *, apex_mm: float, outer_mm: float, whole_mm: float) -> None:
    if not 0.0 <= apex_mm < whole_mm:
        raise BadInput(
            "the apex does not lie on the wall",
            where="profile.apex",
            given=f"{apex_mm:g} mm",
            wanted=f"0 mm or more, and less than the wall of {whole_mm:.1f} mm",
        )
    if not 0.0 <= outer_mm < math.inf:
        raise BadInput(
            "no cut outside can be so large",
            where="profile.outer",
            given=f"{outer_mm:g} mm",
            wanted="0 mm or more",
        )
    if outer_mm > 0.0 and apex_mm == 0.0:
        raise BadInput(
            "nothing is cut outside where the apex is the outside",
            where="profile.outer",
            given=f"{outer_mm:g} mm",
            wanted="no outer cut, or an apex further in",
        )
    if cut == BACK_CUT and outer_mm == 0.0:
        raise BadInput(
            "a back-cut goes down outside",
            where="profile.outer",
            given="0 mm",
            wanted='how far down it reaches, such as "2 mm", and an apex further in',
            step='write "single 45" for an edge without one',
        )
