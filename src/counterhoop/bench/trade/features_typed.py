"""A drum for sale in a few typed words, and what is read out of them."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, TypeVar

from counterhoop.errors import BadInput
from counterhoop.job.price.rate import parse_rate
from counterhoop.job.trade.features import Features
from counterhoop.quantities.length import MM_PER_INCH
from counterhoop.quantities.size import DrumSize, parse_size

T = TypeVar("T")
FEATURES: Final = (
    *("size", "kind", "line", "made", "finish", "condition", "complete", "extra_holes", "changed"),
)
LONGEST: Final = 300
_NONE: Final = ("none", "no", "nothing")
_ALL: Final = ("all", "all there", "complete", "whole")
_YEARS = re.compile(r"(?P<first>\d{4})(?:\s*(?:to|-|–)\s*(?P<last>\d{4}))?")
_SAYS_UNIT = re.compile(r"\d\s*(?:mm|cm|in|inch|inches|[\"”″])(?![a-z])", re.IGNORECASE)
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?(?:[ -]\d+/\d+|/\d+)?[½¼¾]?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What was read of typed words, and what could not be.

    Attributes
    ----------
    faults : mapping of str to BadInput
        By the field that it stands in.
    """

    features: Features | None
    faults: Mapping[str, BadInput] = field(default_factory=dict)


def read_features(typed: Mapping[str, Any]) -> Typed:
    """Read a drum's features; an empty field was not looked at, "none" says that there is none.

    Parameters
    ----------
    typed : mapping of str
        By ``FEATURES``; all but the size may be missing.

    Examples
    --------
    >>> read = read_features({"size": "14 dia x 6.5 deep", "extra_holes": "none", "made": "1962"})
    >>> read.features.deep_in, read.features.extra_holes, read.features.made
    (6.5, 0, (1962, 1962))
    >>> str(read_features({"size": "14 x 6.5"}).faults["size"]).partition(":")[0]
    'size'
    """
    faults: dict[str, BadInput] = {}

    told = FieldByField(typed, faults).told

    size = told("size", called_size)
    made = told("made", _years)
    condition, changed = told("condition", things_in), told("changed", things_in)
    complete, holes = told("complete", _share), told("extra_holes", _holes)
    if size is None and "size" not in faults:
        faults["size"] = BadInput(
            "how large is it?", where="size", wanted='a size such as "14 dia x 6.5 deep"'
        )
    if size is None or faults:
        return Typed(features=None, faults=faults)
    try:
        made_of = Features(
            dia_in=_inches(size.dia.mm),
            deep_in=_inches(size.deep.mm),
            kind=text_of(typed, "kind"),
            line=text_of(typed, "line"),
            made=made,
            finish=text_of(typed, "finish"),
            condition=condition,
            complete=complete,
            extra_holes=holes,
            changed=changed,
        )
    except BadInput as fault:
        where = fault.where if fault.where in FEATURES else "size"
        return Typed(features=None, faults={where: fault})
    return Typed(features=made_of)


def called_size(text: str) -> DrumSize:
    """Read a size as a drum is called: numbers without a unit are inches.

    Examples
    --------
    >>> size = called_size("14 dia x 5 1/2 deep")
    >>> round(size.dia.mm, 1), round(size.deep.mm, 1)
    (355.6, 139.7)
    """
    plain = text if _SAYS_UNIT.search(text) else _NUMBER.sub(lambda one: f"{one[0]} in", text)
    try:
        return parse_size(plain, where="size")
    except BadInput as fault:
        raise BadInput(
            fault.what, where="size", given=text, wanted='a size such as "14 dia x 6.5 deep"'
        ) from fault


def text_of(typed: Mapping[str, Any], name: str) -> str:
    """Return what is typed in a field, its ends trimmed, no longer than a field holds."""
    value = typed.get(name)
    return " ".join(value.split())[:LONGEST] if isinstance(value, str) else ""


@dataclass(frozen=True, slots=True)
class FieldByField:
    """Reads what is typed field by field; what cannot be read goes among the faults."""

    typed: Mapping[str, Any]
    faults: dict[str, BadInput]

    def told(self, name: str, read: Callable[[str], T]) -> T | None:
        """Return what a field says; None where it is empty or cannot be read."""
        text = text_of(self.typed, name)
        try:
            return read(text) if text else None
        except BadInput as fault:
            self.faults[name] = fault
            return None


def things_in(text: str) -> frozenset[str]:
    """Return things that commas keep apart; "none" says that there is none.

    Examples
    --------
    >>> sorted(things_in("edge chipped, wrap shrunk")), things_in("none")
    (['edge chipped', 'wrap shrunk'], frozenset())
    """
    if text.casefold() in _NONE:
        return frozenset()
    return frozenset(thing for part in re.split("[,;]", text) if (thing := part.strip()))


def _years(text: str) -> tuple[int, int]:
    found = _YEARS.fullmatch(text)
    if found is None:
        raise BadInput(
            "not a year", where="made", given=text, wanted='such as "1964" or "1962 to 1966"'
        )
    return int(found["first"]), int(found["last"] or found["first"])


def _share(text: str) -> float:
    return 1.0 if text.casefold() in _ALL else float(parse_rate(text, where="complete"))


def _holes(text: str) -> int:
    if text.casefold() in _NONE:
        return 0
    if not (text.isascii() and text.isdecimal() and len(text) < 4):
        raise BadInput(
            "not a count of holes", where="extra holes", given=text, wanted='"none", or a number'
        )
    return int(text)


def _inches(size_mm: float) -> float:
    # A drum is called in quarters of an inch at the finest; the float's last place is no size.
    return round(size_mm / float(MM_PER_INCH), 3)
