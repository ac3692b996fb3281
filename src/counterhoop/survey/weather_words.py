"""What the air of the day says of the wood, and what other weather would do to a close fit."""

from __future__ import annotations

import math
from typing import get_args

from counterhoop.development.flat import End
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.shell.drum import Drum, Material
from counterhoop.shell.readings import Air
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.survey.drum_fit import fit_of
from counterhoop.survey.drum_survey import girth_at_mm
from counterhoop.survey.head_fit import Fit
from counterhoop.survey.wood_moisture import MOST_HUMIDITY_PERCENT, MOST_WARM_C
from counterhoop.survey.wood_movement import SPECIES, Direction
from counterhoop.survey.wood_weather import WeatherChange, weather_change

CLOSE = (Fit.SNUG, Fit.TIGHT)
LEAST_SWING = 1.0


def weather_words(drum: Drum, *, rules: ShopRules) -> tuple[str, ...]:
    """Return the day's moisture, and what other weather would do to fits that are close.

    The figures are those of cross-ply unless the drum is said to have one ply; a head's collar is
    taken to stay as it is. Where the air, or the wood of the shell, was not noted, one sentence
    says what to note; nothing at all of a shell that is not wood, or where nothing was read.

    Parameters
    ----------
    drum : Drum
        As found.
    rules : ShopRules
        Clearances from which a head floats or sits snug.
    """
    read = drum.readings
    if drum.material is not Material.WOOD:
        return ()
    fits = tuple(
        (end, fit.as_found.known)
        for end in get_args(End)
        if (fit := fit_of(drum, end, rules=rules)) is not None
    )
    if read.air is None or not (read.wood or drum.plies):
        return (_note(drum),) if fits or read.air is not None or read.wood else ()
    solid = drum.plies == 1
    close = [(end, clearance) for end, clearance in fits if clearance.fit in CLOSE]
    widest = max((girth_at_mm(drum, end) for end, _ in close), default=drum.circumference.mean_mm)
    change = _change(
        widest / math.pi,
        drum,
        read.air,
        direction=Direction.ALONG if solid else Direction.CROSS_PLY,
    )
    says = [_moisture(read.air, change)]
    if close:
        says.append(_moves(drum, read.air, change, solid=solid))
        says += [_close(end, clear_mm=room.clear_mm, change=change) for end, room in close]
    return tuple(says)


def _note(drum: Drum) -> str:
    wanted = [
        *(["temperature and humidity of the day"] if drum.readings.air is None else []),
        *(["the wood of the shell, or how many plies it has"] if not _wood_known(drum) else []),
    ]
    return (
        f"Note down {' and '.join(wanted)}: a head that just goes on in dry air may not go on in "
        "wet."
    )


def _wood_known(drum: Drum) -> bool:
    return bool(drum.readings.wood or drum.plies)


def _change(size_mm: float, drum: Drum, air: Air, *, direction: Direction) -> WeatherChange:
    return weather_change(
        size_mm,
        species=drum.readings.wood,
        direction=direction,
        # Wetter or colder air than the equation is for settles the wood as its limit does.
        humidity_percent=min(air.humidity_percent, MOST_HUMIDITY_PERCENT),
        temperature_c=min(max(air.temperature_c, 0.0), MOST_WARM_C),
    )


def _moisture(air: Air, change: WeatherChange) -> str:
    return (
        f"In air of {air.temperature_c:.0f} C and {air.humidity_percent:.0f} % the wood settles at "
        f"about {change.now_percent:.0f} % of moisture, which takes weeks."
    )


def _moves(drum: Drum, air: Air, change: WeatherChange, *, solid: bool) -> str:
    ways = []
    if change.wetter_by >= LEAST_SWING:
        ways.append(f"{_size(change.wetter_mm)} larger in air {change.wetter_by:.0f} % wetter")
    if change.drier_by >= LEAST_SWING:
        ways.append(f"{_size(change.drier_mm)} smaller in air {change.drier_by:.0f} % drier")
    says = f"Across, the shell would be about {' and '.join(ways)}"
    if not solid:
        return f"{says} (figures for cross-ply; a solid shell, rings and plugs move otherwise)."
    says += " (figures along the grain, as a bent solid shell has it round the rim)"
    if drum.readings.wood not in SPECIES:
        return f"{says}; its depth moves much more."
    deep = _change(drum.depth_mm, drum, air, direction=Direction.TANGENTIAL)
    return f"{says}; its depth moves by up to {_size(max(deep.wetter_mm, -deep.drier_mm))}."


def _close(end: End, *, clear_mm: float, change: WeatherChange) -> str:
    left = clear_mm - change.wetter_mm
    says = f"The {end} head has {_size(clear_mm)} of room on the diameter: in wet air "
    if left < CALIPER_MM:
        return f"{says}it may bind. Try it again before it is needed, and do not force it."
    return f"{says}about {_size(left)} is left."


def _size(mm: float) -> str:
    return print_mm(abs(mm), resolution_mm=CALIPER_MM)
