"""Sheets of plain questions: what is asked, what was answered, and how it reads afterwards."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from counterhoop.bench.folders.days import day_typed, day_written, need_day
from counterhoop.errors import BadInput
from counterhoop.quantities.money import parse_money, print_money
from counterhoop.store.body import Json
from counterhoop.web.look.say import capfirst, day

Kind = Literal["text", "note", "choice", "yes", "day", "money"]
SHOWN_AS: Final = {"day": "text", "money": "text"}
MOST_ROWS: Final = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One thing that is asked.

    Attributes
    ----------
    name : str
        As the document keeps it.
    label, help : str
        As the page asks it; one sentence of help at most.
    kind : str
        "text", "note" (several lines), "choice", "yes", "day", "money".
    choices : tuple of (value, says)
        The empty value is kept as no answer.
    currency : str
        Of an amount of money that is written without one; empty wants it written.
    """

    name: str
    label: str
    help: str = ""
    kind: Kind = "text"
    choices: tuple[tuple[str, str], ...] = ()
    currency: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Questions about one thing, kept in a table of their own."""

    name: str
    label: str
    of: tuple[Question, ...]
    help: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """The same questions again and again, one line for each thing; a list in the document."""

    name: str
    label: str
    one: str
    of: tuple[Question, ...]
    help: str = ""


Part = Question | Group | Lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question with its answer, ready for the macro ``p.field``."""

    name: str
    id: str
    label: str
    help: str
    kind: str
    choices: tuple[tuple[str, str], ...]
    value: str
    fault: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPart:
    """A part of a form.

    Attributes
    ----------
    label, help : str
        Of a group or a list; both empty for a single question.
    lines : tuple of (str, tuple of Asked)
        What each line is called, and its questions; a group has one.
    listed : bool
        Whether it is a list.
    """

    label: str
    help: str
    lines: tuple[tuple[str, tuple[Asked, ...]], ...]
    listed: bool = False


# --- reading --------------------------------------------------------------------------------------


def read_answers(
    parts: Iterable[Part], given: Mapping[str, Any], *, today: dt.date | None = None
) -> dict[str, Json]:
    """Return what a form sent, as the document keeps it; what is empty is left out.

    Parameters
    ----------
    today : datetime.date, optional
        By this day one that is typed in words, "4 Dec", is read.

    Examples
    --------
    >>> badge = Group(name="badge", label="Badge", of=(Question(name="says", label="What"),))
    >>> read_answers([badge], {"badge.says": " oval ", "other": "x"})
    {'badge': {'says': 'oval'}}
    """
    read: dict[str, Json] = {}
    for part in parts:
        value: Json = None
        match part:
            case Question():
                value = _read(part, given, part.name, today)
            case Group():
                value = _read_all(part.of, given, today, front=part.name)
            case Lines():
                numbers = _numbers(part.name, given)
                rows = [_read_all(part.of, given, today, front=f"{part.name}.{n}") for n in numbers]
                value = [row for row in rows if row]
        if value:
            read[part.name] = value
    return read


def _read_all(
    of: Iterable[Question], given: Mapping[str, Any], today: dt.date | None, *, front: str
) -> dict[str, Json]:
    found = {one.name: _read(one, given, f"{front}.{one.name}", today) for one in of}
    return {name: value for name, value in found.items() if value}


def _read(question: Question, given: Mapping[str, Any], name: str, today: dt.date | None) -> Json:
    value = given.get(name, "")
    text = value.replace("\r\n", "\n").strip() if isinstance(value, str) else ""
    if question.kind == "yes":
        return text == "yes"
    if question.kind == "choice" and text not in [value for value, _ in question.choices]:
        return ""
    return day_typed(text, today=today) if question.kind == "day" and today else text


def _numbers(name: str, given: Mapping[str, Any]) -> list[int]:
    found = (re.fullmatch(rf"{re.escape(name)}\.(\d{{1,4}})\.\w+", key) for key in given)
    return sorted({int(one[1]) for one in found if one})[:MOST_ROWS]


# --- asking ---------------------------------------------------------------------------------------


def asked(
    parts: Iterable[Part], table: Mapping[str, Any], *, ident: str, today: dt.date
) -> tuple[AskedPart, ...]:
    """Return the form with what is answered so far, faults beside their fields.

    Parameters
    ----------
    table : mapping
        The document; it may hold anything.
    ident : str
        Before every id.
    """

    def ask(one: Question, held: Any, front: str) -> Asked:
        name = f"{front}.{one.name}" if front else one.name
        value = _text(held, one)
        return Asked(
            name=name, id=f"{ident}-{name.replace('.', '-')}", label=one.label, help=one.help,
            kind=SHOWN_AS.get(one.kind, one.kind), choices=one.choices, value=value,
            fault=_fault(one, value, today=today),
        )  # fmt: skip

    made: list[AskedPart] = []
    lines: list[tuple[str, tuple[Asked, ...]]]
    for part in parts:
        match part:
            case Question():
                lines = [("", (ask(part, table, ""),))]
                made.append(AskedPart(label="", help="", lines=tuple(lines)))
            case Group():
                held = table.get(part.name)
                lines = [("", tuple(ask(one, held, part.name) for one in part.of))]
                made.append(AskedPart(label=part.label, help=part.help, lines=tuple(lines)))
            case Lines():
                rows = _rows(table.get(part.name))
                lines = [
                    (f"{part.one} {n + 1}", tuple(ask(q, row, f"{part.name}.{n}") for q in part.of))
                    for n, row in enumerate([*rows, {}])
                ]
                made.append(
                    AskedPart(label=part.label, help=part.help, lines=tuple(lines), listed=True)
                )
    return tuple(made)


def sent_again(
    parts: Iterable[Part], table: Mapping[str, Any], *, today: dt.date
) -> list[tuple[str, str]]:
    """Return the fields that a form of this document would send."""
    every = (
        one for part in asked(parts, table, ident="", today=today) for _, of in part.lines
        for one in of
    )  # fmt: skip
    return [(one.name, one.value) for one in every if one.value]


def _fault(question: Question, value: str, *, today: dt.date) -> str:
    if not value:
        return ""
    try:
        if question.kind == "day":
            need_day(value, where="", today=today)
        elif question.kind == "money":
            parse_money(value, otherwise=question.currency)
    except BadInput as fault:
        return capfirst(str(fault))
    return ""


# --- reading it afterwards ------------------------------------------------------------------------


def answers_say(
    parts: Iterable[Part], table: Mapping[str, Any], *, today: dt.date | None = None
) -> list[tuple[str, tuple[str, ...]]]:
    """Return what is answered: labels with one or several lines each.

    Parameters
    ----------
    table : mapping
        The document; it may hold anything.
    today : datetime.date, optional
        What cannot be read, or is still to come, is said to be so by this day.

    Examples
    --------
    >>> what, who = Question(name="says", label="What"), Question(name="who", label="Who")
    >>> badge = Group(name="badge", label="Badge", of=(what, who))
    >>> answers_say([badge], {"badge": {"says": "oval", "who": "the shop"}})
    [('Badge', ('oval (the shop)',))]
    """
    said = []
    for part in parts:
        match part:
            case Question():
                lines = _said(part, table).split("\n")
                if today and _fault(part, _text(table, part), today=today):
                    lines = [f"{lines[0]}: this cannot be read"]
            case Group():
                lines = [_one_line(part.of, table.get(part.name))]
            case Lines():
                lines = [_one_line(part.of, row) for row in _rows(table.get(part.name))]
        kept = tuple(line for line in lines if line)
        if kept:
            said.append((part.label, kept))
    return said


def _one_line(of: tuple[Question, ...], held: Any) -> str:
    all_said = [_said(one, held).replace("\n", "; ") for one in of]
    first, *rest = [said for said in all_said if said] or [""]
    return f"{first} ({', '.join(rest)})" if rest else first


def _said(question: Question, held: Any) -> str:
    value = _text(held, question)
    match question.kind:
        case "yes":
            return question.label.lower() if value else ""
        case "choice":
            return dict(question.choices).get(value, "") if value else ""
        case "day":
            known = day_written(value)
            return day(known) if known else value
        case "money" if question.currency:
            return _with_currency(value, question.currency)
    return value


def _with_currency(value: str, currency: str) -> str:
    """Return an amount as it was written, with its currency where that was left out."""
    try:
        amount = parse_money(value, otherwise=currency)
    except BadInput:
        return value
    return print_money(amount) if value.replace(",", ".").strip(" 0123456789.") == "" else value


def _text(held: Any, question: Question) -> str:
    value = held.get(question.name) if isinstance(held, Mapping) else None
    if question.kind == "yes":
        return "yes" if value is True else ""
    return value if isinstance(value, str) else ""


def _rows(value: Any) -> list[Any]:
    return value[:MOST_ROWS] if isinstance(value, list) else []
