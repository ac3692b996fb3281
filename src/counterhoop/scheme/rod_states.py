"""The rods of each head before and after truing, finger-tight and at pitch."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from counterhoop.development.flat import End
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.heads import HeadPlan, heads_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.rod_lean import rod_lines, splay_mm
from counterhoop.scheme.rods import Stack, missing, plan_rods, rod_stacks
from counterhoop.scheme.threading import goes_into
from counterhoop.shell.shop_rules import ShopRules

BOTTOMING = (
    "A rod that bottoms goes stiff all at once and its hoop comes down no further while the others"
    " still do. Stop: it is too long. Another turn cracks the lug or lifts it off the shell."
)
STRIPPING = (
    "A thread that strips turns easier and easier, the hoop stays where it is and bright crumbs"
    " lie on the rod. Stop, back it out by the fingers, and bag rod and insert together."
)
"""What both look like at the bench: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RodStand:
    """How a rod of one length stands in its lugs.

    Attributes
    ----------
    finger_mm, pitch_mm : float
        Thread engaged in the lug whose mouth lies lowest: finger-tight, the hoop higher by the
        stretch of the head, and at pitch. No more than the rod has thread.
    room_mm : float
        From its end to the bottom of the shallowest lug, at pitch; infinite when the book does
        not say how deep the lugs are.
    """

    finger_mm: float
    pitch_mm: float
    room_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RodState:
    """The rods of one head and thread.

    Lengths are under the rod's head, with the washer that the chosen rod has, else the hoop's.

    Attributes
    ----------
    before_mm, after_mm : (float, float) or None
        Shortest and longest that serve, as found and as the scheme leaves the drum; None where
        something is not known, or the head had no such lugs before.
    rod : Fitting or None
        Chosen, or the nearest in length that is made where none serves.
    serves : bool
        Whether it does.
    rod_before : Fitting or None
        What would be chosen for the drum as found.
    stand : RodStand or None
        How ``rod`` stands afterwards.
    in_stock : int
        Of ``rod``.
    also : tuple of (str, int)
        Others in stock that serve, with how many there are.
    splay_mm, splay_deg : float or None
        How far the ears stand outside the lug mouths, and what the rods lean outward by; None
        when the book does not know the circle of the ears or the line of the rods.
    unknown : str
        What is missing to work the length out; "" when nothing is.
    """

    head: End
    thread: str
    count: int
    before_mm: tuple[float, float] | None = None
    after_mm: tuple[float, float] | None = None
    rod: Fitting | None = None
    serves: bool = False
    rod_before: Fitting | None = None
    stand: RodStand | None = None
    in_stock: int = 0
    also: tuple[tuple[str, int], ...] = ()
    splay_mm: float | None = None
    splay_deg: float | None = None
    unknown: str = ""

    @property
    def shorter_mm(self) -> float | None:
        """By how much the stack has become shorter."""
        if self.before_mm is None or self.after_mm is None:
            return None
        return self.before_mm[0] - self.after_mm[0]


def rod_states(
    found: Layout,
    after: Layout,
    *,
    book: Book,
    rules: ShopRules,
    stock: Mapping[str, int] | None = None,
) -> tuple[RodState, ...]:
    """Work out the rods of both heads before and after.

    Parameters
    ----------
    found, after : Layout
        The drum as it stands and as a scheme leaves it; mouths count from each one's own edges.
    book : Book
        What is made; the rods that are on the drum now are not in the survey.
    rules : ShopRules
        Thread to be engaged, room at the bottom, stretch of the head.
    stock : mapping of str to int, optional
        How many of a part lie on the shelf.

    Returns
    -------
    tuple of RodState
        One for each head and thread afterwards.
    """
    had = rod_stacks(found, rules=rules)
    before = {(p.head, p.thread): p.rod for p in plan_rods(found, book, rules=rules)}
    chosen = {(p.head, p.thread): p.rod for p in plan_rods(after, book, rules=rules)}
    stacks = rod_stacks(after, rules=rules)
    states: list[RodState] = []
    for head in heads_of(after):
        mine = [stack for stack in stacks if stack.head == head.head]
        if not mine:
            states.append(_unknown(head))
        for stack in mine:
            was = next(
                (s for s in had if s.head == stack.head and goes_into(s.thread, stack.thread).goes),
                None,
            )
            rod = chosen[stack.head, stack.thread]
            near = rod or _nearest(stack, book)
            splay = splay_mm(head, surface=after.flat.surface)
            states.append(
                RodState(
                    head=stack.head,
                    thread=stack.thread,
                    count=stack.count,
                    before_mm=None if was is None else _span(was, near),
                    after_mm=_span(stack, near),
                    rod=near,
                    serves=rod is not None,
                    rod_before=None if was is None else before[was.head, was.thread],
                    stand=None if near is None else rod_stand(stack, near, rules=rules),
                    in_stock=(stock or {}).get(near.name, 0) if near is not None else 0,
                    also=_also(stack, book, rules=rules, stock=stock or {}, but=near),
                    splay_mm=splay,
                    splay_deg=_splay_deg(head, after, near) if splay is not None else None,
                )
            )
    return tuple(states)


def rod_stand(stack: Stack, rod: Fitting, *, rules: ShopRules) -> RodStand:
    """Return how a rod stands in its lugs."""
    reach = (rod.rod_length_mm or 0.0) - stack.washer_mm(rod)
    thread = math.inf if rod.thread_length_mm is None else rod.thread_length_mm
    in_lug = reach - stack.far_mm
    return RodStand(
        finger_mm=max(0.0, min(in_lug - rules.head_stretch_mm, thread)),
        pitch_mm=max(0.0, min(in_lug, thread)),
        room_mm=stack.bottom_mm + rules.bottom_clear_mm - reach,
    )


def _unknown(head: HeadPlan) -> RodState:
    threads = [lug.fitting.thread for lug in head.lugs if lug.fitting.thread]
    return RodState(
        head=head.head,
        thread=threads[0] if threads else "",
        count=len(head.lugs),
        unknown=missing(head),
    )


def _span(stack: Stack, rod: Fitting | None) -> tuple[float, float]:
    return stack.least_mm(rod), stack.most_mm(rod)


def _nearest(stack: Stack, book: Book) -> Fitting | None:
    """Return the rod of the right thread whose length lies nearest to what serves."""

    def off_mm(rod: Fitting) -> float:
        length = rod.rod_length_mm or 0.0
        return max(stack.least_mm(rod) - length, length - stack.most_mm(rod), 0.0)

    made = [rod for rod in book.of_kind(Kind.ROD, Kind.T_ROD) if stack.takes(rod)]
    lengths = [rod for rod in made if rod.rod_length_mm is not None]
    return min(lengths, key=lambda rod: (off_mm(rod), rod.rod_length_mm), default=None)


def _also(
    stack: Stack,
    book: Book,
    *,
    rules: ShopRules,
    stock: Mapping[str, int],
    but: Fitting | None,
) -> tuple[tuple[str, int], ...]:
    rods = (rod for rod in book.of_kind(Kind.ROD, Kind.T_ROD) if stock.get(rod.name, 0) > 0)
    return tuple(
        (rod.name, stock[rod.name])
        for rod in rods
        if stack.serves(rod, rules=rules) and (but is None or rod.name != but.name)
    )


def _splay_deg(head: HeadPlan, layout: Layout, rod: Fitting | None) -> float | None:
    lines = rod_lines(head, surface=layout.flat.surface, rod=rod)
    if lines is None:
        return None
    return max(0.0, *(lines.lean_deg(at, along=False) for at in range(len(head.lugs))))
