"""A solver asked for a better plan, and for how late every plan must be."""

from __future__ import annotations

from typing import Any, NamedTuple

from counterhoop.job.schedule.alone import heads
from counterhoop.job.schedule.better_order import Found, Stop
from counterhoop.job.schedule.numbered import Numbered
from counterhoop.job.schedule.worked import Worked, worked

SEED = 1


class Proof(NamedTuple):
    """The best order known, and below what lateness, in hundredths, there is none."""

    found: Found
    bound: int


def prove(numbered: Numbered, best: Found, *, effort: float, stop: Stop) -> Proof:
    """Look for a plan less late than the best one, or show that there is none.

    Parameters
    ----------
    numbered : Numbered
    best : Found
        The best plan so far; no later one is looked for.
    effort : float
        The solver's own count of work, close to seconds; the same on every machine, so that an
        answer is found again.
    stop : callable
        Asked at each answer and each bound of the solver.

    Notes
    -----
    CP-SAT (ortools), one worker, fixed seed. Work is counted in open minutes, in which it has
    no breaks; a choice of the stretch in which it begins and ends gives the minutes of the
    calendar in which glue cures. What is found begins in some order, and that order worked
    through strictly is no later: all that is counted only grows when work begins later.
    """
    from ortools.sat.python import cp_model

    model = _Model(numbered, cp_model, best)
    solver: Any = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = SEED
    solver.parameters.max_deterministic_time = effort

    def look(_: float) -> None:
        if stop():
            solver.stop_search()

    solver.best_bound_callback = look
    status = solver.solve(model.model)
    bound = max(0, round(solver.best_objective_bound))
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        begins = [solver.value(var) for var in model.begins]
        order = sorted(range(len(begins)), key=lambda one: begins[one])
        best = min(best, strictly(numbered, order), key=lambda one: one.value)
    return Proof(best, best.work.late if status == cp_model.OPTIMAL else bound)


def strictly(numbered: Numbered, order: list[int]) -> Found:
    """Return an order worked through with nothing begun before its turn, then set free.

    What would have kept its turn anyway is not held.
    """
    held = [True] * len(order)
    work = worked(numbered, order, held=held, minutes=numbered.minutes)
    if len(work.order) == len(order):
        held = least_held(numbered, work)
    return Found(work, held)


def least_held(numbered: Numbered, work: Worked) -> list[bool]:
    """Return what must be held so that an order is worked as it was."""
    held = [False] * len(work.order)
    while True:
        again = worked(numbered, work.order, held=held, minutes=numbered.minutes)
        odd = next(
            (
                one
                for one, other in zip(again.order, work.order, strict=False)
                if one != other
            ),
            None,
        )  # fmt: skip
        if odd is None:
            return held
        held[odd] = True


class _Model:
    """The variables and what ties them."""

    def __init__(self, numbered: Numbered, cp: Any, best: Found) -> None:
        self.numbered, self.model = numbered, cp.CpModel()
        self.cp = cp
        clock = numbered.clock
        self.stretches = [clock.stretch(number) for number in clock.openings]
        self.soonest, self.latest = self._windows()
        count = range(len(numbered.keys))
        self.begins = [
            self.model.new_int_var(self.soonest[one], self.latest[one], "") for one in count
        ]
        for one in count:
            self.model.add_hint(self.begins[one], best.work.begins[one])
        self.model.add_no_overlap([
            self.model.new_fixed_size_interval_var(self.begins[one], numbered.minutes[one], "")
            for one in count
        ])  # fmt: skip
        self.opened = [self._calendar(one, first=True) for one in count]
        self.ended = [
            self.opened[one] if numbered.unbroken[one] else self._calendar(one, first=False)
            for one in count
        ]
        for one in count:
            for earlier in numbered.before[one]:
                self._after(earlier, one)
        self._held()
        self._air()
        self._lateness(best)

    def _windows(self) -> tuple[list[int], list[int]]:
        """Return the first and the last open minute with which each may begin."""
        numbered, clock = self.numbered, self.numbered.clock
        latest = [clock.total - minutes for minutes in numbered.minutes]
        soonest = [min(pair) for pair in zip(heads(numbered), latest, strict=True)]
        return soonest, latest

    def _calendar(self, one: int, *, first: bool) -> Any:
        """Return the minute of the calendar at which work begins, or hands are off it.

        Chosen is the stretch in which its first or its last minute lies; what is not to be laid
        down has both in one.
        """
        numbered, at = self.numbered, self.numbered.clock.at
        extra = 0 if first else numbered.minutes[one] - 1
        least, most = self.soonest[one] + extra, self.latest[one] + extra
        low: Any = 0
        high: Any = 0
        shift: Any = 0
        chosen = []
        for opens, closes in self.stretches:
            if closes <= least or opens > most:
                continue
            here = self.model.new_bool_var("")
            chosen.append(here)
            low += opens * here
            high += (closes - 1) * here
            shift += (at[opens] - opens) * here
        self.model.add_exactly_one(chosen)
        number = self.begins[one] + extra
        self.model.add(number >= low)
        last = number + (numbered.minutes[one] - 1 if numbered.unbroken[one] else 0)
        self.model.add(last <= high)
        minute = self.model.new_int_var(at[least], at[most] + 1, "")
        self.model.add(minute == number + shift + (0 if first else 1))
        return minute

    def _cured(self, one: int) -> Any:
        """Return the minute of the calendar at which work is cured."""
        numbered = self.numbered
        if numbered.unbroken[one]:
            return self.opened[one] + numbered.minutes[one] + numbered.cure[one]
        return self.ended[one] + numbered.cure[one]

    def _after(self, earlier: int, one: int) -> None:
        """Let work begin when what it waits for is cured."""
        self.model.add(self.begins[one] >= self.begins[earlier] + self.numbered.minutes[earlier])
        if self.numbered.cure[earlier]:
            self.model.add(self.opened[one] >= self._cured(earlier))

    def _held(self) -> None:
        """Count clamps and places to dry."""
        numbered, model = self.numbered, self.model
        last = numbered.clock.last + max(numbered.cure, default=0)
        holds = numbered.shop.holds
        for column, limit, from_begin, taken_by in (
            (numbered.clamps, numbered.shop.clamps, True, [one.clamps for one in holds]),
            (numbered.drying, numbered.shop.drying, False, [one.drying for one in holds]),
        ):
            if sum(column) + sum(taken_by) <= limit:
                continue
            intervals = [model.new_fixed_size_interval_var(0, one.until, "") for one in holds]
            counts = list(taken_by)
            for one, taken in enumerate(column):
                if not taken:
                    continue
                until = model.new_int_var(0, last, "")
                model.add(until == self._cured(one))
                since = self.opened[one] if from_begin else until - numbered.cure[one]
                long = model.new_int_var(0, last, "") if from_begin else numbered.cure[one]
                intervals.append(model.new_interval_var(since, long, until, ""))
                counts.append(taken)
            model.add_cumulative(intervals, counts, limit)

    def _air(self) -> None:
        """Let dust be made before wet work begins or when it is cured."""
        numbered, model = self.numbered, self.model
        for dusty in (one for one, makes in enumerate(numbered.dust) if makes):
            for wet in (one for one, is_wet in enumerate(numbered.wet) if is_wet):
                first = model.new_bool_var("")
                model.add(
                    self.begins[dusty] + numbered.minutes[dusty] <= self.begins[wet]
                ).only_enforce_if(first)
                model.add(self.opened[dusty] >= self._cured(wet)).only_enforce_if(~first)

    def _lateness(self, best: Found) -> None:
        """Minimise what is late, and look for nothing later than the best so far."""
        numbered, model = self.numbered, self.model
        total: Any = 0
        for job, weight in enumerate(numbered.weight):
            if not weight:
                continue
            least = max(0, numbered.cures[job] - numbered.by[job])
            late = model.new_int_var(least, best.work.late // weight, "")
            for one in range(len(numbered.keys)):
                later = (numbered.job[each] for each in numbered.then[one])
                if numbered.job[one] == job and job not in later:
                    model.add(late >= self._cured(one) - numbered.by[job])
            total += weight * late
        model.minimize(total)
