"""The plain facts of a drum that is offered, as the record has them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import BadInput

PartState = Literal[
    "original", "of the period", "later", "remade", "altered", "missing", "not sure"
]
CHANGED: tuple[PartState, ...] = ("later", "remade", "altered", "missing")
"""States that a buyer must be told of."""
HoleState = Literal["open", "plugged", "covered"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFact:
    """One part: its name, what it is, and a word more ("a copy of last year")."""

    name: str
    state: PartState
    says: str = ""

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise BadInput("a part without a name", where="listing", wanted='such as "strainer"')


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraHole:
    """One hole that the factory did not make, or may not have made.

    Attributes
    ----------
    number : int
        As on the hole list.
    across_mm : float
    where : str
        In words: "between lugs 3 and 4, 60 mm below the batter edge".
    state : str
        "open", "plugged" or "covered" by a fitting.
    sure : bool
        False when nobody can say whether the factory made it.
    """

    number: int
    across_mm: float
    where: str
    state: HoleState
    sure: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumFacts:
    """A drum as the record has it; what is empty was not looked at, or is not known.

    Attributes
    ----------
    kind : str
        "snare drum".
    dia_in, deep_in : float
        As the drum is called.
    line, serial : str
    made : str
        "1962 to 1966 by its badge and strainer", in the words of the evidence.
    shell, finish, edges : str
        As found or as left.
    parts : tuple of PartFact
    holes_counted : bool
        Whether the shell was gone over hole by hole; only then may a listing say *none*.
    extra_holes : tuple of ExtraHole
    faults, as_it_came, work_done, comes_with, not_known : tuple of str
        A sentence or a few words each.
    """

    kind: str
    dia_in: float
    deep_in: float
    line: str = ""
    serial: str = ""
    made: str = ""
    shell: str = ""
    finish: str = ""
    edges: str = ""
    parts: tuple[PartFact, ...] = ()
    holes_counted: bool = False
    extra_holes: tuple[ExtraHole, ...] = ()
    faults: tuple[str, ...] = ()
    as_it_came: tuple[str, ...] = ()
    work_done: tuple[str, ...] = ()
    comes_with: tuple[str, ...] = ()
    not_known: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.kind.strip():
            raise BadInput("what is it?", where="listing", wanted='such as "snare drum"')
        if min(self.dia_in, self.deep_in) <= 0.0:
            raise BadInput("a drum without a size", where="listing", wanted="inches above zero")
        numbers = [hole.number for hole in self.extra_holes]
        if len(set(numbers)) < len(numbers):
            raise BadInput("two extra holes of one number", where="listing", given=numbers)

    @property
    def changed(self) -> tuple[PartFact, ...]:
        """Parts that a buyer must be told of."""
        return tuple(part for part in self.parts if part.state in CHANGED)
