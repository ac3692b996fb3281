"""A place along the shell as it is said: in degrees, on the tape, or from a lug or a mark."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.quantities.angle import parse_angle
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.nearest import did_you_mean, nearest
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

Head = Literal["batter", "resonant"]

Mark = Literal["lug", "hole", "vent", "badge", "seam", "named"]

_HEADS: tuple[Head, ...] = ("batter", "resonant")
_MARKS: tuple[Mark, ...] = ("vent", "badge", "seam")
_COUNTED_WORDS: tuple[Mark, ...] = ("lug", "hole")
_LIKE_LUG = ("leg", "plug", "hoop")  # trade words that are no slips of "lug" or "hole"
_ANGLE_END = re.compile(r"(?:\bdeg\w*\.?|[0-9]deg\w*\.?|°)$")
_LENGTH_END = re.compile(r"[0-9\s.](?:mm|cm|m|in|ins|inch|inches|ft|thou)\.?$|[0-9][\"']$")
_TAPE = re.compile(r"(?P<length>.+?)\s+(?:on|along)\s+(?:the\s+)?tape")
_OFFSET = re.compile(
    r"(?P<mark>.+?)(?:\s+(?P<spaced>[+-])\s*|\s*(?P<tight>\+)\s*)(?P<size>[0-9.].*)"
)
_TIGHT_DASH = re.compile(r"(?P<mark>.+?[a-z0-9])-(?P<size>[0-9.].*)")
_COUNTED = re.compile(
    r"(?:(?P<head>[a-z]+)\s+)?(?P<word>[a-z]+)\s*(?:no\.?\s*|#\s*)?(?P<number>[0-9]+)"
)
_NAME = re.compile(r"[a-z][a-z0-9 '._-]*")
_WANTED = 'a place such as "90 deg", "412 mm on the tape" or "lug 3 + 12 mm"'


@dataclass(frozen=True, slots=True, kw_only=True)
class AtDegrees:
    """A place given as an angle from the datum.

    Attributes
    ----------
    along_deg : float
        In [0, 360).
    """

    along_deg: float
    as_written: str = field(default="", compare=False)
    kind: Literal["degrees"] = "degrees"


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTape:
    """A place read on a tape that starts at the datum.

    Attributes
    ----------
    tape_mm : float
        As the tape showed it, zero or more; it becomes an angle only with the tape's own
        reading of the whole circumference.
    """

    tape_mm: float
    as_written: str = field(default="", compare=False)
    kind: Literal["tape"] = "tape"


@dataclass(frozen=True, slots=True, kw_only=True)
class FromMark:
    """A place given from something on the shell.

    Attributes
    ----------
    mark : str
        "lug", "hole", "vent", "badge", "seam", or "named" for a fitting by its own name.
    number : int or None
        Of the lug or the hole.
    name : str
        The name, lower case, of a "named" mark; else empty.
    head : "batter", "resonant" or None
        Whose lugs are counted, when it was said.
    offset_mm, offset_deg : float
        Further along (positive) or back; one of the two is zero.
    opposite : bool
        Half a turn from the mark, before the offset.
    """

    mark: Mark
    number: int | None = None
    name: str = ""
    head: Head | None = None
    offset_mm: float = 0.0
    offset_deg: float = 0.0
    opposite: bool = False
    as_written: str = field(default="", compare=False)
    kind: Literal["mark"] = "mark"

    @property
    def mark_words(self) -> str:
        """The mark as one says it: "batter lug 3", "vent", "opposite lug 3"."""
        words = ("opposite" if self.opposite else "", self.head or "", self.name or self.mark)
        return " ".join([*filter(None, words), *([str(self.number)] if self.number else [])])


PlaceAlong = AtDegrees | OnTape | FromMark


def parse_place_along(
    text: object, *, where: str = "", names: Iterable[str] | None = None
) -> PlaceAlong:
    """Read one place along the shell.

    Parameters
    ----------
    text : object
        ``90 deg`` · ``412 mm`` or ``412 mm on the tape`` · ``lug 3``, ``lug 3 + 12 mm``,
        ``batter lug 3 - 1/2 in``, ``resonant lug 2 + 5 deg``, ``opposite lug 3``, ``hole 7``,
        ``vent + 20 mm``, ``badge``, ``seam``, or the name of a fitting with or without an offset.
    where : str
        Place in the file, for the message.
    names : iterable of str, optional
        The fittings that may be named. When left out any name passes that is not a near miss
        of another word, and whoever knows the drum must look it up.

    Returns
    -------
    AtDegrees, OnTape or FromMark
        Tell them apart by ``kind``.

    Raises
    ------
    BadInput
        Says what to write instead.

    Examples
    --------
    >>> place = parse_place_along("lug 3 - 1/2 in")
    >>> place.kind, place.mark, place.number, place.offset_mm
    ('mark', 'lug', 3, -12.7)
    >>> parse_place_along("412 mm on the tape").tape_mm
    412.0
    """
    as_written = need_text(text, where=where, noun="a place along", example="lug 3 + 12 mm")
    plain = plain_typed(as_written)
    if re.match(r"[0-9.+-]", plain):
        return _measured(plain, where=where, given=as_written)
    return _from_mark(plain, where=where, given=as_written, names=names)


def _measured(plain: str, *, where: str, given: str) -> AtDegrees | OnTape:
    if _ANGLE_END.search(plain):
        angle = parse_angle(plain, where=where)
        return AtDegrees(along_deg=angle.turned_deg, as_written=given)
    tape = _TAPE.fullmatch(plain)
    number = tape["length"] if tape else plain
    if re.fullmatch(r"[0-9.,/\s-]+", number):
        wanted = f'"{number} mm on the tape"'
        if parse_number(number, where=where, given=given) <= 360:
            wanted = f'"{number} deg" or {wanted}'
        raise BadInput("no unit", where=where, given=given, wanted=wanted)
    if not tape and not _LENGTH_END.search(plain):
        words = re.findall(r"[a-z]+", plain)
        near = did_you_mean(words[0], ("deg", "mm", "in"), likeness=0.5) if words else ""
        raise BadInput(
            "neither an angle nor a length on the tape",
            where=where,
            given=given,
            wanted=_WANTED,
            step=near,
        )
    return OnTape(tape_mm=parse_length(number, where=where).mm, as_written=given)


def _from_mark(plain: str, *, where: str, given: str, names: Iterable[str] | None) -> FromMark:
    known = None if names is None else {plain_typed(name): name for name in names}
    try:
        words, offset_mm, offset_deg = _split_offset(
            plain, whole=known is not None and plain in known
        )
        opposite = re.fullmatch(r"opposite (?:to )?(?:the )?(?P<rest>.+)", words)
        mark, number, name, head = _mark(opposite["rest"] if opposite else words, known=known)
    except BadInput as fault:
        raise BadInput(
            fault.what, where=where, given=given, wanted=fault.wanted or _WANTED, step=fault.step
        ) from fault
    return FromMark(
        mark=mark,
        number=number,
        name=name,
        head=head,
        offset_mm=offset_mm,
        offset_deg=offset_deg,
        opposite=opposite is not None,
        as_written=given,
    )


def _split_offset(plain: str, *, whole: bool) -> tuple[str, float, float]:
    """Return the words of the mark, the offset in mm and the offset in degrees."""
    found = None if whole else _OFFSET.fullmatch(plain)
    if found is None:
        tight = None if whole else _TIGHT_DASH.fullmatch(plain)
        if tight and (_ANGLE_END.search(tight["size"]) or _LENGTH_END.search(tight["size"])):
            raise BadInput(
                "a dash without spaces may belong to the name or to a fraction",
                wanted=f'"{tight["mark"]} - {tight["size"]}"',
            )
        return plain, 0.0, 0.0
    sign = -1.0 if found["spaced"] == "-" else 1.0
    mark, size = found["mark"], found["size"]
    if re.fullmatch(r"[0-9.,/\s]+", size):
        raise BadInput(
            "no unit on the offset",
            wanted=f'"{mark} {"-" if sign < 0 else "+"} {size} mm", or deg, or in',
        )
    if _ANGLE_END.search(size):
        return mark, 0.0, sign * parse_angle(size).deg + 0.0
    return mark, sign * parse_length(size).mm + 0.0, 0.0


def _mark(words: str, *, known: dict[str, str] | None) -> tuple[Mark, int | None, str, Head | None]:
    """Return which mark, its number, its name and its head."""
    if known and words in known:
        return "named", None, words, None
    for mark in _MARKS:
        if words in (mark, f"the {mark}"):
            return mark, None, "", None
    if words in ("lug", "hole", "batter lug", "resonant lug"):
        raise BadInput(f"which {words}?", wanted=f'its number, such as "{words} 3"')
    counted = _COUNTED.fullmatch(words)
    if counted and counted["word"] in _COUNTED_WORDS:
        return _counted(counted)
    if re.match(r"(?:(?:batter|resonant) )?(?:lug|hole)\b", words):
        raise BadInput("cannot be read as the place of a lug or a hole")
    _refuse_near_miss(words, counted=counted, known=known)
    if not _NAME.fullmatch(words) or _ANGLE_END.search(words) or _LENGTH_END.search(words):
        raise BadInput("cannot be read as a place along")
    return "named", None, words, None


def _counted(found: re.Match[str]) -> tuple[Mark, int | None, str, Head | None]:
    number = int(found["number"])
    word: Mark = "lug" if found["word"] == "lug" else "hole"
    if not 1 <= number <= 999:
        raise BadInput(
            f"there is no {word} {number}", wanted=f'a number from 1, such as "{word} 3"'
        )
    head = found["head"]
    if head is None:
        return word, number, "", None
    if word == "hole":
        raise BadInput("holes are numbered round the whole shell", wanted=f'"hole {number}"')
    for of_head in _HEADS:
        if head == of_head:
            return word, number, "", of_head
    raise BadInput(
        f'"{head}" is neither head',
        wanted=f'"batter lug {number}" or "resonant lug {number}"',
        step=did_you_mean(head, _HEADS),
    )


def _refuse_near_miss(
    words: str, *, counted: re.Match[str] | None, known: dict[str, str] | None
) -> None:
    if known is not None:
        step = did_you_mean(words, (*known.values(), *_MARKS))
        if not step and counted:
            step = did_you_mean(counted["word"], _COUNTED_WORDS)
        raise BadInput(f'nothing here is called "{words}"', step=step)
    near = nearest(words, _MARKS, likeness=0.7)
    if near is None and counted and counted["word"] not in _LIKE_LUG:
        near = nearest(counted["word"], _COUNTED_WORDS, likeness=0.6)
    if near is not None:
        raise BadInput(f'"{words}" is no place that is known', step=f'Did you mean "{near}"?')
