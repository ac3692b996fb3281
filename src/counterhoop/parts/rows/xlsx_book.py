"""What a workbook says of its sheets: names, which are hidden, shared texts, which styles are days.

Numbers of the built-in formats: ISO/IEC 29500-1:2016, 18.8.30 (from memory).
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.parts.rows.row import LONGEST_CELL
from counterhoop.parts.rows.xlsx_parts import (
    Attributes,
    Parts,
    Watch,
    damaged,
    read_whole,
    relations,
)

_DAY_FORMATS = frozenset({*range(14, 23), *range(27, 37), *range(45, 48), *range(50, 59)})
_QUOTED = re.compile(r'"[^"]*"|\\.|_.|\*.|\[[^\]]*\]')
_ESCAPE = re.compile(r"_x([0-9A-Fa-f]{4})_")
_MOST_TEXTS = 3_000_000
_MOST_SIGNS = 150_000_000
_MOST_STYLES = 70_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """One sheet as the workbook lists it."""

    name: str
    part: str
    hidden: bool


@dataclass(slots=True, kw_only=True)
class Book:
    """A workbook that was opened."""

    parts: Parts
    sheets: tuple[Listed, ...]
    texts: list[str]
    day_styles: frozenset[int]
    from_1904: bool


def unescaped(text: str) -> str:
    """Return a text with the signs that XML cannot hold put back.

    Examples
    --------
    >>> unescaped("two_x000A_lines"), unescaped("_x005F_x000A_")
    ('two\\nlines', '_x000A_')
    """
    return _ESCAPE.sub(lambda found: chr(int(found[1], 16)), text) if "_x" in text else text


def open_book(parts: Parts) -> Book:
    """Read all of a workbook but its rows.

    Raises
    ------
    BadInput
        Some other kind of archive, or damaged.
    """
    workbook = next(
        (to for kind, to in relations(parts, "").values() if kind == "officeDocument"), ""
    )
    if not parts.has(workbook):
        raise BadInput(
            "an archive, but not a workbook",
            where=parts.where,
            wanted='a file saved as "XLSX" or as "CSV UTF-8"',
        )
    found: list[tuple[str, str, bool]] = []
    dates: list[bool] = []

    def start(tag: str, attributes: Attributes) -> None:
        if tag == "sheet":
            key = next((v for k, v in attributes.items() if k.rpartition(":")[2] == "id"), "")
            state = attributes.get("state", "visible")
            found.append((attributes.get("name", ""), key, state != "visible"))
        elif tag == "workbookPr":
            dates.append(attributes.get("date1904", "0") in ("1", "true", "on"))

    read_whole(parts, workbook, Watch(start=start))
    related = relations(parts, workbook)
    sheets = tuple(
        Listed(name=name, part=related[key][1], hidden=hidden)
        for name, key, hidden in found
        if key in related and related[key][0] == "worksheet" and parts.has(related[key][1])
    )
    by_kind = dict(related.values())
    return Book(
        parts=parts,
        sheets=sheets,
        texts=_texts(parts, by_kind.get("sharedStrings", "")),
        day_styles=_day_styles(parts, by_kind.get("styles", "")),
        from_1904=any(dates),
    )


@dataclass(slots=True)
class Gathering:
    """The text of one cell or entry as it comes in pieces; what readers hear beside it is left.

    No more is kept than tells that it is too long.
    """

    pieces: list[str] = field(default_factory=list)
    signs: int = 0
    on: bool = False
    aside: bool = False

    def begin(self, tag: str) -> None:
        """Note a tag that starts or suspends the text."""
        if tag == "rPh":  # how Japanese text is pronounced
            self.aside = True
        elif tag == "t":
            self.on = not self.aside

    def finish(self, tag: str) -> None:
        """Note a tag that ends it."""
        if tag == "rPh":
            self.aside = False
        elif tag == "t":
            self.on = False

    def take(self, piece: str) -> None:
        """Add the next piece."""
        if self.on and self.signs <= LONGEST_CELL:
            self.pieces.append(piece)
            self.signs += len(piece)

    def text(self) -> str:
        """Return what came, and begin anew."""
        text = "".join(self.pieces)
        self.pieces.clear()
        self.signs = 0
        self.on = self.aside = False
        return unescaped(text)


def _texts(parts: Parts, name: str) -> list[str]:
    texts: list[str] = []
    if not parts.has(name):
        return texts
    gathering, signs = Gathering(), 0

    def start(tag: str, _: Attributes) -> None:
        gathering.begin(tag)

    def end(tag: str) -> None:
        nonlocal signs
        gathering.finish(tag)
        if tag == "si":
            texts.append(gathering.text())
            signs += len(texts[-1])
            if len(texts) > _MOST_TEXTS or signs > _MOST_SIGNS:
                raise BadInput("more text in the workbook than any shelf has", where=parts.where)

    read_whole(parts, name, Watch(start=start, end=end, chars=gathering.take))
    return texts


def _day_styles(parts: Parts, name: str) -> frozenset[int]:
    if not parts.has(name):
        return frozenset()
    formats: dict[str, str] = {}
    styles: list[str] = []
    inside = False

    def start(tag: str, attributes: Attributes) -> None:
        nonlocal inside
        if tag == "numFmt":
            formats[attributes.get("numFmtId", "")] = attributes.get("formatCode", "")
        elif tag == "cellXfs":
            inside = True
        elif tag == "xf" and inside:
            styles.append(attributes.get("numFmtId", "0"))
        if len(styles) > _MOST_STYLES or len(formats) > _MOST_STYLES:
            raise damaged(parts.where)

    def end(tag: str) -> None:
        nonlocal inside
        inside = inside and tag != "cellXfs"

    read_whole(parts, name, Watch(start=start, end=end))
    return frozenset(
        number for number, key in enumerate(styles) if _is_day(key, formats.get(key, ""))
    )


def _is_day(key: str, code: str) -> bool:
    if code:
        return (
            re.search(r"[dmyhs]", _QUOTED.sub("", code).lower().replace("general", "")) is not None
        )
    return key.isdigit() and int(key) in _DAY_FORMATS
