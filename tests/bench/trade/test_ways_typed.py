"""The ways to sell as they are typed. Truth: worked by hand; the book's own minutes."""

from __future__ import annotations

import datetime as dt
import math
from fractions import Fraction

import pytest

from counterhoop.bench.folders.own_figures import open_with
from counterhoop.bench.trade.demo_sales import put_demo_sales
from counterhoop.bench.trade.features_typed import read_features
from counterhoop.bench.trade.own_sales import own_sales
from counterhoop.bench.trade.ways_reckoned import Reckoned, reckon_ways, valued
from counterhoop.bench.trade.ways_typed import WORK_FIRST, read_ways
from counterhoop.bench.trade.work_typed import GUESS_SPREAD, hours_lines, read_work
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.hours.shared import SHARED_SPREAD
from counterhoop.job.trade.worth import Worth, sells_percent
from counterhoop.quantities.money import Money
from counterhoop.shell.operations import default_figures

TODAY = dt.date(2030, 5, 14)
WHOLE = {
    "whole_price": "300", "whole_sells": "100 %", "whole_postage": "15", "fee": "10 %",
    "premium": "20 %", "fetching": "15", "wage": "25",
}  # fmt: skip


def reckoned(shop: Workshop, typed: dict[str, str], *, drum: str = "") -> Reckoned:
    wanted = read_features({"size": drum, "kind": "tom"}).features if drum else None
    return reckon_ways(read_ways(shop, typed), wanted=wanted, own=own_sales(shop), on=TODAY)


def test_the_most_to_pay_worked_by_hand(shop: Workshop) -> None:
    """300 less 30 and 15 is 255; less 15 for fetching is 240; with 20 % on top that is 200."""
    found = reckoned(shop, WHOLE)
    assert found.face == "Pay 200 GBP at most: then an hour still brings 25 GBP on average."
    assert found.beside == "That is for a drum that is sold whole as it is."
    (one,) = found.outcomes
    assert (one.left, one.short_percent) == (Money(minor=24000, currency="GBP"), 0)


def test_what_may_not_sell_and_what_it_goes_for_then(shop: Workshop) -> None:
    """6 in 10 at 255, else half of 300: 153 + 60 is 213; less 15, over 1.2, is 165."""
    found = reckoned(shop, WHOLE | {"whole_sells": "60 %", "unsold": "50 %"})
    assert found.face.startswith("Pay 165 GBP at most")
    sure = reckoned(shop, WHOLE | {"whole_sells": "60 %", "unsold": "50 %", "sure": "80 %"})
    # Four in ten bring 150 only: less 15, over 1.2, is 112.5.
    assert sure.face.startswith("Pay 112 GBP at most")


def test_pennies_are_no_bid(shop: Workshop) -> None:
    assert reckoned(shop, WHOLE | {"fetching": "15.50"}).face.startswith("Pay 199 GBP")


def test_sold_for_its_owner(shop: Workshop) -> None:
    """A third of 300 for the shop; the owner has 255 less 100."""
    found = reckoned(shop, WHOLE | {"share": "33.333333 %", "paid": "120"})
    left = {one.way.name: one.left for one in found.outcomes}
    assert left["sold for its owner"] == Money(minor=10000, currency="GBP")
    assert left["whole"] == Money(minor=25500 - 12000 - 2400 - 1500, currency="GBP")
    assert "Its owner gets about 160 GBP then; what has not sold goes back." in found.granted
    assert "sold for its owner" not in found.most


def test_parts_are_read_line_by_line(shop: Workshop) -> None:
    typed = {"parts": "8 x lug; 9; 80 %\nhoop ; 25\n\nbadge", "parts_sells": "40 %", "fee": "10 %"}
    ways = read_ways(shop, typed)
    assert [(one.count, one.what, one.price.minor, one.sells_percent) for one in ways.parts] == [
        (8, "lug", 900, 80), (1, "hoop", 2500, 40),
    ]  # fmt: skip
    assert ways.unpriced == ("badge",)
    assert {one.fee for one in ways.parts} == {Fraction(1, 10)}
    found = reckoned(shop, typed)
    assert "Parts without a price: badge." in found.left_out
    # 8 x (0.8 x 8.10 + 0.2 x 4.50) + 0.4 x 22.50 + 0.6 x 12.50, no work
    assert found.outcomes[0].left == Money(minor=5904 + 900 + 750, currency="GBP")


def test_a_field_that_cannot_be_read_says_so_and_counts_as_not_typed(shop: Workshop) -> None:
    assert read_ways(shop, {}).faults == {}
    for name, typed in (
        ("wage", "30 EUR"), ("fee", "110 %"), ("weeks", "0"), ("sure", "100 %"), ("sure", "0 %"),
        ("parts", "8 x lug; 9; 80 %; new"), ("parts", "999 x lug; 9"), ("restored_days", "-1"),
        ("restored_work", "polish the moon"), ("whole_work", "0 x tune a drum"),
    ):  # fmt: skip
        assert set(read_ways(shop, {name: typed}).faults) == {name}, typed
    assert reckoned(shop, WHOLE | {"weeks": "0", "parts": "999 x lug; 9"}).outcomes


def test_hours_are_the_books_until_the_log_says_more(shop: Workshop) -> None:
    figures = default_figures()
    work = read_work(shop, "tune a drum", where="work", figures=figures)
    assert work.minutes == 25
    assert hours_lines(work) == ("1 x tune a drum: 25 min, the book's",)
    guess = read_work(shop, "letters; 1 h", where="work", figures=figures)
    assert guess.minutes == 60
    assert guess.spread == pytest.approx(math.hypot(GUESS_SPREAD, SHARED_SPREAD), rel=0.02)
    assert read_work(shop, " \n", where="work", figures=figures).minutes == 0
    with pytest.raises(BadInput, match="no such operation"):
        read_work(shop, "tune the moon", where="work", figures=figures)


def test_the_work_that_stands_there_first_is_in_the_book(shop: Workshop) -> None:
    for name, text in WORK_FIRST.items():
        assert read_work(shop, text, where=name, figures=open_with({}).shop.figures).minutes > 60


def test_what_is_not_typed_comes_from_own_sales(shop: Workshop) -> None:
    put_demo_sales(shop, by="demonstration")
    own = own_sales(shop)
    wanted = read_features({"size": "12 dia x 8 deep", "kind": "tom"}).features
    assert wanted is not None
    found = valued(wanted, own, on=TODAY)
    assert isinstance(found, Worth)
    made = reckoned(shop, {"weeks": "8"}, drum="12 dia x 8 deep")
    whole = next(one.way for one in made.outcomes if one.way.name == "whole")
    assert whole.lots[0].price == found.usual
    assert whole.lots[0].sells_percent == sells_percent(found, weeks=8)
    assert any("your sales are too few to tell" in line for line in made.left_out)


def test_nothing_like_it_is_said(shop: Workshop) -> None:
    put_demo_sales(shop, by="demonstration")
    made = reckoned(shop, {}, drum="30 dia x 4 deep")
    assert made.outcomes == ()
    assert sum("Nothing like it" in line for line in made.left_out) == 2
    assert made.face.startswith("Nothing to reckon with yet")
