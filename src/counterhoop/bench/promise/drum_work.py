"""From a scheme's order of work to pieces of work: what is left, what waits for what."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.promise.cure_in_room import cure_in_room
from counterhoop.bench.promise.log_said import NOT_BEGUN, OperationLog
from counterhoop.bench.promise.pieces import Cures, DrumWork, WaitsFor, Work
from counterhoop.bench.promise.setting import Setting
from counterhoop.bench.promise.ticked_holes import ticked_holes
from counterhoop.job.hours.belief import Belief
from counterhoop.job.promise.so_far import Begun
from counterhoop.job.schedule.task import Task
from counterhoop.papers.order_of_work import Step
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.operations import Operation

SURVEYED = ("photograph and book in", "survey a drum")
"""Done for any drum that has a scheme."""
TAKEN_APART = ("strip a drum",)
"""Done for any drum that something else was done on."""
FITTINGS, SHELL_CLEANED = "soak", "clean a shell"
"""The step on what came off the shell, which only the fitting waits for; and what in it is not."""
SIDE_BY_SIDE = (FITTINGS, "glue")
"""Steps whose operations do not wait for each other."""
FITTED = "fit"
STRIPPED = "strip"
BEFORE_A_PRICE, BEFORE_A_YES = ("book in", STRIPPED), ("book in", STRIPPED, FITTINGS)
"""Steps before anything is agreed, and those that need no yes to the scheme once the price is."""
ASK_FIRST = "No price is agreed yet: ask the client before it is taken apart."
ANSWER = "the client's answer"
"""What a yes that has a day is called among what is on its way."""
YES_DAYS = 2
"""A yes is taken to come tomorrow, and work on it to begin the day after (common practice)."""


@dataclass(slots=True)
class Front:
    """What the next piece of work waits for."""

    keys: tuple[str, ...] = ()
    ready: int = 0

    def and_also(self, other: Front) -> Front:
        """Return what waits for both."""
        keys = tuple(dict.fromkeys((*self.keys, *other.keys)))
        return Front(keys, max(self.ready, other.ready))


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumAsked:
    """All that the work of one drum is made from.

    Attributes
    ----------
    job : str
        Its job's name for programs.
    drum : KeptDrum
    scheme : Scheme
    steps : sequence of Step
    operations, beliefs : mapping
        By operation.
    log : mapping of str to OperationLog
    parts : sequence of WaitsFor
        What is not there yet.
    answer : date or None
        When the client's yes or no comes, where somebody has said so.
    agreed : bool
        Whether the client has said yes to the price.
    """

    job: str
    drum: KeptDrum
    scheme: Scheme
    steps: Sequence[Step]
    operations: Mapping[str, Operation]
    beliefs: Mapping[str, Belief]
    log: Mapping[str, OperationLog]
    parts: Sequence[WaitsFor] = ()
    answer: dt.date | None = None
    agreed: bool = False

    @property
    def before_yes(self) -> tuple[str, ...]:
        """Steps that need no yes to the scheme."""
        return BEFORE_A_YES if self.agreed else BEFORE_A_PRICE


def drum_work(asked: DrumAsked, *, setting: Setting) -> DrumWork:
    """Return what is left of a drum.

    Shell work keeps the order of the trade; what came off is cleaned at any time between strip and
    fitting. Work that was counted or whose holes are ticked is done; what of it still cures keeps
    the next work waiting.
    """
    made = _Made(asked, setting)
    if asked.scheme.draft:
        made.for_client.append(
            WaitsFor(
                drum=asked.drum.name, what="a yes to the scheme", called=ANSWER,
                day=asked.answer or setting.after_days(YES_DAYS), known=asked.answer is not None,
            )
        )  # fmt: skip
    for step in asked.steps:
        made.step(step)
    return DrumWork(
        drum=asked.drum.name, before_yes=asked.before_yes,
        work=tuple(made.work), done=tuple(made.done), cures=tuple(made.cures),
        for_client=tuple(made.for_client), for_part=tuple(asked.parts), says=tuple(made.says),
    )  # fmt: skip


@dataclass(slots=True)
class _Made:
    """The work of one drum as it grows, step by step."""

    asked: DrumAsked
    setting: Setting
    work: list[Work] = field(default_factory=list)
    done: list[Begun] = field(default_factory=list)
    cures: list[Cures] = field(default_factory=list)
    for_client: list[WaitsFor] = field(default_factory=list)
    says: list[str] = field(default_factory=list)
    shell: Front = field(default_factory=Front)
    fittings: Front = field(default_factory=Front)
    floor: int = 0
    keys: Counter[str] = field(default_factory=Counter)

    def step(self, step: Step) -> None:
        """Add the pieces of one step."""
        if step.key == FITTED:
            self.shell = self.shell.and_also(self.fittings)
            self.floor = max(
                [self.floor, *(self.setting.midnight(p.day) for p in self.asked.parts)]
            )
        if self.for_client and step.key not in self.asked.before_yes:
            self.floor = max(self.floor, self.setting.midnight(self.for_client[0].day))
        before, beside = self.shell, []
        for name, times in _times(step).items():
            if name in SURVEYED:
                continue
            after = before if step.key in SIDE_BY_SIDE else self.shell
            front = self._operation(step, name, times, after=after)
            if step.key == FITTINGS and name != SHELL_CLEANED:
                self.fittings = self.fittings.and_also(front)
            elif step.key in SIDE_BY_SIDE:
                beside.append(front)
            else:
                self.shell = front
        for front in beside:
            self.shell = front if self.shell is before else self.shell.and_also(front)

    def _operation(self, step: Step, name: str, times: int, *, after: Front) -> Front:
        """Add what is left of an operation; return what waits for it."""
        asked, setting = self.asked, self.setting
        operation, belief = asked.operations[name], asked.beliefs[name]
        done, finished = self._counted(name, times)
        cure_min = self._cure(operation)
        ready = self._curing(operation, done, cure_min=cure_min, says=name)
        log = asked.log.get(name, NOT_BEGUN)
        left = 0 if finished else times - sum(count for count, _ in done)
        key = self._key(step, name)
        each_min = belief.median_min
        logged = sum(count for count, _ in log.done)
        if logged and log.done_min > 0.0 and each_min > 0.0:
            told = self._task(
                key=f"{key}/done", says=name, minutes=logged * each_min, spread=belief.spread
            )
            self.done.append(Begun(task=told, worked_min=log.done_min, finished=True))
        if left < 1 or (each_min <= 0.0 and not cure_min):
            return Front(after.keys, max(after.ready, ready))
        keys = []
        for number, count in enumerate(self._goes(operation, left, each_min), 1):
            task = self._task(
                key=key if number == 1 else f"{key}/{number}",
                says=name if count == 1 else f"{count} x {name}",
                minutes=count * each_min, spread=belief.spread,
            )  # fmt: skip
            first = number == 1
            self.work.append(
                Work(
                    task=replace(
                        task, after=after.keys, cure_min=cure_min, air=operation.air,
                        clamps=min(count * operation.clamps, setting.hours.clamps),
                        drying=min(operation.drying, setting.hours.drying),
                        not_before=max(after.ready, self.floor),
                        unbroken=operation.unbroken and task.minutes <= self._longest_min,
                    ),
                    operation=name, times=count, step=step.key, whose=belief.whose,
                    cautions=(*self._ask_first(step), *operation.cautions),
                    worked_min=log.loose_min if first else 0.0,
                    in_hand=log.in_hand if first else None,
                    begun=log.last if first and log.loose_min else None,
                )
            )  # fmt: skip
            keys.append(task.key)
        return Front(tuple(keys), max(ready, self.floor))

    def _ask_first(self, step: Step) -> tuple[str, ...]:
        asked = self.asked.agreed or not self.for_client
        return () if asked or step.key != STRIPPED else (ASK_FIRST,)

    def _counted(self, name: str, times: int) -> tuple[list[tuple[int, dt.datetime]], bool]:
        """Return how many were done when, and whether nothing more of it is to be done."""
        log = self.asked.log.get(name, NOT_BEGUN)
        ticked = ticked_holes(self.asked.drum, self.asked.scheme).get(name, [])
        done = list(log.done)
        if len(ticked) > sum(count for count, _ in done):
            done = [(1, at) for at in ticked]
        finished = log.finished or (name in TAKEN_APART and self._taken_apart)
        if finished and not done and log.last is not None:
            done = [(times, log.last)]
        return done, finished

    @property
    def _taken_apart(self) -> bool:
        others = (name for name in self.asked.log if name not in (*SURVEYED, *TAKEN_APART))
        return any(True for _ in others) or bool(ticked_holes(self.asked.drum, self.asked.scheme))

    def _curing(
        self, operation: Operation, done: Sequence[tuple[int, dt.datetime]], *, cure_min: int,
        says: str,
    ) -> int:  # fmt: skip
        """Note what of it still cures; return the minute from which the next work may begin."""
        now, cure = self.setting.now, dt.timedelta(minutes=cure_min)
        fresh = [(count, at + cure) for count, at in done if at + cure > now]
        if not fresh:
            return 0
        until = max(at for _, at in fresh)
        self.cures.append(
            Cures(
                drum=self.asked.drum.name, says=says, until=until, drying=operation.drying,
                clamps=sum(count for count, _ in fresh) * operation.clamps,
                wet=operation.air == "wet",
            )
        )  # fmt: skip
        return self.setting.minute(until + dt.timedelta(seconds=59))

    def _cure(self, operation: Operation) -> int:
        """Return how long it is left alone; in a room too cold as long as in the coldest that does.

        That it is too cold is said, and the plan goes on as if it were warmed.
        """
        minutes, says = cure_in_room(operation, room_c=self.setting.hours.room_c)
        if says:
            self.says.append(says)
        return minutes

    def _goes(self, operation: Operation, left: int, each_min: float) -> Iterator[int]:
        """Yield how many are done in one go: no more than there are clamps and hours for."""
        most, clamps = left, self.setting.hours.clamps
        if operation.clamps > clamps:
            self.says.append(
                f"To {operation.name} takes {operation.clamps} clamps, and the workshop has"
                f" {clamps}: borrow some, planned as if they were there."
            )
        if operation.clamps:
            most = min(most, max(1, clamps // operation.clamps))
        if operation.unbroken:
            most = min(most, max(1, int(self._longest_min / max(each_min, 1.0))))
            if each_min > self._longest_min:
                self.says.append(
                    f"To {operation.name} usually takes longer than any stretch of the day, and is"
                    " not to be laid down: open longer on one day."
                )
        while left > 0:
            yield min(most, left)
            left -= most

    @property
    def _longest_min(self) -> int:
        week = self.setting.hours.week
        days = (*week.days, *week.extra.values())
        return max((ends - begins for day in days for begins, ends in day), default=0)

    def _key(self, step: Step, name: str) -> str:
        stem = f"{self.asked.job}/{self.asked.drum.id}/{name}"
        self.keys[stem] += 1
        return stem if self.keys[stem] == 1 else f"{stem}/{step.key}"

    def _task(self, *, key: str, says: str, minutes: float, spread: float) -> Task:
        return Task(
            key=key, job=self.asked.job, drum=self.asked.drum.name, says=says,
            minutes=max(1, round(minutes)), spread=spread,
        )  # fmt: skip


def _times(step: Step) -> Counter[str]:
    """Return how often each operation of a step is done, in its order."""
    found: Counter[str] = Counter()
    for one in step.done:
        found[one.operation] += one.times
    return found
