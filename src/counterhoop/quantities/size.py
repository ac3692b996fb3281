"""The size of a drum in words; the bare order of two numbers differs between countries."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length, parse_length
from counterhoop.quantities.nearest import nearest
from counterhoop.quantities.typed import need_text, plain_typed

_WANTED = 'a size such as "14 in dia x 5.5 in deep"'
_ACROSS = ("dia", "diam", "diameter")
_DOWN = ("deep", "depth", "depths")
_PARTS = re.compile(r"\s*(?:\bx\b|,(?=\s)|;|\bby\b|\band\b)\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumSize:
    """Diameter and depth of a drum as it is called, not as it measures.

    Attributes
    ----------
    dia, deep : Length
        Both above zero; each keeps its own text.
    as_written : str
        The whole text as a person wrote it; not compared.
    """

    dia: Length
    deep: Length
    as_written: str = field(default="", compare=False)

    def __str__(self) -> str:
        return self.as_written or f"{self.dia} dia x {self.deep} deep"


def parse_size(text: object, *, where: str = "") -> DrumSize:
    """Read a drum's size; each number says whether it is across or deep, and its unit.

    Parameters
    ----------
    text : object
        ``14 in dia x 5.5 in deep`` in either order.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        For ``14x5.5`` and whatever else leaves the order or a unit to be guessed.

    Examples
    --------
    >>> size = parse_size('5 1/2 in deep x 14" dia')
    >>> size.dia.mm, size.deep.mm
    (355.6, 139.7)
    """
    as_written = need_text(text, where=where, noun="a size", example="14 in dia x 5.5 in deep")
    plain = re.sub(r"\b(dia|diam)\.", r"\1", plain_typed(as_written))
    parts = [part for part in _PARTS.split(plain) if part]
    if len(parts) == 1 and len(re.findall(r"\b(?:dia|diam|diameter|deep|depth)\b", plain)) == 2:
        split = re.fullmatch(r"(.*?\b(?:dia|diam|diameter|deep|depth)\b)(.*)", plain)
        parts = [part for part in split.groups() if part.strip()] if split else parts
    unsaid = re.search(r"\bdi|\bde", plain) is None and re.search(r"[0-9].*(x|by|,).*[0-9]", plain)
    if len(parts) != 2 or unsaid:
        raise BadInput(
            "which number is the diameter? The order differs between countries"
            if unsaid
            else "not a diameter and a depth",
            where=where,
            given=as_written,
            wanted=_WANTED,
        )
    found: dict[str, Length] = {}
    for part in parts:
        name, length = _part(part, where=where, given=as_written)
        if name in found:
            raise BadInput(
                f'two numbers marked "{name}"', where=where, given=as_written, wanted=_WANTED
            )
        found[name] = length
    return DrumSize(dia=found["dia"], deep=found["deep"], as_written=as_written)


def _part(part: str, *, where: str, given: str) -> tuple[str, Length]:
    marked = re.fullmatch(r"(?P<before>[a-z]{3,}\s)?(?P<length>.*?)(?P<after>\s?[a-z]{3,})?", part)
    words = [w.strip() for w in (marked["before"], marked["after"]) if w] if marked else []
    words = [word for word in words if nearest(word, (*_ACROSS, *_DOWN), likeness=0.6)]
    if marked is None or len(words) != 1:
        raise BadInput(
            f'"{part}" does not say whether it is the diameter or the depth',
            where=where,
            given=given,
            wanted=_WANTED,
        )
    word = words[0]
    if word not in (*_ACROSS, *_DOWN):
        meant = nearest(word, (*_ACROSS, *_DOWN))
        raise BadInput(
            f'"{word}" is neither "dia" nor "deep"',
            where=where,
            given=given,
            wanted=_WANTED,
            step=f'Did you mean "{meant}"?',
        )
    text = re.sub(rf"\b{word}\b", "", part).strip()
    try:
        length = parse_length(text, where=where, allow_zero=False)
    except BadInput as fault:
        raise BadInput(
            fault.what,
            where=where,
            given=given,
            wanted='a unit on each number, such as "14 in dia x 5.5 in deep"'
            if fault.what == "no unit"
            else fault.wanted,
            step=fault.step,
        ) from fault
    return "dia" if word in _ACROSS else "deep", length
