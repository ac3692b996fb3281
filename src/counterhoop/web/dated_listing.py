"""The dated features as a page lists them: family by family, feature by feature, whose each is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from counterhoop.bench.evidence.drum_features import years_of
from counterhoop.bench.evidence.own_reference import OwnReference
from counterhoop.bench.evidence.reference_file import KEYS, row_called
from counterhoop.evidence.reference import Line, SerialExample, Value

OWN = "/workshop/dated/own"
Mine = Mapping[tuple[str, ...], str]
"""Own rows, as `_mine` has them."""


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
    whole, mine = own.whole, _mine(own)
    shown = []
    for family in whole.families:
        lines = [one for one in whole.lines if one.family == family]
        values = [one for one in whole.values if one.family == family]
        numbers = [one for one in whole.serials if one.family == family]
        groups = [("Lines", tuple(_line(one, mine) for one in lines))]
        for feature in whole.features:
            forms = [one for one in values if one.feature == feature.name]
            if forms:
                groups.append((feature.name, tuple(_value(one, mine) for one in forms)))
        if numbers:
            ordered = sorted(numbers, key=lambda one: (one.prefix, one.number))
            groups.append(("Serial numbers", tuple(_serial(one, mine) for one in ordered)))
        count = _many(len(values), "form")
        count += f", {_many(len(numbers), 'dated number')}" if numbers else ""
        shown.append(FamilyShown(name=family, count=count, groups=tuple(groups)))
    return tuple(shown)


def looks_shown(own: OwnReference) -> tuple[RowShown, ...]:
    """Return the features that can be looked at, of whichever family."""
    mine = _mine(own)
    return tuple(
        _row(
            "feature", mine, {"name": one.name}, name=one.name, source=one.source,
            says=f"On the {one.part}: {one.look}, {one.minutes:g} min",
        )
        for one in own.whole.features
    )  # fmt: skip


def parts_shown(own: OwnReference) -> tuple[RowShown, ...]:
    """Return how often parts are lost."""
    mine = _mine(own)
    return tuple(
        _row(
            "part", mine, {"name": one.name}, name=one.name, source=one.source,
            says=f"After fifty years, no longer the first on {10 * one.lost_in_fifty_years:g} of "
            f"ten drums; {10 * one.from_a_donor:g} of ten of those came off another drum",
        )
        for one in own.whole.parts
    )  # fmt: skip


def _line(one: Line, mine: Mine) -> RowShown:
    until = f" to about {one.ends.year:.0f}" if one.ends else " on"
    return _row(
        "line", mine, {"family": one.family, "name": one.name}, name=one.name, source=one.source,
        says=f"made from about {one.begins.year:.0f}{until}",
    )  # fmt: skip


def _value(one: Value, mine: Mine) -> RowShown:
    more = [f"took over from {one.follows}"] if one.follows else []
    more += [f"on {_listed(one.lines)} only"] if one.lines else []
    more += [f"on {_listed(f'{mm / 25.4:g} in' for mm in one.diameters_mm)} only"] if (
        one.diameters_mm
    ) else []  # fmt: skip
    return _row(
        "value", mine, {"family": one.family, "feature": one.feature, "name": one.name},
        name=one.name, source=one.source, says="; ".join([years_of(one), *more]),
    )  # fmt: skip


def _serial(one: SerialExample, mine: Mine) -> RowShown:
    return _row(
        "serial", mine, {"family": one.family, "number": one.written}, name=one.written,
        source=one.source, says=f"{one.year:g}, give or take {one.give:g}",
    )  # fmt: skip


def _row(
    sort: str, mine: Mine, key: dict[str, str], *, name: str, says: str, source: str
) -> RowShown:
    at = mine.get((sort, *(key[word] for word in KEYS[sort])))
    over = f"new?{urlencode({'like': '', **key})}"
    href = f"{OWN}/{sort}/{at or over}"
    return RowShown(name=name, says=says, source=source, own=at is not None, href=href)


def _mine(own: OwnReference) -> Mine:
    """Return where own rows stand by their sort and name; nowhere while they cannot be read."""
    return {
        (sort, *(str(row.get(word)) for word in KEYS[sort])): f"{at}" if own.fault is None else ""
        for sort, rows in own.rows.items()
        for at, row in reversed([*enumerate(rows)])
    }


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
