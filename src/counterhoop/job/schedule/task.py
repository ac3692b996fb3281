"""What is to be done, when it is due, what the shop has, and the plan made of it.

All times are whole minutes from the midnight with which the plan begins, on the workshop's own
clock; ``job/open_hours`` turns days and hours into them and back.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from counterhoop.errors import BadInput

Air = Literal["", "dust", "wet"]
HUNDREDTHS = 100
"""Weights are kept to hundredths, so that lateness adds up exactly."""
HEAVIEST = 1_000_000
"""Of a weight in hundredths: lateness of years stays a number that the solver can count in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One piece of work on one drum.

    Attributes
    ----------
    key : str
        Its name, once over all jobs.
    job, drum : str
        Whose it is and what it is done to.
    says : str
        What is done, as at the bench: "true the batter edge".
    minutes : int
        Hands at work, at least 1.
    spread : float
        How unsure the minutes are: the standard deviation of their logarithm; 0 is sure.
    after : tuple of str
        Keys of what must be finished and cured before this begins.
    cure_min : int
        Left alone afterwards, in minutes of the calendar, already at the room's temperature.
    clamps : int
        Held from the beginning until cured.
    drying : int
        Places on the drying shelf, held from the end of hands until cured.
    air : "", "dust" or "wet"
        Dust is not made while anything wet is being worked or is not cured yet.
    not_before : int
        The minute at which a part comes or a client has answered.
    unbroken : bool
        Not to be laid down over lunch or over night.

    Raises
    ------
    BadInput
        A count or a time that cannot be.
    """

    key: str
    job: str
    drum: str
    says: str
    minutes: int
    spread: float = 0.0
    after: tuple[str, ...] = ()
    cure_min: int = 0
    clamps: int = 0
    drying: int = 0
    air: Air = ""
    not_before: int = 0
    unbroken: bool = False

    def __post_init__(self) -> None:
        if self.minutes < 1:
            raise BadInput(
                "work takes at least a minute", where=self.key, given=self.minutes, wanted="1"
            )
        if self.air not in get_args(Air):
            raise BadInput(
                "the air is left as it is, dusty or wet", where=self.key, given=self.air,
                wanted='"", "dust" or "wet"',
            )  # fmt: skip
        for name in ("spread", "cure_min", "clamps", "drying", "not_before"):
            if not getattr(self, name) >= 0:
                raise BadInput(
                    f"{name} is below nothing", where=self.key, given=getattr(self, name),
                    wanted="0 or more",
                )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Due:
    """When a job is to be ready: all its work finished and cured.

    Attributes
    ----------
    job : str
        Which.
    by : int
        The minute at which it would begin to be late.
    weight : float
        How much a minute late counts against a minute of another job, above 0, to hundredths.
    """

    job: str
    by: int
    weight: float = 1.0

    def __post_init__(self) -> None:
        hundredths = self.weight * HUNDREDTHS
        if not (1 <= hundredths < HEAVIEST and abs(hundredths - round(hundredths)) < 1e-6):
            raise BadInput(
                "a job weighs above 0, to hundredths", where=self.job, given=self.weight,
                wanted="a weight such as 1 or 2.5",
            )  # fmt: skip

    @property
    def hundredths(self) -> int:
        """The weight as a whole number."""
        return round(self.weight * HUNDREDTHS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Holds:
    """Something done already that still cures, with the clamps or places to dry that it holds.

    Hands are free of it. That it is wet, or that other work waits for it, is said by the
    ``not_before`` of the dusty work and of the work that waits.

    Attributes
    ----------
    until : int
        The minute at which it is cured.
    clamps, drying : int
        How many.
    job : str
        Whose it is, if any: a job with work left is not ready before it is cured.

    Raises
    ------
    BadInput
        A count or a time below nothing.
    """

    until: int
    clamps: int = 0
    drying: int = 0
    job: str = ""

    def __post_init__(self) -> None:
        if min(self.until, self.clamps, self.drying) < 0:
            raise BadInput(
                "what cures holds on from the minute with which the plan begins",
                where=self.job or "holds", given=(self.until, self.clamps, self.drying),
                wanted="0 or more of each",
            )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the workshop has.

    Attributes
    ----------
    open : tuple of (int, int)
        Working stretches, first minute and the minute after the last, in order and apart.
    clamps, drying : int
        How many clamps, and places on the drying shelf.
    holds : tuple of Holds
        What still cures as the plan begins.
    """

    open: tuple[tuple[int, int], ...]
    clamps: int
    drying: int
    holds: tuple[Holds, ...] = ()

    def __post_init__(self) -> None:
        latest = -1
        for begins, ends in self.open:
            if begins <= latest or ends <= begins or begins < 0:
                raise BadInput(
                    "working stretches follow each other with a break between them",
                    where="open", given=(begins, ends), wanted="stretches such as (540, 750)",
                )  # fmt: skip
            latest = ends
        if self.clamps < 0 or self.drying < 0:
            raise BadInput(
                "clamps and places to dry are counted from 0", given=(self.clamps, self.drying)
            )
        taken = tuple(sum(getattr(one, of) for one in self.holds) for of in ("clamps", "drying"))
        if taken[0] > self.clamps or taken[1] > self.drying:
            raise BadInput(
                "more clamps or places are taken than there are", given=taken,
                wanted=f"at most {self.clamps} and {self.drying}",
            )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One piece of work in a plan: its stretches at the bench, and the minute it is cured."""

    key: str
    stretches: tuple[tuple[int, int], ...]
    cured: int

    @property
    def begins(self) -> int:
        """The minute at which it is picked up first."""
        return self.stretches[0][0]

    @property
    def ends(self) -> int:
        """The minute at which hands are off it for good."""
        return self.stretches[-1][1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What is worked when.

    Attributes
    ----------
    placed : tuple of Placed
        In the order in which they begin.
    late : float
        Minutes late, each times its job's weight, over all jobs with a date.
    bound : float
        No plan is less late than this, by the same count.
    proven : bool
        No plan is less late than this one.
    held : tuple of str
        What is left alone until everything before it has begun, though it might begin sooner:
        lacquer that would forbid the sanding next to it, for one. ``work_through`` with
        ``order`` and ``held`` works this plan again.
    """

    placed: tuple[Placed, ...]
    late: float
    bound: float = 0.0
    proven: bool = False
    held: tuple[str, ...] = ()

    @property
    def order(self) -> tuple[str, ...]:
        """Keys in the order in which they begin."""
        return tuple(one.key for one in self.placed)

    @property
    def gap(self) -> float:
        """How far from the bound this is at most, as a share of its own lateness; 0 if proven."""
        return 0.0 if self.proven or self.late <= 0 else 1.0 - self.bound / self.late
