"""Own sales are kept as typed, put right, struck; two benches lose nothing of each other.

Truth: what was typed; amounts worked by hand.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.folders.kinds import SALES
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.trade.demo_sales import put_demo_sales
from counterhoop.bench.trade.features_typed import called_size, read_features, things_in
from counterhoop.bench.trade.own_sales import OwnSales, own_sales, strike_sale, write_sale
from counterhoop.bench.trade.sale_typed import read_sale
from counterhoop.bench.trade.sales_rows import sales_out, take_sales
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.quantities.money import Money
from counterhoop.store.address import address_of
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved
from counterhoop.store.store import open_store

SNARE = {
    "size": "14 dia x 6.5 deep", "kind": "snare drum", "line": "Corvane Tarnbeck",
    "made": "1962 to 1966", "condition": "edge chipped, wrap shrunk", "complete": "90 %",
    "extra_holes": "2", "changed": "none", "price": "240", "sold_on": "2030-05-02", "days": "21",
    "fees": "24.50", "postage": "13 GBP",
}  # fmt: skip


def written(shop: Workshop, typed: dict[str, str], *, key: str = "", based_on: int = -1) -> str:
    """Write a sale and return its name for programs."""
    before = own_sales(shop)
    on = before.kept.number if based_on < 0 else based_on
    done = write_sale(shop, key, typed, based_on=on, by="bench")
    assert isinstance(done, Saved), done
    known = {one.key for one in before.rows}
    return next((one.key for one in own_sales(shop).rows if one.key not in known), key)


def test_a_sale_is_read_as_it_was_typed(shop: Workshop) -> None:
    key = written(shop, SNARE)
    kept = own_sales(shop).sale(key)
    sale = kept.read.sale
    assert sale is not None
    assert (sale.features.dia_in, sale.features.deep_in) == (14.0, 6.5)
    assert sale.features.made == (1962, 1966)
    assert sale.features.condition == frozenset({"edge chipped", "wrap shrunk"})
    assert (sale.features.complete, sale.features.extra_holes) == (0.9, 2)
    assert (sale.features.changed, sale.features.finish) == (frozenset(), "")
    assert sale.brought == Money(minor=24000 - 2450 - 1300, currency="GBP")
    assert (sale.sold_on, sale.days_on_shelf) == (dt.date(2030, 5, 2), 21)
    assert kept.typed["price"] == "240.00 GBP"
    assert kept.what == "Corvane Tarnbeck snare drum, 14 dia x 6.5 deep"


def test_all_that_is_wrong_is_said_at_once_and_nothing_is_kept(shop: Workshop) -> None:
    wrong = SNARE | {
        "size": "14 x 6.5", "price": "lots", "sold_on": "next week", "days": "long",
        "made": "old", "complete": "most", "extra_holes": "a few", "fees": "3 EUR",
    }  # fmt: skip
    faults = write_sale(shop, "", wrong, based_on=0, by="bench")
    assert isinstance(faults, dict)
    fields = {"size", "price", "sold_on", "days", "made", "complete", "extra_holes"}
    assert set(faults) == fields
    assert "14 x 6.5" in str(faults["size"])
    only = write_sale(shop, "", SNARE | {"fees": "3 EUR"}, based_on=0, by="bench")
    assert isinstance(only, dict)
    assert set(only) == {"fees"}
    assert own_sales(shop).rows == ()
    with pytest.raises(BadInput, match="nothing that a sale says"):
        write_sale(shop, "", {"prise": "240"}, based_on=0, by="bench")


def test_a_sale_of_tomorrow_is_none(shop: Workshop) -> None:
    faults = write_sale(shop, "", SNARE | {"sold_on": "2030-05-20"}, based_on=0, by="bench")
    assert isinstance(faults, dict)
    assert set(faults) == {"sold_on"}


def test_a_struck_sale_counts_for_nothing_and_comes_back_whole(shop: Workshop) -> None:
    key = written(shop, SNARE)
    before = own_sales(shop).sale(key)
    strike_sale(shop, key, struck=True, based_on=own_sales(shop).kept.number, by="bench")
    assert own_sales(shop).counted == ()
    assert own_sales(shop).sale(key).struck
    strike_sale(shop, key, struck=False, based_on=own_sales(shop).kept.number, by="bench")
    assert own_sales(shop).sale(key) == before


def test_two_benches_write_two_sales_and_both_are_there(shop: Workshop) -> None:
    first = written(shop, SNARE, based_on=0)
    second = written(shop, SNARE | {"price": "180"}, based_on=0)
    assert {one.key for one in own_sales(shop).rows} == {first, second}


def test_two_benches_that_put_one_sale_right_are_shown_both(shop: Workshop) -> None:
    key = written(shop, SNARE)
    seen = own_sales(shop).kept.number
    written(shop, SNARE | {"price": "250"}, key=key, based_on=seen)
    done = write_sale(shop, key, SNARE | {"price": "230"}, based_on=seen, by="other bench")
    assert isinstance(done, Conflict)
    sale = own_sales(shop).sale(key).read.sale
    assert sale is not None
    assert sale.price == Money(minor=25000, currency="GBP")


def test_a_drum_of_a_job_is_sold_once(shop: Workshop) -> None:
    done = write_sale(shop, "", SNARE, came_from="j1/d1", based_on=0, by="bench")
    assert isinstance(done, Saved)
    with pytest.raises(BadInput, match="among the sales already"):
        write_sale(shop, "", SNARE, came_from="j1/d1", based_on=1, by="bench")
    taken = own_sales(shop).taken_from("j1", "d1")
    assert taken is not None
    written(shop, SNARE | {"price": "1"}, key=taken.key)
    assert own_sales(shop).sale(taken.key).came_from == "j1/d1"
    with pytest.raises(BadInput, match="no such sale"):
        own_sales(shop).sale("nobody")


def test_what_a_hand_wrote_wrong_keeps_its_fault_and_shuts_nothing(shop: Workshop) -> None:
    body: Json = {"sales": {"a": {"size": 14, "price": "much"}, "b": {**SNARE}, "c": "none"}}
    write_down(shop, None, Change(kind=SALES, value=body, based_on=0), by="bench")
    own: OwnSales = own_sales(shop)
    assert [one.key for one in own.rows if one.read.sale] == ["b"]
    assert set(own.sale("a").read.faults) == {"size", "price", "sold_on"}


def test_the_demonstrations_sales_can_all_be_read(shop: Workshop) -> None:
    put_demo_sales(shop, by="demonstration")
    own = own_sales(shop)
    assert len(own.counted) == len(own.rows) == 14
    days = [sale.sold_on for sale in own.counted]
    assert days == sorted(days, reverse=True)


def test_rows_go_out_and_come_in_as_they_were(shop: Workshop, tmp_path: Path) -> None:
    """Exact law: what was handed out is known when it comes back, and whole in another shop."""
    put_demo_sales(shop, by="demonstration")
    first = own_sales(shop)
    again = take_sales(shop, sales_out(first), based_on=first.kept.number, by="bench")
    assert (again.done, again.new, again.there) == (None, 0, 14)
    with open_store(address_of(data=tmp_path / "other")) as store:
        other = Workshop(store=store, works=shop.works, now=shop.now)
        taken = take_sales(other, sales_out(first), based_on=0, by="bench")
        assert isinstance(taken.done, Saved)
        sold = [replace(one, key="") for one in own_sales(other).counted]
        assert sold == [replace(one, key="") for one in first.counted]


def test_a_sheet_is_taken_whole_or_not_at_all(shop: Workshop) -> None:
    good = "Size;Price;Sold on;Extra holes\n12 dia x 8 deep;90;2030-05-01;none\n"
    bad = take_sales(shop, good + "12 x 8;90;soon;\n", based_on=0, by="bench")
    assert own_sales(shop).rows == ()
    assert [line.partition(":")[0] for line in bad.faults] == ["line 3", "line 3"]
    assert take_sales(shop, "\ufeff" + good, based_on=0, by="bench").new == 1
    assert own_sales(shop).counted[0].features.extra_holes == 0
    for sheet in ("", "Size,Prize\n", "what\nx\n"):
        with pytest.raises(BadInput, match=r"no columns of sales|no such column"):
            take_sales(shop, sheet, based_on=0, by="bench")


def test_no_text_of_a_sheet_is_a_formula_and_comes_back_as_it_was(shop: Workshop) -> None:
    for what in ("=1+1", "- worn", "|calc", "'60s snare"):
        written(shop, SNARE | {"what": what})
    out = sales_out(own_sales(shop))
    assert {line.partition(",")[0] for line in out.splitlines()[1:]} == {
        '"\'=1+1"', '"\'- worn"', '"\'|calc"', '"\'60s snare"',
    }  # fmt: skip
    assert take_sales(shop, out, based_on=0, by="bench").there == 4


def test_a_sheet_that_cannot_be_read_says_where(shop: Workshop) -> None:
    head = "size,price,sold on,what\n"
    for row, where in (
        ('14 x 6,90,2030-05-01,"open', "row 2"), ("14 x 6,90,2030-05-01,=1+1", "line 2"),
        ("14 x 6,90,2030-05-01," + "x" * 200_000, "row 2|line 2"),
    ):  # fmt: skip
        with pytest.raises(BadInput, match=where):
            take_sales(shop, head + row, based_on=0, by="bench")
    assert own_sales(shop).rows == ()


# --- what is typed of a drum -----------------------------------------------------------------

quarters = st.integers(min_value=4, max_value=120).map(lambda many: many / 4)


@given(dia=quarters, deep=quarters)
def test_a_size_is_read_whichever_number_comes_first(dia: float, deep: float) -> None:
    """Exact law: the words say which is which, and inches need not be written."""
    ways = [f"{dia:g} dia x {deep:g} deep", f"{deep:g} deep x {dia:g} dia"]
    ways.append(f"{dia:g} in dia x {deep:g} in deep")
    assert len({(called_size(one).dia.mm, called_size(one).deep.mm) for one in ways}) == 1
    read = read_features({"size": ways[0]}).features
    assert read is not None
    assert (read.dia_in, read.deep_in) == (dia, deep)


@given(st.sets(st.text(alphabet="abcdefgh", min_size=1, max_size=8), max_size=5))
def test_things_are_kept_apart_by_commas(things: set[str]) -> None:
    assert things_in(", ".join(sorted(things))) == things


def test_nothing_said_is_not_none() -> None:
    unsaid = read_features({"size": "12 dia x 8 deep"}).features
    none = read_features(
        {"size": "12 dia x 8 deep", "condition": "none", "extra_holes": "none", "changed": "none"}
    ).features
    assert unsaid is not None
    assert none is not None
    assert (unsaid.condition, unsaid.extra_holes, unsaid.changed) == (None, None, None)
    assert (none.condition, none.extra_holes, none.changed) == (frozenset(), 0, frozenset())


def test_days_fees_and_postage_may_be_left_empty() -> None:
    typed = {"size": "12 dia x 8 deep", "price": "90 EUR", "sold_on": "2030-05-01"}
    sale = read_sale(typed, key="k", currency="GBP", today=dt.date(2030, 5, 14)).sale
    assert sale is not None
    assert sale.brought == Money(minor=9000, currency="EUR")
    assert sale.days_on_shelf == 0
