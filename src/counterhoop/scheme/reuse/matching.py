"""The best one-to-one use of old holes at one pose."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from counterhoop.scheme.reuse.limits import Tier

Options = Mapping[tuple[int, int], tuple[int, float]]
"""(wanted, old) to (tier, squared misfit): the best way in which that hole can serve."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """Who serves whom: wanted to old. ``value`` by the weights; ``misfit_mm2`` the least."""

    value: int
    misfit_mm2: float
    serves: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rulebook:
    """What every matching obeys.

    ``lug_of`` gives the fitting of each wanted hole. With ``bush`` a fitting may have all its
    holes slotted.
    """

    weights: tuple[int, int, int]
    lug_of: tuple[int, ...]
    bush: bool


def settle(options: Options, *, must: frozenset[int], rules: Rulebook) -> Settled | None:
    """Find the matching of most worth, among those the least misfit.

    Parameters
    ----------
    options : mapping
        The pairs that are possible here.
    must : frozenset of int
        Wanted holes that have to be served.
    rules : Rulebook
        Weights, fittings, bushes.

    Returns
    -------
    Settled or None
        None when not all of ``must`` can be served.
    """
    quick = _each_its_best(options, must=must, rules=rules)
    if quick is not None:
        return quick
    total = 0
    misfit = 0.0
    serves: list[tuple[int, int]] = []
    parts, lonely = _parts(options, must=must, rules=rules)
    if lonely:
        return None
    for part in parts:
        chosen = _Part(part, must=must, rules=rules).best()
        if chosen is None:
            return None
        for pair in chosen:
            tier, square = options[pair]
            total += rules.weights[tier]
            misfit += square
        serves.extend(chosen)
    return Settled(value=total, misfit_mm2=misfit, serves=tuple(sorted(serves)))


def _each_its_best(options: Options, *, must: frozenset[int], rules: Rulebook) -> Settled | None:
    """Give each wanted hole its best old hole; None when two want the same one.

    Where a fitting would hang in slots alone, no other old hole is any better for it: the slot
    that fits worst is given up.
    """
    best: dict[int, tuple[int, float, int]] = {}
    for (w, h), (tier, square) in options.items():
        worth = (-rules.weights[tier], square, h)
        if w not in best or worth < best[w]:
            best[w] = worth
    if len({worth[2] for worth in best.values()}) < len(best) or not must <= best.keys():
        return None
    serves = {w: worth[2] for w, worth in best.items()}
    while not rules.bush and (hanging := _all_slotted(serves, options, rules)):
        spare = [w for w in hanging if w not in must]
        if not spare:
            return None
        del serves[max(spare, key=lambda w: best[w][1])]
    pairs = tuple(sorted(serves.items()))
    return Settled(
        value=sum(rules.weights[options[pair][0]] for pair in pairs),
        misfit_mm2=sum(options[pair][1] for pair in pairs),
        serves=pairs,
    )


def _all_slotted(serves: Mapping[int, int], options: Options, rules: Rulebook) -> list[int]:
    """Wanted holes of the first fitting that would hang in slots alone; empty for none."""
    slotted: dict[int, list[int]] = {}
    for w, h in serves.items():
        if options[w, h][0] == Tier.SLOT:
            slotted.setdefault(rules.lug_of[w], []).append(w)
    for lug in sorted(slotted):
        if len(slotted[lug]) == rules.lug_of.count(lug):
            return slotted[lug]
    return []


def _parts(
    options: Options, *, must: frozenset[int], rules: Rulebook
) -> tuple[list[dict[tuple[int, int], tuple[int, float]]], bool]:
    """Split into parts that share neither an old hole nor a fitting; tell of a must without any."""
    group: dict[tuple[str, int], tuple[str, int]] = {}

    def root(key: tuple[str, int]) -> tuple[str, int]:
        while group.setdefault(key, key) != key:
            key = group[key]
        return key

    for w, h in options:
        group[root(("lug", rules.lug_of[w]))] = root(("old", h))
    parts: dict[tuple[str, int], dict[tuple[int, int], tuple[int, float]]] = {}
    for (w, h), how in options.items():
        parts.setdefault(root(("old", h)), {})[w, h] = how
    return list(parts.values()), not must <= {w for w, _ in options}


class _Part:
    """One part, solved by assignment and, where a fitting hangs in slots alone, by cases."""

    def __init__(
        self,
        options: dict[tuple[int, int], tuple[int, float]],
        *,
        must: frozenset[int],
        rules: Rulebook,
    ) -> None:
        self.options = options
        self.rules = rules
        self.wants = sorted({w for w, _ in options})
        self.olds = sorted({h for _, h in options})
        self.must = must & set(self.wants)
        # a unit of weight outdoes all misfit together, a must outdoes all weight together
        self.unit = 1.0 + sum(
            max(square for (v, _), (_, square) in options.items() if v == w) for w in self.wants
        )
        self.bonus = self.unit * (1 + rules.weights[0]) * (1 + len(self.wants))
        self.found: dict[int, int] | None = None
        self.worth = -1.0

    def best(self) -> list[tuple[int, int]] | None:
        """Return the pairs, or None when a must cannot be served."""
        self._search(frozenset())
        return None if self.found is None else list(self.found.items())

    def _search(self, not_slotted: frozenset[int]) -> None:
        serves, worth = self._assign(not_slotted)
        if worth <= self.worth or not self.must <= serves.keys():
            return
        hanging = [] if self.rules.bush else _all_slotted(serves, self.options, self.rules)
        if not hanging:
            self.found, self.worth = serves, worth
            return
        for w in hanging:
            self._search(not_slotted | {w})

    def _assign(self, not_slotted: frozenset[int]) -> tuple[dict[int, int], float]:
        from scipy.optimize import linear_sum_assignment

        gain = np.zeros((len(self.wants), len(self.olds)))
        row = {w: i for i, w in enumerate(self.wants)}
        column = {h: i for i, h in enumerate(self.olds)}
        for (w, h), (tier, square) in self.options.items():
            if tier != Tier.SLOT or w not in not_slotted:
                gain[row[w], column[h]] = self.rules.weights[tier] * self.unit - square
                if w in self.must:
                    gain[row[w], column[h]] += self.bonus
        rows, columns = linear_sum_assignment(gain, maximize=True)
        pairs = [(i, j) for i, j in zip(rows, columns, strict=True) if gain[i, j] > 0.0]
        return (
            {self.wants[i]: self.olds[j] for i, j in pairs},
            float(sum(gain[i, j] for i, j in pairs)),
        )
