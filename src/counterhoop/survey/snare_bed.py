"""Snare beds: slope of the ramps, what truing leaves of them, how they lie to each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from counterhoop.development.rim import between_stations_mm
from counterhoop.development.surface import Surface
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.shell.drum import Bed, Drum

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ramp:
    """One ramp of a bed: how long along the skin, how far down.

    Ramps are cut straight and only their ends are eased by hand (common practice, no source). A
    straight ramp is nowhere steeper than its mean; one that swings smoothly from edge to flat as a
    cosine is pi / 2 times as steep half way.
    """

    long_mm: float
    deep_mm: float

    @property
    def factor(self) -> float:
        """How many times as long as deep: 20 is a slope of 1 in 20, 0 a step."""
        return self.long_mm / self.deep_mm


def ramp(bed: Bed) -> Ramp | None:
    """Return a bed's ramp; None when width or depth was not read.

    Examples
    --------
    >>> ramp(Bed(along_deg=90.0, wide_mm=180.0, deep_mm=3.0, flat_mm=60.0)).factor
    20.0
    """
    if not (bed.wide_mm > 0.0 and bed.deep_mm > 0.0):
        return None
    if not 0.0 <= bed.flat_mm <= bed.wide_mm:
        raise BadInput(
            "a bed's flat is part of its width",
            where="bed.flat",
            given=f"{bed.flat_mm:g} mm",
            wanted=f"at most its width of {bed.wide_mm:g} mm",
            step="the width is from where one ramp begins to where the other ends",
        )
    return Ramp(long_mm=(bed.wide_mm - bed.flat_mm) / 2.0, deep_mm=bed.deep_mm)


def bed_profile(bed: Bed) -> tuple[Point, ...]:
    """Return the bed along the edge: (mm along from its middle, mm below the edge).

    Examples
    --------
    >>> bed_profile(Bed(along_deg=0.0, wide_mm=100.0, deep_mm=2.0, flat_mm=20.0))
    ((-50.0, 0.0), (-10.0, 2.0), (10.0, 2.0), (50.0, 0.0))
    """
    half, flat = bed.wide_mm / 2.0, bed.flat_mm / 2.0
    if flat == 0.0:
        return ((-half, 0.0), (0.0, bed.deep_mm), (half, 0.0))
    return ((-half, 0.0), (-flat, bed.deep_mm), (flat, bed.deep_mm), (half, 0.0))


def bed_after(bed: Bed, *, off_mm: float) -> Bed | None:
    """Return what is left of a bed when this much comes off the edge at its middle.

    The bottom stays where it is, so the bed is shallower by what came off and its ramps are
    shorter, as steep as before; a cut that slants over the bed's width is taken as level. None
    when nothing is left, or when the depth was not read and wood comes off.

    Examples
    --------
    >>> bed_after(Bed(along_deg=0.0, wide_mm=100.0, deep_mm=2.0, flat_mm=20.0), off_mm=0.5)
    Bed(along_deg=0.0, wide_mm=80.0, deep_mm=1.5, flat_mm=20.0)
    """
    if off_mm <= 0.0:
        return bed
    if bed.deep_mm <= off_mm:
        return None
    left = bed.deep_mm - off_mm
    wide = bed.flat_mm + (bed.wide_mm - bed.flat_mm) * left / bed.deep_mm
    return replace(bed, wide_mm=wide, deep_mm=left)


def wood_off_mm(drum: Drum, *, truing: Truing, along_deg: float) -> float:
    """Wood that truing takes off the resonant edge itself at one place.

    Truing moves the plane that heights are measured from; where the edge lies below that plane it
    loses so much less.
    """
    if truing.resonant == Removal():
        return 0.0
    edge = drum.readings.resonant.edge
    stood = 0.0
    if edge is not None:
        stood = between_stations_mm(edge.along_deg, edge.value_mm, at_deg=along_deg)
    return max(0.0, truing.resonant.at_mm(along_deg) + stood)


def wide_for_mm(*, deep_mm: float, flat_mm: float, factor: float) -> float:
    """Width that a bed of this depth and flat needs for ramps of 1 in ``factor``.

    Examples
    --------
    >>> wide_for_mm(deep_mm=3.0, flat_mm=60.0, factor=20.0)
    180.0
    """
    return flat_mm + 2.0 * factor * deep_mm


def deep_for_mm(*, wide_mm: float, flat_mm: float, factor: float) -> float:
    """Depth that a bed of this width and flat may have for ramps of 1 in ``factor``.

    Examples
    --------
    >>> deep_for_mm(wide_mm=180.0, flat_mm=60.0, factor=20.0)
    3.0
    """
    return (wide_mm - flat_mm) / (2.0 * factor)


def from_opposite_mm(first: Bed, second: Bed, *, surface: Surface) -> float:
    """How far the second bed lies from opposite the first, along the skin, right is positive.

    Examples
    --------
    >>> from counterhoop.development.surface import Skin
    >>> skin = Surface(skin=Skin.OLD, circumference_mm=1080.0)
    >>> from_opposite_mm(Bed(along_deg=20.0), Bed(along_deg=201.0), surface=skin)
    3.0
    """
    return surface.apart_mm(first.along_deg + 180.0, second.along_deg)


@dataclass(frozen=True, slots=True, kw_only=True)
class SnareLine:
    """One way for strainer and butt to lie among the lugs.

    Attributes
    ----------
    strainer_deg, butt_deg : float
        From the nearest lug to the left, in degrees along; a lug lies at 0.
    opposite_off_deg : float
        How far the butt lies from opposite the strainer.
    says : str
        The same in words.
    """

    strainer_deg: float
    butt_deg: float
    opposite_off_deg: float
    says: str


def snare_lines(lugs: int) -> tuple[SnareLine, ...]:
    """Return how strainer and butt can lie among equally spaced lugs, the best first.

    Half a turn is ``lugs / 2`` spacings. With an even number that is a whole number of them, and
    what lies opposite a gap's middle is a gap's middle. With an odd number a half is left over,
    and what lies opposite a gap's middle is a lug.

    Parameters
    ----------
    lugs : int
        How many on the resonant side.

    Raises
    ------
    BadInput
        Fewer than two lugs.

    Examples
    --------
    >>> [line.says for line in snare_lines(8)]
    ['both in the middle between two lugs']
    >>> [(line.strainer_deg, line.butt_deg) for line in snare_lines(5)]
    [(36.0, 0.0), (18.0, 54.0), (36.0, 36.0)]
    """
    if lugs < 2:
        raise BadInput(
            "nothing lies between lugs", where="lugs", given=lugs, wanted="two lugs or more"
        )
    gap = 360.0 / lugs
    if lugs % 2 == 0:
        both = "both in the middle between two lugs"
        return (_line(gap / 2.0, gap / 2.0, off=0.0, says=both),)
    return (
        _line(
            gap / 2.0, 0.0, off=0.0, says="the strainer between two lugs, the butt on a lug's line"
        ),
        _line(
            gap / 4.0,
            3.0 * gap / 4.0,
            off=0.0,
            says=f"both {_short(gap / 4.0)} degrees from a lug",
        ),
        _line(
            gap / 2.0,
            gap / 2.0,
            off=gap / 2.0,
            says=f"both between lugs, {_short(gap / 2.0)} degrees from opposite",
        ),
    )


def says_lines(lugs: int) -> str:
    """Say how strainer and butt can lie opposite each other among so many lugs.

    Examples
    --------
    >>> print(says_lines(5))
    the strainer between two lugs, the butt on a lug's line; or both 18 degrees from a lug
    """
    return "; or ".join(line.says for line in snare_lines(lugs) if not line.opposite_off_deg)


def _line(strainer: float, butt: float, *, off: float, says: str) -> SnareLine:
    return SnareLine(strainer_deg=strainer, butt_deg=butt, opposite_off_deg=off, says=says)


def _short(deg: float) -> str:
    return f"{deg:.1f}".removesuffix(".0")


def nearest_bed(beds: Sequence[Bed], along_deg: float, *, surface: Surface) -> Bed | None:
    """Return the bed nearest to a place along; None when there is none."""
    return min(beds, key=lambda bed: abs(surface.apart_mm(along_deg, bed.along_deg)), default=None)
