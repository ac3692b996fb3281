"""The gate: from bytes to text to TOML tables, refusing what no survey file can be."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.shown import Bare

MOST_BYTES = 2_000_000
"""No survey of a kit comes near this; a larger file is a photograph or a slip."""
MOST_NESTED = 24
"""No table of the format stands deeper."""
MOST_DOTS = 5_000_000
"""Sum over the lines of their dots squared: the reader's memory grows so with dotted names."""

_PLACE = re.compile(r"\s*\(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of document)\)$")
_BOMS = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}


def survey_bytes(content: bytes, *, name: str) -> str:
    """Return the text of a survey file from its bytes.

    Parameters
    ----------
    content : bytes
        The whole file; a byte order mark at the start of UTF-8 is dropped.
    name : str
        What the file is called, for the message.

    Raises
    ------
    BadInput
        When it is larger than 2 MB, empty, not UTF-8 (says where) or holds NUL characters.

    Examples
    --------
    >>> survey_bytes(b"format = 1", name="kit.toml")
    'format = 1'
    """
    if len(content) > MOST_BYTES:
        raise BadInput(
            "too large for a survey file",
            where=name,
            given=Bare(f"{len(content) / 1e6:.1f} MB"),
            wanted="at most 2 MB of text",
            step="Is it a photograph?",
        )
    for mark, encoding in _BOMS.items():
        if content.startswith(mark):
            raise BadInput(
                f"saved as {encoding}",
                where=name,
                wanted="UTF-8",
                step='Save it again and choose the encoding "UTF-8".',
            )
    content = content.removeprefix(b"\xef\xbb\xbf")
    if b"\0" in content:
        raise BadInput(
            "a NUL character, so this is not a text file",
            where=f"{name} {_line_of(content, content.index(0))}",
            wanted="a survey file in TOML",
        )
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as fault:
        raise BadInput(
            f"not UTF-8 text at byte {fault.start + 1}",
            where=f"{name} {_line_of(content, fault.start)}",
            given=Bare(f"byte 0x{content[fault.start]:02x}"),
            wanted="UTF-8",
            step='Save it again and choose the encoding "UTF-8".',
        ) from fault
    if not text.strip():
        raise BadInput(
            "the file is empty",
            where=name,
            wanted="a survey file",
            step="Write a new one to fill in.",
        )
    return text


def _line_of(content: bytes, place: int) -> str:
    return f"line {content.count(10, 0, place) + 1}"


def toml_tables(text: str, *, name: str) -> dict[str, Any]:
    """Return the tables of a TOML text.

    Raises
    ------
    BadInput
        When it is not TOML: line, column and the line itself.

    Examples
    --------
    >>> toml_tables("wall = 5 mm", name="kit.toml")
    Traceback (most recent call last):
        ...
    counterhoop.errors.BadInput: kit.toml line 1, column 10: not TOML, something follows \
the value: found 'wall = 5 mm', wanted text in quotes, such as wall = "5 mm"
    """
    if sum(line.count(".") ** 2 for line in text.split("\n")) > MOST_DOTS:
        raise _too_deep(name)
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise _not_toml(str(fault), text=text, name=name) from fault
    except RecursionError as fault:
        raise _too_deep(name) from fault
    except ValueError as fault:
        raise BadInput(
            "a number with more digits than anything measured", where=name, wanted="TOML"
        ) from fault
    if _nested(tables) > MOST_NESTED:
        raise _too_deep(name)
    return tables


def _too_deep(name: str) -> BadInput:
    return BadInput(
        "lists or tables nested without end", where=name, wanted="a survey file in TOML"
    )


def _nested(tables: dict[str, Any]) -> int:
    deepest = 0
    open_ones: list[tuple[dict[str, Any] | list[Any], int]] = [(tables, 1)]
    while open_ones and deepest <= MOST_NESTED:
        container, depth = open_ones.pop()
        deepest = max(deepest, depth)
        inner = container.values() if isinstance(container, dict) else container
        open_ones += [(held, depth + 1) for held in inner if isinstance(held, dict | list)]
    return deepest


def _not_toml(says: str, *, text: str, name: str) -> BadInput:
    found = _PLACE.search(says)
    lines = text.replace("\r\n", "\n").split("\n")
    what = says[: found.start()] if found else says
    if found is None or found["line"] is None:
        quoted = next((line for line in reversed(lines) if line.strip()), "")
        where = f"{name} line {len(lines)}, at the end"
    else:
        quoted = lines[min(int(found["line"]), len(lines)) - 1]
        where = f"{name} line {found['line']}, column {found['column']}"
    words, wanted, step = _in_words(what, line=quoted)
    shown = quoted.strip() if quoted.strip() else None
    if shown and any(ord(sign) < 32 and sign != "\t" for sign in shown):
        shown = "".join(sign if sign.isprintable() else "?" for sign in shown)
    return BadInput(f"not TOML, {words}", where=where, given=shown, wanted=wanted, step=step)


def _in_words(what: str, *, line: str) -> tuple[str, str, str]:
    """Return what TOML complains of, what it wants and a step, in words for the bench."""
    low = what.lower()
    if "end of document after a statement" in low or "after a statement" in low:
        if line.count('"') > 2 and re.search(r"[0-9]\"", line):
            return (
                "the text ends too early",
                "the text whole between its quotes",
                'An inch sign inside "..." ends it: write in for inches.',
            )
        if re.search(r"=\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\b", line):
            return "there is no such day", "year-month-day, such as 2026-11-02", ""
        return "something follows the value", _quoted(line), ""
    if low.startswith("invalid value"):
        return "the value is not understood", _quoted(line), ""
    if "after a key" in low:
        return "no = after the name", 'a line such as wall = "5 mm"', ""
    if "invalid statement" in low or "invalid initial character for a key" in low:
        return "the line has no name to start with", 'a line such as wall = "5 mm"', ""
    if "overwrite" in low or "duplicate" in low:
        return "the same name stands twice in one table", "each name once", "Take one out."
    if "declare" in low or "mutate" in low or "namespace" in low:
        return (
            "the same table is opened twice",
            "each [table] once, or [[table]] for one of several",
            "",
        )
    if "unterminated string" in low or "unescaped" in low or "illegal character" in low:
        return "a text is not closed", "a quote at both ends", ""
    if "unclosed array" in low:
        return "a list is not closed", "a ] at its end and commas between", ""
    if "inline table" in low:
        return "a { } table is not closed", "a } at its end and commas between, on one line", ""
    if "date" in low:
        return "there is no such day", "year-month-day, such as 2026-11-02", ""
    return what[:1].lower() + what[1:], "TOML", ""


def _quoted(line: str) -> str:
    found = re.match(r"\s*([\w.\"' -]+?)\s*=\s*([^\"'#\[{]+)", line)
    example = f'{found[1]} = "{found[2].strip()}"' if found else 'wall = "5 mm"'
    return f"text in quotes, such as {example[:60]}"
