"""Pitches as a drummer writes them: a note with its octave, with cents, or Hz."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from counterhoop.errors import BadInput
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed, with_unit

A4_HZ = 440.0
"""ISO 16:1975 (from memory)."""
LOWEST_HZ, HIGHEST_HZ = 20.0, 2000.0
"""No head is tuned below or above; what lies beyond is a slip of the octave or the unit."""
MOST_CENTS = 100
_SEMITONES = {"c": -9, "d": -7, "e": -5, "f": -4, "g": -2, "a": 0, "b": 2}
_SHARP, _FLAT = ("#", "＃", "♯", "sharp"), ("b", "♭", "flat")
_BEND = r"#|＃|♯|[\s-]?sharp|b|♭|[\s-]?flat"
_NOTE = re.compile(
    rf"(?P<letter>[a-g])(?P<bend>{_BEND})?\s*(?P<octave>[0-9])"
    r"(?:\s*(?P<sign>[+-])\s*(?P<cents>[0-9.,]+)\s*(?P<unit>c|ct|cents?)?)?"
)
_HZ = re.compile(r"(?P<number>[0-9.,]+)\s*(?:hz|hertz|cps)\.?")
_WANTED = 'a pitch such as "A2", "F#2 +12 cents" or "98 Hz"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Pitch:
    """A pitch, and the text it was read from."""

    hz: float
    as_written: str = field(default="", compare=False)


def parse_pitch(text: object, *, where: str = "", a4_hz: float = A4_HZ) -> Pitch:
    """Read one pitch.

    Parameters
    ----------
    text : object
        ``A2``, ``F#2 +12 cents``, ``Gb3``, ``E flat 2``, ``B-flat 2``, ``98 Hz``.
    where : str
        Place in the file, for the message.
    a4_hz : float
        What notes are read by.

    Raises
    ------
    BadInput
        For a note without its octave, a number without Hz, and what no head of a drum sounds.

    Examples
    --------
    >>> parse_pitch("A2").hz, round(parse_pitch("F#2 +12 cents").hz, 2), parse_pitch("98 Hz").hz
    (110.0, 93.14, 98.0)
    """
    example = with_unit(text, unit="Hz", below=HIGHEST_HZ, otherwise="A2")
    as_written = need_text(text, where=where, noun="a pitch", example=example)
    plain = plain_typed(as_written)
    if hertz := _HZ.fullmatch(plain):
        hz = float(parse_number(hertz["number"], where=where, given=as_written, unit="Hz"))
    elif note := _NOTE.fullmatch(plain):
        hz = _note_hz(note, where=where, given=as_written, a4_hz=a4_hz)
    else:
        what, wanted = _refusal(plain, as_written.strip())
        raise BadInput(what, where=where, given=as_written, wanted=wanted)
    if not LOWEST_HZ <= hz <= HIGHEST_HZ:
        raise BadInput(
            f"no head of a drum sounds so {'low' if hz < LOWEST_HZ else 'high'}",
            where=where, given=as_written, wanted=_WANTED, step="Look at the octave.",
        )  # fmt: skip
    return Pitch(hz=hz, as_written=as_written)


def _note_hz(note: re.Match[str], *, where: str, given: str, a4_hz: float) -> float:
    bend = (note["bend"] or "").strip(" -")
    steps = _SEMITONES[note["letter"]] + 12 * (int(note["octave"]) - 4)
    steps += 1 if bend in _SHARP else -1 if bend in _FLAT else 0
    off = 0.0
    if note["cents"]:
        off = float(parse_number(note["cents"], where=where, given=given, unit="cents"))
        if off >= MOST_CENTS:
            raise BadInput(
                "a hundred cents are the next note", where=where, given=given,
                wanted='fewer beside the nearest note, such as "F#2 +12 cents"',
            )  # fmt: skip
    cents = -off if note["sign"] == "-" else off
    return float(a4_hz * 2.0 ** ((steps + cents / 100.0) / 12.0))


def _refusal(plain: str, written: str) -> tuple[str, str]:
    """What is wrong with a text that is no pitch, and what was wanted."""
    if re.fullmatch(r"[0-9.,]+", plain):
        return "no unit", f'"{plain} Hz"'
    if re.fullmatch(rf"[a-g](?:{_BEND})?", plain):
        return "a note without its octave", f'it with its octave, such as "{written}2"'
    if re.fullmatch(r"h\s*[0-9].*", plain):
        return "H is the German name of a note", f'"B{written[1:]}" for H, "Bb{written[1:]}" for B'
    if re.fullmatch(r"[a-g](?:[ei]?s)\s*[0-9].*", plain):
        return "a German note name", '"F#2" or "Eb2"'
    if re.fullmatch(rf"[a-g](?:{_BEND})?\s*-\s*[0-9]", plain):
        return "the dash may join or take away", f'"{written.replace("-", "").replace(" ", "")}"'
    if re.fullmatch(r"[a-g].*\(.*hz\)", plain):
        return "a note and its Hz", f'one of them, such as "{written.split("(")[0].strip()}"'
    if re.fullmatch(rf"[a-g](?:{_BEND})?\s*[0-9]\s*[0-9.,]+\s*(?:c|ct|cents?)", plain):
        return (
            "above or below the note is not said",
            'a sign before the cents, such as "F#2 +12 cents"',
        )
    if re.search(r"[a-z0-9]\s*(?:to|-|/)\s*[a-g]", plain):
        return "two notes where one belongs", _WANTED
    return "cannot be read as a pitch", _WANTED
