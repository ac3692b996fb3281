"""A drum of a job with heads on, as far as its sound asks for it."""

from __future__ import annotations

from dataclasses import dataclass, field

from counterhoop.heads.head import Head, film_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.scheme.layout import Layout
from counterhoop.shell.drum import Drum, DrumKind
from counterhoop.survey.drum_survey import bare_across_mm
from counterhoop.survey.edge_profile import BACK_CUT_MM, profile_of

MIL_M = 25.4e-6
USUAL_N_PER_M = 2000.0
"""Neither slack nor tight: what lets a tom sing. Common practice, no source."""


def _ten_mil() -> Head:
    return film_head(10 * MIL_M, says="one ply of 10 mil film")


def _seven_and_a_half_mil() -> Head:
    return film_head(7.5 * MIL_M, says="one ply of 7.5 mil film")


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadsOn:
    """The heads that go on, and how tight.

    Attributes
    ----------
    batter, resonant : Head
        What vibrates; ``resonant`` is left out where that end stays open.
    batter_n_per_m, resonant_n_per_m : float
        Their tensions.
    """

    batter: Head = field(default_factory=_ten_mil)
    resonant: Head = field(default_factory=_seven_and_a_half_mil)
    batter_n_per_m: float = USUAL_N_PER_M
    resonant_n_per_m: float = USUAL_N_PER_M

    def says(self, *, two: bool) -> str:
        """Say what was put on.

        Examples
        --------
        >>> HeadsOn().says(two=False)
        'Batter head: one ply of 10 mil film at 2000 N/m.'
        """
        said = f"Batter head: {self.batter.says or 'weighed'} at {self.batter_n_per_m:.0f} N/m"
        if not two:
            return f"{said}."
        other = self.resonant.says or "weighed"
        return f"{said}; the other: {other} at {self.resonant_n_per_m:.0f} N/m."


def usual_heads(kind: DrumKind) -> HeadsOn:
    """Return what such a drum usually wears (common practice, no source).

    Examples
    --------
    >>> usual_heads(DrumKind.SNARE).resonant.says
    'one ply of 3 mil film'
    """
    if kind in (DrumKind.SNARE, DrumKind.MARCHING_SNARE):
        return HeadsOn(resonant=film_head(3 * MIL_M, says="one ply of 3 mil film"))
    return HeadsOn()


def headed(layout: Layout, heads: HeadsOn) -> HeadedShell:
    """Return the drum as a layout leaves it, with heads on what has lugs or a hoop for one.

    Edges are taken as flat and the shell as round; air of 20 C.
    """
    drum = layout.drum
    two = has_other_head(layout)
    return HeadedShell(
        radius_m=sounding_across_mm(drum) / 2000.0,
        depth_m=layout.flat.depth_mm / 1000.0,
        batter=heads.batter,
        batter_n_per_m=heads.batter_n_per_m,
        resonant=heads.resonant if two else None,
        resonant_n_per_m=heads.resonant_n_per_m if two else None,
    )


def has_other_head(layout: Layout) -> bool:
    """Tell whether anything holds a head at the resonant end."""
    return bool(layout.lugs("resonant")) or any(hoop.head == "resonant" for hoop in layout.hoops)


def sounding_across_mm(drum: Drum) -> float:
    """Return across what the batter film sounds: from apex to apex.

    Where the edge was not read, its apex is taken to lie as far in as a usual counter-cut's.
    """
    bare_mm = bare_across_mm(drum, "batter")
    profile = profile_of(drum, "batter")
    return bare_mm - 2.0 * BACK_CUT_MM if profile is None else profile.head_mm(bare_mm)
