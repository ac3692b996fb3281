"""How far a rod was turned: parts of a turn, up or down."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from counterhoop.errors import BadInput
from counterhoop.quantities.number import parse_number
from counterhoop.quantities.typed import need_text, plain_typed

MOST_TURNS = 40
"""No rod of a drum has more threads to go; more is a slip."""
MOST_BARE = 3
"""More without a unit are degrees as likely as turns."""
_TURN = re.compile(
    r"(?P<sign>[+-]?)\s*(?P<number>[0-9.,/ -]+?)\s*(?P<unit>(?:of a )?turns?|deg(?:rees?)?\.?|°)?"
)
_WANTED = 'parts of a turn, such as "1/8" or "-1/16"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """How far one turned, exact, tighter above zero, and the text it was read from."""

    exact: Fraction
    as_written: str = field(default="", compare=False)

    @property
    def turns(self) -> float:
        """Whole turns, to the nearest float."""
        return float(self.exact)


def parse_turn(text: object, *, where: str = "") -> Turn:
    """Read how far a rod was turned.

    Parameters
    ----------
    text : object
        ``1/8``, ``1/8 turn``, ``-1/16``, ``1 1/2 turns``, ``45 deg``.
    where : str
        Place in the file, for the message.

    Raises
    ------
    BadInput
        For no turn at all, for more than any rod has, and for more than three of what is not said.

    Examples
    --------
    >>> parse_turn("1/8").turns, parse_turn("-45 deg").turns
    (0.125, -0.125)
    """
    as_written = need_text(text, where=where, noun="a turn", example="1/8")
    found = _TURN.fullmatch(plain_typed(as_written))
    if found is None:
        raise BadInput("cannot be read as a turn", where=where, given=as_written, wanted=_WANTED)
    size = parse_number(found["number"], where=where, given=as_written)
    if not found["unit"] and size > MOST_BARE:
        number = found["number"].strip()
        raise BadInput(
            "turns or degrees is not said", where=where, given=as_written,
            wanted=f'"{found["sign"]}{number} deg" or "{found["sign"]}{number} turns"',
        )  # fmt: skip
    if found["unit"] and not found["unit"].endswith(("turn", "turns")):
        size /= 360
    if not 0 < size <= MOST_TURNS:
        raise BadInput(
            "nothing was turned" if not size else "no rod goes so far",
            where=where,
            given=as_written,
            wanted=_WANTED,
        )
    return Turn(exact=-size if found["sign"] == "-" else size, as_written=as_written)
