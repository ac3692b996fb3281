"""Schemes in order: which are shown, which are set aside, and why."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.says_why import why_aside, why_shown
from counterhoop.scheme.weigh import Weight, parts_used, same_work, weigh
from counterhoop.shell.shop_rules import ShopFigures, ShopRules
from counterhoop.shell.wish import Pattern

_PATTERNS = {str(pattern): place for place, pattern in enumerate(Pattern)}


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """A scheme that is not shown.

    Attributes
    ----------
    scheme : Scheme
        Its number counts on after those shown.
    cause : str
        "stopped": a finding stops it while others can be drilled; "worse": another is at least
        as good in everything; "same": the same permanent changes with the same parts.
    says : str
        One sentence on why.
    because_of : int or None
        Number of the scheme that puts it aside; None where its own finding does.
    """

    scheme: Scheme
    cause: Literal["stopped", "worse", "same"]
    says: str
    because_of: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """All schemes of one drum: those shown, from 1, and those set aside, each with its reason."""

    shown: tuple[Scheme, ...] = ()
    set_aside: tuple[SetAside, ...] = ()

    @property
    def every(self) -> tuple[Scheme, ...]:
        """Those shown and those set aside, by number."""
        return (*self.shown, *(aside.scheme for aside in self.set_aside))

    @property
    def for_kit(self) -> tuple[Scheme, ...]:
        """What a choice over a kit may take: those shown, then those that are merely worse here.

        A scheme that loses on its own drum may win in a kit, because it matches another drum or
        leaves the stock to it. Stopped schemes are in only where the drum has no other.
        """
        return (*self.shown, *(a.scheme for a in self.set_aside if a.cause == "worse"))

    def beside(self, scheme: Scheme) -> Ranked:
        """Show a moved scheme beside the others, after them; it takes no part in the order."""
        return replace(self, shown=(*self.shown, scheme))


def rank(
    schemes: Sequence[Scheme], *, rules: ShopRules, figures: ShopFigures | None = None
) -> Ranked:
    """Put the schemes of one drum in order and set aside what no one would choose.

    Compared are holes cut anew, what shows outside, money and the least margin, each as it is
    printed (whole mm2, whole coins, half millimetres), so that no scheme stays on a difference
    that a rule cannot show. One scheme puts another aside when it is at least as good in all
    four, no less workable, no less on its proper heights and no less clear of every limit, and
    better in one of these seven. So
    a stopped scheme never puts aside one that can be drilled, and a row off its proper height
    never one that is on it, however many holes it saves.

    What shows inside takes no part in that: two schemes that differ only there both stay, the
    cleaner first, and the sentence says so. Stopped schemes are shown only where no scheme can be
    drilled. A scheme that carries a recorded approval is always shown.

    The order: no stop, on its proper heights, least cut, least shown, a millimetre or more from
    every limit, least money, least inside, most margin; then the order of the patterns and the
    names, so that it never depends on the
    order in which schemes come.

    Parameters
    ----------
    schemes : sequence of Scheme
        Of one drum, in any order; their numbers and whys are written anew.
    rules : ShopRules
        Named in the sentences.
    figures : ShopFigures, optional
        Whose currency the sentences use.

    Raises
    ------
    BadInput
        For schemes of two drums, or a figure that is no number.

    Notes
    -----
    What is shown is the set of non-dominated points (V. Pareto's order) of a product of six
    total orders; it never is empty where there are schemes. From memory.
    """
    _refuse(schemes)
    ordered = _in_order(schemes)
    kept = _kept(ordered)
    numbered = [replace(s, number=n) for n, s in enumerate(_in_turn(ordered, kept), 1)]
    shown, others = numbered[: len(kept)], numbered[len(kept) :]
    figures = figures or ShopFigures()
    told = tuple(replace(s, why=why_shown(s, shown, rules=rules, figures=figures)) for s in shown)
    held = [(s, weigh(s)) for s in numbered]
    aside = tuple(_aside(s, held, shown, rules=rules, figures=figures) for s in others)
    return Ranked(shown=told, set_aside=aside)


def repriced(ranked: Ranked, scheme: Scheme, *, rules: ShopRules, figures: ShopFigures) -> Ranked:
    """Put a scheme with other figures in its own place; the sentences are written anew.

    The order stays: it is that of each drum on its own.
    """
    now = tuple(scheme if s.number == scheme.number else s for s in ranked.shown)
    told = tuple(replace(s, why=why_shown(s, now, rules=rules, figures=figures)) for s in now)
    aside = tuple(
        replace(a, scheme=scheme) if a.scheme.number == scheme.number else a
        for a in ranked.set_aside
    )
    return Ranked(shown=told, set_aside=aside)


def _place(scheme: Scheme) -> tuple[Weight, int, str, str, str, str, int, list[tuple[str, int]]]:
    pattern = _PATTERNS.get(scheme.pattern, len(_PATTERNS))
    names = (scheme.pattern, scheme.title, scheme.family, scheme.code)
    return (weigh(scheme), pattern, *names, scheme.extra_holes, parts_used(scheme))


def _in_order(schemes: Sequence[Scheme]) -> list[Scheme]:
    """Sort; schemes that agree in every figure and name go by all that they hold."""
    blank = sorted((replace(s, number=0, why="") for s in schemes), key=_place)
    ordered: list[Scheme] = []
    for _, alike in groupby(blank, key=_place):
        group = list(alike)
        ordered += sorted(group, key=repr) if len(group) > 1 else group
    return ordered


def _kept(ordered: Sequence[Scheme]) -> list[int]:
    """Return the places of the schemes to show."""
    weights = [weigh(s) for s in ordered]
    workable = not all(w.stopped for w in weights)
    kept: list[int] = []
    for place, scheme in enumerate(ordered):
        if any(same_work(ordered[k], scheme) for k in kept):
            continue
        allowed = not (workable and scheme.stopped)
        beaten = any(w.beats(weights[place]) for w in weights)
        if scheme.approved or (allowed and not beaten):
            kept.append(place)
    return kept


def _in_turn(ordered: Sequence[Scheme], kept: Sequence[int]) -> list[Scheme]:
    chosen = set(kept)
    rest = [s for place, s in enumerate(ordered) if place not in chosen]
    return [*(ordered[place] for place in kept), *rest]


def _aside(
    scheme: Scheme,
    held: Sequence[tuple[Scheme, Weight]],
    shown: Sequence[Scheme],
    *,
    rules: ShopRules,
    figures: ShopFigures,
) -> SetAside:
    cause: Literal["stopped", "worse", "same"]
    alike = next((s for s in shown if same_work(s, scheme)), None)
    if scheme.stopped and not all(w.stopped for _, w in held):
        cause, other = "stopped", None
    elif alike is not None:
        cause, other = "same", alike
    else:
        weight = weigh(scheme)
        cause, other = "worse", next(s for s, w in held if w.beats(weight))
    says = why_aside(scheme, other, same=cause == "same", rules=rules, figures=figures)
    number = None if other is None else other.number
    return SetAside(scheme=scheme, cause=cause, says=says, because_of=number)


def _refuse(schemes: Sequence[Scheme]) -> None:
    drums = sorted({s.drum for s in schemes})
    if len(drums) > 1:
        raise BadInput(
            "schemes of several drums cannot be ranked together",
            given=", ".join(drums),
            wanted="the schemes of one drum",
        )
    for s in schemes:
        c = s.criteria
        areas = (c.shows_mm2, c.shows_inside_mm2)
        if math.isnan(c.margin_mm) or not all(math.isfinite(a) and a >= 0 for a in areas):
            raise BadInput(
                f'"{s.title}" has a figure that is no number',
                where=f"drums.{s.drum}",
                given=c,
                wanted="areas of zero or more, and a margin",
            )
