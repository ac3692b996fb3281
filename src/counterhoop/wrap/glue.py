"""How much glue a wrap takes, whether there is time to spread it, when to trim and drill."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from counterhoop.errors import BadInput
from counterhoop.sources import Source, load_table

USUAL_C = 20.0
"""The temperature the table's times are for."""
WARMEST_C = 30.0
"""Room-temperature setting means 20 to 30 C (ASTM, as given by the USDA Forest Products Laboratory;
from memory)."""
SPARE = 1.1
"""Glue bought over glue spread: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Glue:
    """One kind of glue; times at about 20 C.

    ``unsourced`` names the figures that are common practice, no source.
    """

    name: str
    coats: int
    both_faces: bool
    dry_min: float
    open_min: float
    clamp_hours: float
    trim_hours: float
    drill_hours: float
    least_c: float
    spread_m2_per_litre: float
    unsourced: tuple[str, ...]
    source: Source


@cache
def all_glues() -> tuple[Glue, ...]:
    """Return the packaged glues.

    Examples
    --------
    >>> [glue.name for glue in all_glues()]
    ['contact', 'white PVA', 'yellow PVA', 'epoxy']
    """
    return tuple(
        Glue(
            name=str(v["name"]),
            coats=int(v["coats"]),
            both_faces=bool(v["both_faces"]),
            dry_min=float(v["dry_min"]),
            open_min=float(v["open_min"]),
            clamp_hours=float(v["clamp_hours"]),
            trim_hours=float(v["trim_hours"]),
            drill_hours=float(v["drill_hours"]),
            least_c=float(v["least_c"]),
            spread_m2_per_litre=float(v["spread_m2_per_litre"]),
            unsourced=tuple(v["unsourced"]),
            source=row.source,
        )
        for row in load_table("counterhoop.wrap", "glues.toml")
        for v in (row.values,)
    )


def glue_called(name: str) -> Glue:
    """Return one glue by its name.

    Raises
    ------
    BadInput
        For a glue that the table does not hold.
    """
    for glue in all_glues():
        if glue.name.casefold() == name.strip().casefold():
            return glue
    raise BadInput(
        "not a glue of the table",
        where="glue",
        given=name,
        wanted=" or ".join(glue.name for glue in all_glues()),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Gluing:
    """What gluing one wrap on takes.

    Attributes
    ----------
    area_m2 : float
        Glued area: the whole piece, or the strip at the seam.
    spread_m2 : float
        Area brushed: both faces where the glue wants it, times the coats.
    litres : float
        To have at hand, a tenth more than is spread.
    spreading_min : float
        Time to brush the last coat at this person's pace.
    open_min : float
        From the first stroke until the sheet must lie, at this temperature.
    spare_min : float
        Open time left after spreading and laying; below zero it does not work in one go.
    clamp_hours, trim_hours, drill_hours : float
        From laying the sheet: straps off, edges trimmed, holes drilled, at the earliest.
    notes : tuple of str
        What to do differently, one sentence each.
    """

    area_m2: float
    spread_m2: float
    litres: float
    spreading_min: float
    open_min: float
    spare_min: float
    clamp_hours: float
    trim_hours: float
    drill_hours: float
    notes: tuple[str, ...]


def gluing(
    glue: Glue,
    *,
    length_mm: float,
    width_mm: float,
    pace_m2_per_min: float,
    laying_min: float,
    temperature_c: float = USUAL_C,
) -> Gluing:
    """Work out glue and times for one piece of wrap.

    Parameters
    ----------
    glue : Glue
        Which glue.
    length_mm, width_mm : float
        What is glued: the piece, or the strip at its seam.
    pace_m2_per_min : float
        How fast this person brushes.
    laying_min : float
        How long this person takes to roll the sheet on and strap it.
    temperature_c : float
        Of the room, the shell and the glue.

    Returns
    -------
    Gluing

    Raises
    ------
    BadInput
        A size, pace or temperature that is none, or a temperature the glue does not set at.

    Notes
    -----
    Cold doubles the waiting for each 10 C (common practice, no source); warmth halves the open
    time in the same way, while waiting is never made shorter than the table's, and open time
    never longer: both ways the careful figure.

    Examples
    --------
    >>> cold = gluing(glue_called("contact"), length_mm=1140.0, width_mm=180.0,
    ...               pace_m2_per_min=0.05, laying_min=10.0, temperature_c=15.0)
    >>> round(cold.litres, 2), round(cold.drill_hours)
    (0.23, 34)
    """
    for value, where in (
        (length_mm, "length"),
        (width_mm, "width"),
        (pace_m2_per_min, "pace"),
        (laying_min, "time to lay the sheet"),
    ):
        if not (math.isfinite(value) and value > 0):
            raise BadInput("not a figure to work with", where=where, given=value, wanted="above 0")
    if not glue.least_c <= temperature_c <= WARMEST_C:
        raise BadInput(
            f"{glue.name} glue is not used at this temperature",
            where="temperature",
            given=temperature_c,
            wanted=f"{glue.least_c:g} to {WARMEST_C:g} C",
            step="Bring room, shell and glue to it and leave them a night.",
        )
    slower = max(1.0, 2.0 ** ((USUAL_C - temperature_c) / 10.0))
    shorter = min(1.0, 2.0 ** ((USUAL_C - temperature_c) / 10.0))
    area = length_mm * width_mm / 1e6
    coat = area * (2 if glue.both_faces else 1)
    spreading = coat / pace_m2_per_min
    open_min = glue.open_min * shorter
    # What was brushed first dries first: the clock runs from the first stroke.
    spare = open_min - max(spreading, glue.dry_min * slower) - laying_min
    return Gluing(
        area_m2=area,
        spread_m2=coat * glue.coats,
        litres=SPARE * coat * glue.coats / glue.spread_m2_per_litre,
        spreading_min=spreading,
        open_min=open_min,
        spare_min=spare,
        clamp_hours=glue.clamp_hours * slower,
        trim_hours=glue.trim_hours * slower,
        drill_hours=glue.drill_hours * slower,
        notes=_notes(glue, spare_min=spare, dry_min=glue.dry_min * slower),
    )


def _notes(glue: Glue, *, spare_min: float, dry_min: float) -> tuple[str, ...]:
    notes = []
    if spare_min < 0:
        notes.append(
            f"The {glue.name} glue is past its open time {-spare_min:.0f} min before the sheet "
            "lies: take a slower glue, a second pair of hands or a smaller area at a time."
        )
    if dry_min:
        notes.append(
            f"Leave it {dry_min:.0f} min or until it no longer strings; once the sheet touches "
            "it cannot be moved."
        )
    if glue.clamp_hours:
        notes.append("Straps all round over a soft sheet; look under them after ten minutes.")
    return tuple(notes)
