"""The dated features as a page lists them: family by family, feature by feature, whose each is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import urlencode

from counterhoop.bench.evidence.drum_features import years_of
from counterhoop.bench.evidence.own_reference import OwnReference
from counterhoop.bench.evidence.reference_file import KEYS, row_called
from counterhoop.evidence.reference import Line, SerialExample, Value

OWN = "/workshop/dated/own"


@dataclass(frozen=True, slots=True, kw_only=True)
class RowShown:
    """One row: what it is called, what it says, whether it is the workshop's own."""

    name: str
    says: str
    source: str
    own: bool
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyShown:
    """All that is known of a family: rows by what they are about."""

    name: str
    count: str
    groups: tuple[tuple[str, tuple[RowShown, ...]], ...]


def families_shown(own: OwnReference) -> tuple[FamilyShown, ...]:
    """Return what is known, family by family."""
    whole = own.whole
    shown = []
    for family in whole.families:
        lines = [one for one in whole.lines if one.family == family]
        values = [one for one in whole.values if one.family == family]
        numbers = [one for one in whole.serials if one.family == family]
        groups = [("Lines", tuple(_line(one, own) for one in lines))]
        for feature in whole.features:
            forms = [one for one in values if one.feature == feature.name]
            if forms:
                groups.append((feature.name, tuple(_value(one, own) for one in forms)))
        if numbers:
            ordered = sorted(numbers, key=lambda one: (one.prefix, one.number))
            groups.append(("Serial numbers", tuple(_serial(one, own) for one in ordered)))
        count = _many(len(values), "form")
        count += f", {_many(len(numbers), 'dated number')}" if numbers else ""
        shown.append(FamilyShown(name=family, count=count, groups=tuple(groups)))
    return tuple(shown)


def looks_shown(own: OwnReference) -> tuple[RowShown, ...]:
    """Return the features that can be looked at, of whichever family."""
    return tuple(
        _row(
            "feature", own, {"name": one.name}, name=one.name, source=one.source,
            says=f"On the {one.part}: {one.look}, {one.minutes:g} min",
        )
        for one in own.whole.features
    )  # fmt: skip


def parts_shown(own: OwnReference) -> tuple[RowShown, ...]:
    """Return how often parts are lost."""
    return tuple(
        _row(
            "part", own, {"name": one.name}, name=one.name, source=one.source,
            says=f"After fifty years, no longer the first on {10 * one.lost_in_fifty_years:g} of "
            f"ten drums; {10 * one.from_a_donor:g} of ten of those came off another drum",
        )
        for one in own.whole.parts
    )  # fmt: skip


def _line(one: Line, own: OwnReference) -> RowShown:
    until = f" to about {one.ends.year:.0f}" if one.ends else " on"
    return _row(
        "line", own, {"family": one.family, "name": one.name}, name=one.name, source=one.source,
        says=f"made from about {one.begins.year:.0f}{until}",
    )  # fmt: skip


def _value(one: Value, own: OwnReference) -> RowShown:
    more = [f"took over from {one.follows}"] if one.follows else []
    more += [f"on {_listed(one.lines)} only"] if one.lines else []
    more += [f"on {_listed(f'{mm / 25.4:g} in' for mm in one.diameters_mm)} only"] if (
        one.diameters_mm
    ) else []  # fmt: skip
    return _row(
        "value", own, {"family": one.family, "feature": one.feature, "name": one.name},
        name=one.name, source=one.source, says="; ".join([years_of(one), *more]),
    )  # fmt: skip


def _serial(one: SerialExample, own: OwnReference) -> RowShown:
    return _row(
        "serial", own, {"family": one.family, "number": one.written}, name=one.written,
        source=one.source, says=f"{one.year:g}, give or take {one.give:g}",
    )  # fmt: skip


def _row(
    sort: str, own: OwnReference, key: dict[str, str], *, name: str, says: str, source: str
) -> RowShown:
    mine = [
        at for at, row in enumerate(own.rows[sort])
        if all(str(row.get(word)) == key[word] for word in KEYS[sort])
    ]  # fmt: skip
    at = str(mine[0]) if mine and own.fault is None else f"new?{urlencode({'like': '', **key})}"
    return RowShown(name=name, says=says, source=source, own=bool(mine), href=f"{OWN}/{sort}/{at}")


def own_shown(own: OwnReference) -> tuple[tuple[str, str], ...]:
    """Return the workshop's own rows: what each is called, and where it is changed."""
    return tuple(
        (row_called(sort, row), f"{OWN}/{sort}/{at}")
        for sort, rows in own.rows.items()
        for at, row in enumerate(rows)
    )


def _many(count: int, one: str) -> str:
    return f"{count} {one}{'' if count == 1 else 's'}"


def _listed(names: Iterable[str]) -> str:
    return " and ".join(names)
