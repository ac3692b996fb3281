"""What is asked of a drum: plain facts, and for each feature that the reference dates its forms."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.kinds import FACTS, SURVEY
from counterhoop.errors import BadInput
from counterhoop.evidence.reference import UNLISTED, End, Feature, Reference, Value
from counterhoop.quantities.size import parse_size

MAKER: Final = "maker"
SERIAL: Final = "serial"
CANNOT_TELL: Final = "cannot tell"
"""Looked at, and still nobody knows: it says nothing of the year, and is not asked for again."""
KEPT_AS: Final = {
    "shell make-up": "plies", "lug": "lug_casting", "stamp": "stamps", "wrap": "finish",
}  # fmt: skip
"""Under which name the document keeps a feature, where that is not the feature's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedFeature:
    """A feature of which the reference says when its forms were in use.

    Attributes
    ----------
    key : str
        As the drum's document keeps it.
    feature : Feature
    values : tuple of Value
        Its forms, of whichever of the drum's lines; each name once.
    """

    key: str
    feature: Feature
    values: tuple[Value, ...]

    @property
    def choices(self) -> tuple[tuple[str, str], ...]:
        """What can be answered."""
        return (
            ("", "not looked at"),
            *((value.name, value.name) for value in self.values),
            (UNLISTED, UNLISTED),
            (CANNOT_TELL, CANNOT_TELL),
        )

    @property
    def years(self) -> str:
        """When each form was in use, in a line."""
        return "; ".join(f"{value.name}: {years_of(value)}" for value in self.values) + "."


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a drum before one looks: family and line by the reference's names, size."""

    family: str = ""
    line: str = ""
    diameter_mm: float | None = None
    family_by: str = ""


def known_of(drum: KeptDrum, reference: Reference) -> Known:
    """Return family, line and size of a drum, as far as its sheets say them.

    A family that is not chosen is taken from what is written of the maker, if exactly one of the
    reference's stands there (``family_by`` is then that text).
    """
    maker = _table(drum.kept(FACTS).table.get(MAKER))
    family, line, says = (_text(maker.get(word)) for word in ("family", "line", "says"))
    by = ""
    if family not in reference.families:
        found = [one for one in reference.families if _stands_in(one, says)]
        family, by = (found[0], says) if len(found) == 1 else ("", "")
    lines = [one.name for one in reference.lines if one.family == family]
    return Known(
        family=family, line=line if line in lines else "", family_by=by,
        diameter_mm=_diameter_mm(drum),
    )  # fmt: skip


def asked_features(reference: Reference, known: Known) -> tuple[AskedFeature, ...]:
    """Return the features that the reference dates on drums of this family, line and size."""
    return tuple(_asked(reference, known)) if known.family else ()


def years_of(value: Value) -> str:
    """Say when a form was in use.

    Examples
    --------
    >>> badge = Value(
    ...     family="Corvane", feature="badge", name="round", begins=None,
    ...     ends=End(year=1955, give=2), follows="", share=1, lines=(), diameters_mm=(), source="x",
    ... )
    >>> years_of(badge)
    'until about 1955'
    """
    match value.begins, value.ends:
        case None, None:
            return "at any time"
        case None, end:
            return f"until {_year(end)}"
        case begin, None:
            return f"from {_year(begin)}"
        case begin, end:
            return f"{_year(begin)} to {_year(end)}"


def _year(end: End | None) -> str:
    assert end is not None
    return f"about {end.year:.0f}" if end.give else f"{end.year:.0f}"


def _asked(reference: Reference, known: Known) -> Iterator[AskedFeature]:
    taken = {MAKER, SERIAL, "history", "vent"}
    lines = reference.lines_of(known.family, line=known.line)
    for feature in reference.features:
        values = {
            value.name: value
            for line in lines
            for value in reference.values_of(
                feature.name, family=known.family, line=line.name, diameter_mm=known.diameter_mm
            )
        }
        key = KEPT_AS.get(feature.name) or re.sub(r"\W+", "_", feature.name.lower())
        while key in taken:
            key += "_"
        taken.add(key)
        if values:
            yield AskedFeature(key=key, feature=feature, values=tuple(values.values()))


def _diameter_mm(drum: KeptDrum) -> float | None:
    try:
        return parse_size(drum.kept(SURVEY).table.get("size")).dia.mm
    except BadInput:
        return None


def _stands_in(family: str, text: str) -> bool:
    return bool(re.search(rf"\b{re.escape(family)}\b", text, flags=re.IGNORECASE))


def _table(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _text(value: Any) -> str:
    return value.strip() if isinstance(value, str) else ""
