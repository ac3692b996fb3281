"""What a price hangs on: a drum as a buyer would ask about it."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import BadInput

LARGEST_IN = 60.0
"""No drum is wider or deeper; more is a slip of unit. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Features:
    """A drum for sale in few facts; what nobody looked at stays unsaid and is not taken for none.

    Attributes
    ----------
    dia_in, deep_in : float
        As the drum is called.
    kind, line, finish : str
        "snare drum", "Corvane Tarnbeck", "white pearl wrap"; empty for not known. Capitals and
        spaces do not matter.
    made : (int, int) or None
        First and last year that it may have been made in.
    condition : frozenset of str or None
        What is wrong with it, each in the shop's usual words ("edge chipped", "wrap shrunk").
    complete : float or None
        Share of its parts that are there, from 0 to 1.
    extra_holes : int or None
        Holes that the factory did not make.
    changed : frozenset of str or None
        Parts that are not its own ("strainer", "batter hoop").

    Raises
    ------
    BadInput
        For a size that no drum has, years the wrong way round, a share or count that is none.
    """

    dia_in: float
    deep_in: float
    kind: str = ""
    line: str = ""
    made: tuple[int, int] | None = None
    finish: str = ""
    condition: frozenset[str] | None = None
    complete: float | None = None
    extra_holes: int | None = None
    changed: frozenset[str] | None = None

    def __post_init__(self) -> None:
        for name, size in (("diameter", self.dia_in), ("depth", self.deep_in)):
            if not 0.0 < size <= LARGEST_IN:
                raise BadInput("no drum is of that size", where=name, given=size, wanted="inches")
        if self.made and self.made[0] > self.made[1]:
            raise BadInput(
                "the years stand the wrong way round", where="made",
                given=f"{self.made[0]} to {self.made[1]}", wanted="the earlier one first",
            )  # fmt: skip
        if self.complete is not None and not 0.0 <= self.complete <= 1.0:
            raise BadInput("not a share", where="complete", given=self.complete, wanted="0 to 1")
        if self.extra_holes is not None and self.extra_holes < 0:
            raise BadInput("fewer than none", where="extra holes", given=self.extra_holes)


def same_word(text: str) -> str:
    """Return a word as it is compared: no capitals, single spaces.

    Examples
    --------
    >>> same_word("  White  Pearl ")
    'white pearl'
    """
    return " ".join(text.casefold().split())
