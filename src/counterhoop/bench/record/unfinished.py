"""What is not done yet on a drum: open work, glue that sets, agreed harm that is not mended."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.change.found import FoundOnDrum
from counterhoop.bench.folders.folder import KeptDrum, KeptJob, drawer
from counterhoop.bench.price.works import work_lines
from counterhoop.bench.promise.by_the_log import by_the_log
from counterhoop.bench.promise.hours_open import open_hours
from counterhoop.bench.promise.job_work import JobAsked
from counterhoop.bench.promise.log_said import NOT_BEGUN, OperationLog, log_said
from counterhoop.bench.promise.pieces import Cures
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.setting import Setting
from counterhoop.bench.record.left import not_ticked
from counterhoop.bench.today.after import say_clock
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.drawing.marks import HARM
from counterhoop.quantities.day import say_day
from counterhoop.scheme.phrases import counted
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.drum import Drum
from counterhoop.shell.shop_rules import ShopFigures

AROUND: Final = frozenset({"photograph and book in", "survey a drum", "pack a drum"})
"""Operations without which a drum is finished all the same."""
CUTS: Final = frozenset({"plug a hole", "drill a hole", "enlarge a hole", "slot a hole"})
"""Operations whose holes are ticked."""
GLUES: Final = "glue a lifted ply"
MENDED_BY_GLUE: Final = frozenset({"crack", "loose ply"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Unfinished:
    """What is not done on a drum.

    Attributes
    ----------
    sets : tuple of str
        What is to be left alone for a while yet, a sentence each.
    open : tuple of str
        Work that is open, and harm that was agreed to be mended, a sentence each.
    """

    sets: tuple[str, ...] = ()
    open: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ByTheLog:
    """What the log says of the drums of a job.

    Attributes
    ----------
    said : mapping of str to mapping
        By the drum's name for programs, by operation.
    cures : tuple of Cures
    """

    said: Mapping[str, Mapping[str, OperationLog]]
    cures: tuple[Cures, ...] = ()


def log_of_job(shop: Workshop, job: KeptJob) -> ByTheLog:
    """Read the log of a job."""
    now = clock_of(shop)
    log = log_said(shop, now=now)
    said = {drum.id: log.of(job.id, drum) for drum in job.drums}
    try:
        setting = Setting(now=now, hours=open_hours(shop))
    except BadInput:
        return ByTheLog(said=said)
    asked = JobAsked(job=job, held=drawer(shop), log=log, setting=setting)
    cures = tuple(one for drum in by_the_log(shop, asked).drums for one in drum.cures)
    return ByTheLog(said=said, cures=cures)


def unfinished(
    drum: KeptDrum, scheme: Scheme | None, log: ByTheLog, later: FoundOnDrum, *,
    figures: ShopFigures | None, done: Collection[int],
) -> Unfinished:  # fmt: skip
    """Return what is not done; nothing of work where nobody keeps the log of this drum.

    Parameters
    ----------
    done : collection of int
        Holes that are ticked.
    """
    said = log.said.get(drum.id, {})
    sets = tuple(
        f"{cures.says[:1].upper()}{cures.says[1:]}: leave it alone until {say_day(cures.until)},"
        f" {say_clock(cures.until)}."
        for cures in log.cures
        if cures.drum == drum.name
    )
    found = []
    if scheme is not None and figures is not None and said:
        lines = work_lines(scheme, figures=figures)
        works = {line.operation: line.count for line in lines if line.operation not in AROUND}
        cut = not not_ticked(scheme.layout, done)
        left = [
            name
            for name, count in works.items()
            if not (name in CUTS and cut) and not _is_done(said.get(name, NOT_BEGUN), count)
        ]
        if left:
            verb = "is" if len(left) == 1 else "are"
            found.append(
                f"{len(left)} of {counted(len(works), 'work')} {verb} open by the log:"
                f" {', '.join(left)}."
            )
    found += [f"Agreed, and not in the log as done: {one}" for one in _agreed_open(later, said)]
    return Unfinished(sets=sets, open=tuple(found))


def is_mended(drum: Drum, said: Mapping[str, OperationLog]) -> bool:
    """Tell whether the log says that every crack and lifted ply of a drum is glued."""
    harm = sum(line.kind in HARM for line in drum.lines)
    return bool(harm) and _is_done(said.get(GLUES, NOT_BEGUN), harm)


def _agreed_open(later: FoundOnDrum, said: Mapping[str, OperationLog]) -> Iterator[str]:
    things = [one for one in later.stands if one.sort in MENDED_BY_GLUE]
    agreed = [one for one in things if (answer := later.answer_to(one)) and answer.yes]
    if not _is_done(said.get(GLUES, NOT_BEGUN), len(agreed)):
        yield from (one.says for one in agreed)


def _is_done(log: OperationLog, count: int) -> bool:
    return log.finished or sum(many for many, _ in log.done) >= count
