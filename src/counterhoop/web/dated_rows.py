"""A row of the dated features as its form asks for it: questions, what was typed, what is wrong."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.errors import BadInput
from counterhoop.evidence.reference import Reference
from counterhoop.evidence.rows import ROWS, read_number
from counterhoop.quantities.number import parse_number
from counterhoop.web.look.say import capfirst

_PLACE = re.compile(r"\.(\w+)(?:\[\d+\])?$")


@dataclass(frozen=True, slots=True, kw_only=True)
class RowField:
    """One question of a row.

    Attributes
    ----------
    name : str
        The word of the file.
    label, help : str
    read : callable
        From what is typed to what the file would have.
    of : str
        "family", "feature", "part" for a choice among those that there are; empty for a text.
    """

    name: str
    label: str
    help: str = ""
    read: Callable[[str], Any] = str
    of: str = ""


def _number(text: str) -> float:
    number = float(parse_number(text.strip()))
    return int(number) if number.is_integer() else number


def _year(text: str) -> float:
    """Read a year; "about 1958" is one too: how well it is known is asked beside it."""
    said = re.sub(r"^\s*(about|circa|c\.?)\s+", "", text, flags=re.IGNORECASE).strip()
    if not re.fullmatch(r"\d{4}(\.\d)?", said):
        raise BadInput("not a year", given=text, wanted="four figures, such as 1958")
    return _number(said)


def _share(text: str) -> float:
    """Read "0.3", "30 %" or "3 of 10"."""
    if found := re.fullmatch(r"\s*(\S+)\s*%\s*", text):
        return _number(found[1]) / 100.0
    if found := re.fullmatch(r"\s*(\S+)\s+of\s+(\S+)\s*", text):
        whole = _number(found[2])
        if whole <= 0.0:
            raise BadInput("a share of nothing", given=text, wanted="such as 3 of 10")
        return _number(found[1]) / whole
    return _number(text)


def _serial(text: str) -> str:
    """Return a serial number as it stands, once it is one."""
    read_number(text)
    return text


def _several(text: str) -> list[str]:
    return [one.strip() for one in re.split(r"[;\n]", text) if one.strip()]


_FAMILY = RowField(name="family", label="Family", of="family")
_SOURCE = RowField(
    name="source", label="Where you have it from",
    help="A catalogue with its page, a drum whose bill you saw, a person.",
)  # fmt: skip
_GIVE = "In years; 1 where you leave it empty."
_YEARS = (
    RowField(name="from", label="First year", help="Empty where nobody knows.", read=_year),
    RowField(name="from_give", label="First year, give or take", help=_GIVE, read=_number),
    RowField(name="to", label="Last year", help="Empty where nobody knows.", read=_year),
    RowField(name="to_give", label="Last year, give or take", help=_GIVE, read=_number),
)  # fmt: skip
FIELDS: Final[Mapping[str, tuple[RowField, ...]]] = {
    "value": (
        _FAMILY,
        RowField(name="feature", label="Feature", of="feature"),
        RowField(name="name", label="What it looks like", help="A few words: “round, nailed”."),
        *_YEARS,
        RowField(
            name="follows", label="Took over from",
            help="In place of a first year: it begins when that form ends, whenever that was.",
        ),
        RowField(name="share", label="How usual", read=_number,
                 help="Against others in use at the time: 1, or 2 for twice as usual."),
        RowField(name="lines", label="Only on these lines", read=_several,
                 help="With a ; between. Empty: on all."),
        RowField(name="diameters", label="Only on these sizes", read=_several,
                 help="Such as 14 in; 16 in. Empty: on all."),
        _SOURCE,
    ),
    "serial": (
        _FAMILY,
        RowField(name="number", label="Number", read=_serial,
                 help="As it stands on the drum, letters and all."),
        RowField(name="year", label="Year", read=_year, help="As a bill or a stamp has it."),
        RowField(name="give", label="Year, give or take", read=_number, help=_GIVE),
        RowField(name="part", label="The part it stands on", of="part"),
        _SOURCE,
    ),
    "line": (
        RowField(name="family", label="Family", help="Whose drums they are."),
        RowField(name="name", label="Line", help="The family's own name where it has but one."),
        *_YEARS,
        RowField(name="made", label="How many a year", read=_number,
                 help="Against other lines of the family: 1, or 2 for twice as many."),
        _SOURCE,
    ),
    "feature": (
        RowField(name="name", label="Feature", help="What one can see: “badge”, “lug insert”."),
        RowField(name="part", label="The part on which it is seen", of="part"),
        RowField(name="look", label="How to look", help="In a sentence, as to a colleague."),
        RowField(name="minutes", label="Minutes it takes", read=_number),
        RowField(name="unlisted", label="How often in no row", read=_share,
                 help="What was fitted, against one form in use: 0.05 where you leave it empty."),
        _SOURCE,
    ),
    "part": (
        RowField(name="name", label="Part", help="What is taken off and replaced as one."),
        RowField(name="lost_in_fifty_years", label="Lost in fifty years", read=_share,
                 help="Of ten drums that old, on how many it is not the first: 3 of 10, or 30 %."),
        RowField(name="from_a_donor", label="Of those, off another drum", read=_share,
                 help="The rest were new: 0.3 where you leave it empty."),
        _SOURCE,
    ),
}  # fmt: skip
CALLED: Final = {
    "value": "form of a feature", "serial": "dated serial number", "line": "line of drums",
    "feature": "feature to look at", "part": "part that is lost",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedField:
    """A question with what is typed, ready for the macro ``p.field``."""

    name: str
    label: str
    help: str
    kind: str
    choices: tuple[tuple[str, str], ...]
    value: str
    fault: str


def read_row(sort: str, typed: Mapping[str, str]) -> tuple[dict[str, Any], dict[str, str]]:
    """Return a row as the file would have it, and what is wrong by field; empty is left out."""
    row: dict[str, Any] = {}
    faults: dict[str, str] = {}
    for one in FIELDS[sort]:
        text = typed.get(one.name, "").strip()
        if not text:
            continue
        try:
            row[one.name] = one.read(text)
        except BadInput as fault:
            faults[one.name] = capfirst(str(fault))
    needed = [name for name, one in ROWS[sort].model_fields.items() if one.is_required()]
    faults |= {
        name: "This is missing: no row goes without."
        for name in (ROWS[sort].model_fields[one].alias or one for one in needed)
        if name not in row and name not in faults
    }
    return row, faults


def typed_of(row: Mapping[str, Any]) -> dict[str, str]:
    """Return a row as it is typed."""
    return {
        word: "; ".join(map(str, value)) if isinstance(value, list | tuple)
        else f"{value:g}" if isinstance(value, float) else str(value)
        for word, value in row.items()
    }  # fmt: skip


def asked_row(
    sort: str, typed: Mapping[str, str], faults: Mapping[str, str], reference: Reference
) -> tuple[AskedField, ...]:
    """Return the form of a row."""
    known = {
        "family": reference.families,
        "feature": tuple(one.name for one in reference.features),
        "part": tuple(one.name for one in reference.parts),
    }

    def ask(one: RowField) -> AskedField:
        value = typed.get(one.name, "")
        names = known.get(one.of, ())
        names = names if not value or value in names else (*names, value)
        return AskedField(
            name=one.name, label=one.label, help=one.help, kind="choice" if one.of else "text",
            choices=(("", "choose"), *((name, name) for name in names)), value=value,
            fault=faults.get(one.name, ""),
        )  # fmt: skip

    return tuple(ask(one) for one in FIELDS[sort])


def beside(fault: BadInput, sort: str) -> tuple[str, str]:
    """Return the field of a fault, empty where it is of the whole row, and what it says."""
    place = _PLACE.search(fault.where)
    field = place[1] if place and any(one.name == place[1] for one in FIELDS[sort]) else ""
    if not field:
        return "", capfirst(str(fault))
    said = BadInput(fault.what, given=fault.given, wanted=fault.wanted, step=fault.step)
    return field, capfirst(str(said))
