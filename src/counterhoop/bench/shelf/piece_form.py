"""What is written on a piece, as it is typed: from a form to a piece's own words, and back."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import islice
from typing import Any, Final, Literal

from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book, name_key
from counterhoop.fittings.entry import Fitting
from counterhoop.parts.dimension import STEPS, Dimension, Measured
from counterhoop.parts.piece import Piece
from counterhoop.parts.rows.cell_readers import (
    read_count,
    read_day,
    read_facts,
    read_name,
    read_price,
    read_share,
    read_words,
)
from counterhoop.parts.rows.layout import Hint
from counterhoop.parts.rows.measured_cell import read_readings, write_readings
from counterhoop.quantities.money import Money

ONE_LINE: Final = (
    *("number", "kind", "fitting", "material", "plating", "finish", "bin", "lot", "owner"),
)
ONLY_NEW: Final = ("count", "owner")
"""What is asked of a new piece only."""
INSTRUMENTS: Final = tuple(STEPS)
"""What a measurement is taken with."""
MOST_LINES: Final = 120
"""More than a piece can have readings, so that too many are refused and none is dropped."""
_LINE = re.compile(r"measured\.([0-9]{1,3})\.(what|written|with)")
_BRACKET = re.compile(r"(?P<reading>.*\S)\s*\((?P<inside>[^()]*)\)", re.DOTALL)
_BARE = re.compile(r"[0-9][0-9 .,/½¼¾⅛⅜⅝⅞-]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One measurement as it stands in the form.

    Attributes
    ----------
    what : str
        The dimension, in bench words.
    written : str
        As typed.
    taken_with : str
        The instrument; empty for the usual one; "±0.3" where only the doubt is known.
    """

    what: str = ""
    written: str = ""
    taken_with: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A form as it was typed.

    Attributes
    ----------
    texts : mapping of str to str
        By the names of ``Piece``; conditions one a line.
    lines : tuple of Line
        The measurements.
    """

    texts: Mapping[str, str] = field(default_factory=dict)
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadForm:
    """What a form comes to.

    Attributes
    ----------
    fields : dict
        By the names of ``Piece``, for ``cards.write_piece``.
    faults : dict of str to BadInput
        Why something cannot be read, by the name of its field.
    """

    fields: dict[str, Any]
    faults: dict[str, BadInput]


def typed_in(given: Mapping[str, Any]) -> Typed:
    """Return what a form sent, sorted; nothing is read yet."""

    def text(name: str) -> str:
        value = given.get(name, "")
        return value.replace("\r\n", "\n").strip() if isinstance(value, str) else ""

    found = (_LINE.fullmatch(name) for name in given)
    numbers = sorted({int(one[1]) for one in found if one})
    lines = (
        Line(
            what=text(f"measured.{n}.what"), written=text(f"measured.{n}.written"),
            taken_with=text(f"measured.{n}.with"),
        )
        for n in numbers
    )  # fmt: skip
    filled = (one for one in lines if one.what or one.written)
    names = (*ONE_LINE, "says", "condition", "lot_share", "price", "came_on", "count")
    texts = {name: text(name) for name in names} | {"matched_set": text("matched_set")}
    return Typed(texts=texts, lines=tuple(islice(filled, MOST_LINES)))


def typed_of(piece: Piece) -> Typed:
    """Return a piece as the form shows it."""
    share, price = piece.lot_share, _price(piece)
    texts = {name: getattr(piece, name) for name in ONE_LINE} | {
        "says": piece.says,
        "condition": "\n".join(piece.condition),
        "lot_share": "" if share is None else f"{100 * share:.12g} %",
        "price": price,
        "came_on": piece.came_on.isoformat() if piece.came_on else "",
        "matched_set": "yes" if piece.matched_set else "",
        "count": f"{piece.count}",
    }
    return Typed(texts=texts, lines=tuple(line_of(one) for one in piece.measured))


def read_typed(
    typed: Typed, *, new: bool, book: Book, currency: str, units: Literal["mm", "in"],
    today: dt.date,
) -> ReadForm:  # fmt: skip
    """Read a form.

    Parameters
    ----------
    typed : Typed
        As it was sent.
    new : bool
        Whether the piece is put on the shelf by it: then its count and its owner are asked.
    book : Book
        An entry that it names is called as the book calls it.
    currency : str
        Of an amount without one.
    units : {"mm", "in"}
        What a length is in that has no unit.
    today : date
        No piece came later.
    """
    texts = typed.texts
    fields: dict[str, Any] = {}
    faults: dict[str, BadInput] = {}

    def take(name: str, read: Callable[[str], object], *, empty: object, to: str = "") -> None:
        text = texts.get(name, "")
        try:
            fields[to or name] = read(text) if text else empty
        except BadInput as fault:
            faults[name] = fault

    hint = Hint()
    for name in ONE_LINE:
        if new or name not in ONLY_NEW:
            take(name, lambda text: " ".join(read_name(text, hint).split()), empty="")
    take("says", lambda text: read_words(text, hint), empty="")
    take("condition", lambda text: read_facts(text, hint), empty=())
    take("lot_share", lambda text: read_share(text, hint), empty=None)
    take("came_on", lambda text: _day(text, today=today), empty=None)
    take("price", lambda text: _amount(text, currency), empty=None)
    if new:
        take("count", lambda text: read_count(text, hint), empty=1)
    fields["matched_set"] = texts.get("matched_set") == "yes"
    if "price" in fields:
        money = fields.pop("price")
        fields["price_minor"] = money.minor if money else None
        fields["currency"] = money.currency if money else ""
    if entry := _entry(book, fields.get("fitting", "")):
        fields["fitting"] = entry.name
        fields["kind"] = fields.get("kind") or entry.kind.value
    _read_lines(typed.lines, fields, faults, units=units)
    if not faults and new and not _says_anything(fields):
        faults["says"] = BadInput(
            "nothing is written on it yet",
            wanted="what it is in a few words, or one measurement",
        )
    return ReadForm(fields=fields, faults=faults)


def _entry(book: Book, name: str) -> Fitting | None:
    wanted = name_key(name)
    return next((one for one in book if wanted and name_key(one.name) == wanted), None)


def read_line(line: Line, *, units: Literal["mm", "in"]) -> Measured:
    """Read one measurement as it stands in a form.

    Raises
    ------
    BadInput
        Says what to write instead.
    """
    return _measured(_dimension(line.what), line, units=units)


def _read_lines(
    lines: tuple[Line, ...], fields: dict[str, Any], faults: dict[str, BadInput], *,
    units: Literal["mm", "in"],
) -> None:  # fmt: skip
    read: list[Measured] = []
    for n, line in enumerate(lines):
        try:
            what = _dimension(line.what)
        except BadInput as fault:
            faults[f"measured.{n}.what"] = fault
            continue
        try:
            read.append(_measured(what, line, units=units))
        except BadInput as fault:
            faults[f"measured.{n}.written"] = fault
    fields["measured"] = tuple(read)


def _dimension(text: str) -> Dimension:
    if not text:
        raise BadInput("what was measured?", wanted="one of the list")
    try:
        return Dimension(text)
    except ValueError:
        raise BadInput("not in the list", given=text, wanted="one of the list") from None


def _measured(what: Dimension, line: Line, *, units: Literal["mm", "in"]) -> Measured:
    if not line.written:
        lengths = "24 tpi" if what is Dimension.PITCH else "42.5 mm"
        raise BadInput("how much?", wanted=lengths if what.unit == "mm" else "what it shows")
    text = line.written
    if _BARE.fullmatch(text) and what is not Dimension.PITCH and what.unit != "count":
        text = f"{text} {units if what.unit == 'mm' else what.unit}"
    cell = f"{text} ({line.taken_with})" if line.taken_with else text
    found = read_readings(what, cell, Hint())
    if len(found) != 1:
        raise BadInput("several readings", given=line.written, wanted="one a line")
    return found[0]


def line_of(one: Measured) -> Line:
    """Return a measurement as it stands in a form, its unit written out."""
    cell = write_readings((one,))
    bracket = _BRACKET.fullmatch(cell)
    written, inside = (bracket["reading"], bracket["inside"]) if bracket else (cell, "")
    return Line(what=one.dimension.value, written=written, taken_with=inside)


def _day(text: str, *, today: dt.date) -> dt.date:
    day = read_day(text, Hint())
    # A day ahead is allowed: the clock of whoever writes may be past midnight already.
    if day > today + dt.timedelta(days=1):
        raise BadInput("a day that cannot be", given=text, wanted="today or earlier")
    return day


def _amount(text: str, currency: str) -> Money:
    bare = re.fullmatch(r"-?[0-9., ]*[0-9]", text) is not None
    return read_price(text, Hint(unit=currency if bare else ""))


def _price(piece: Piece) -> str:
    if piece.price_minor is None or not piece.currency:
        return ""
    return str(Money(minor=piece.price_minor, currency=piece.currency))


def _says_anything(fields: Mapping[str, Any]) -> bool:
    told = ("says", "kind", "fitting", "measured")
    return any(fields.get(name) for name in told)
