"""The exception tree and the ``Finding`` record, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum


class CounterhoopError(Exception):
    """Root of every error that this package raises on purpose."""


class BadInput(CounterhoopError, ValueError):
    """Something a person wrote cannot be used: says what, where, given, wanted, next step.

    Parameters
    ----------
    what : str
        What is wrong, as one would say it at the bench.
    where : str
        Place in the file, or the argument ("drums.small tom.depth").
    given : object
        What stood there; shown shortened.
    wanted : str
        What would have been understood, with an example.
    step : str
        The next thing to do, when it is not plain from ``wanted``.

    Examples
    --------
    >>> print(BadInput("no unit", where="depth", given="200", wanted='a length such as "200 mm"'))
    depth: no unit: found '200', wanted a length such as "200 mm"
    """

    def __init__(
        self, what: str, *, where: str = "", given: object = None, wanted: str = "", step: str = ""
    ) -> None:
        self.what = what
        self.where = where
        self.given = given
        self.wanted = wanted
        self.step = step
        super().__init__(self._line())

    def _line(self) -> str:
        line = f"{self.where}: {self.what}" if self.where else self.what
        if self.given is not None:
            shown = repr(self.given)
            line += f": found {shown if len(shown) <= 60 else shown[:57] + '...'}"
        if self.wanted:
            line += (
                f", wanted {self.wanted}" if self.given is not None else f": wanted {self.wanted}"
            )
        if self.step:
            line += f". {self.step}"
        return " ".join(line.split())

    def at(self, where: str) -> BadInput:
        """Return the same complaint with the place put in front of its own."""
        place = f"{where}.{self.where}" if self.where else where
        return BadInput(
            self.what, where=place, given=self.given, wanted=self.wanted, step=self.step
        )


class CannotDo(CounterhoopError, RuntimeError):
    """The request is understood, but this machine or these files do not allow it."""


class DoesNotAnswer(CannotDo):
    """What this rests on cannot be reached just now; the same may be asked again later."""


class Grade(IntEnum):
    """How grave a finding is; higher is graver."""

    NOTE = 1
    TAKE_CARE = 2
    STOP = 3

    @property
    def words(self) -> str:
        """The grade as it is written on papers and pages."""
        return {Grade.NOTE: "note", Grade.TAKE_CARE: "take care", Grade.STOP: "stop"}[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that a check has to say about the state of a drum.

    Attributes
    ----------
    code : str
        Stable name for programs and tests, lower case with hyphens ("web-thin").
    grade : Grade
        Stop, take care or note.
    says : str
        The finding as a colleague would say it: what, where, how far off. One sentence.
    where : str
        The hole, lug or fitting in words ("holes 7 and 8", "long lug 3").
    along_deg, down_mm : float or None
        Its place on the shell laid flat, when it has one.
    measured, limit, doubt : float or None
        The figure, the limit it is held against and the half-width of the figure's doubt,
        in ``unit``.
    unit : str
        "mm", "deg", "mm2" or "" .
    rule : str
        Name of the shop rule or the formula that decides.
    remedy : str
        What would clear it.
    too_close : bool
        The limit lies inside the doubt of the reading: measure again.
    holes : tuple of int
        Numbers of the holes concerned.
    """

    code: str
    grade: Grade
    says: str
    where: str = ""
    along_deg: float | None = None
    down_mm: float | None = None
    measured: float | None = None
    limit: float | None = None
    doubt: float | None = None
    unit: str = "mm"
    rule: str = ""
    remedy: str = ""
    too_close: bool = False
    holes: tuple[int, ...] = ()
