"""Schemes in order: exact laws of a product order, and worked examples for the words."""

from __future__ import annotations

import itertools
import math
import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.flat import Development
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.truing import Truing
from counterhoop.errors import BadInput, Finding, Grade
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Criteria, PartLine, Scheme
from counterhoop.scheme.rank import Ranked, rank, repriced
from counterhoop.scheme.weigh import weigh
from counterhoop.shell.drum import Circumference, Drum
from counterhoop.shell.shop_rules import ShopFigures, default_rules
from counterhoop.shell.wish import FinishPlan, Pattern

RULES = default_rules()
GIRTH = Circumference(skin=Skin.OLD, mean_mm=955.0)
FLAT = Development(
    surface=Surface(skin=Skin.OLD, circumference_mm=955.0), depth_mm=202.0, wall_mm=6.0
)
LAYOUT = Layout(
    drum=Drum(key="small tom", circumference=GIRTH, wall_mm=6.0, depth_mm=202.0, heads=1),
    flat=FLAT,
    truing=Truing(),
    finish=FinishPlan(),
    holes=(),
    fittings=(),
)


def scheme(
    pattern: str = "long lugs",
    *,
    cut: int = 8,
    shows: float = 0.0,
    inside: float = 0.0,
    money: int = 8400,
    margin: float = 4.0,
    stops: tuple[Finding, ...] = (),
    code: str = "",
    centred: bool = True,
    title: str = "",
    parts: tuple[tuple[str, int], ...] = (),
    extra_holes: int = 0,
    approved: str = "",
) -> Scheme:
    criteria = Criteria(
        cut=cut,
        shows_mm2=shows,
        shows_inside_mm2=inside,
        money_minor=money,
        margin_mm=margin,
    )
    return Scheme(
        drum="small tom",
        number=0,
        pattern=pattern,
        title=title or pattern,
        layout=LAYOUT,
        findings=stops,
        criteria=criteria,
        parts=tuple(PartLine(name=n, count=c, bought=0, each_minor=None) for n, c in parts),
        work=(),
        code=code,
        centred=centred,
        extra_holes=extra_holes,
        approved=approved,
    )


def stop(
    says: str = "4 mm of wood is left.", *, where: str = "", along_deg: float | None = None
) -> Finding:
    return Finding(code="web-thin", grade=Grade.STOP, says=says, where=where, along_deg=along_deg)


# Few values each, so that ties, duplicates and domination all come up often.
SCHEMES = st.lists(
    st.builds(
        scheme,
        st.sampled_from([*(str(p) for p in Pattern), "back to factory"]),
        cut=st.integers(0, 3),
        shows=st.sampled_from([0.0, 0.3, 100.0, 250.0]),
        inside=st.sampled_from([0.0, 80.0]),
        money=st.sampled_from([0, 1000, 2500]),
        margin=st.sampled_from([-1.0, 2.0, 2.1, 6.0, math.inf]),
        stops=st.sampled_from([(), (), (stop(),)]),
        code=st.sampled_from(["", "AAAA-AAAA", "BBBB-BBBB"]),
        centred=st.booleans(),
        parts=st.sampled_from([(), (("bridge lug", 6),)]),
        approved=st.sampled_from(["", "", "", "by A. Client on 3 May"]),
    ),
    max_size=9,
)


def weights(schemes: tuple[Scheme, ...]) -> list[tuple[object, ...]]:
    return [weigh(s).decides for s in schemes]


def bettered(mine: tuple[object, ...], others: list[tuple[object, ...]]) -> bool:
    """Domination written out once more, by another road than the code's."""
    return any(
        all(o <= m for o, m in zip(other, mine, strict=True))
        and any(o < m for o, m in zip(other, mine, strict=True))
        for other in others
    )


@given(SCHEMES)
def test_nothing_shown_is_bettered_by_anything(schemes: list[Scheme]) -> None:
    ranked = rank(schemes, rules=RULES)
    everything = weights((*ranked.shown, *(a.scheme for a in ranked.set_aside)))
    for s in ranked.shown:
        assert s.approved or not bettered(weigh(s).decides, everything)


@given(SCHEMES)
def test_what_is_set_aside_is_stopped_bettered_or_there_already(schemes: list[Scheme]) -> None:
    ranked = rank(schemes, rules=RULES)
    everything = (*ranked.shown, *(a.scheme for a in ranked.set_aside))
    workable = any(not s.stopped for s in schemes)
    by_number = {s.number: s for s in everything}
    for aside in ranked.set_aside:
        assert aside.says.endswith(".")
        if aside.cause == "stopped":
            assert workable
            assert aside.scheme.stopped
            continue
        assert aside.because_of is not None
        other = by_number[aside.because_of]
        if aside.cause == "worse":
            assert bettered(weigh(aside.scheme).decides, [weigh(other).decides])
        else:
            assert other in ranked.shown
            assert other.code == aside.scheme.code != ""


@given(SCHEMES)
def test_nothing_gets_lost_and_numbers_run_from_one(schemes: list[Scheme]) -> None:
    ranked = rank(schemes, rules=RULES)
    everything = [*ranked.shown, *(a.scheme for a in ranked.set_aside)]
    assert [s.number for s in everything] == list(range(1, len(schemes) + 1))
    blank = [replace(s, number=0, why="") for s in everything]
    assert sorted(map(repr, blank)) == sorted(map(repr, schemes))
    assert bool(ranked.shown) == bool(schemes)


@given(SCHEMES)
def test_the_order_is_the_stated_one(schemes: list[Scheme]) -> None:
    shown = rank(schemes, rules=RULES).shown
    stated = [
        (
            s.stopped,
            not s.centred,
            s.criteria.cut,
            math.floor(s.criteria.shows_mm2 + 0.5),
            s.criteria.margin_mm < 1.0,
            s.criteria.money_minor,
        )
        for s in shown
    ]
    assert stated == sorted(stated)


@given(SCHEMES, st.randoms(use_true_random=False))
def test_the_order_they_come_in_does_not_matter(
    schemes: list[Scheme], shuffler: random.Random
) -> None:
    other = [replace(s, number=n, why="before") for n, s in enumerate(schemes)]
    shuffler.shuffle(other)
    assert rank(other, rules=RULES) == rank(schemes, rules=RULES)


@given(SCHEMES)
def test_a_second_ranking_of_what_is_shown_changes_nothing(schemes: list[Scheme]) -> None:
    once = rank(schemes, rules=RULES)
    assert rank(once.shown, rules=RULES) == Ranked(shown=once.shown)


@given(SCHEMES)
def test_a_stopped_scheme_never_puts_aside_one_that_can_be_drilled(schemes: list[Scheme]) -> None:
    workable = [s for s in schemes if not s.stopped and not s.approved]
    with_stopped = [s for s in schemes if s.stopped and not s.approved] + workable
    if workable:
        kept = rank(with_stopped, rules=RULES).shown
        assert kept == rank(workable, rules=RULES).shown


def test_the_comparison_can_fail() -> None:
    good, bad = scheme(cut=2).criteria, scheme(cut=9).criteria
    assert bettered((bad.cut, bad.money_minor), [(good.cut, good.money_minor)])
    assert not bettered((good.cut, good.money_minor), [(bad.cut, bad.money_minor)])
    assert not bettered((good.cut,), [(good.cut,)])


def test_a_row_off_its_height_never_puts_aside_one_that_keeps_to_it() -> None:
    proper = scheme(cut=12, money=9000, extra_holes=8)
    moved = scheme(cut=7, money=8000, centred=False, title="long lugs, moved")
    ranked = rank([moved, proper], rules=RULES)
    assert [s.centred for s in ranked.shown] == [True, False]
    assert ranked.shown[0].why == (
        "First because its rows stand where they should, and in scheme 2 a row stands further off"
        " its proper height than your 1.5 mm; adds 8 holes."
    )
    assert ranked.shown[1].why == (
        "Cuts 5 holes fewer than scheme 1 and costs 10.00 GBP less, but a row stands further off"
        " its proper height than your 1.5 mm; adds no hole."
    )


def test_each_says_what_it_is_better_at() -> None:
    lugs = scheme(cut=4, shows=210.0, money=12400, margin=1.0)
    line = scheme("second row in line", cut=8, money=8400, margin=3.25, extra_holes=8)
    first, second = rank([line, lugs], rules=RULES, figures=ShopFigures(currency="EUR")).shown
    assert first.why == ("First because it cuts 4 holes fewer than scheme 2; adds no hole.")
    assert second.why == (
        "Shows 210 mm² less outside than scheme 1, costs 40.00 EUR less and stays 2.5 mm further"
        " from the nearest limit, but cuts 4 holes more; adds 8 holes."
    )


def test_the_worse_one_says_by_how_much() -> None:
    dear = scheme("second row in line", money=12400, shows=60.0)
    (aside,) = rank([dear, scheme()], rules=RULES).set_aside
    assert aside.says == "Shows 60 mm² more outside than scheme 1 and costs 40.00 GBP more."
    assert (aside.scheme.number, aside.because_of) == (2, 1)


def test_the_stopped_one_says_what_stops_it() -> None:
    findings = (
        Finding(code="shadow-shows", grade=Grade.NOTE, says="A shadow shows."),
        replace(stop("Too close to call."), too_close=True),
        stop("the base stands 3 mm into the bracket.", along_deg=60.0),
    )
    stopped = scheme("second row in line", cut=0, money=0, stops=findings)
    ranked = rank([stopped, scheme()], rules=RULES)
    assert [s.pattern for s in ranked.shown] == ["long lugs"]
    assert ranked.set_aside[0].says == (
        "Stopped at 60 degrees: the base stands 3 mm into the bracket (and 1 more stop)."
    )
    assert ranked.shown[0].why == "The only one offered; adds no hole."


def test_where_everything_is_stopped_it_is_shown_with_what_stops_it() -> None:
    one = scheme(stops=(stop(where="long lug 3", along_deg=140.5),))
    two = scheme("second row in line", cut=2, stops=(stop(where="lug 1"),))
    worse = scheme("second row in line", cut=9, stops=(stop(where="lug 1"),))
    ranked = rank([one, two, worse], rules=RULES)
    assert [s.pattern for s in ranked.shown] == ["second row in line"]
    assert [a.cause for a in ranked.set_aside] == ["worse", "worse"]
    assert ranked.shown[0].why.startswith("Stopped at lug 1; ")
    assert ranked.for_kit == (ranked.shown[0], *(a.scheme for a in ranked.set_aside))


def test_what_shows_inside_neither_saves_a_scheme_nor_puts_it_aside() -> None:
    clean, plugs = scheme(inside=0.0, title="a"), scheme(inside=300.0, title="b")
    first, second = rank([plugs, clean], rules=RULES).shown
    assert (first.title, second.title) == ("a", "b")
    assert second.why == "Shows 300 mm² more inside than scheme 1; adds no hole."
    dear = replace(clean, criteria=replace(clean.criteria, money_minor=9000))
    assert len(rank([dear, plugs], rules=RULES).set_aside) == 1


def test_a_difference_that_a_rule_cannot_show_keeps_nothing() -> None:
    good, dear = scheme(margin=4.0, shows=10.0), scheme(margin=4.1, shows=9.9, money=9999)
    (aside,) = rank([dear, good], rules=RULES).set_aside
    assert aside.says == "Costs 15.99 GBP more than scheme 1."


def test_the_same_work_is_shown_once() -> None:
    lugs = scheme(code="ABCD-EFGH", parts=(("bridge lug", 6),), title="a")
    again = replace(lugs, title="b")
    other_lug = scheme(code="ABCD-EFGH", parts=(("column lug", 6),), title="c")
    ranked = rank([again, lugs, other_lug], rules=RULES)
    assert [s.title for s in ranked.shown] == ["a", "c"]
    assert [(a.cause, a.says) for a in ranked.set_aside] == [
        ("same", "The same work with the same parts as scheme 1.")
    ]
    assert len(ranked.for_kit) == 2


def test_what_the_client_approved_stays_in_view() -> None:
    approved = scheme(cut=9, approved="by A. Client on 3 May", code="ABCD-EFGH")
    ranked = rank([approved, scheme("second row in line")], rules=RULES)
    assert ranked.shown[1].why == (
        "Approved by A. Client on 3 May: cuts 1 hole more than scheme 1; adds no hole."
    )
    assert ranked.set_aside == ()


def test_room_beyond_five_millimetres_is_no_advantage() -> None:
    far = scheme(margin=math.inf, money=9000)
    near = scheme("second row in line", margin=5.0)
    ranked = rank([far, near], rules=RULES)
    assert [s.pattern for s in ranked.shown] == ["second row in line"]
    assert ranked.set_aside[0].says == "Costs 6.00 GBP more than scheme 1."
    level = rank([scheme(margin=12.0), scheme("second row in line", margin=9.0)], rules=RULES)
    assert len(level.shown) == 2


def test_no_pennies_outweigh_a_limit_that_may_be_passed() -> None:
    # 0.24 less for a row that may touch the vent, against one with 12.9 mm to spare.
    cheap = scheme("second row half a lug spacing along", money=18002, margin=0.0)
    clear = scheme("second row in line", money=18026, margin=12.9)
    found = rank([cheap, clear], rules=RULES)
    assert [s.pattern for s in found.shown] == [clear.pattern, cheap.pattern]
    # A millimetre and more is enough: then money decides.
    enough = scheme("second row half a lug spacing along", money=18002, margin=1.0)
    assert rank([enough, clear], rules=RULES).shown[0].pattern == enough.pattern


def test_level_schemes_go_by_the_order_of_the_patterns() -> None:
    alike = [scheme(str(p)) for p in Pattern]
    for some in itertools.permutations(alike):
        assert [s.pattern for s in rank(some, rules=RULES).shown] == [str(p) for p in Pattern]


def test_two_drums_and_figures_that_are_none_are_refused() -> None:
    with pytest.raises(BadInput, match="several drums"):
        rank([scheme(), replace(scheme(), drum="large tom")], rules=RULES)
    for bad in (scheme(margin=math.nan), scheme(shows=-1.0), scheme(inside=math.inf)):
        with pytest.raises(BadInput, match="no number"):
            rank([bad], rules=RULES)


def test_no_scheme_at_all_is_no_error() -> None:
    assert rank([], rules=RULES) == Ranked()


def test_a_scheme_with_another_price_is_told_anew_in_its_old_place() -> None:
    lugs = scheme(cut=4, money=12400)
    line = scheme("second row in line", cut=8, money=8400, extra_holes=8)
    ranked = rank([line, lugs], rules=RULES)
    dearer = replace(ranked.shown[1], criteria=replace(ranked.shown[1].criteria, money_minor=10400))
    now = repriced(ranked, dearer, rules=RULES, figures=ShopFigures())
    assert [s.number for s in now.shown] == [1, 2]
    assert "costs 20.00 GBP less" in now.shown[1].why.lower().replace("gbp", "GBP")
