"""Bytes of a text file become text: which encoding they were written in, found and said."""

from __future__ import annotations

import codecs
from dataclasses import dataclass

from counterhoop.errors import BadInput

UTF_8, UTF_16, WESTERN = "UTF-8", "UTF-16", "Western (code page 1252)"
CODECS = {UTF_8: "utf-8", UTF_16: "utf-16", WESTERN: "cp1252"}
_STEP = 'Save it again as "CSV UTF-8".'


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A text and the encoding it was read in.

    ``sure`` is False where every byte would have been understood in another one as well.
    """

    text: str
    encoding: str
    sure: bool


def text_of(data: bytes, *, where: str, encoding: str = "") -> Text:
    """Read bytes as text.

    A mark at the start settles it; else UTF-8 where all of it is (nothing else looks like that
    by chance); else the Western code page, which is a guess and is said to be one.

    Parameters
    ----------
    data : bytes
        The file.
    where : str
        What to call it.
    encoding : str
        One of ``CODECS`` where a person has chosen; empty to find out.

    Raises
    ------
    BadInput
        It is no text, or not in the encoding chosen.

    Examples
    --------
    >>> text_of("Ø 6,5".encode("cp1252"), where="shelf.csv").encoding
    'Western (code page 1252)'
    """
    if encoding and encoding not in CODECS:
        raise BadInput(
            "no such encoding", where=where, given=encoding, wanted=f"one of {', '.join(CODECS)}"
        )
    marked = _marked(data)
    chosen = encoding or marked or (UTF_8 if _is_utf_8(data) else WESTERN)
    body = data.removeprefix(codecs.BOM_UTF8) if chosen == UTF_8 else data
    if chosen == UTF_16 and marked != UTF_16:
        body = codecs.BOM_UTF16_LE + data
    try:
        text = body.decode(CODECS[chosen])
    except UnicodeDecodeError as fault:
        row = body[: fault.start].count(b"\n") + 1
        raise BadInput(
            f"line {row} has a byte that is no sign in {chosen}", where=where, step=_STEP
        ) from fault
    if "\0" in text:
        row = text[: text.index("\0")].count("\n") + 1
        raise BadInput(
            f"line {row} has bytes that no text has, so this is not a CSV file",
            where=where,
            step=_STEP,
        )
    return Text(text=text, encoding=chosen, sure=bool(encoding or marked) or chosen == UTF_8)


def _marked(data: bytes) -> str:
    if data.startswith(codecs.BOM_UTF8):
        return UTF_8
    return UTF_16 if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) else ""


def _is_utf_8(data: bytes) -> bool:
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True
