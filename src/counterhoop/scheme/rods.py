"""How long the rods of a head must be, and which of the book to take."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.development.flat import End
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.heads import HeadPlan, MouthAt, heads_of
from counterhoop.scheme.layout import Layout, RodPlan
from counterhoop.scheme.threading import goes_into, major_mm
from counterhoop.shell.shop_rules import ShopRules

SPARE_MM = 1.0
"""Two readings of a rule, half a millimetre each: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """What a rod goes through on its way into the lugs of one head that share a thread.

    Lengths are from the washer's seat on the hoop, the head at pitch; the washer under the rod's
    head comes on top of them.

    Attributes
    ----------
    near_mm, far_mm : float
        From the seat to the highest and to the lowest lug mouth of the row.
    engaged_mm : float
        Thread wanted in the lug.
    bottom_mm : float
        From the seat to where the rod must have ended in the shallowest lug; infinite when the
        book does not say how deep the lugs are.
    """

    head: End
    thread: str
    count: int
    near_mm: float
    far_mm: float
    engaged_mm: float
    bottom_mm: float
    seat_washer_mm: float
    claws: bool

    def washer_mm(self, rod: Fitting | None) -> float:
        """Washer under the rod's head: the rod's own, else the hoop's."""
        own = None if rod is None else rod.washer_mm
        return self.seat_washer_mm if own is None else own

    def least_mm(self, rod: Fitting | None) -> float:
        """Shortest rod that engages enough thread in the lowest lug."""
        return self.washer_mm(rod) + self.far_mm + self.engaged_mm

    def most_mm(self, rod: Fitting | None) -> float:
        """Longest rod that stays clear of the bottom of every lug."""
        return self.washer_mm(rod) + self.bottom_mm

    def shank_left_mm(self, rod: Fitting, *, rules: ShopRules) -> float:
        """Way left between a rod's unthreaded shank and the highest mouth when it is tight.

        The hoop comes down by ``rules.head_stretch_mm`` more as the head stretches.
        """
        plain = (rod.rod_length_mm or 0.0) - (
            rod.thread_length_mm if rod.thread_length_mm is not None else rod.rod_length_mm or 0.0
        )
        return self.washer_mm(rod) + self.near_mm - rules.head_stretch_mm - plain

    def takes(self, rod: Fitting) -> bool:
        """Whether a rod is of the right sort and thread, whatever its length."""
        sort = Kind.T_ROD if self.claws else Kind.ROD
        return rod.kind is sort and goes_into(rod.thread, self.thread).goes

    def serves(self, rod: Fitting, *, rules: ShopRules) -> bool:
        """Whether a rod is of the right sort, thread and length."""
        length = rod.rod_length_mm
        return (
            self.takes(rod)
            and length is not None
            and self.least_mm(rod) - 1e-6 <= length <= self.most_mm(rod) + 1e-6
            and self.shank_left_mm(rod, rules=rules) >= -1e-6
        )


def engaged_mm(thread: str, *, rules: ShopRules) -> float:
    """Thread wanted in a lug: a length, and at least so many major diameters.

    The second half falls away for a thread that no table has.
    """
    return max(rules.engaged_mm, rules.engaged_diameters * (major_mm(thread) or 0.0))


def rod_stacks(layout: Layout, *, rules: ShopRules) -> tuple[Stack, ...]:
    """Work out the stacks of both heads; a head whose hoop's seat is not known has none.

    Mouths count from the edges of the layout's own geometry: before truing or after it.
    """
    stacks = []
    for head in heads_of(layout):
        threads = dict.fromkeys(lug.fitting.thread for lug in head.lugs)
        for thread in threads:
            mouths = [m for m in head.mouths if m.lug.fitting.thread == thread]
            stack = _stack(head, thread, mouths, rules=rules)
            if stack is not None:
                stacks.append(stack)
    return tuple(stacks)


def _stack(head: HeadPlan, thread: str, mouths: list[MouthAt], *, rules: ShopRules) -> Stack | None:
    hoop = head.hoop
    if hoop is None or hoop.seat_below_edge_mm is None or not mouths:
        return None
    ways = [m.below_edge_mm - hoop.seat_below_edge_mm for m in mouths]
    deep = [m.lug.fitting.free_depth_mm for m in mouths]
    ends = [
        way + (math.inf if depth is None else depth) for way, depth in zip(ways, deep, strict=True)
    ]
    return Stack(
        head=head.head,
        thread=thread,
        count=len(mouths),
        near_mm=min(ways),
        far_mm=max(ways),
        engaged_mm=engaged_mm(thread, rules=rules),
        bottom_mm=min(ends) - rules.bottom_clear_mm,
        seat_washer_mm=hoop.washer_mm or 0.0,
        claws=hoop.ears is None and hoop.hoop_kind == "wood",
    )


def missing(head: HeadPlan) -> str:
    """Say what is not known of a head that the length of its rods hangs on."""
    if not any(lug.fitting.mouths for lug in head.lugs):
        return "where the lugs' mouths are"
    if head.hoop is None:
        return "which hoop it gets"
    if head.hoop.seat_below_edge_mm is None:
        return f"where the washers sit on {head.hoop.name}"
    return f"a lug with its mouth toward the {head.head} edge"


def plan_rods(layout: Layout, book: Book, *, rules: ShopRules) -> tuple[RodPlan, ...]:
    """Choose the shortest rod of the book that serves each head with a rule's doubt to spare.

    Parameters
    ----------
    layout : Layout
        Before or after truing; the lug mouths count from its own edges.
    book : Book
        Its rods and T-rods are what there is to choose from. T-rods go with claws.
    rules : ShopRules
        Thread to be engaged, room at the bottom, stretch of the head.

    Returns
    -------
    tuple of RodPlan
        One for each head and thread whose stack is known. ``rod`` is None when none serves; the
        lengths then hold for the washer that the hoop has.
    """
    rods = sorted(
        (rod for rod in book.of_kind(Kind.ROD, Kind.T_ROD) if rod.rod_length_mm is not None),
        key=lambda rod: rod.rod_length_mm or 0.0,
    )
    plans = []
    for stack in rod_stacks(layout, rules=rules):
        fit = [rod for rod in rods if stack.serves(rod, rules=rules)]
        spare = [r for r in fit if (r.rod_length_mm or 0.0) >= stack.least_mm(r) + SPARE_MM]
        rod = next(iter(spare or fit), None)
        plans.append(
            RodPlan(
                head=stack.head,
                count=stack.count,
                thread=stack.thread,
                least_mm=stack.least_mm(rod),
                most_mm=stack.most_mm(rod),
                rod=rod,
            )
        )
    return tuple(plans)
