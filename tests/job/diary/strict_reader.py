"""A reader of iCalendar bytes that shares nothing with the library that writes them.

It follows RFC 5545: lines (3.1), text (3.3.11), what a calendar and an event must have and may
have once (3.4, 3.6, 3.6.1), and that the end lies after the beginning (3.8.2.2). What is wrong is
returned in words.
"""

from __future__ import annotations

import re
from typing import NamedTuple

MOST_OCTETS = 75
NAME = re.compile(r"[A-Z0-9-]+")
ONCE = ("UID", "DTSTAMP", "DTSTART", "SEQUENCE", "SUMMARY", "DESCRIPTION", "DTEND", "STATUS")
DATE, TIME, UTC = re.compile(r"\d{8}"), re.compile(r"\d{8}T\d{6}"), re.compile(r"\d{8}T\d{6}Z")


class Line(NamedTuple):
    name: str
    parameters: str
    value: str


class Strict(NamedTuple):
    wrong: tuple[str, ...]
    calendar: tuple[Line, ...]
    events: tuple[dict[str, Line], ...]


def plain(value: str) -> str:
    """Undo the escapes of a text."""
    return re.sub(r"\\([\\;,nN])", lambda m: "\n" if m[1] in "nN" else m[1], value)


def bare(value: str) -> bool:
    """Tell whether a text holds what has to be escaped."""
    return bool(re.search(r"[;,\\]", re.sub(r"\\[\\;,nN]", "", value)))


def read_strictly(made: bytes) -> Strict:
    wrong: list[str] = []
    if not made.endswith(b"\r\n"):
        wrong.append("does not end with CR LF")
    physical = made.removesuffix(b"\r\n").split(b"\r\n")
    lines: list[str] = []
    for number, octets in enumerate(physical, 1):
        if b"\r" in octets or b"\n" in octets:
            wrong.append(f"line {number}: half a line end")
        if len(octets) > MOST_OCTETS:
            wrong.append(f"line {number}: {len(octets)} octets")
        if any((one < 32 and one != 9) or one == 127 for one in octets):
            wrong.append(f"line {number}: a control")
        try:
            text = octets.decode("utf-8")
        except UnicodeDecodeError:
            wrong.append(f"line {number}: a character is split")
            text = octets.decode("utf-8", errors="replace")
        if text[:1] in (" ", "\t") and lines:
            lines[-1] += text[1:]
        else:
            lines.append(text)
    return _components([_line(one, wrong) for one in lines], wrong)


def _line(text: str, wrong: list[str]) -> Line:
    before, colon, value = text.partition(":")
    name, _, parameters = before.partition(";")
    if not colon or not NAME.fullmatch(name):
        wrong.append(f"not a line of a calendar: {text[:40]}")
    return Line(name, parameters, value)


def _components(lines: list[Line], wrong: list[str]) -> Strict:
    whole = [(one.name, one.value) for one in lines]
    if whole[:1] != [("BEGIN", "VCALENDAR")] or whole[-1:] != [("END", "VCALENDAR")]:
        wrong.append("is not one calendar")
    calendar: list[Line] = []
    events: list[dict[str, Line]] = []
    inside: list[Line] | None = None
    for one in lines[1:-1]:
        if one == Line("BEGIN", "", "VEVENT"):
            inside = []
        elif one == Line("END", "", "VEVENT"):
            events.append(_event(inside or [], wrong))
            inside = None
        else:
            (calendar if inside is None else inside).append(one)
    for name, value in (("PRODID", None), ("VERSION", "2.0")):
        found = [one.value for one in calendar if one.name == name]
        if len(found) != 1 or (value and found != [value]):
            wrong.append(f"calendar: {name} {found}")
    uids = [one["UID"].value for one in events if "UID" in one]
    if len(set(uids)) < len(uids):
        wrong.append("two events have one UID")
    return Strict(tuple(wrong), tuple(calendar), tuple(events))


def _event(lines: list[Line], wrong: list[str]) -> dict[str, Line]:
    names = [one.name for one in lines]
    wrong += [f"event: {names.count(one)} {one}" for one in ONCE if names.count(one) > 1]
    wrong += [f"event: no {one}" for one in ("UID", "DTSTAMP", "DTSTART") if one not in names]
    found = {one.name: one for one in lines}
    wrong += [
        f"event: {name} is not escaped"
        for name in ("SUMMARY", "DESCRIPTION")
        if name in found and bare(found[name].value)
    ]
    if "DTSTAMP" in found and not UTC.fullmatch(found["DTSTAMP"].value):
        wrong.append("event: DTSTAMP is not in UTC")
    for name in ("DTSTART", "DTEND"):
        if name in found:
            form = DATE if found[name].parameters == "VALUE=DATE" else TIME
            if not form.fullmatch(found[name].value):
                wrong.append(f"event: {name} {found[name].value}")
    if {"DTSTART", "DTEND"} <= set(found):
        begins, ends = found["DTSTART"], found["DTEND"]
        if begins.parameters != ends.parameters or ends.value <= begins.value:
            wrong.append("event: does not end after it begins")
    return found
