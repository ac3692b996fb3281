"""Which work on which drum is meant: looked up in the open jobs before anything is written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.promise.bench_now import BenchNow, OpenJob
from counterhoop.bench.promise.pieces import Work
from counterhoop.errors import BadInput
from counterhoop.job.hours.belief import Belief, believed
from counterhoop.shell.operations import Operation
from counterhoop.store.work_log.working import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class What:
    """An operation on a drum of an open job.

    Attributes
    ----------
    job : OpenJob
    drum : KeptDrum
    operation : Operation
        As the book is for this job.
    left : tuple of Work
        What of it is left by the scheme; empty where the scheme does not ask for it.
    """

    job: OpenJob
    drum: KeptDrum
    operation: Operation
    left: tuple[Work, ...] = ()

    @property
    def times_left(self) -> int:
        """How many are left by the scheme."""
        return sum(one.times for one in self.left)

    @property
    def waits_for(self) -> str:
        """What has to come before hands may be laid on it; empty where nothing has to.

        A yes is needed for whatever cuts wood, and for all that the scheme begins after stripping;
        where the price is agreed, after cleaning.
        """
        its = next((one for one in self.job.work.drums if one.drum == self.drum.name), None)
        if its is None or not its.for_client:
            return ""
        steps = {one.step for one in self.left}
        if steps <= set(its.before_yes) if steps else self.operation.air != "dust":
            return ""
        return its.for_client[0].what

    @property
    def per_piece(self) -> bool:
        """Whether one drum has several of it: holes, lugs, patches."""
        return self.operation.per != "drum"


def what_of(bench: BenchNow, *, job: str, drum: str, operation: str) -> What:
    """Return what is meant.

    Parameters
    ----------
    job, drum : str
        By their names for programs.
    operation : str
        Name in the operations book.

    Raises
    ------
    BadInput
        For a job that is not open, a drum that it has not, and an operation not in the book.
    """
    opened = bench.job(job)
    its = opened.kept.drum(drum)
    named = next((one for one in opened.work.operations if one.name == operation), None)
    if named is None:
        raise BadInput(
            "no such work in the operations book", where="operation", given=operation,
            wanted="one of the list",
        )  # fmt: skip
    left = tuple(one for one in left_of_drum(opened, its) if one.operation == operation)
    return What(job=opened, drum=its, operation=named, left=left)


def what_was(bench: BenchNow, working: Working) -> What | None:
    """Return what a line of the log is about; None where its job is not open any more."""
    opened = next((one for one in bench.every if one.kept.id == working.job_id), None)
    if opened is None:
        return None
    every = (*opened.kept.drums, *opened.kept.hidden_drums)
    its = next((one for one in every if working.drum in (one.id, one.name)), None)
    named = next((one for one in opened.work.operations if one.name == working.operation), None)
    if its is None or named is None:
        return None
    left = tuple(one for one in left_of_drum(opened, its) if one.operation == named.name)
    return What(job=opened, drum=its, operation=named, left=left)


def left_of_drum(job: OpenJob, drum: KeptDrum) -> Iterator[Work]:
    """Yield what is left of a drum, in the order of the trade."""
    for one in job.work.drums:
        if one.drum == drum.name:
            yield from one.work


def belief_of(bench: BenchNow, operation: Operation) -> Belief:
    """Return what one of it takes, by the book and the whole log."""
    return believed(operation, bench.log.worked)
