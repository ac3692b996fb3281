"""Ears with their price, splay, and threads as read; figures worked by hand beside each."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.errors import Grade
from counterhoop.fittings.book import Book
from counterhoop.scheme.ears import agreeing, refit
from counterhoop.scheme.findings import look_over
from counterhoop.scheme.heads import heads_of
from counterhoop.scheme.rod_lean import splay_mm
from counterhoop.shell.operations import default_figures


def of(layout, rules, *codes, **more):
    return [f for f in look_over(layout, rules=rules, **more).findings if f.code in codes]


@pytest.fixture(scope="session")
def figures():
    return default_figures()


def test_what_eight_ears_cost_a_row_of_six(layouts, shells, rules, figures):
    """Two lugs stay, 4 x 2 plugs and 6 x 2 holes: 8 x 12 + 12 x 6 + 6 x 5 + 25 = 223 min at 30.00
    an hour is 111.50; of six lugs put on four are those taken off, two at 6.80 are bought."""
    lug = replace(shells.LUG, price_minor=680, currency="GBP")
    s = shells.Shell()
    s.row(lug)
    eight = replace(shells.HOOP, name="hoop of 8", ears=8, nominal_mm=304.8)
    six = replace(shells.HOOP, name="hoop of six ears", nominal_mm=304.8, price_minor=2460)
    book = Book((eight, replace(six, currency="GBP")))
    layout = s.layout(hoops=(shells.hoop(entry=eight),))
    [found] = of(layout, rules, "ears-against-lugs", figures=figures, book=book)
    assert "2 lugs kept, 4 taken off and 6 put on: 8 plugs and 12 new holes" in found.says
    assert "3 h 43 min and 125.10 GBP in all." in found.says
    assert found.remedy == "Take hoop of six ears at 24.60 GBP instead."


def test_what_is_not_priced_is_said(layouts, rules, figures):
    [found] = of(layouts.ears(8), rules, "ears-against-lugs", figures=figures, book=Book(()))
    assert "lugs whose price is not known" in found.says
    assert found.remedy.startswith("Find a hoop with 6 ears")
    [plain] = of(layouts.ears(8), rules, "ears-against-lugs")
    assert "GBP" not in plain.says


def test_fewer_ears_than_lugs_buy_nothing(shells, rules, figures):
    """Eight lugs under four ears: four stay, four come off, none is put on."""
    agree = agreeing(
        [45.0 * k for k in range(8)], ears=4, surface=shells.Shell().flat.surface, within_mm=0.8
    )
    work = refit(agree, lugs=[shells.LUG] * 8, figures=figures)
    assert (work.plugs, work.holes) == (8, 0)
    assert work.minutes == pytest.approx(8 * 12.0 + 25.0)
    assert work.money_minor == 6050


def test_another_currency_is_no_price(shells, figures):
    dear = replace(shells.LUG, price_minor=900, currency="EUR")
    surface = shells.Shell().flat.surface
    agree = agreeing([60.0 * k for k in range(6)], ears=8, surface=surface, within_mm=0.8)
    assert refit(agree, lugs=[dear] * 6, figures=figures).money_minor is None


@pytest.mark.parametrize(("circle", "side"), [(331.6, "outside"), (311.6, "inside")])
def test_ears_off_the_mouths_splay_the_rods(layouts, rules, circle, side):
    """5.0 in the radius, the ear's (7 - 5.4864) / 2 = 0.757 used up, over 33.5 - 7 = 26.5."""
    [found] = of(layouts.splay(circle), rules, "rod-splays")
    assert found.grade is Grade.NOTE
    assert found.measured == pytest.approx(math.degrees(math.atan(4.2432 / 26.5)), abs=1e-3)
    assert f"5.0 mm {side} the lug mouths" in found.says
    [new] = of(layouts.splay(circle, status="new"), rules, "rod-splays")
    assert new.grade is Grade.STOP


def test_a_circle_that_is_not_known_is_not_held(layouts, shells, rules):
    layout = layouts.with_rod(shells.ROD_42)
    [head] = heads_of(layout)
    assert splay_mm(head, surface=layout.flat.surface) is None
    assert of(layout, rules, "rod-splays") == []


def test_lean_and_splay_stand_square_to_each_other(shells, rules):
    """Lug 4 lies 3.0 off along: at the best turn 1.5 x (151.3 + 9.5) / 151.3 = 1.594 on the rods'
    circle, and the ears stand 1.8 outside: hypot 2.404 less 0.757 of play over 26.5 is 3.56
    degrees where either alone leans less than 2.3."""
    s = shells.Shell()
    for k in range(6):
        off = s.deg(3.0) if k == 3 else 0.0
        s.fit(shells.LUG, k * 60.0 + off, 62.0, label=f"batter lug {k + 1}", row="batter")
    wide = replace(shells.HOOP, ear_circle_mm=321.6 + 3.6)
    [found] = of(s.layout(hoops=(shells.hoop(entry=wide),)), rules, "rod-splays")
    assert found.measured == pytest.approx(
        math.degrees(math.atan((math.hypot(1.594, 1.8) - 0.757) / 26.5)), abs=0.01
    )
    assert "1.6 mm aside" in found.says


def test_a_look_alike_that_does_not_belong(layouts, rules):
    """7/32 BSW: 5.556, 24 to the inch, 55 degrees; the lugs take 12-24 (BS 84, ASME B1.1)."""
    [found] = of(layouts.thread_read(5.55, 10.58, flanks_deg=55.0), rules, "thread-look-alike")
    assert found.grade is Grade.TAKE_CARE
    assert "7/32 BSW" in found.says
    assert "12-24" in found.says
    assert "spoil the lug's thread" in found.says
    assert "own insert" in found.remedy
    assert "force nothing" in found.remedy


def test_a_look_alike_that_may_be_and_the_reading_that_tells(layouts, rules):
    """5.46 is a 12-24 within its doubt and a worn 7/32 of either flank."""
    [found] = of(layouts.thread_read(5.46, 10.58), rules, "thread-not-told")
    assert found.grade is Grade.NOTE
    assert "only 12-24 UNC goes into that" in found.says
    assert "take the largest" in found.remedy


def test_a_slip_in_counting_is_no_other_thread(layouts, rules):
    """Nine threads of 12-24 are 9.525: taken for ten they are still known for what they are."""
    layout = layouts.thread_read(5.40, 9.525, flanks_deg=60.0)
    assert of(layout, rules, "thread-look-alike", "thread-not-the-lugs", "thread-not-told") == []


def test_a_slip_in_counting_of_another_thread_asks_for_a_recount(layouts, rules):
    """Nine threads of M6 taken for ten, into lugs for 12-24."""
    [found] = of(layouts.thread_read(5.95, 9.0), rules, "thread-not-the-lugs")
    assert "Count the threads again: the length fits 9." in found.remedy


def test_a_slip_in_counting_of_a_thread_that_may_be_the_lugs_asks_for_a_recount(layouts, rules):
    """Nine threads of 12-24 are 9.525 mm; taken for ten, and worn so that 7/32 may be too."""
    [found] = of(layouts.thread_read(5.46, 9.525), rules, "thread-not-told")
    assert found.remedy.startswith("Count the threads again: the length fits 9.")


def test_a_thread_of_no_table(layouts, rules):
    [found] = of(layouts.thread_read(5.45, 12.4), rules, "thread-not-told")
    assert "fits no thread of the tables" in found.says


def test_a_screw_that_is_no_rod_and_lugs_that_go_are_left_alone(layouts, shells, rules):
    codes = ("thread-look-alike", "thread-not-the-lugs", "thread-not-told")
    assert of(layouts.thread_read(5.95, 10.0, head=""), rules, *codes) == []
    made = layouts.thread_read(5.95, 10.0)
    gone = tuple(replace(f, status="goes") for f in made.fittings)
    assert of(replace(made, fittings=gone), rules, *codes) == []
