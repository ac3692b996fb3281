"""The best layout there is, with a proof, or the best found and how far it may be off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.wrap.first_layout import bins_of, rank
from counterhoop.wrap.least_sheets import least_sheets
from counterhoop.wrap.left_sizes import left_sizes
from counterhoop.wrap.tenths import Spot, Tenths

SEED = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Best:
    """A layout; below ``least_new`` new sheets and above ``most_left`` there is none."""

    spots: tuple[Spot, ...]
    least_new: int
    most_left: int
    proven: bool


def best_layout(nest: Tenths, *, start: Sequence[Spot] | None, effort: float) -> Best | None:
    """Improve a layout until nothing better exists or the effort is spent.

    First the fewest new sheets and, of those, the fewest offcuts; then, with these fixed, the
    largest rectangle left, which is packed like one more piece of free size.

    Parameters
    ----------
    nest : Tenths
        What to lay out.
    start : sequence of Spot or None
        A layout to improve on.
    effort : float
        The solver's own count of work for each of the two questions, close to seconds; the
        same on every machine, so that an answer is found again.

    Returns
    -------
    Best or None
        None when nothing fits; whether that is proven is not asked.

    Notes
    -----
    CP-SAT (ortools), optional intervals without overlap in two dimensions, one worker, fixed
    seed. Proven means that the solver closed both questions.
    """
    bound = least_sheets(nest)
    most = rank(nest, start)[0] if start is not None else nest.most_sheets
    if bound > most:
        return None
    spots = tuple(start) if start is not None else None
    fewest = False
    if spots is not None:
        new, offcuts, _ = rank(nest, spots)
        fewest = new == bound and _no_fewer_offcuts(nest, new=new, offcuts=offcuts)
    if not fewest:
        asked = _Model(nest, new=most)
        found = asked.fewest(hint=spots, least_new=bound, effort=effort)
        if found is not None:
            spots, fewest, least = found
            bound = max(bound, least)
    if spots is None:
        return None
    new, offcuts, left = rank(nest, spots)
    ceiling = _most_left(nest, new=new)
    sizes = left_sizes(nest, bins=bins_of(nest, new), new=new, least=-left)
    proven, most_left = True, -left
    if sizes:
        wider, proven, most = _Model(nest, new=new).largest(
            hint=spots, offcuts=offcuts, sizes=sizes, effort=effort
        )
        if rank(nest, wider) < rank(nest, spots):
            spots = wider
        most_left = max(most, -rank(nest, spots)[2])
    return Best(
        spots=spots,
        least_new=bound,
        most_left=min(ceiling, most_left) if fewest else ceiling,
        proven=fewest and proven,
    )


def _no_fewer_offcuts(nest: Tenths, *, new: int, offcuts: int) -> bool:
    """Whether fewer offcuts are ruled out by area alone."""
    if offcuts == 0:
        return True
    areas = sorted((w * h for w, h in nest.offcuts), reverse=True)
    room = new * nest.sheet[0] * nest.sheet[1] + sum(areas[: offcuts - 1])
    return sum(box.area for box in nest.boxes) > room


def _most_left(nest: Tenths, *, new: int) -> int:
    """Return the area of the largest bin that may be cut into: no rectangle is larger."""
    bins = [*nest.offcuts, *([nest.sheet] if new else [])]
    return max((w - nest.kerf) * (h - nest.kerf) for w, h in bins)


class _Model:
    """The variables that both questions share."""

    def __init__(self, nest: Tenths, *, new: int) -> None:
        from ortools.sat.python import cp_model

        self.cp = cp_model
        self.nest = nest
        self.bins = bins_of(nest, new)
        self.model: Any = cp_model.CpModel()
        self.used = [self.model.new_bool_var(f"used{b}") for b in range(len(self.bins))]
        self.x: list[Any] = []
        self.y: list[Any] = []
        self.turn: list[Any] = []
        self.into: list[list[Any]] = []
        self.rows: list[list[tuple[Any, Any, Any, Any]]] = [[] for _ in self.bins]
        for place in range(len(nest.boxes)):
            self._add_box(place)
        first = len(nest.offcuts)
        for b in range(first + 1, len(self.bins)):
            self.model.add_implication(self.used[b], self.used[b - 1])
        for place in range(len(nest.boxes)):
            for b in range(first + place + 1, len(self.bins)):
                self.model.add(self.into[place][b] == 0)

    def _add_box(self, place: int) -> None:
        model, box = self.model, self.nest.boxes[place]
        wide, high = max(b[0] for b in self.bins), max(b[1] for b in self.bins)
        x, y = model.new_int_var(0, wide, ""), model.new_int_var(0, high, "")
        if len(box.extents) == 1:
            turn = None
            w, h = box.extents[0]
        else:
            turn = model.new_bool_var("")
            (w0, h0), (w1, h1) = box.extents
            w, h = w0 + (w1 - w0) * turn, h0 + (h1 - h0) * turn
        x_end, y_end = self._end(x, w, wide), self._end(y, h, high)
        into = [model.new_bool_var("") for _ in self.bins]
        model.add_exactly_one(into)
        for b, (bw, bh) in enumerate(self.bins):
            model.add(x_end <= bw).only_enforce_if(into[b])
            model.add(y_end <= bh).only_enforce_if(into[b])
            model.add_implication(into[b], self.used[b])
            across = model.new_optional_interval_var(x, w, x_end, into[b], "")
            down = model.new_optional_interval_var(y, h, y_end, into[b], "")
            self.rows[b].append((across, down, w, h))
        self.x.append(x)
        self.y.append(y)
        self.turn.append(turn)
        self.into.append(into)

    def _end(self, start: Any, extent: Any, most: int) -> Any:
        end = self.model.new_int_var(0, most, "")
        self.model.add(end == start + extent)
        return end

    def _close(self) -> None:
        for b, (bw, bh) in enumerate(self.bins):
            rows = self.rows[b]
            self.model.add_no_overlap_2d([r[0] for r in rows], [r[1] for r in rows])
            self.model.add_cumulative([r[0] for r in rows], [r[3] for r in rows], bh)
            self.model.add_cumulative([r[1] for r in rows], [r[2] for r in rows], bw)

    def _loads(self, b: int) -> Any:
        return sum(box.area * self.into[place][b] for place, box in enumerate(self.nest.boxes))

    def _hint(self, spots: Sequence[Spot] | None) -> None:
        if spots is None:
            return
        numbers = self._renumbered(spots)
        for place, spot in enumerate(spots):
            self.model.add_hint(self.x[place], spot.x)
            self.model.add_hint(self.y[place], spot.y)
            if self.turn[place] is not None:
                turned = (spot.w, spot.h) == self.nest.boxes[place].extents[1]
                self.model.add_hint(self.turn[place], turned)
            for b, into in enumerate(self.into[place]):
                self.model.add_hint(into, numbers[spot.bin] == b)

    def _renumbered(self, spots: Sequence[Spot]) -> dict[int, int]:
        """Number the new sheets in the order in which pieces are given, as the model does."""
        first = len(self.nest.offcuts)
        numbers = {b: b for b in range(first)}
        following = first
        for spot in spots:
            if spot.bin not in numbers:
                numbers[spot.bin] = following
                following += 1
        return numbers

    def _solver(self, effort: float) -> Any:
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = SEED
        solver.parameters.max_deterministic_time = effort
        return solver

    def _spots(self, solver: Any) -> tuple[Spot, ...]:
        found = []
        for place, box in enumerate(self.nest.boxes):
            way = 0 if self.turn[place] is None else int(solver.value(self.turn[place]))
            number = next(b for b, into in enumerate(self.into[place]) if solver.value(into))
            w, h = box.extents[way]
            found.append(
                Spot(
                    bin=number,
                    x=solver.value(self.x[place]),
                    y=solver.value(self.y[place]),
                    w=w,
                    h=h,
                    turned=box.turned[way],
                )
            )
        return tuple(found)

    def fewest(
        self, *, hint: Sequence[Spot] | None, least_new: int, effort: float
    ) -> tuple[tuple[Spot, ...], bool, int] | None:
        """Return a layout on the fewest bins, whether that is proven, and the least new."""
        first = len(self.nest.offcuts)
        weight = first + 1
        for b, (bw, bh) in enumerate(self.bins):
            self.model.add(self._loads(b) <= bw * bh * self.used[b])
        self._close()
        new = sum(self.used[first:])
        self.model.add(new >= least_new)
        self.model.minimize(weight * new + sum(self.used[:first]))
        self._hint(hint)
        solver = self._solver(effort)
        status = solver.solve(self.model)
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            return None
        least = round(solver.best_objective_bound) // weight
        return self._spots(solver), status == self.cp.OPTIMAL, max(least_new, least)

    def largest(
        self,
        *,
        hint: Sequence[Spot],
        offcuts: int,
        sizes: Sequence[tuple[int, int, int]],
        effort: float,
    ) -> tuple[tuple[Spot, ...], bool, int]:
        """Return a layout that leaves one of the sizes, whether proven, and a ceiling.

        The layout hinted at is returned where no other leaves one of them.
        """
        model, kerf = self.model, self.nest.kerf
        model.add(sum(self.used[: len(self.nest.offcuts)]) <= offcuts)
        wide, high = (sorted({size[side] for size in sizes}) for side in (0, 1))
        w = model.new_int_var_from_domain(self.cp.Domain.from_values(wide), "left w")
        h = model.new_int_var_from_domain(self.cp.Domain.from_values(high), "left h")
        longest, highest = max(b[0] for b in self.bins), max(b[1] for b in self.bins)
        x, y = model.new_int_var(0, longest, ""), model.new_int_var(0, highest, "")
        x_end, y_end = self._end(x, w, longest), self._end(y, h, highest)
        product = model.new_int_var(0, wide[-1] * high[-1], "")
        model.add_multiplication_equality(product, [w, h])
        area = product - kerf * w - kerf * h + kerf * kerf
        model.add(area >= min(size[2] for size in sizes))
        model.add(area <= max(size[2] for size in sizes))
        inside = [model.new_bool_var("") for _ in self.bins]
        model.add_exactly_one(inside)
        for b, (bw, bh) in enumerate(self.bins):
            load = self._loads(b)
            model.add(load <= bw * bh * self.used[b])
            model.add(load >= self.used[b])
            model.add_implication(inside[b], self.used[b])
            model.add(load + product <= bw * bh).only_enforce_if(inside[b])
            # A sheet seen in a mirror is as good: the rectangle lies toward its first corner.
            model.add(x + x_end <= bw).only_enforce_if(inside[b])
            model.add(y + y_end <= bh).only_enforce_if(inside[b])
            across = model.new_optional_interval_var(x, w, x_end, inside[b], "")
            down = model.new_optional_interval_var(y, h, y_end, inside[b], "")
            self.rows[b].append((across, down, w, h))
        self._close()
        model.maximize(area)
        self._hint(hint)
        solver = self._solver(effort)
        status = solver.solve(model)
        if status == self.cp.INFEASIBLE:
            return tuple(hint), True, 0
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            return tuple(hint), False, max(size[2] for size in sizes)
        ceiling = round(solver.best_objective_bound)
        return self._spots(solver), status == self.cp.OPTIMAL, ceiling
