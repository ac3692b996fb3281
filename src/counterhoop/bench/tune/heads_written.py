"""The head that somebody wrote down, or what such a drum usually wears."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.development.flat import End
from counterhoop.heads.head import Head, film_head, weighed_head
from counterhoop.shell.drum import DrumKind
from counterhoop.shell.tuning import HeadSaid

MIL_M = 25.4e-6
USUAL_MIL = {"batter": 10.0, "resonant": 7.5}
SNARE_SIDE_MIL = 3.0
"""What drums usually wear. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadTaken:
    """A head, and what was taken for granted of it.

    Attributes
    ----------
    head : Head or None
        None for calf that nobody weighed: of it nothing can be forecast.
    assumed : str
        In a sentence; "" where all of it was written down.
    calf : bool
    """

    head: Head | None
    assumed: str = ""
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
        Across the film that was weighed, from where the collar is to where it is.

    Examples
    --------
    >>> taken = head_of(None, end="batter", diameter_m=0.3)
    >>> taken.head.says, taken.assumed
    ('one ply of 10 mil film', 'The batter head is taken to be one ply of 10 mil film.')
    """
    if written is not None and written.weight_kg is not None:
        thick = sum(written.films_m) or None
        said = f"weighed, {1000.0 * written.weight_kg:.0f} g"
        head = weighed_head(
            mass_kg=written.weight_kg, diameter_m=diameter_m, film_m=thick, calf=written.calf,
            says=_with(written, f"{'calf' if written.calf else _films(written) or 'head'}, {said}"),
        )  # fmt: skip
        return HeadTaken(head=head, calf=written.calf)
    if written is not None and written.calf:
        return HeadTaken(
            head=None, calf=True,
            assumed=f"The {end} head is calf that nobody weighed: no pitch of it can be forecast.",
        )  # fmt: skip
    if written is not None and written.films_m:
        return HeadTaken(head=film_head(*written.films_m, says=_with(written, _films(written))))
    head = usual_head(end, kind=kind)
    return HeadTaken(head=head, assumed=f"The {end} head is taken to be {head.says}.")


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
