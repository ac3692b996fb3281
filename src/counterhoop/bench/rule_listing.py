"""The limits and minutes that the workshop works to: the usual ones, and its own over them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from counterhoop.bench.folders.folder import Kept
from counterhoop.bench.folders.kinds import RULES
from counterhoop.bench.folders.own_figures import open_with, own_figures
from counterhoop.bench.rule_words import rule_words
from counterhoop.errors import BadInput
from counterhoop.quantities.duration import print_minutes
from counterhoop.quantities.money import Money, print_money
from counterhoop.quantities.print_length import CALIPER_MM, print_length, print_mm
from counterhoop.shell.operations import operations
from counterhoop.shell.shop_rules import ShopRules, default_rules
from counterhoop.shell.survey_file.resolve_shop import HOUR
from counterhoop.sources import load_table

Units = Literal["mm", "in"]
LEAST_IN_MM = 25.4 / 64
"""Less than this is no 32nd of an inch at all, and is said in millimetres alone."""
_UNITS = {"_deg": "degrees", "_cents": "cents"}
_EGS = {"_deg": "2 deg", "_cents": "10 cents"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure that can be the workshop's own.

    Attributes
    ----------
    table, name : str
        Where it stands in the workshop's figures.
    label : str
        What it is called on its form.
    holds, usual : str
        What holds now, and what holds unless the workshop says otherwise.
    own : str
        As typed; empty where the usual holds.
    eg : str
        How one writes it.
    fault : BadInput or None
        Why the own one cannot be read, so that the usual holds.
    """

    table: str
    name: str
    label: str
    holds: str
    usual: str
    own: str = ""
    eg: str = ""
    fault: BadInput | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureLine:
    """What one line of the page holds.

    Attributes
    ----------
    ident, called, says, source : str
        Its anchor, its name, what it is for, where the usual figures come from.
    figures : tuple of Figure
        One, or minutes and waiting.
    """

    ident: str
    called: str
    says: str
    source: str
    figures: tuple[Figure, ...]

    @property
    def own(self) -> bool:
        """Whether any of it is the workshop's own."""
        return any(figure.own for figure in self.figures)


@dataclass(frozen=True, slots=True, kw_only=True)
class FigurePart:
    """Lines that belong together."""

    title: str
    lines: tuple[FigureLine, ...]


def limits_listed(shop: Mapping[str, Kept], *, units: Units) -> tuple[FigurePart, ...]:
    """Return every limit, part by part."""
    holds = open_with(shop).job.rules
    parts: dict[str, list[FigureLine]] = {}
    for row in load_table("counterhoop.shell", "shop_rules.toml"):
        field = str(row.values["name"])
        words = rule_words(field)
        figure = Figure(
            table="rules",
            name=words.name,
            label=str(row.values["called"]),
            holds=_limit(holds, field, units=units),
            usual=_limit(default_rules(), field, units=units),
            eg=_limit_eg(field, units=units),
            **_typed(shop, "rules", words.name),
        )
        line = FigureLine(
            ident=words.name, called=str(row.values["called"]), says=words.says,
            source=str(row.source), figures=(figure,),
        )  # fmt: skip
        parts.setdefault(str(row.values["part"]), []).append(line)
    return tuple(FigurePart(title=title, lines=tuple(lines)) for title, lines in parts.items())


def operations_listed(shop: Mapping[str, Kept]) -> tuple[FigureLine, ...]:
    """Return every operation with its minutes and its waiting."""
    figures = open_with(shop).job.figures
    minutes, cure = dict(figures.minutes), dict(figures.cure_hours)
    source = str(load_table("counterhoop.shell", "minutes.toml")[0].source)
    lines = []
    for one in operations():
        work = Figure(
            table="minutes", name=one.name, label="Hands at work",
            holds=print_minutes(minutes[one.name]), usual=print_minutes(one.minutes),
            eg="12 min", **_typed(shop, "minutes", one.name),
        )  # fmt: skip
        wait = Figure(
            table="cure", name=one.name, label="Then left alone",
            holds=_waiting(cure.get(one.name, 0.0)), usual=_waiting(one.cure_hours),
            eg="12 h", **_typed(shop, "cure", one.name),
        )  # fmt: skip
        line = FigureLine(
            ident="-".join(one.name.split()), called=f"{one.name[:1].upper()}{one.name[1:]}",
            says=one.says, source=source, figures=(work, wait),
        )  # fmt: skip
        lines.append(line)
    return tuple(lines)


def hour_listed(shop: Mapping[str, Kept]) -> FigureLine:
    """Return the price of an hour."""
    figures = open_with(shop).job.figures
    usual = print_money(Money(minor=type(figures)().hour_minor, currency=type(figures)().currency))
    figure = Figure(
        table="prices", name=HOUR, label="An hour at the bench",
        holds=print_money(Money(minor=figures.hour_minor, currency=figures.currency)),
        usual=usual, eg="34.00 GBP", **_typed(shop, "prices", HOUR),
    )  # fmt: skip
    return FigureLine(
        ident="hour", called="An hour at the bench",
        says="what bench time is reckoned at; its currency is that of every price",
        source="an invented figure, to be replaced by your own", figures=(figure,),
    )  # fmt: skip


def _typed(shop: Mapping[str, Kept], table: str, name: str) -> dict[str, Any]:
    held = shop.get(RULES, Kept()).table.get(table)
    own = held.get(name) if isinstance(held, dict) else None
    where = f"{table}.{name}"
    fault = next((one for one in own_figures(shop).faults if one.where == where), None)
    return {"own": "" if own is None else str(own), "fault": fault}


def _limit(rules: ShopRules, field: str, *, units: Units) -> str:
    value = float(getattr(rules, field))
    if field.endswith("_mm") and value < LEAST_IN_MM:
        return print_mm(value, resolution_mm=CALIPER_MM)
    if field.endswith("_mm"):
        return print_length(value, units=units, resolution_mm=CALIPER_MM)
    unit = next((unit for end, unit in _UNITS.items() if field.endswith(end)), "times")
    return f"{value:g} {unit}"


def _limit_eg(field: str, *, units: Units) -> str:
    if field.endswith("_mm"):
        return "6 mm" if units == "mm" else "1/4 in"
    return next((eg for end, eg in _EGS.items() if field.endswith(end)), "2.5")


def _waiting(hours: float) -> str:
    return print_minutes(hours * 60.0) if hours else "no waiting"
