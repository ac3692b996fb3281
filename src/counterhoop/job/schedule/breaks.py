"""A plan looked over by someone who trusts no planner: it counts in minutes of the calendar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from counterhoop.job.schedule.task import Placed, Plan, Shop, Task


def breaks_of(plan: Plan, tasks: Sequence[Task], shop: Shop) -> tuple[str, ...]:
    """Return in words all that a plan does which cannot be done; empty for a plan that holds.

    Shares no code with the planners, so that it does not repeat a mistake of theirs.
    """
    named = {task.key: task for task in tasks}
    placed: dict[str, Placed] = {}
    found = []
    for one in plan.placed:
        if one.key not in named or one.key in placed:
            found.append(f"{one.key}: stands in the plan and not once among the work")
        placed[one.key] = one
    found += [f"{key}: is not in the plan" for key in named if key not in placed]
    if found:
        return tuple(found)
    pairs = [(named[one.key], one) for one in plan.placed]
    for task, one in pairs:
        found += _alone(task, one, shop)
        for key in task.after:
            if one.stretches[0][0] < placed[key].cured:
                found.append(f"{task.key}: begins before {key} is cured")
    found += _hands(pairs)
    found += _taken(pairs, shop)
    found += _air(pairs)
    return tuple(found)


Pairs = Sequence[tuple[Task, Placed]]


def _alone(task: Task, one: Placed, shop: Shop) -> Iterator[str]:
    """Say what is wrong with one piece of work by itself."""
    if sum(until - since for since, until in one.stretches) != task.minutes:
        yield f"{task.key}: is not worked for its {task.minutes} minutes"
    for since, until in one.stretches:
        if not any(opens <= since < until <= closes for opens, closes in shop.open):
            yield f"{task.key}: is worked while the shop is closed"
    for (_, left), (resumed, _) in pairwise(one.stretches):
        if resumed < left:
            yield f"{task.key}: its stretches are not in order"
        if any(max(opens, left) < min(closes, resumed) for opens, closes in shop.open):
            yield f"{task.key}: is laid down while the shop is open"
    if task.unbroken and len(one.stretches) > 1:
        yield f"{task.key}: is laid down"
    if one.stretches[0][0] < task.not_before:
        yield f"{task.key}: begins before it can"
    if one.cured != one.stretches[-1][1] + task.cure_min:
        yield f"{task.key}: is not left alone for its {task.cure_min} minutes"


def _hands(pairs: Pairs) -> Iterator[str]:
    """Say where one person would have to be at two things, or left one for another."""
    for (before, one), (after, other) in pairwise(pairs):
        if other.stretches[0][0] < one.stretches[-1][1]:
            yield f"{after.key}: begins before {before.key} is finished"


def _taken(pairs: Pairs, shop: Shop) -> Iterator[str]:
    """Say when more clamps or places are held than there are."""
    for task, one in pairs:
        begins, ends = one.stretches[0][0], one.stretches[-1][1]
        clamps = sum(
            other.clamps
            for other, its in pairs
            if its.stretches[0][0] <= begins < its.cured
        ) + sum(held.clamps for held in shop.holds if begins < held.until)  # fmt: skip
        if task.clamps and clamps > shop.clamps:
            yield f"{task.key}: {clamps} clamps are held as it begins"
        places = sum(
            other.drying for other, its in pairs if its.stretches[-1][1] <= ends < its.cured
        ) + sum(held.drying for held in shop.holds if ends < held.until)
        if task.drying and places > shop.drying:
            yield f"{task.key}: {places} places to dry are taken as it ends"


def _air(pairs: Pairs) -> Iterator[str]:
    """Say where dust is made while something is wet."""
    for dusty, one in pairs:
        for wet, other in pairs:
            if (
                (dusty.air, wet.air) == ("dust", "wet")
                and one.stretches[0][0] < other.cured
                and other.stretches[0][0] < one.stretches[-1][1]
            ):
                yield f"{dusty.key}: makes dust before {wet.key} is cured"
