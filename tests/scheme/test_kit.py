"""The choice over a kit: worked examples, sums and words. Prices and drums are invented."""

from __future__ import annotations

import random
import subprocess
import sys
from dataclasses import replace

import pytest

from counterhoop.development.flat import Development
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.truing import Truing
from counterhoop.errors import BadInput, Finding, Grade
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.kit import choose_kit
from counterhoop.scheme.kit_choice import Kit, KitChoice
from counterhoop.scheme.kit_match import Aspect, aspects_differing, badges_apart_deg
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.plan import Criteria, PartLine, Scheme, WorkLine
from counterhoop.scheme.price import bench_minor
from counterhoop.shell.drum import Circumference, Drum
from counterhoop.shell.shop_rules import ShopFigures, default_rules
from counterhoop.shell.wish import FinishPlan

RULES = default_rules()
FIGURES = ShopFigures(currency="GBP", hour_minor=3000)
PRICES = {"bridge lug": 900, "column lug": 450, "rod": 120, "hoop": 2600, "odd lug": None}
GIRTH = Circumference(skin=Skin.OLD, mean_mm=955.0)
LUG = Fitting(name="bridge lug", kind=Kind.LUG, source="invented for the test")


def layout(drum: str, *, lugs: int = 0) -> Layout:
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


def two_toms(**large: object) -> dict[str, tuple[Scheme, ...]]:
    """Long lugs or a second row on two toms: 6 and 8 long lugs wanted."""
    lugs = scheme("large tom", parts={"bridge lug": 8}, minutes=160, family="chrome")
    return {
        "small tom": (
            scheme("small tom", parts={"bridge lug": 6}, minutes=120, family="chrome"),
            scheme("small tom", "second row in line", parts={"column lug": 6}, minutes=200,
                   family="chrome", number=2),
        ),
        "large tom": (
            replace(lugs, **large),
            scheme("large tom", "second row in line", parts={"column lug": 8}, minutes=136,
                   family="chrome", number=2),
        ),
    }  # fmt: skip


def test_stock_is_shared_and_the_next_best_has_its_price() -> None:
    choice = choose_kit(
        two_toms(),
        match=[("small tom", "large tom")],
        stock=[("bridge lug", 10), ("column lug", 14)],
        rules=RULES,
        figures=FIGURES,
    )
    assert choice.says == (
        "Second row in line on the small tom and the large tom.",
        "In all 168.00 GBP: 0.00 GBP of parts to buy and 168.00 GBP of bench time.",
        "Letting them differ would save 40.00 GBP: long lugs on the small tom.",
        "The next best is long lugs on the small tom and the large tom, which costs 8.00 GBP more.",
    )
    assert choice.proven


def test_what_is_short_is_bought_once() -> None:
    choice = choose_kit(
        two_toms(),
        match=[("small tom", "large tom")],
        stock=[("bridge lug", 4), ("bridge lug", 6), ("column lug", 2)],
        rules=RULES,
        figures=FIGURES,
    )
    assert choice.says == (
        "Long lugs on the small tom and the large tom.",
        "Bridge lug: 14 wanted, 10 in stock, 4 to buy at 9.00 GBP each.",
        "In all 176.00 GBP: 36.00 GBP of parts to buy and 140.00 GBP of bench time.",
        "Letting them differ would save 21.00 GBP: second row in line on the large tom.",
        "The next best is second row in line on the small tom and the large tom, which costs"
        " 46.00 GBP more.",
    )
    assert [(p.name, p.bought, p.cost_minor) for p in choice.bought] == [("bridge lug", 4, 3600)]
    assert choice.total_minor == 17600


def test_drums_that_cannot_match_are_said_and_what_matching_would_take() -> None:
    thin = "5 mm of wood is left between holes 7 and 8."
    offered = two_toms(findings=(Finding(code="web-thin", grade=Grade.STOP, says=thin),))
    offered["small tom"] = offered["small tom"][:1]
    choice = choose_kit(offered, match=[("small tom", "large tom")], rules=RULES, figures=FIGURES)
    assert choice.says == (
        "Long lugs on the small tom; second row in line on the large tom.",
        "Bridge lug: 6 wanted, none in stock, 6 to buy at 9.00 GBP each.",
        "Column lug: 8 wanted, none in stock, 8 to buy at 4.50 GBP each.",
        "In all 218.00 GBP: 90.00 GBP of parts to buy and 128.00 GBP of bench time.",
        "The small tom and the large tom do not match: long lugs against second row in line.",
        "They would match better with long lugs on the large tom, which costs 48.00 GBP more,"
        " but the large tom is stopped (5 mm of wood is left between holes 7 and 8).",
        "The next best is long lugs on the large tom, which costs 48.00 GBP more, but the large"
        " tom is stopped.",
    )
    assert choice.chosen.differing[0].aspects == (Aspect.PATTERN,)


def test_fittings_and_badges_that_differ_are_named() -> None:
    offered = {
        "small tom": (scheme("small tom", family="bridge chrome", badge_deg=4.0),),
        "large tom": (scheme("large tom", family="bridge nickel", badge_deg=22.5),),
    }
    choice = choose_kit(offered, match=[("large tom", "small tom")], rules=RULES, figures=FIGURES)
    assert choice.says[-3:] == (
        "The small tom and the large tom do not match: bridge chrome against bridge nickel;"
        " 4 degrees from badge to lug against 22.5 degrees.",
        "No choice of schemes matches better.",
        "There is no other choice.",
    )


def test_a_stopped_drum_does_not_stop_the_kit() -> None:
    offered = {
        "snare": (scheme("snare", "back to factory", stopped="the shell is cracked."),),
        "small tom": (scheme("small tom"), scheme("small tom", minutes=60, number=2)),
    }
    choice = choose_kit(offered, rules=RULES, figures=FIGURES)
    assert "The snare has no scheme that can be drilled: the shell is cracked." in choice.says
    assert choice.says[-1] == (
        "The next best is long lugs 2 on the small tom, which costs 30.00 GBP more."
    )


def test_no_stop_goes_before_matching_and_matching_before_money() -> None:
    offered = {
        "small tom": (scheme("small tom", "a"), scheme("small tom", "b", minutes=600, number=2)),
        "large tom": (
            scheme("large tom", "a", stopped="too thin."),
            scheme("large tom", "b", minutes=600, number=2),
            scheme("large tom", "c", number=3),
        ),
    }
    choice = choose_kit(offered, match=[("small tom", "large tom")], rules=RULES, figures=FIGURES)
    assert [s.pattern for s in choice.schemes] == ["b", "b"]
    assert choice.if_differing is not None
    assert [s.pattern for s in choice.if_differing.schemes] == ["a", "c"]


def test_a_part_without_a_price_is_taken_last_and_said() -> None:
    odd = scheme("small tom", parts={"odd lug": 6})
    known = scheme("small tom", parts={"hoop": 30}, number=2)
    choice = choose_kit({"small tom": (odd, known)}, rules=RULES, figures=FIGURES)
    assert choice.schemes == (known,)
    assert choice.says[-1] == (
        "The next best is long lugs 1 on the small tom, which costs 780.00 GBP less with 6 more"
        " to buy at a price that nobody knows."
    )
    alone = choose_kit({"small tom": (odd,)}, stock=[("odd lug", 2)], rules=RULES, figures=FIGURES)
    assert alone.total_minor == 0
    assert alone.says[1:3] == (
        "Odd lug: 6 wanted, 2 in stock, 4 to buy, and nobody knows the price: the total leaves"
        " them out.",
        "In all 0.00 GBP: 0.00 GBP of parts to buy and 0.00 GBP of bench time, without 4 parts of"
        " unknown price.",
    )
    own = replace(FIGURES, prices_minor=(("odd lug", 100),))
    priced = choose_kit({"small tom": (odd, known)}, rules=RULES, figures=own)
    assert (priced.schemes, priced.total_minor) == ((odd,), 600)


@pytest.mark.parametrize(
    ("cut", "shows", "says"),
    [
        (4, 0.0, ", but cuts 4 holes more."),
        (0, 60.0, ", but shows 60 mm² more."),
        (0, 0.0, ", and level in all else: the places in the drums' own rankings decide."),
    ],
)
def test_what_costs_the_same_is_decided_by_wood_then_looks_then_rank(
    cut: int, shows: float, says: str
) -> None:
    offered = {
        d: (scheme(d, cut=4), scheme(d, cut=4 + cut, shows=shows, number=2)) for d in ("a", "b")
    }
    for order in (("a", "b"), ("b", "a")):
        choice = choose_kit({d: offered[d] for d in order}, rules=RULES, figures=FIGURES)
        assert [s.number for s in choice.schemes] == [1, 1]
        assert choice.runner_up is not None
        assert [s.number for s in choice.runner_up.schemes] == [1, 2]
        assert choice.says[-1].endswith(f"which costs the same{says}")


def test_badges_in_the_middle_between_lugs_match_on_either_hand() -> None:
    def apart(one: float, two: float, *, lugs: int = 6) -> float | None:
        first = scheme("a", badge_deg=one, lugs=lugs)
        return badges_apart_deg(first, scheme("b", badge_deg=two, lugs=6))

    assert apart(29.9, -29.9) == pytest.approx(0.2)
    assert apart(10.0, -10.0) == pytest.approx(20.0)
    assert apart(22.5, -29.0, lugs=8) == pytest.approx(6.5)
    assert badges_apart_deg(scheme("a", badge_deg=3.0), scheme("b")) is None
    assert badges_apart_deg(scheme("a", badge_deg=359.0), scheme("b", badge_deg=1.0)) == 2.0
    at_limit = scheme("a", badge_deg=0.1), scheme("b", badge_deg=0.1 + RULES.match_deg)
    assert aspects_differing(*at_limit, rules=RULES) == ()


def test_bench_time_is_rounded_once_a_drum_halves_up() -> None:
    lines = tuple(WorkLine(operation="plug", count=1, minutes=m) for m in (0.01, 0.0, 0.02))
    one = replace(scheme("a"), work=(*lines, WorkLine(operation="drill", count=1, minutes=0.5)))
    assert bench_minor(one.work, figures=replace(FIGURES, hour_minor=60)) == 1
    assert bench_minor(scheme("a", minutes=0.5).work, figures=replace(FIGURES, hour_minor=180)) == 2
    assert bench_minor(scheme("a", minutes=45.5).work, figures=FIGURES) == 2275


def test_long_lists_of_parts_are_cut_short() -> None:
    figures = replace(FIGURES, prices_minor=tuple((f"part {n}", 100 * n) for n in range(1, 10)))
    parts = tuple(
        PartLine(name=f"part {n}", count=1, bought=0, each_minor=None) for n in range(1, 10)
    )
    choice = choose_kit({"a": (replace(scheme("a"), parts=parts),)}, rules=RULES, figures=figures)
    assert choice.says[1] == "Part 9: 1 wanted, none in stock, 1 to buy at 9.00 GBP."
    assert choice.says[7] == "And 3 more sorts of part for 6.00 GBP."


def test_a_kit_of_nothing_and_a_drum_without_schemes() -> None:
    assert choose_kit({}, rules=RULES, figures=FIGURES) == KitChoice(chosen=Kit())
    choice = choose_kit(
        {"small tom": (scheme("small tom"),), "snare": ()},
        match=[("small tom", "snare")],
        rules=RULES,
        figures=FIGURES,
    )
    assert choice.without == ("snare",)
    assert choice.says[:2] == ("No scheme for the snare.", "Long lugs on the small tom.")
    assert choice.runner_up is None


def test_a_search_cut_short_says_so_and_still_chooses() -> None:
    dice = random.Random(7)
    offered = {
        f"drum {d}": tuple(
            scheme(
                f"drum {d}",
                dice.choice("abc"),
                parts={n: dice.randint(1, 9) for n in ("bridge lug", "column lug", "rod", "hoop")},
                minutes=dice.randint(0, 400),
                number=n + 1,
            )
            for n in range(12)
        )
        for d in range(8)
    }
    groups = [tuple(offered)]
    stock = [("bridge lug", 20), ("column lug", 20), ("rod", 20), ("hoop", 20)]
    short = choose_kit(
        offered, match=groups, stock=stock, rules=RULES, figures=FIGURES, effort=1e-9
    )
    assert len(short.schemes) == 8
    assert not short.proven
    assert short.says[-1] == "The search was cut short: a better choice may exist."
    whole = choose_kit(offered, match=groups, stock=stock, rules=RULES, figures=FIGURES)
    assert whole.proven
    assert whole.total_minor <= short.total_minor or short.chosen.differences


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"match": [("small tom", "larg tom")]}, "no drum of that name"),
        ({"stock": [("rod", -1)]}, "less than none in stock"),
        ({"ranked_by_drum": {"snare": (scheme("small tom"),)}}, "another drum"),
    ],
)
def test_what_cannot_be_meant_is_refused(change: dict[str, object], says: str) -> None:
    given = {"ranked_by_drum": {"small tom": (scheme("small tom"),)}, **change}
    with pytest.raises(BadInput, match=says):
        choose_kit(given.pop("ranked_by_drum"), rules=RULES, figures=FIGURES, **given)


def test_one_part_with_two_prices_is_refused() -> None:
    def at(each: int) -> Scheme:
        line = PartLine(name="rod", count=1, bought=1, each_minor=each)
        return replace(scheme("a"), parts=(line,))

    with pytest.raises(BadInput, match="two prices"):
        choose_kit({"a": (at(1), at(2))}, rules=RULES, figures=FIGURES)


def test_the_solver_is_loaded_only_when_it_is_needed() -> None:
    code = "import sys, counterhoop.scheme.kit; sys.exit('ortools' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
