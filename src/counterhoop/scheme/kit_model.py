"""One option a drum, best first in one thing, then in the next: exact."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

MOST_IN_ONE = 2**50  # objectives are joined up to this; the solver adds in 64 bits
SEED = 1


class Aim(StrEnum):
    """What is made least."""

    STOPS = "stopped schemes"
    DIFFERENCES = "differences between drums that must match"
    MONEY = "money"
    CUT = "holes cut anew"
    SHOWS = "what shows"


FIRST_MATCH = tuple(Aim)
"""The order for a kit: no stop before anything, matching before money."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One scheme of a drum in whole numbers; ``parts`` are (place in ``Puzzle.parts``, count)."""

    stops: int
    bench_minor: int
    cut: int
    shows_mm2: int
    parts: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedPart:
    """A part that several drums draw on: what the stock holds, and what one more costs."""

    in_stock: int
    each_minor: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Options of two drums (by place) that differ in one aspect, though the drums must match."""

    first: int
    second: int
    together: frozenset[tuple[int, int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Puzzle:
    """The whole choice: options of each drum in the order they are preferred, parts, clashes."""

    options: tuple[tuple[Option, ...], ...]
    parts: tuple[SharedPart, ...] = ()
    clashes: tuple[Clash, ...] = ()

    def score(self, picks: Sequence[int]) -> Mapping[Aim, int]:
        """Return what a choice comes to in each aim."""
        chosen = [options[p] for options, p in zip(self.options, picks, strict=True)]
        wanted: Counter[int] = Counter()
        for option in chosen:
            for part, count in option.parts:
                wanted[part] += count
        bought = sum(
            max(0, count - self.parts[part].in_stock) * self.parts[part].each_minor
            for part, count in wanted.items()
        )
        return {
            Aim.STOPS: sum(o.stops for o in chosen),
            Aim.DIFFERENCES: sum(
                (picks[c.first], picks[c.second]) in c.together for c in self.clashes
            ),
            Aim.MONEY: bought + sum(o.bench_minor for o in chosen),
            Aim.CUT: sum(o.cut for o in chosen),
            Aim.SHOWS: sum(o.shows_mm2 for o in chosen),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked:
    """A choice, by place of the option in each drum, and whether nothing better can exist."""

    picks: tuple[int, ...]
    proven: bool


def pick(
    puzzle: Puzzle,
    *,
    aims: Sequence[Aim] = FIRST_MATCH,
    other_than: tuple[int, ...] | None = None,
    effort: float = 20.0,
) -> Picked | None:
    """Return the choice that is least in the first aim, among those least in the next, and so on.

    Choices that are level in every aim go by the options' places: the least sum, then the least
    place of the first drum, of the second and so on. One drum is looked through; several are
    solved as an integer program with CP-SAT (ortools), one worker and a fixed seed, so that the
    same kit always gets the same answer.

    Parameters
    ----------
    puzzle : Puzzle
        At least one option for each drum.
    aims : sequence of Aim
        In the order that decides.
    other_than : tuple of int, optional
        A choice that is not wanted, for the runner-up.
    effort : float
        Deterministic seconds for each objective (a count of the solver's steps, no clock).

    Returns
    -------
    Picked or None
        None where no other choice exists. ``proven`` only when the solver closed every objective
        (status OPTIMAL).
    """
    if not puzzle.options:
        return None if other_than is not None else Picked(picks=(), proven=True)
    if len(puzzle.options) == 1:
        return _look_through(puzzle, aims, other_than)
    if other_than is not None and all(len(options) == 1 for options in puzzle.options):
        return None
    return _solve(puzzle, aims, other_than, effort)


def _look_through(
    puzzle: Puzzle, aims: Sequence[Aim], other_than: tuple[int, ...] | None
) -> Picked | None:
    places = [p for p in range(len(puzzle.options[0])) if (p,) != other_than]
    if not places:
        return None
    scores = {p: puzzle.score((p,)) for p in places}
    best = min(places, key=lambda p: (*(scores[p][aim] for aim in aims), p))
    return Picked(picks=(best,), proven=True)


def _solve(
    puzzle: Puzzle, aims: Sequence[Aim], other_than: tuple[int, ...] | None, effort: float
) -> Picked:
    from ortools.sat.python import cp_model

    model: Any = cp_model.CpModel()
    taken = [[model.new_bool_var(f"x{d}.{i}") for i in range(len(o))] for d, o in _each(puzzle)]
    for row in taken:
        model.add_exactly_one(row)
    if other_than is not None:
        model.add_bool_or([~row[p] for row, p in zip(taken, other_than, strict=True)])
    sums = _aims(model, puzzle, taken)
    goals = [sums[aim] for aim in aims] + _places(taken)

    picks = _anything(puzzle, other_than)
    proven = True
    for objective in _joined(goals):
        model.clear_hints()
        for row, place in zip(taken, picks, strict=True):
            for i, var in enumerate(row):
                model.add_hint(var, i == place)
        model.minimize(objective)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = SEED
        solver.parameters.max_deterministic_time = effort
        status = solver.solve(model)
        proven = proven and status == cp_model.OPTIMAL
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return Picked(picks=picks, proven=False)
        picks = tuple(next(i for i, x in enumerate(row) if solver.value(x)) for row in taken)
        model.add(objective <= solver.value(objective))
    return Picked(picks=picks, proven=proven)


def _each(puzzle: Puzzle) -> enumerate[tuple[Option, ...]]:
    return enumerate(puzzle.options)


def _anything(puzzle: Puzzle, other_than: tuple[int, ...] | None) -> tuple[int, ...]:
    """Return a first choice to start from: each drum's preferred option, or one step aside."""
    picks = [0] * len(puzzle.options)
    if tuple(picks) == other_than:
        free = next(d for d, options in enumerate(puzzle.options) if len(options) > 1)
        picks[free] = 1
    return tuple(picks)


def _aims(model: Any, puzzle: Puzzle, taken: list[list[Any]]) -> dict[Aim, tuple[Any, int]]:
    """Return each aim as a linear sum of the choice, with the most that it can come to."""
    pairs = [
        (o, x)
        for (_, options), row in zip(_each(puzzle), taken, strict=True)
        for o, x in zip(options, row, strict=True)
    ]

    def total(value: str) -> tuple[Any, int]:
        most = sum(max(getattr(o, value) for o in options) for options in puzzle.options)
        return sum(getattr(o, value) * x for o, x in pairs), most

    bench, most_bench = total("bench_minor")
    bought, most_bought = 0, 0
    for place, part in enumerate(puzzle.parts):
        most = sum(max(dict(o.parts).get(place, 0) for o in options) for options in puzzle.options)
        if most <= part.in_stock or not part.each_minor:
            continue
        buy = model.new_int_var(0, most - part.in_stock, f"buy{place}")
        wanted = sum(dict(o.parts).get(place, 0) * x for o, x in pairs)
        model.add(buy >= wanted - part.in_stock)
        bought += part.each_minor * buy
        most_bought += part.each_minor * (most - part.in_stock)
    return {
        Aim.STOPS: total("stops"),
        Aim.DIFFERENCES: (
            sum(_clash(model, c, taken) for c in puzzle.clashes),
            len(puzzle.clashes),
        ),
        Aim.MONEY: (bench + bought, most_bench + most_bought),
        Aim.CUT: total("cut"),
        Aim.SHOWS: total("shows_mm2"),
    }


def _clash(model: Any, clash: Clash, taken: list[list[Any]]) -> Any:
    """Return a variable that is 1 at least where the options taken differ."""
    differs = model.new_bool_var(f"differ{clash.first}.{clash.second}")
    for i, x in enumerate(taken[clash.first]):
        against = [taken[clash.second][j] for a, j in sorted(clash.together) if a == i]
        if against:
            model.add(x + sum(against) - 1 <= differs)
    return differs


def _places(taken: list[list[Any]]) -> list[tuple[Any, int]]:
    drums = [(sum(i * x for i, x in enumerate(row)), len(row) - 1) for row in taken]
    return [(sum(d for d, _ in drums), sum(most for _, most in drums)), *drums]


def _joined(goals: Sequence[tuple[Any, int]]) -> list[Any]:
    """Join goals, first most, into as few objectives as 64 bits allow, leaving out fixed ones."""
    joined: list[Any] = []
    objective, most = 0, 0
    for goal, most_goal in goals:
        if not most_goal:
            continue
        if most and most * (most_goal + 1) + most_goal > MOST_IN_ONE:
            joined.append(objective)
            objective, most = 0, 0
        objective = objective * (most_goal + 1) + goal
        most = most * (most_goal + 1) + most_goal
    return [*joined, objective] if most else joined
