"""What fingers type, brought into one plain alphabet before anything is read from it."""

from __future__ import annotations

import unicodedata

from counterhoop.errors import BadInput

LONGEST_TEXT = 80
"""No quantity needs more characters; longer text is a slip of the clipboard."""

_PLAIN = {
    **dict.fromkeys("′’‘´ʹ`‛ʼ", "'"),
    **dict.fromkeys("″”“ʺ〃‟", '"'),
    **dict.fromkeys("−–‐‑‒﹣－", "-"),
    **dict.fromkeys("⁄∕／", "/"),
    **dict.fromkeys("×✕✖╳", "x"),
    **dict.fromkeys("⌀∅øØ", " dia "),
    "＋": "+",
    "º": "°",
    "˚": "°",
    "\u200b": "",
    "\ufeff": "",
}


def plain_typed(text: str) -> str:
    """Bring primes, dashes, vulgar fractions and odd spaces into ASCII and lower case.

    A vulgar fraction sign is set off by a space, so that ``5½`` becomes ``5 1/2`` and never
    ``51/2``, which is what plain Unicode compatibility folding would make of it.

    Examples
    --------
    >>> plain_typed("5½″"), plain_typed("14” × 5.5”"), plain_typed("3′ 2''")
    ('5 1/2"', '14" x 5.5"', '3\\' 2"')
    """
    if text.isascii() and "`" not in text:
        return " ".join(text.replace("''", '"').lower().split())
    signs = []
    for sign in text:
        folded = unicodedata.normalize("NFKC", sign) if unicodedata.category(sign) == "No" else sign
        if "\u2044" in folded and len(folded) > 1:
            signs.append(" " + folded.replace("\u2044", "/"))
        elif sign.isspace():
            signs.append(" ")
        else:
            signs.append(_PLAIN.get(sign, sign))
    return " ".join("".join(signs).replace("''", '"').lower().split())


def need_text(given: object, *, where: str, noun: str, example: str) -> str:
    """Return ``given`` when it is text of a sane size, else refuse with what to write.

    Parameters
    ----------
    given : object
        What stood in the file or the form.
    where : str
        Place in the file.
    noun : str
        What is read, with its article ("a length").
    example : str
        What would have been understood.

    Raises
    ------
    BadInput
        For numbers without quotes, anything else that is not text, empty or endless text.
    """
    wanted = f'{noun} such as "{example}"'
    if isinstance(given, bool) or not isinstance(given, (str, int, float)):
        raise BadInput(f"this is not {noun}", where=where, given=given, wanted=wanted)
    if isinstance(given, (int, float)):
        given = given if abs(given) < 10**15 or isinstance(given, float) else "a huge number"
        raise BadInput(
            "a bare number, without its unit",
            where=where,
            given=given,
            wanted=f'{noun} with its unit, in quotes, such as "{example}"',
        )
    if not given.strip():
        raise BadInput("nothing is written here", where=where, given=given, wanted=wanted)
    if len(given) > LONGEST_TEXT:
        raise BadInput(f"too long for {noun}", where=where, given=given, wanted=wanted)
    return given


def with_unit(given: object, *, unit: str, below: float, otherwise: str) -> str:
    """Return a bare number with its unit, as an example that is true to what stood there.

    Examples
    --------
    >>> with_unit(41.5, unit="mm", below=10_000, otherwise="200 mm")
    '41.5 mm'
    """
    if isinstance(given, bool) or not isinstance(given, (int, float)) or not 0 < given < below:
        return otherwise
    return f"{given} {unit}"
