"""One scheme a drum, over a whole kit: what must match matches, stock is shared, least money."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from counterhoop.errors import BadInput
from counterhoop.scheme.kit_choice import Kit, KitChoice
from counterhoop.scheme.kit_match import (
    Aspect,
    Differing,
    aspects_differing,
    pairs_to_match,
)
from counterhoop.scheme.kit_model import (
    FIRST_MATCH,
    Aim,
    Clash,
    Option,
    Picked,
    Puzzle,
    SharedPart,
    pick,
)
from counterhoop.scheme.kit_price import (
    UNPRICED_MINOR,
    kit_parts,
    prices_of,
    stock_of,
)
from counterhoop.scheme.kit_says import kit_sentences
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.price import bench_minor
from counterhoop.scheme.weigh import weigh
from counterhoop.shell.shop_rules import ShopFigures, ShopRules

DIFFER_FREELY = tuple(aim for aim in FIRST_MATCH if aim is not Aim.DIFFERENCES)
MATCH_EVEN_STOPPED = (Aim.DIFFERENCES, *DIFFER_FREELY)


def choose_kit(
    ranked_by_drum: Mapping[str, Sequence[Scheme]],
    *,
    match: Sequence[Sequence[str]] = (),
    stock: Sequence[tuple[str, int]] = (),
    rules: ShopRules,
    figures: ShopFigures,
    by_hand: Sequence[str] = (),
    effort: float = 20.0,
) -> KitChoice:
    """Choose one scheme for each drum so that nothing better exists for the kit.

    Least stops first; then the fewest things in which drums of a match group differ (each two
    drums, each of pattern, fittings and badge counts one); then money; then holes cut; then what
    shows; and what is level in all of that by the places in the drums' own rankings.

    Money is worked out anew: the parts of all drums less the stock, once, at their prices, and
    the bench time of each drum to the nearest coin. The figure in a scheme's own criteria takes
    the whole stock for that drum alone and is not used. A part that must be bought and has no
    price counts as ``UNPRICED_MINOR`` in the choice and as nothing in the totals, which say so.

    Parameters
    ----------
    ranked_by_drum : mapping of str to sequence of Scheme
        For each drum the schemes to choose from, the preferred first (``Ranked.for_kit``).
    match : sequence of sequences of str
        Groups of drums that must match.
    stock : sequence of (str, int)
        Parts by their names in the fittings book.
    rules : ShopRules
        ``match_deg`` is used.
    figures : ShopFigures
        Price of an hour, prices of parts, currency.
    by_hand : sequence of str
        Drums whose one scheme somebody chose: the sentences say so.
    effort : float
        See ``counterhoop.scheme.kit_model.pick``.

    Raises
    ------
    BadInput
        For a match group that names no drum, one part with two prices, stock below zero.
    """
    pairs = pairs_to_match(match, drums=tuple(ranked_by_drum))
    without = tuple(drum for drum, schemes in ranked_by_drum.items() if not schemes)
    offered = {drum: tuple(schemes) for drum, schemes in ranked_by_drum.items() if schemes}
    _refuse(offered)
    pairs = tuple(pair for pair in pairs if not set(pair) & set(without))
    desk = _Desk(
        offered=offered,
        pairs=pairs,
        stock=stock_of(stock),
        prices=prices_of(chain.from_iterable(offered.values()), figures=figures),
        rules=rules,
        figures=figures,
    )
    puzzle = _puzzle(desk)
    best = pick(puzzle, effort=effort) or Picked(picks=(), proven=True)
    chosen = desk.kit(best.picks)
    others = [
        pick(puzzle, other_than=best.picks, effort=effort),
        pick(puzzle, aims=DIFFER_FREELY, effort=effort) if pairs else None,
        pick(puzzle, aims=MATCH_EVEN_STOPPED, effort=effort) if chosen.differing else None,
    ]
    second, free, stopped = (None if p is None else desk.kit(p.picks) for p in others)
    choice = KitChoice(
        chosen=chosen,
        runner_up=second,
        if_differing=free if free and _cheaper(free, chosen) else None,
        if_stopped=stopped if stopped and stopped.differences < chosen.differences else None,
        without=without,
        by_hand=tuple(drum for drum in offered if drum in by_hand),
        proven=all(p.proven for p in (best, *others) if p is not None),
    )
    return replace(choice, says=kit_sentences(choice, figures=figures))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Desk:
    """All that is given, with names."""

    offered: Mapping[str, tuple[Scheme, ...]]
    pairs: tuple[tuple[str, str], ...]
    stock: Mapping[str, int]
    prices: Mapping[str, int | None]
    rules: ShopRules
    figures: ShopFigures

    def kit(self, picks: Sequence[int]) -> Kit:
        """Work out what a choice comes to."""
        by_drum = {
            drum: schemes[p] for (drum, schemes), p in zip(self.offered.items(), picks, strict=True)
        }
        differing = [
            Differing(first=a, second=b, aspects=aspects)
            for a, b in self.pairs
            if (aspects := aspects_differing(by_drum[a], by_drum[b], rules=self.rules))
        ]
        return Kit(
            schemes=tuple(by_drum.values()),
            parts=kit_parts(by_drum.values(), stock=self.stock, prices=self.prices),
            bench_minor=sum(bench_minor(s.work, figures=self.figures) for s in by_drum.values()),
            differing=tuple(differing),
        )


def _puzzle(desk: _Desk) -> Puzzle:
    places = {name: place for place, name in enumerate(sorted(desk.prices))}
    prices = ((name, desk.prices[name]) for name in sorted(desk.prices))
    return Puzzle(
        options=tuple(
            tuple(_option(s, places, figures=desk.figures) for s in schemes)
            for schemes in desk.offered.values()
        ),
        parts=tuple(
            SharedPart(
                in_stock=desk.stock.get(name, 0),
                each_minor=UNPRICED_MINOR if each is None else each,
            )
            for name, each in prices
        ),
        clashes=tuple(_clashes(desk)),
    )


def _option(scheme: Scheme, places: Mapping[str, int], *, figures: ShopFigures) -> Option:
    counts: dict[int, int] = {}
    for line in scheme.parts:
        counts[places[line.name]] = counts.get(places[line.name], 0) + line.count
    weight = weigh(scheme)
    return Option(
        stops=int(weight.stopped),
        bench_minor=bench_minor(scheme.work, figures=figures),
        cut=weight.cut,
        shows_mm2=weight.shows_mm2,
        parts=tuple(sorted(counts.items())),
    )


def _clashes(desk: _Desk) -> list[Clash]:
    drums = list(desk.offered)
    found = []
    for a, b in desk.pairs:
        together: dict[Aspect, set[tuple[int, int]]] = {}
        for i, one in enumerate(desk.offered[a]):
            for j, two in enumerate(desk.offered[b]):
                for aspect in aspects_differing(one, two, rules=desk.rules):
                    together.setdefault(aspect, set()).add((i, j))
        found += [
            Clash(first=drums.index(a), second=drums.index(b), together=frozenset(pairs))
            for pairs in together.values()
        ]
    return found


def _cheaper(kit: Kit, than: Kit) -> bool:
    return kit.total_minor < than.total_minor and kit.unpriced <= than.unpriced


def _refuse(offered: Mapping[str, Sequence[Scheme]]) -> None:
    for drum, schemes in offered.items():
        for scheme in schemes:
            if scheme.drum != drum:
                raise BadInput("a scheme of another drum", where=f"drums.{drum}", given=scheme.drum)
