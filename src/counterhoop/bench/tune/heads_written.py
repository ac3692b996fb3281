"""The head that somebody wrote down, or what such a drum usually wears."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.flat import End
from counterhoop.heads.head import Head, film_head, weighed_head
from counterhoop.quantities.print_length import print_mm
from counterhoop.quantities.print_pitch import cents
from counterhoop.shell.drum import DrumKind
from counterhoop.shell.tuning import HeadSaid

MIL_M = 25.4e-6
USUAL_MIL = {"batter": 10.0, "resonant": 7.5}
SNARE_SIDE_MIL = 3.0
"""What drums usually wear. Common practice, no source."""
COLLAR_M = 0.012
"""How far a head usually reaches beyond the film that sounds. Common practice, no source."""
COLLAR_OFF_M = 0.005


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadTaken:
    """A head, and what was taken for granted of it.

    Attributes
    ----------
    head : Head or None
        None for calf that nobody weighed: of it nothing can be forecast.
    assumed : str
        What head it is, in a sentence; "" where that was written down.
    collar_assumed : str
        How far across a weighed head is, in a sentence; "" where that was written down too.
    calf : bool
    """

    head: Head | None
    assumed: str = ""
    collar_assumed: str = ""
    calf: bool = False


def head_of(
    written: HeadSaid | None,
    *,
    end: End,
    kind: DrumKind = DrumKind.TOM,
    diameter_m: float,
) -> HeadTaken:
    """Return the head at one end.

    Parameters
    ----------
    written : HeadSaid or None
        What is written of it.
    end : End
    kind : DrumKind
        What sort of drum: its usual heads stand in where nothing is written.
    diameter_m : float
        Across the film that sounds.

    Examples
    --------
    >>> taken = head_of(None, end="batter", diameter_m=0.3)
    >>> taken.head.says, taken.assumed
    ('one ply of 10 mil film', 'The batter head is taken to be one ply of 10 mil film.')
    """
    if written is not None and written.weight_kg is not None:
        thick = sum(written.films_m) or None
        said = f"weighed, {1000.0 * written.weight_kg:.0f} g"
        # The scales bore the collar too, which does not sound.
        across_m = written.across_m or diameter_m + 2.0 * COLLAR_M
        head = weighed_head(
            mass_kg=written.weight_kg, diameter_m=across_m, film_m=thick, calf=written.calf,
            says=_with(written, f"{'calf' if written.calf else _films(written) or 'head'}, {said}"),
        )  # fmt: skip
        collar = "" if written.across_m else _collar_assumed(end, across_m=across_m)
        return HeadTaken(head=head, calf=written.calf, collar_assumed=collar)
    if written is not None and written.calf:
        return HeadTaken(
            head=None, calf=True,
            assumed=f"The {end} head is calf that nobody weighed: no pitch of it can be forecast.",
        )  # fmt: skip
    if written is not None and written.films_m:
        return HeadTaken(head=film_head(*written.films_m, says=_with(written, _films(written))))
    head = usual_head(end, kind=kind)
    return HeadTaken(head=head, assumed=f"The {end} head is taken to be {head.says}.")


def _collar_assumed(end: End, *, across_m: float) -> str:
    """Say what a weighed head is taken to be across, and what a slip of the collar costs.

    Examples
    --------
    >>> print(_collar_assumed("batter", across_m=0.324))
    The batter head was weighed and not measured across: it is taken to be 324 mm from rim to \
rim, with a collar of 12 mm all round. A collar 5 mm less would make it 6 % heavier for its size, \
and up to 50 cents lower at the same pull: lay it flat, and write across.
    """
    heavier = (across_m / (across_m - 2.0 * COLLAR_OFF_M)) ** 2
    # Without the air that moves with it; with it the pitch goes down by less.
    lower_cents = cents(math.sqrt(heavier), above_hz=1.0)
    return (
        f"The {end} head was weighed and not measured across: it is taken to be "
        f"{print_mm(1000.0 * across_m, resolution_mm=1.0)} from rim to rim, with a collar of "
        f"{1000.0 * COLLAR_M:g} mm all round. A collar {1000.0 * COLLAR_OFF_M:g} mm less would "
        f"make it {100.0 * (heavier - 1.0):.0f} % heavier for its size, and up to "
        f"{round(lower_cents, -1):.0f} cents lower at the same pull: lay it flat, and write across."
    )


def usual_head(end: End, *, kind: DrumKind = DrumKind.TOM) -> Head:
    """Return what such a drum usually wears.

    Examples
    --------
    >>> usual_head("resonant", kind=DrumKind.SNARE).says
    'one ply of 3 mil film'
    """
    snare = kind in (DrumKind.SNARE, DrumKind.MARCHING_SNARE)
    mil = SNARE_SIDE_MIL if snare and end == "resonant" else USUAL_MIL[end]
    return film_head(mil * MIL_M, says=_films(HeadSaid(films_m=(mil * MIL_M,))))


def _films(written: HeadSaid) -> str:
    """Say what the film is.

    Examples
    --------
    >>> _films(HeadSaid(films_m=(0.0001778, 0.0001778)))
    'plies of 7 and 7 mil film'
    """
    mils = [f"{film / MIL_M:.3g}" for film in written.films_m]
    if len(mils) < 2:
        return f"one ply of {mils[0]} mil film" if mils else ""
    return f"plies of {', '.join(mils[:-1])} and {mils[-1]} mil film"


def _with(written: HeadSaid, said: str) -> str:
    return f"{said}, {written.says}" if written.says else said
