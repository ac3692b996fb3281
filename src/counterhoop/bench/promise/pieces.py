"""Pieces of work as the bench has them: what the plan sees, and what a person wants to know."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

from counterhoop.bench.long_work.answers import Failed
from counterhoop.errors import BadInput
from counterhoop.job.promise.so_far import Begun, left_of
from counterhoop.job.schedule.task import Task
from counterhoop.quantities.day import say_weekday
from counterhoop.scheme.phrases import listed
from counterhoop.shell.operations import Operation, operations


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """One piece of work that is left on a drum.

    Attributes
    ----------
    task : Task
        As the plan has it; its minutes are those of all of it that is left to count.
    operation : str
        Name in the operations book.
    times : int
        How many are left.
    step : str
        Key of the step of the order of work.
    whose : str
        Whose figure its minutes are: "the book's", "yours, from 12 workings".
    cautions : tuple of str
        What to beware of.
    worked_min : float
        Hands at work on it so far.
    in_hand : datetime.datetime or None
        Since when it is in hand.
    begun : datetime.datetime or None
        When hands were last at it, where it was begun and laid down.
    """

    task: Task
    operation: str
    times: int
    step: str
    whose: str = ""
    cautions: tuple[str, ...] = ()
    worked_min: float = 0.0
    in_hand: dt.datetime | None = None
    begun: dt.datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cures:
    """Something done that is left alone: until when, and what it holds meanwhile."""

    drum: str
    says: str
    until: dt.datetime
    clamps: int = 0
    drying: int = 0
    wet: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitsFor:
    """Something that a drum waits for, and from which day its work is planned.

    Attributes
    ----------
    drum, what : str
        Which drum; for what, in words.
    day : datetime.date
        From then on the work that waits is planned.
    known : bool
        Somebody has named that day; else it is assumed.
    sure : bool
        Who sends it has said so.
    called : str
        Under which name its coming is written down (``promises.Arrival.what``).
    """

    drum: str
    what: str
    day: dt.date
    known: bool = False
    sure: bool = False
    called: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumWork:
    """What is left of one drum, in the order of the trade, and what it waits for.

    Attributes
    ----------
    drum : str
        What it is called.
    work : tuple of Work
    done : tuple of Begun
        Finished work whose minutes are known.
    cures : tuple of Cures
    for_client, for_part : tuple of WaitsFor
    before_yes : tuple of str
        Steps that do not wait for the client.
    says : tuple of str
        What else the plan takes for granted, in sentences.
    """

    drum: str
    before_yes: tuple[str, ...] = ()
    work: tuple[Work, ...] = ()
    done: tuple[Begun, ...] = ()
    cures: tuple[Cures, ...] = ()
    for_client: tuple[WaitsFor, ...] = ()
    for_part: tuple[WaitsFor, ...] = ()
    says: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class JobWork:
    """What is left of one job.

    Attributes
    ----------
    job, title : str
        Its name for programs, and what one calls it.
    number : str
        What papers call it.
    drums : tuple of DrumWork
    left_out : tuple of str
        Drums of which no work is known, a sentence each.
    operations : tuple of Operation
        The operations book as it is for this job.
    failed : Failed or None
        What kept its schemes from being worked out.
    """

    job: str
    title: str
    number: str
    drums: tuple[DrumWork, ...] = ()
    left_out: tuple[str, ...] = ()
    operations: tuple[Operation, ...] = field(default_factory=operations)
    failed: Failed | None = None

    @property
    def work(self) -> tuple[Work, ...]:
        """All of it, drum by drum."""
        return tuple(one for drum in self.drums for one in drum.work)

    @property
    def tasks(self) -> tuple[Task, ...]:
        """All of it, as the plan has it; the piece in ``goes_on`` as if it were not begun."""
        goes_on = self.goes_on
        return tuple(
            replace(one.task, minutes=max(1, round(left_of(one.task, one.worked_min))))
            if one.worked_min > 0.0 and one is not goes_on
            else one.task
            for one in self.work
        )

    @property
    def goes_on(self) -> Work | None:
        """The piece that hands were at last, of those that were begun."""
        begun = [one for one in self.work if one.worked_min > 0.0]
        return max(
            begun,
            default=None,
            key=lambda one: (one.in_hand is not None, one.begun or dt.datetime.min),
        )

    def need_work(self) -> tuple[Task, ...]:
        """Return its tasks.

        Raises
        ------
        BadInput
            No work of it is known, or nothing is left to do.
        """
        if not self.tasks:
            because = self.left_out[0].rstrip(".") if self.left_out else "all of it is done"
            raise BadInput("nothing to plan", where=self.title, given=because)
        return self.tasks

    @property
    def so_far(self) -> tuple[Begun, ...]:
        """Finished work, and the piece that goes on, with the minutes that each has taken."""
        last = self.goes_on
        begun = (Begun(task=last.task, worked_min=last.worked_min),) if last else ()
        return (*(one for drum in self.drums for one in drum.done), *begun)

    @property
    def assumes(self) -> tuple[str, ...]:
        """What the plan takes for granted, in sentences."""
        said = [
            *self.left_out,
            *_in_a_sentence(one for drum in self.drums for one in drum.for_client),
            *(line for drum in self.drums for line in _in_a_sentence(drum.for_part)),
            *(line for drum in self.drums for line in drum.says),
        ]
        return tuple(dict.fromkeys(f"{self.number}: {line[:1].lower()}{line[1:]}" for line in said))


def _in_a_sentence(waits: Iterable[WaitsFor]) -> Iterator[str]:
    """Yield what is waited for without a day, with the day that is assumed."""
    assumed = [one for one in waits if not one.known]
    if assumed:
        drums = tuple(dict.fromkeys(f"the {one.drum}" for one in assumed))
        wait = "wait" if len(drums) > 1 else "waits"
        yield (
            f"{listed(drums)} {wait} for {listed(tuple(dict.fromkeys(o.what for o in assumed)))},"
            " and nobody has said when that comes: planned as if it were there on"
            f" {say_weekday(max(one.day for one in assumed))}."
        )
