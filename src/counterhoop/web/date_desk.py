"""The date of a job, gathered for its sheets: the day, what was promised, what it waits for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from starlette.requests import Request

from counterhoop.bench.folders.folder import Kept, KeptJob
from counterhoop.bench.folders.hand_over import is_handed_over
from counterhoop.bench.folders.history import before
from counterhoop.bench.folders.kinds import HANDOVER, PROMISE
from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.bench.promise.promise_of import PromiseTold, promise_in
from counterhoop.bench.promise.promises import Promises, promises_of
from counterhoop.bench.promise.shop_plan import ShopPlan, if_it_came_in_now
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.quantities.day import say_weekday
from counterhoop.web.bench_planned import BenchPlanned, bench_planned, patiently
from counterhoop.web.date_waits import Waiting, taken_for_granted, waits_of
from counterhoop.web.date_words import (
    CameInWay,
    before_it,
    came_in_lines,
    others_late,
    promised_says,
    ready_beside,
    ready_says,
    stands_says,
    weight_choices,
)
from counterhoop.web.folder_index import job_address
from counterhoop.web.forms import fault_words

IF, TODAY = "if", "today"
"""The question of the address: if it came in today."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DateTyped:
    """What was typed into one of the forms and could not be kept.

    Attributes
    ----------
    form : str
        "promise", "weight" or "comes".
    values : mapping of str to str
    fault : BadInput
    ticked : tuple of str
        What was ticked as coming.
    """

    form: str
    values: Mapping[str, str]
    fault: BadInput
    ticked: tuple[str, ...] = ()

    @property
    def field(self) -> str:
        """The field that is wrong; the first that was typed where the fault names none."""
        return self.fault.where if self.fault.where in self.values else next(iter(self.values))


@dataclass(frozen=True, slots=True, kw_only=True)
class DateDesk:
    """What the sheets of the date show.

    Attributes
    ----------
    job : KeptJob
    address : str
        Where its forms are sent.
    kept : Kept
        The document of what was promised.
    undo_to : int or None
        The revision that one step back goes to.
    promises : Promises
    open : bool
        Not handed over yet.
    planned : BenchPlanned
        How far the plan of the bench is.
    refused : str
        Why the plan has no day for the job, in words.
    told : PromiseTold or None
        The day to promise, once the plan is there.
    work, how, assumes : tuple of str
        What hands are at until then; how it was reckoned; what it takes for granted. Sentences.
    stands : str
        Whether the promise that counts still holds.
    others : tuple of str
        Promises to others that do not hold as the bench stands.
    waits : tuple of Waiting
    came_in : tuple of (str, tuple of str)
        If it came in today: when, and who would wait.
    came_in_working, came_in_failed : Working, Failed or None
    asked_if : bool
        Whether that was asked.
    typed : DateTyped or None
    """

    job: KeptJob
    address: str
    kept: Kept
    undo_to: int | None
    promises: Promises
    open: bool = True
    planned: BenchPlanned = field(default_factory=BenchPlanned)
    refused: str = ""
    told: PromiseTold | None = None
    work: tuple[str, ...] = ()
    how: tuple[str, ...] = ()
    assumes: tuple[str, ...] = ()
    stands: str = ""
    others: tuple[str, ...] = ()
    waits: tuple[Waiting, ...] = ()
    came_in: tuple[CameInWay, ...] = ()
    came_in_working: Working | None = None
    came_in_failed: Failed | None = None
    asked_if: bool = False
    typed: DateTyped | None = None

    @property
    def promised(self) -> tuple[str, ...]:
        """What was promised, the newest first, in words."""
        return tuple(promised_says(one) for one in self.promises.every[::-1])

    @property
    def weight(self) -> str:
        """How much it matters, as it is written; empty for as much as any other."""
        return str(self.kept.table.get("weight") or "")

    @property
    def at_work(self) -> Working | None:
        """What the page waits for, for ``work.head`` and ``work.scripts``."""
        return self.planned.working or self.came_in_working

    @property
    def face(self) -> str:
        """The day to promise."""
        return ready_says(self.told.found) if self.told else ""

    @property
    def beside(self) -> str:
        """What it is worth."""
        return ready_beside(self.told.found) if self.told else ""

    @property
    def to_tell(self) -> str:
        """The one day that a client is told, whatever else is weighed."""
        return f"The day to tell is {say_weekday(self.told.found.day)}." if self.told else ""

    @property
    def weights(self) -> tuple[tuple[str, str], ...]:
        """How much it can be said to matter."""
        return weight_choices(self.weight)

    @property
    def client(self) -> str:
        """Who is usually told."""
        return str(self.job.job.get("client") or "")

    def fault_of(self, form: str, name: str) -> str:
        """Return what is wrong with a field of a form, empty where nothing is."""
        typed = self.typed
        if typed is None or typed.form != form or typed.field != name:
            return ""
        return fault_words(typed.fault)

    @property
    def first_day(self) -> str:
        """The day that the form for a promise begins with."""
        return self.told.found.day.isoformat() if self.told else ""


def date_desk(
    request: Request, shop: Workshop, job: KeptJob, *, typed: DateTyped | None = None
) -> DateDesk:
    """Gather the date of a job.

    Parameters
    ----------
    job : KeptJob
        The folder as the page has it open.
    typed : DateTyped, optional
        What could not be kept just now.
    """
    kept, promises = job.kept(PROMISE), promises_of(job)
    is_open = not is_handed_over(job.kept(HANDOVER).table)
    known = bench_planned(shop) if is_open else BenchPlanned()
    told, refused = _told(known, job.id)
    asked_if = request.query_params.get(IF) == TODAY and promises.stands is None
    answer = patiently(shop, lambda: if_it_came_in_now(shop, job.id)) if asked_if and told else None
    waits = waits_of(known.bench, job.id, promises.arrivals)
    return DateDesk(
        job=job,
        address=f"{job_address(job)}/date",
        kept=kept,
        undo_to=before(kept, shop) if kept.number else None,
        promises=promises,
        open=is_open,
        planned=known,
        refused=refused,
        told=told,
        work=before_it(known.plan, job.id) if known.plan is not None and told else (),
        how=_how(known.plan, told),
        assumes=_assumes(known.plan, job.id, waits) if told else (),
        stands=_stands(known.plan, job.id),
        others=others_late(known.plan, job.id) if known.plan is not None else (),
        waits=waits,
        asked_if=asked_if,
        came_in=tuple(came_in_lines(answer.value, titles=known.titles))
        if isinstance(answer, Done)
        else (),
        came_in_working=answer if isinstance(answer, Working) else None,
        came_in_failed=answer if isinstance(answer, Failed) else None,
        typed=typed,
    )


def _told(known: BenchPlanned, job: str) -> tuple[PromiseTold | None, str]:
    """Return the day to promise, or why there is none."""
    if known.plan is None:
        return None, ""
    try:
        return promise_in(known.plan, job), ""
    except BadInput as fault:
        return None, str(fault.given or fault)


def _stands(plan: ShopPlan | None, job: str) -> str:
    stands = plan.found.still.get(job) if plan is not None else None
    return stands_says(stands, today=plan.start) if plan and stands else ""


def _assumes(plan: ShopPlan | None, job: str, waits: Sequence[Waiting]) -> tuple[str, ...]:
    """Return what the plan takes for granted of a job, what it waits for in one sentence."""
    if plan is None:
        return ()
    work = plan.bench.job(job).work
    said = (*work.left_out, taken_for_granted(waits), *(s for d in work.drums for s in d.says))
    return tuple(dict.fromkeys(line for line in said if line))


def _how(plan: ShopPlan | None, told: PromiseTold | None) -> tuple[str, ...]:
    if plan is None or told is None:
        return ()
    said = (told.exactly, plan.bench.setting.hours.says, plan.looked)
    return tuple(line for line in said if line)
