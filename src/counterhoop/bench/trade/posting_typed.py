"""What is typed before a drum is posted: what it is made of, the parcel, the carrier's limits."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Final, Literal

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.kinds import LISTING
from counterhoop.bench.trade.features_typed import FieldByField, text_of
from counterhoop.errors import BadInput, Finding
from counterhoop.job.trade.abroad import Goods, before_posting
from counterhoop.job.trade.parcel import Limits, Parcel
from counterhoop.quantities.in_units import Units, parse_in_units
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.weight import GRAMS_PER_OUNCE

POSTING: Final = (
    *("timbers", "ornaments", "skins", "nitrate", "bare"),
    *("parcel", "weight", "carrier", "longest", "length_and_girth", "heaviest"),
)
WEIGHTS: Final = Units(
    noun="a weight",
    called="weight",
    wanted='a weight such as "6.4 kg"',
    example="6.4 kg",
    sizes={
        **dict.fromkeys(("kg", "kilo", "kilos"), Fraction(1)),
        **dict.fromkeys(("g", "gram", "grams"), Fraction(1, 1000)),
        **dict.fromkeys(("lb", "lbs", "pound", "pounds"), 16 * GRAMS_PER_OUNCE / 1000),
    },
    offered=("kg", "lb", "g"),
    refused={},
)
MOST_KG: Final = 500
_BETWEEN: Final = re.compile(r"\s+x\s+|\s*×\s*|\s+by\s+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Posting:
    """What to ask before a drum is posted.

    Attributes
    ----------
    findings : tuple of Finding
        The gravest first.
    faults : mapping of str to BadInput
        What cannot be read, by field: it counts as not typed.
    """

    findings: tuple[Finding, ...]
    faults: Mapping[str, BadInput] = field(default_factory=dict)


def posting_of(drum: KeptDrum) -> Posting:
    """Return what to ask before a drum is posted, by what is typed of it."""
    return read_posting(drum.kept(LISTING).table)


def read_posting(typed: Mapping[str, Any]) -> Posting:
    """Read what is typed, and return what to ask.

    Examples
    --------
    >>> said = read_posting({"timbers": "birch", "nitrate": "no", "parcel": "50 x 50 x 30 cm"})
    >>> [one.code for one in said.findings], sorted(said.faults)
    (['parcel-not-measured', 'abroad-papers'], [])
    """
    faults: dict[str, BadInput] = {}

    told = FieldByField(typed, faults).told

    sides = told("parcel", sides_mm)
    weight = told("weight", lambda text: _kg(text, where="weight"))
    limits = Limits(
        carrier=text_of(typed, "carrier"),
        longest_mm=told("longest", lambda text: _mm(text, where="longest")),
        length_and_girth_mm=told("length_and_girth", lambda text: _mm(text, where="girth")),
        weight_kg=told("heaviest", lambda text: _kg(text, where="heaviest")),
    )
    goods = Goods(
        timbers=_each(typed, "timbers"),
        ornaments=_each(typed, "ornaments"),
        skins=_each(typed, "skins"),
        nitrate=_nitrate(text_of(typed, "nitrate")),
        finished=typed.get("bare") is not True,
    )
    parcel = Parcel(sides_mm=sides, weight_kg=weight) if sides and weight else None
    return Posting(findings=before_posting(goods, parcel=parcel, limits=limits), faults=faults)


def sides_mm(text: str) -> tuple[float, float, float]:
    """Read the three sides of a box; a unit behind the last is that of all.

    Examples
    --------
    >>> sides_mm("52 x 52 x 32 cm"), sides_mm("20 in x 20 in x 10 in")
    ((520.0, 520.0, 320.0), (508.0, 508.0, 254.0))
    """
    parts = [part for part in _BETWEEN.split(text) if part]
    if len(parts) != 3:
        raise BadInput(
            "a box has three sides", where="parcel", given=text, wanted='such as "52 x 52 x 32 cm"'
        )
    unit = re.sub(r"^[\d.,/ -]+", "", parts[2])
    said = [part if re.search(r"[a-z\"]", part) else f"{part} {unit}" for part in parts]
    first, second, third = (_mm(part, where="parcel") for part in said)
    return first, second, third


def _mm(text: str, *, where: str) -> float:
    return parse_length(text, where=where, allow_zero=False).mm


def _kg(text: str, *, where: str) -> float:
    weight = parse_in_units(text, WEIGHTS, where=where)
    if not 0 < weight <= MOST_KG:
        raise BadInput("no parcel weighs that", where=where, given=text, wanted=WEIGHTS.wanted)
    return float(weight)


def _each(typed: Mapping[str, Any], name: str) -> tuple[str, ...]:
    text = typed.get(name)
    lines = text.splitlines() if isinstance(text, str) else ()
    return tuple(words for line in lines if (words := " ".join(line.split())))


def _nitrate(text: str) -> Literal["no", "maybe", "yes"]:
    return "no" if text == "no" else "yes" if text == "yes" else "maybe"
