"""Readings of one dimension in one cell: each as it was written, with what it was taken with."""

from __future__ import annotations

import re
from functools import lru_cache

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import STEPS, Dimension, Measured, read_measured, usual_doubt
from counterhoop.parts.rows.cell_readers import read_figure, with_unit_of
from counterhoop.parts.rows.csv_cell import Cell
from counterhoop.parts.rows.layout import Field, Hint

_BRACKET = re.compile(r"(?P<reading>.*\S)\s*\((?P<inside>[^()]*)\)")
_UNITS = {"mm": ("mm", "cm", "in", "thou"), "g": ("g", "kg", "oz", "lb"), "count": ()}
_MOST_READINGS = 40


# A shelf says the same few thousand sizes again and again.
@lru_cache(maxsize=1 << 15)
def read_readings(dimension: Dimension, text: str, hint: Hint) -> tuple[Measured, ...]:
    """Read ``42.5 mm``, ``1 5/8 in (rule)`` or ``42.5 mm; 42.6 mm (±0.3)``.

    Raises
    ------
    BadInput
        Says which reading and what to write instead.

    Examples
    --------
    >>> [one.doubt for one in read_readings(Dimension.LENGTH, "42 mm (caliper); 43 mm", Hint())]
    [0.1, 0.5]
    """
    parts = [part.strip() for part in text.split(";") if part.strip()]
    if len(parts) > _MOST_READINGS:
        raise BadInput(f"{len(parts)} readings", wanted=f"at most {_MOST_READINGS}")
    if not parts:
        raise BadInput("no reading", given=text, wanted="a length such as 42.5 mm")
    return tuple(_reading(dimension, part, hint) for part in parts)


def _reading(dimension: Dimension, part: str, hint: Hint) -> Measured:
    bracket = _BRACKET.fullmatch(part)
    written = bracket["reading"] if bracket else part
    inside = bracket["inside"].strip().casefold() if bracket else hint.instrument
    if dimension.unit == "count":
        written = re.sub(r"\.0+$", "", written)
    elif written.lstrip()[:1] == "-":
        raise BadInput("below zero", given=part, wanted="what the instrument shows")
    else:
        written = with_unit_of(written, hint)
    given_doubt = re.fullmatch(r"(?:±|\+-|\+/-)\s*([0-9.,]+)(?:\s*(?:mm|g))?", inside)
    if given_doubt is None and inside and inside not in STEPS:
        raise BadInput(
            "not an instrument", given=part, wanted="in the brackets " + ", ".join(STEPS)
        )
    found = read_measured(dimension, written, instrument="" if given_doubt else inside)
    if given_doubt is None or dimension.unit == "count":
        return found
    doubt = read_figure(given_doubt[1], hint)
    return Measured(dimension=dimension, value=found.value, doubt=doubt, written=written)


def write_readings(readings: tuple[Measured, ...]) -> str:
    """Return readings so that ``read_readings`` finds the same.

    Examples
    --------
    >>> write_readings(read_readings(Dimension.LENGTH, "42 mm (caliper);43 mm", Hint()))
    '42 mm (caliper); 43 mm'
    """
    return "; ".join(_written(one) for one in readings)


def _written(one: Measured) -> str:
    text = one.written.strip()
    if not text or ";" in text or "(" in text or not _reads_back(one, text):
        unit = "" if one.dimension.unit == "count" else f" {one.dimension.unit}"
        text = f"{one.value:.10g}{unit}"
    if one.dimension.unit == "count" or one.doubt == usual_doubt(one.dimension):
        return text
    by_step = {step: name for name, step in STEPS.items() if name in ("rule", "caliper")}
    lengths = one.dimension.unit == "mm" and one.dimension.about.instrument in by_step.values()
    name = by_step.get(one.doubt) if lengths else None
    return f"{text} ({name or f'±{one.doubt:.10g}'})"


def _reads_back(one: Measured, text: str) -> bool:
    try:
        (found,) = read_readings(one.dimension, text, Hint())
    except BadInput:
        return False
    return abs(found.value - one.value) < 1e-6


def same_readings(some: object, others: object) -> bool:
    """Tell whether two sets of readings say the same sizes, in whatever unit."""

    def sizes(readings: object) -> list[tuple[float, float]]:
        assert isinstance(readings, tuple)
        return sorted((round(one.value, 6), round(one.doubt, 6)) for one in readings)

    return sizes(some) == sizes(others)


def field_of(dimension: Dimension, *, words: tuple[str, ...] = ()) -> Field:
    """Return the column of a dimension."""

    def write(value: object) -> Cell:
        assert isinstance(value, tuple)
        text = write_readings(value)
        # A spreadsheet adds up and sorts figures, and no texts.
        return int(text) if dimension.unit == "count" and text.isdecimal() else text

    units = _UNITS[dimension.unit]
    return Field(
        name=dimension.value,
        words=words,
        read=lambda text, hint: read_readings(dimension, text, hint),
        write=write,
        units=(*units, "tpi") if dimension is Dimension.PITCH else units,
        same=same_readings,
    )
