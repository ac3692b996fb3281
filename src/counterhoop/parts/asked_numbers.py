"""Numbers, threads and words in one line of what is asked, as they stand one after the other."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.thread_name import parse_thread_name
from counterhoop.quantities.thread_pitch import parse_thread_pitch
from counterhoop.quantities.typed import plain_typed
from counterhoop.quantities.weight import parse_weight

_NUMBER = r"(?:\d+(?:\s+|-)\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+)"
_LENGTHS = r"mm|cm|inch(?:es)?|in|thou"
_WEIGHTS = r"grams?|g|kg|oz"
_UNIT = rf"""(?:(?:{_LENGTHS}|{_WEIGHTS})(?![\w'])|")"""
_GIVE = r"(?:\+\s*/?\s*-|plus or minus|give or take)"
_INCHES = r"(?:tpi|t\.p\.i\.?|(?:threads? )?(?:per|to the|to an) inch)(?!\w)"
_PITCH = re.compile(rf"(?<![\w.,/-])(?P<first>{_NUMBER})\s*{_INCHES}")
_EXPRESSION = re.compile(
    rf"(?<![\w.,/-])(?P<first>{_NUMBER})\s*(?P<unit>{_UNIT})?"
    rf"(?:\s*(?:to|and|-|\.\.)\s*(?P<last>{_NUMBER})(?![\w/])\s*(?P<last_unit>{_UNIT})?)?"
    rf"(?:\s*{_GIVE}\s*(?P<give>{_NUMBER})(?![\w/])\s*(?P<give_unit>{_UNIT})?)?(?![\w/])"
)
_THREAD = re.compile(
    r"(?<![\w.,/-])(?:"
    r"m\s?\d+(?:[.,]\d+)?(?:\s*x\s*(?:0?[.,]\d+|[123](?:[.,]\d+)?)(?:\s*mm)?)?"
    r"|(?:#|no\.? ?)?\d+(?:/\d+)?\"?\s?-\s?\d\d(?:\s?(?:unc|unf|unef|nc|nf|ns))?"
    r"|\d+/\d+\"?\s?(?:bsw|bsf|whitworth|whit)|\d{1,2}\s?b\.?a\.?"
    r")(?![\w./])"
)
_BELOW_ZERO = re.compile(rf"(?<![\w.,/-])-\s*(?P<first>{_NUMBER})\s*(?P<unit>{_UNIT})?(?![\w/])")
_PARTING = ',;"()'
_WORD_ENDS = re.compile(rf"[\s{_PARTING}]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A number as it stands in the line, with what is allowed round it.

    Attributes
    ----------
    text : str
        As written.
    first, last, give : str
        Its figures; the upper end of a range; what follows "+-".
    unit, give_unit : str
        As written; of a range the unit at its end counts for both.
    to_the_inch : bool
        Threads to the inch.
    after_thread : bool
        It stands after a thread's name and an x ("12-24 x 42").
    first_of_count : bool
        A whole number without a unit, straight before the word holes.
    below_zero : bool
        A minus stands before it.
    """

    text: str
    first: str
    last: str = ""
    give: str = ""
    unit: str = ""
    give_unit: str = ""
    to_the_inch: bool = False
    after_thread: bool = False
    first_of_count: bool = False
    below_zero: bool = False

    @property
    def count(self) -> int | None:
        """The whole number that it is when nothing else stands with it."""
        plain = self.first.isdigit() and not (self.unit or self.last or self.give)
        return int(self.first) if plain else None

    @property
    def weighs(self) -> bool:
        """Whether its unit is one of weight."""
        return bool(re.fullmatch(_WEIGHTS, self.unit))

    @property
    def fine(self) -> bool:
        """Whether it was read finer than off a rule: tenths of a millimetre, decimal inches."""
        if "/" in self.first:
            return False
        part = re.split(r"[.,]", self.first)[-1] if not self.first.isdigit() else ""
        inches = self.unit in ("in", "inch", "inches", '"')
        return len(part) > 1 if inches else part.rstrip("0") not in ("", "5")

    @property
    def tool(self) -> Literal["caliper", "rule"]:
        """What a length with such figures was read off."""
        return "caliper" if self.fine else "rule"

    def read(self, what: Dimension, *, units: Literal["mm", "in"]) -> tuple[float, float]:
        """Return the middle and the half-width of what is allowed, in the dimension's unit.

        The half-width is 0 where nothing was said of it.

        Raises
        ------
        BadInput
            For what has no single reading, or another unit than the dimension's.
        """
        if self.below_zero:
            raise BadInput(
                "no part measures less than nothing", wanted=f'"{self.text[1:].strip()}"'
            )
        if what.unit == "count":
            if self.count is None:
                raise BadInput("not a count", wanted='a whole number such as "4"')
            return float(self.count), 0.0
        if what is Dimension.PITCH:
            return self._pitch_mm(), 0.0
        first = self._one(self.first, self.unit, what, units=units)
        give = self._one(self.give, self.give_unit or self.unit, what, units=units)
        if not self.last:
            return first, give
        last = self._one(self.last, self.unit, what, units=units)
        if last <= first:
            raise BadInput("the smaller end of a range comes first", wanted='"40 to 44 mm"')
        return (first + last) / 2.0, (last - first) / 2.0 + give

    def _pitch_mm(self) -> float:
        if self.last or self.give:
            raise BadInput("one pitch at a time", wanted='"24 to the inch" or "pitch 1 mm"')
        unit = "tpi" if self.to_the_inch else self.unit
        return parse_thread_pitch(f"{self.first} {unit}".strip()).mm

    def _one(
        self, figures: str, unit: str, what: Dimension, *, units: Literal["mm", "in"]
    ) -> float:
        if not figures:
            return 0.0
        if what.unit == "g":
            return parse_weight(f"{figures} {unit or 'g'}").kg * 1000.0
        chosen = unit or ("in" if "/" in figures else units)
        return parse_length(f"{figures} {chosen}", allow_zero=False).mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """One number, one word, or what parts them."""

    text: str
    number: Number | None = None
    parts_off: bool = False
    thread: bool = False

    @property
    def is_word(self) -> bool:
        """Whether it may be part of a name."""
        return self.number is None and not self.parts_off and not self.thread


def tokens_of(plain: str) -> list[Token]:
    """Return what stands in a line, in its order.

    Examples
    --------
    >>> [token.text for token in tokens_of("rod 12-24 x 42 mm, used")]
    ['rod', '12-24', '42 mm', ',', 'used']
    """
    found: list[Token] = []
    place = 0
    while place < len(plain):
        token, place = _next(plain, place, found)
        if token is not None:
            found.append(token)
    return found


def tool_of(written: str) -> Literal["caliper", "rule"]:
    """Return what a length was read off, by its figures; a caliper's where it has none.

    Examples
    --------
    >>> tool_of("42.1 mm"), tool_of("42 mm"), tool_of("1 5/8 in")
    ('caliper', 'rule', 'rule')
    """
    numbers = (token.number for token in tokens_of(plain_typed(written)) if token.number)
    first = next(numbers, None)
    return first.tool if first else "caliper"


def _next(plain: str, place: int, before: list[Token]) -> tuple[Token | None, int]:
    if plain[place].isspace():
        return None, place + 1
    if pitch := _PITCH.match(plain, place):
        number = Number(text=pitch[0], first=pitch["first"], to_the_inch=True)
        return Token(text=pitch[0], number=number), pitch.end()
    if (thread := _thread(plain, place)) is not None:
        name, end = thread
        return Token(text=name, thread=True), end
    if minus := _BELOW_ZERO.match(plain, place):
        number = Number(
            text=minus[0].strip(), first=minus["first"], unit=minus["unit"] or "", below_zero=True
        )
        return Token(text=number.text, number=number), minus.end()
    if match := _EXPRESSION.match(plain, place):
        return _number(match, plain, before), match.end()
    if before and before[-1].thread and re.match(r"x\s*\d", plain[place:]):
        end = place + 1
        while plain[end].isspace():
            end += 1
        if match := _EXPRESSION.match(f" {plain[end:]}", 1):
            number = _as_number(match, after_thread=True)
            return Token(text=number.text, number=number), end + match.end() - 1
    if plain[place] in _PARTING:
        return Token(text=plain[place], parts_off=True), place + 1
    word = _WORD_ENDS.split(plain[place:], maxsplit=1)[0]
    return Token(text=word.strip(".:") or word), place + len(word)


def _thread(plain: str, place: int) -> tuple[str, int] | None:
    """Return a thread's name and its end, where one that can be read stands here."""
    match = _THREAD.match(plain, place)
    if match is None:
        return None
    try:
        return parse_thread_name(match[0]).lower(), match.end()
    except BadInput:
        return None


def _number(match: re.Match[str], plain: str, before: list[Token]) -> Token:
    number = _as_number(match)
    if number.count is not None and re.match(r"\s*(?:holes?|ears?)(?!\w)", plain[match.end() :]):
        number = _as_number(match, first_of_count=True)
    return Token(text=number.text, number=number)


def _as_number(
    match: re.Match[str], *, after_thread: bool = False, first_of_count: bool = False
) -> Number:
    return Number(
        text=match[0].strip(),
        first=match["first"],
        last=match["last"] or "",
        give=match["give"] or "",
        unit=match["last_unit"] or match["unit"] or match["give_unit"] or "",
        give_unit=match["give_unit"] or "",
        after_thread=after_thread,
        first_of_count=first_of_count,
    )
