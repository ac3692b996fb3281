"""The pitch of a screw as the blade of a gauge names it."""

from __future__ import annotations

import re

from counterhoop.errors import BadInput
from counterhoop.quantities.length import MM_PER_INCH, Length, parse_length
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

COARSEST_TPI, FINEST_TPI = 4, 127
_TO_THE_INCH = re.compile(
    r"(?P<number>[0-9.,/ ]+?)\s*(?:tpi|t\.p\.i\.?|threads? (?:per|to the|to an) inch)"
)
_PITCH = re.compile(r"(?P<length>.+?)\s+pitch")


def parse_thread_pitch(text: object, *, where: str = "") -> Length:
    """Read a pitch: so many threads to the inch, or the length of one.

    Parameters
    ----------
    text : object
        ``24 tpi``, ``24 threads per inch``, ``1 mm``, ``0.8 mm pitch``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        Without a unit, or for a pitch that no screw on a drum has.

    Examples
    --------
    >>> parse_thread_pitch("24 tpi").exact_mm, parse_thread_pitch("1 mm").mm
    (Fraction(127, 120), 1.0)
    """
    as_written = need_text(text, where=where, noun="a pitch", example="24 tpi")
    plain = plain_typed(as_written)
    wanted = 'a pitch such as "24 tpi" or "1 mm"'
    if found := _TO_THE_INCH.fullmatch(plain):
        count = parse_number(found["number"], where=where, given=as_written, unit="tpi")
        if not COARSEST_TPI <= count <= FINEST_TPI:
            raise BadInput("no screw has that pitch", where=where, given=as_written, wanted=wanted)
        return Length(exact_mm=MM_PER_INCH / count, as_written=as_written)
    if re.fullmatch(r"[0-9.,/ ]+", plain):
        raise BadInput(
            "threads to the inch, or millimetres?",
            where=where,
            given=as_written,
            wanted=_either(plain),
        )
    pitch = _PITCH.fullmatch(plain)
    try:
        size = parse_length(pitch["length"] if pitch else plain, allow_zero=False)
    except BadInput as fault:
        raise BadInput(fault.what, where=where, given=as_written, wanted=wanted) from fault
    if not MM_PER_INCH / FINEST_TPI <= size.exact_mm <= MM_PER_INCH / COARSEST_TPI:
        raise BadInput("no screw has that pitch", where=where, given=as_written, wanted=wanted)
    return Length(exact_mm=size.exact_mm, as_written=as_written)


def _either(number: str) -> str:
    """Return how a bare number can be meant: as either unit, where a screw has such a pitch."""
    both = [f"{number} tpi", f"{number} mm"]
    known = [text for text in both if _is_pitch(text)]
    return " or ".join(f'"{text}"' for text in known or both)


def _is_pitch(text: str) -> bool:
    try:
        parse_thread_pitch(text)
    except BadInput:
        return False
    return True
