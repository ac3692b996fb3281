"""The choice over a kit against trying everything (brute force), on random kits."""

from __future__ import annotations

import itertools
import math
import random
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import pytest

from counterhoop.development.flat import Development
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.truing import Truing
from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.kit import choose_kit
from counterhoop.scheme.kit_choice import Kit, KitChoice
from counterhoop.scheme.kit_match import aspects_differing
from counterhoop.scheme.kit_price import UNPRICED_MINOR
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.plan import Criteria, PartLine, Scheme, WorkLine
from counterhoop.shell.drum import Circumference, Drum
from counterhoop.shell.shop_rules import ShopFigures, default_rules
from counterhoop.shell.wish import FinishPlan

RULES = default_rules()
FIGURES = ShopFigures(currency="GBP", hour_minor=3000)
PRICES = {"bridge lug": 900, "column lug": 450, "rod": 120, "hoop": 2600, "odd lug": None}
GIRTH = Circumference(skin=Skin.OLD, mean_mm=955.0)
LUG = Fitting(name="bridge lug", kind=Kind.LUG, source="invented for the test")


def layout(drum: str, *, lugs: int) -> Layout:
    return Layout(
        drum=Drum(key=drum, circumference=GIRTH, wall_mm=6.0, depth_mm=202.0),
        flat=Development(
            surface=Surface(skin=Skin.OLD, circumference_mm=955.0), depth_mm=202.0, wall_mm=6.0
        ),
        truing=Truing(),
        finish=FinishPlan(),
        holes=(),
        fittings=tuple(
            FittingPlan(
                label=f"lug {n}", fitting=LUG, place=Place(n * 360.0 / lugs, 40.0), row="batter"
            )
            for n in range(lugs)
        ),
    )


def scheme(
    drum: str,
    pattern: str = "long lugs",
    *,
    parts: dict[str, int] | None = None,
    minutes: float = 0.0,
    cut: int = 0,
    shows: float = 0.0,
    stopped: str = "",
    family: str = "",
    badge_deg: float | None = None,
    lugs: int = 0,
    number: int = 1,
) -> Scheme:
    stop = Finding(code="web-thin", grade=Grade.STOP, says=stopped)
    return Scheme(
        drum=drum,
        number=number,
        pattern=pattern,
        title=f"{pattern} {number}",
        layout=layout(drum, lugs=lugs),
        findings=(stop,) if stopped else (),
        criteria=Criteria(
            cut=cut, shows_mm2=shows, shows_inside_mm2=0.0, money_minor=1, margin_mm=5.0
        ),
        parts=tuple(
            PartLine(name=n, count=c, bought=0, each_minor=PRICES[n])
            for n, c in (parts or {}).items()
        ),
        work=(WorkLine(operation="drill a hole", count=1, minutes=minutes),),
        family=family,
        badge_deg=badge_deg,
    )


@dataclass(frozen=True, kw_only=True)
class Given:
    """A kit as it is put to the choice."""

    offered: dict[str, tuple[Scheme, ...]]
    match: tuple[tuple[str, ...], ...]
    stock: tuple[tuple[str, int], ...]

    def choose(self) -> KitChoice:
        return choose_kit(
            self.offered, match=self.match, stock=self.stock, rules=RULES, figures=FIGURES
        )


def random_kit(seed: int) -> Given:
    """Few values of each sort, so that ties, clashes and short stock are common."""
    dice = random.Random(seed)
    drums = ["small tom", "large tom", "floor tom", "snare", "bass"][
        : dice.choice([1, 2, 2, 3, 3, 4, 5])
    ]
    offered = {}
    for drum in drums:
        offered[drum] = tuple(
            scheme(
                drum,
                dice.choice(["long lugs", "second row in line", "second row half along"]),
                parts={
                    name: dice.choice([2, 4, 6, 8])
                    for name in dice.sample(sorted(PRICES), dice.choice([0, 1, 1, 2]))
                },
                minutes=dice.choice([0.0, 20.0, 20.0, 45.5, 0.1]),
                cut=dice.choice([0, 4, 4, 8]),
                shows=dice.choice([0.0, 0.4, 60.0, 180.5]),
                stopped=dice.choice(["", "", "", "the web is thin."]),
                family=dice.choice(["bridge chrome", "bridge chrome", "column nickel"]),
                badge_deg=dice.choice([None, 0.0, 2.0, 2.1, 30.0, -30.0]),
                lugs=dice.choice([0, 6]),
                number=number,
            )
            for number in range(1, dice.randint(1, 4) + 1)
        )
    match = tuple(
        tuple(dice.sample(drums, dice.randint(1, len(drums))))
        for _ in range(dice.choice([0, 1, 1, 2]))
    )
    stock = tuple((name, dice.choice([0, 3, 6, 10])) for name in dice.sample(sorted(PRICES), 3))
    return Given(offered=offered, match=match, stock=stock)


Key = tuple[int | tuple[int, ...], ...]


def key_of(kit: Given, picks: tuple[int, ...]) -> Key:
    """Work out from the schemes alone what decides, by another road than the code's."""
    chosen = {d: s[p] for (d, s), p in zip(kit.offered.items(), picks, strict=True)}
    order = list(kit.offered)
    pairs = {
        frozenset(pair) for group in kit.match for pair in itertools.combinations(set(group), 2)
    }
    differ = 0
    for pair in pairs:
        a, b = (chosen[d] for d in sorted(pair, key=order.index))
        differ += len(aspects_differing(a, b, rules=RULES))
    wanted: Counter[str] = Counter()
    for s in chosen.values():
        wanted.update({line.name: line.count for line in s.parts})
    for name, count in kit.stock:
        wanted[name] -= count
    money = sum(
        (UNPRICED_MINOR if PRICES[name] is None else PRICES[name]) * count
        for name, count in wanted.items()
        if count > 0
    )
    for s in chosen.values():
        money += math.floor(Fraction(s.work[0].minutes) * FIGURES.hour_minor / 60 + Fraction(1, 2))
    return (
        sum(bool(s.findings) for s in chosen.values()),
        differ,
        money,
        sum(s.criteria.cut for s in chosen.values()),
        sum(math.floor(s.criteria.shows_mm2 + 0.5) for s in chosen.values()),
        sum(picks),
        picks,
    )


def two_best(kit: Given) -> list[tuple[int, ...]]:
    everything = itertools.product(*(range(len(s)) for s in kit.offered.values()))
    return sorted(everything, key=lambda picks: key_of(kit, picks))[:2]


def picks_of(kit: Given, chosen: Kit | None) -> tuple[int, ...] | None:
    if chosen is None:
        return None
    both = zip(kit.offered.values(), chosen.schemes, strict=True)
    return tuple(next(i for i, s in enumerate(row) if s is taken) for row, taken in both)


def disagreements(
    seeds: Sequence[int], best: Callable[[Given], list[tuple[int, ...]]] = two_best
) -> list[int]:
    """Return the kits for which the choice or its runner-up is not what trying everything finds."""
    wrong = []
    for seed in seeds:
        kit = random_kit(seed)
        choice = kit.choose()
        found = [picks_of(kit, choice.chosen), picks_of(kit, choice.runner_up)]
        if found != [*best(kit), None][:2] or not choice.proven:
            wrong.append(seed)
    return wrong


def test_the_choice_is_what_trying_everything_finds() -> None:
    assert disagreements(range(150)) == []


@pytest.mark.full
def test_the_choice_is_what_trying_everything_finds_in_thousands() -> None:
    assert disagreements(range(1000, 4000)) == []


def test_the_comparison_can_fail() -> None:
    def money_before_matching(kit: Given) -> list[tuple[int, ...]]:
        everything = itertools.product(*(range(len(s)) for s in kit.offered.values()))
        return sorted(everything, key=lambda p: (key_of(kit, p)[0], *key_of(kit, p)[2:]))[:2]

    assert len(disagreements(range(30), best=money_before_matching)) > 5


def test_the_random_kits_are_worth_trying() -> None:
    choices = [random_kit(seed).choose() for seed in range(60)]
    assert sum(bool(c.chosen.differing) for c in choices) > 5
    assert sum(c.if_differing is not None for c in choices) > 5
    assert sum(c.if_stopped is not None for c in choices) > 2
    assert sum(any(s.stopped for s in c.schemes) for c in choices) > 2
    assert sum(bool(c.chosen.unpriced) for c in choices) > 2
    assert all(says[0].isupper() and says.endswith(".") for c in choices for says in c.says)


def test_every_total_is_the_sum_of_its_parts_and_its_time() -> None:
    for seed in range(60):
        kit = random_kit(seed)
        choice = kit.choose()
        for one in (choice.chosen, choice.runner_up, choice.if_differing, choice.if_stopped):
            if one is not None:
                money = key_of(kit, picks_of(kit, one) or ())[2]
                assert money == one.total_minor + UNPRICED_MINOR * one.unpriced


def test_the_same_kit_gets_the_same_answer() -> None:
    kit = random_kit(12)
    assert kit.choose() == kit.choose()
