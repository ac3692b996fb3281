"""When the workshop is open, gathered for its sheet: what is typed, what is only usual."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from starlette.datastructures import FormData

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.folder import Kept
from counterhoop.bench.promise.hours_open import USUAL, OpenHours, read_open_hours
from counterhoop.errors import BadInput
from counterhoop.job.open_hours.week import WEEKDAYS
from counterhoop.quantities.duration import print_minutes
from counterhoop.store.body import Json
from counterhoop.web.forms import fault_words
from counterhoop.web.given_form import text_in

CLOSED: Final = "closed"
AS_USUAL: Final = "As usual, while you have not written it down."
THINGS: Final = (
    ("clamps", "Clamps", "How many there are for gluing."),
    ("drying", "Places to dry", "Drums that can stand on the drying shelf at once."),
    ("room", "The room", "How warm it is, nights too: 18 °C or 64 °F. Glue and paint go by it."),
)
OFF, EXTRA = "off", "extra"
FIELDS: Final = (*WEEKDAYS, OFF, EXTRA, *(name for name, _, _ in THINGS))
TWO = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursField:
    """One field of the form: its name, what it asks, what stands in it, what is wrong with it."""

    name: str
    label: str
    value: str
    help: str = ""
    fault: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursDesk:
    """What the sheet of the open hours shows.

    Attributes
    ----------
    face, says : str
        How long the workshop is open in a week; what is only usual. Empty where it cannot be read.
    week, things : tuple of HoursField
    off, extra : HoursField
        Days off, days with hours of their own: a line each.
    wrong : str
        What is wrong with no field of its own.
    based_on : int
        The version that the form is for.
    """

    face: str
    says: str
    week: tuple[HoursField, ...]
    things: tuple[HoursField, ...]
    off: HoursField
    extra: HoursField
    wrong: str
    based_on: int


def hours_desk(
    kept: Kept, *, typed: Mapping[str, str] | None = None, fault: BadInput | None = None,
    based_on: int | None = None,
) -> HoursDesk:  # fmt: skip
    """Gather the sheet.

    Parameters
    ----------
    kept : Kept
        What is written.
    typed : mapping of str to str, optional
        What was typed just now and could not be kept, by field.
    fault : BadInput, optional
        Why.
    based_on : int, optional
        The version that it was typed on.
    """
    hours: OpenHours | None = None
    try:
        hours = read_open_hours(kept.table)
    except BadInput as unread:
        fault = fault or unread
    values = typed if typed is not None else _shown(kept.table)
    usual = hours.usual if hours else ()
    at = _field_of(fault) if fault else ""

    def field(name: str, label: str, help: str = "") -> HoursField:
        return HoursField(
            name=name, label=label, value=values.get(name, ""),
            help=" ".join(filter(None, (help, AS_USUAL if name in usual else ""))),
            fault=fault_words(fault) if fault and at == name else "",
        )  # fmt: skip

    return HoursDesk(
        face=_face(hours) if hours else "",
        says=hours.says if hours else "",
        week=tuple(field(day, day.capitalize()) for day in WEEKDAYS),
        things=tuple(field(name, label, says) for name, label, says in THINGS),
        off=field(OFF, "Days off", "A line each: 2030-05-20, or 2030-07-01 to 2030-07-14."),
        extra=field(EXTRA, "Days with hours of their own", "A line each: 2030-05-18: 10-13"),
        wrong=fault_words(fault) if fault and not at else "",
        based_on=kept.number if based_on is None else based_on,
    )


def typed_in(given: FormData) -> dict[str, str]:
    """Return what a form sent, by field."""
    return {name: text_in(given, name).replace("\r\n", "\n") for name in FIELDS}


def table_of(typed: Mapping[str, str]) -> dict[str, Json]:
    """Return what was typed as the document keeps it; what is empty is left to the usual.

    Raises
    ------
    BadInput
        A day with hours of its own that does not say which day.

    Examples
    --------
    >>> table_of({"monday": "9-12", "off": "2030-05-20\\n", "extra": "2030-05-18: 10-13"})
    {'week': {'monday': '9-12'}, 'off': ['2030-05-20'], 'extra': {'2030-05-18': '10-13'}}
    """
    week: Json = {day: typed[day] for day in WEEKDAYS if typed.get(day)}
    off: Json = _lines(typed.get(OFF, ""))
    extra: Json = dict(_own_hours(line) for line in _lines(typed.get(EXTRA, "")))
    held = {"week": week, OFF: off, EXTRA: extra}
    held |= {name: typed.get(name, "") for name, _, _ in THINGS}
    return {name: value for name, value in held.items() if value}


def _shown(table: Mapping[str, Any]) -> dict[str, str]:
    """Return what stands in each field: what is written, the usual in place of what is not."""
    held = USUAL | {name: value for name, value in table.items() if value}
    week, off, extra = held["week"], held.get(OFF) or [], held.get(EXTRA) or {}
    named = week.items() if isinstance(week, dict) else ()
    days = {_weekday(name): str(hours) for name, hours in named}
    return {
        **{day: days.get(day, CLOSED) for day in WEEKDAYS},
        OFF: "\n".join(str(one) for one in off) if isinstance(off, list) else str(off),
        EXTRA: "\n".join(f"{day}: {hours}" for day, hours in extra.items())
        if isinstance(extra, dict)
        else str(extra),
        **{name: str(held.get(name, "")) for name, _, _ in THINGS},
    }


def _weekday(name: str) -> str:
    said = name.strip().casefold()
    return next((day for day in WEEKDAYS if len(said) >= TWO and day.startswith(said)), name)


def _lines(text: str) -> list[Json]:
    return [line.strip() for line in text.splitlines() if line.strip()]


def _own_hours(line: Json) -> tuple[str, Json]:
    day, sign, hours = str(line).partition(":")
    if not sign or day_written(day.strip()) is None:
        raise BadInput(
            "which day, and which hours?", where=EXTRA, given=str(line), wanted="2030-05-18: 10-13"
        )
    return day.strip(), hours.strip()


def _field_of(fault: BadInput) -> str:
    """Return the field that a fault is of; empty where it is of none, or of the week as a whole."""
    where = fault.where
    if where in FIELDS:
        return where
    if where == "days off":
        return OFF
    return EXTRA if day_written(where) is not None else ""


def _face(hours: OpenHours) -> str:
    each = [sum(ends - begins for begins, ends in day) for day in hours.week.days]
    days = sum(1 for minutes in each if minutes)
    on = "one day" if days == 1 else f"{days} days"
    return f"Open {print_minutes(sum(each))} a week, on {on}."
