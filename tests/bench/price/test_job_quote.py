"""The quote of a job: what is in it, what a person writes on it, how the log moves it.

Truth: the operations book counted by hand, sums added again in whole coins.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from priced_job import BY, OnTheBench, saved, told

from counterhoop.bench.folders.kinds import TUNING
from counterhoop.bench.folders.write_own_figures import write_figures
from counterhoop.bench.price.job_quote import quote_by
from counterhoop.bench.price.terms import read_terms, terms_of, write_terms
from counterhoop.bench.price.ways_beside import ways_beside
from counterhoop.bench.price.work_words import works_said
from counterhoop.bench.price.works import RUNS_OVER
from counterhoop.bench.price.write_quote import (
    as_it_came,
    keep_over,
    put_back,
    strike,
    type_bought_for,
    type_discount,
    type_line,
    type_price,
    write_line,
)
from counterhoop.errors import BadInput
from counterhoop.job.price.in_one import OF_RULES, work_in_one
from counterhoop.job.price.line import Kind
from counterhoop.job.price.quote import CONTINGENCY
from counterhoop.quantities.duration import parse_duration
from counterhoop.store.save import Conflict
from counterhoop.store.work_log.write_log import type_after

MINUTES = {
    "photograph and book in": (1, 20),
    "survey a drum": (1, 40),
    "strip a drum": (1, 45),
    "soak and clean a lug": (16, 12),
    "clean a hoop": (2, 25),
    "plug a hole": (2, 12),
    "refit a lug": (16, 4),
    "fit strainer and butt": (1, 30),
    "put on hoop and head": (2, 12),
    "tune a drum": (1, 25),
    "pack a drum": (1, 20),
}
"""What the school snare needs, counted on its survey by hand, with the book's usual minutes."""
HOUR_MINOR = 3400
PLUG = "work: plug a hole"


def key(bench: OnTheBench, name: str) -> str:
    return f"{bench.drum.id}/{name}"


def money(bench: OnTheBench) -> dict[str, Any]:
    return {"currency": "GBP", **told(bench)}


def test_the_price_has_all_work_from_booking_in_to_packing(snare: OnTheBench) -> None:
    now = snare.quote()
    work = [line for line in now.lines if line.kind is Kind.WORK]
    *lines, over = work
    assert {line.stands.says: line.stands.count for line in lines} == {
        name: times for name, (times, _) in MINUTES.items()
    }
    for line in lines:
        times, each = MINUTES[line.stands.says]
        exact = Fraction(times * each * HOUR_MINOR, 60)
        assert abs(line.amount.minor - exact) < 1  # what anyone can check, to the coin
    # The lines and what runs over come to what the whole job usually takes, to the coin.
    hours = Fraction(now.work.hours.usual_min) / 60 * HOUR_MINOR
    assert abs(sum(line.amount.minor for line in work) - hours) <= Fraction(1, 2)
    assert over.key == RUNS_OVER
    assert 0 < over.amount.minor < hours / 10


def test_the_lost_strainer_and_its_screws_are_in_it_once(snare: OnTheBench) -> None:
    parts = {
        line.stands.says: (line.stands.count, str(line.amount))
        for line in snare.quote().lines
        if line.kind is Kind.PART
    }
    assert parts["Corvane lever strainer"] == (1, "29.00 GBP")  # the survey's own price
    assert parts["screw 10-24 x 5/8 in"][0] == 2


def test_one_round_price_a_ceiling_above_it_and_rows_that_add_up(snare: OnTheBench) -> None:
    quote = snare.quote().need()
    assert sum(row.figures.gross.minor for row in quote.sums.rows) == quote.price.minor
    assert quote.price.minor % 500 == 0
    assert quote.price < quote.ceiling.gross
    assert quote.low < quote.usual < quote.high
    assert snare.quote().face[0] == f"The price is {quote.price}."
    assert any("not taken yet" in said for said in snare.quote().beneath)


def test_a_line_that_a_person_changed_stays_so_and_says_what_it_stood_on(
    snare: OnTheBench,
) -> None:
    shop, plug = snare.shop, snare.quote().line(key(snare, PLUG))
    saved(write_line(shop, snare.id, plug, amount="20", **money(snare)))
    now = snare.quote().line(plug.key)
    assert (str(now.amount), now.edited_from) == ("20.00 GBP", plug.amount)
    twice = {("minutes", "plug a hole"): "24 min"}
    saved(write_figures(shop, twice, based_on=0, by=BY))
    now = snare.quote().line(plug.key)
    assert str(now.amount) == "20.00 GBP"
    assert now.now is not None
    assert any("20.00 GBP was set" in said for said in snare.quote().news)
    saved(keep_over(shop, snare.id, now, **told(snare)))
    assert not any("was set" in said for said in snare.quote().news)
    saved(as_it_came(shop, snare.id, snare.quote().line(plug.key), **told(snare)))
    assert snare.quote().line(plug.key).amount.minor > plug.amount.minor
    assert not snare.quote().kept.lines


def test_struck_put_back_typed_and_discounted(snare: OnTheBench) -> None:
    shop, before = snare.shop, snare.quote()
    plug = before.line(key(snare, PLUG))
    saved(strike(shop, snare.id, [plug], **told(snare)))
    assert key(snare, PLUG) not in {row.key for row in snare.quote().need().sums.rows}
    saved(put_back(shop, snare.id, [snare.quote().line(plug.key)], **told(snare)))
    assert snare.quote().need() == before.need()
    saved(
        type_line(
            shop, snare.id, snare.quote().lines, says="carriage", amount="18.50", kind=Kind.POSTAGE,
            **money(snare),
        )
    )  # fmt: skip
    assert snare.quote().need().usual.minor == before.need().usual.minor + 1850
    saved(type_price(shop, snare.id, "400 GBP", **money(snare)))
    assert str(snare.quote().need().price) == "400.00 GBP"
    saved(type_discount(shop, snare.id, "10 %", says="an old friend", **money(snare)))
    assert str(snare.quote().need().price) == "360.00 GBP"
    for typed in ("ten", "10 EUR"):
        with pytest.raises(BadInput):
            type_price(shop, snare.id, typed, **money(snare))


def test_two_benches_change_two_lines_and_not_the_same(snare: OnTheBench) -> None:
    shop, seen = snare.shop, snare.quote()
    both = [seen.line(key(snare, PLUG)), seen.line(key(snare, "work: tune a drum"))]
    base = {"currency": "GBP", "based_on": seen.kept.number}
    saved(write_line(shop, snare.id, both[0], amount="11", by=BY, **base))
    saved(write_line(shop, snare.id, both[1], amount="12", by="phone", **base))
    assert [str(snare.quote().line(one.key).amount) for one in both] == ["11.00 GBP", "12.00 GBP"]
    third = write_line(shop, snare.id, both[0], amount="13", by="phone", **base)
    assert isinstance(third, Conflict)
    assert str(snare.quote().line(both[0].key).amount) == "11.00 GBP"


def test_a_head_that_nobody_priced_keeps_the_quote_until_it_is_priced_or_struck(
    snare: OnTheBench,
) -> None:
    snare.write(TUNING, "/batter", {"film": "10 mil", "says": "coated"})
    now = snare.quote()
    assert now.quote is None
    assert "no price is known" in str(now.fault)
    assert any("batter head, coated: no price is known" in said for said in now.news)
    head = now.line(key(snare, "head: batter"))
    saved(write_line(snare.shop, snare.id, head, amount="14.20", **money(snare)))
    assert str(snare.quote().line(head.key).amount) == "14.20 GBP"
    assert snare.quote().need().price.minor % 500 == 0


def test_the_log_moves_the_price_and_says_so(snare: OnTheBench) -> None:
    before = snare.quote()
    assert "the log has none yet" in before.work.whose
    with snare.shop.store.writing() as connection:
        for day in range(1, 11):
            type_after(
                connection, job_id=None, drum="", operation="soak and clean a lug", count=8,
                took=parse_duration("3 h"), day=snare.shop.now().date().replace(day=day),
                stamp=snare.shop.stamp(BY),
            )  # fmt: skip
    after = snare.quote()
    soak = key(snare, "work: soak and clean a lug")
    # 22.5 min for one instead of the book's 12, learned most of the way from ten workings.
    assert 1.5 < after.line(soak).amount.minor / before.line(soak).amount.minor < 22.5 / 12
    assert "1 rest on your own log" in after.work.whose
    assert before.need().price < after.need().price


def test_a_second_drum_changes_no_line_that_a_person_wrote(snare: OnTheBench) -> None:
    """Papers of two drums name the drum in each row; what was written is not asked about again."""
    plug = snare.quote().line(key(snare, PLUG))
    saved(write_line(snare.shop, snare.id, plug, amount="20", **money(snare)))
    now = snare.quote()
    (one,) = now.drums
    other = replace(one, kept=replace(one.kept, id="other", name="other snare"))
    both = quote_by(
        snare.shop, snare.job, snare.plan(), drums=(one, other), log=(), without=("Not the third.",)
    )
    assert both.news == ("Not the third.",)
    rows = {row.key: row for row in both.need().sums.rows}
    assert rows[plug.key].says == "school snare: plug a hole"
    assert rows["other/" + PLUG].says == "other snare: plug a hole"
    names = {one.kept.id: "school snare", "other": "other snare"}
    sums = work_in_one(both.need().sums, works_said(both.need().lines, names))
    assert sum(row.figures.gross.minor for row in sums.rows) == both.need().price.minor
    done = (
        "taken apart, 16 lugs and 2 hoops cleaned, 2 holes plugged, 1 strainer put on,"
        " put together and tuned"
    )
    said = [row.says for row in sums.rows if row.kind is Kind.WORK]
    assert said == [f"Work on the {name}: {done}" for name in names.values()]
    assert not any(row.key.startswith(OF_RULES) for row in sums.rows)


def test_terms_are_taken_as_typed_and_what_cannot_be_read_is_refused(snare: OnTheBench) -> None:
    shop = snare.shop
    assert terms_of(shop).says[0].startswith("The usual terms")
    said = {"tax": "added", "rate": "20 %", "round": "1.00", "deposit": "25 %", "shop": "A shop"}
    saved(write_terms(shop, said, based_on=0, by=BY))
    quote = snare.quote().need()
    assert quote.sums.total.tax.minor == round(quote.sums.total.net.minor / 5)
    assert quote.deposit == quote.price.times(Fraction(1, 4))
    for wrong in (
        {"tax": "added"}, {"tax": "a little"}, {"contingency": "10"}, {"valid_days": "0"},
        {"colour": "red"}, {"exclusions": 7}, {"round": "0 GBP"},
    ):  # fmt: skip
        with pytest.raises(BadInput) as fault:
            write_terms(shop, wrong, based_on=1, by=BY)
        assert fault.value.where
    with pytest.raises(BadInput, match="another currency"):
        read_terms({"round": "5 EUR"}).rules(currency="GBP")


def test_tax_on_the_margin_waits_for_what_the_goods_were_bought_for(snare: OnTheBench) -> None:
    saved(write_terms(snare.shop, {"tax": "on the margin", "rate": "20 %"}, based_on=0, by=BY))
    assert "bought for" in str(snare.quote().fault)
    saved(type_bought_for(snare.shop, snare.id, "80 GBP", **money(snare)))
    sums = snare.quote().need().sums
    assert sums.within_margin.minor == round((sums.total.gross.minor - 8000) / 6)


def test_other_ways_stand_beside_it_and_their_columns_add_up(tom: OnTheBench) -> None:
    heads = [line for line in tom.quote().lines if line.stands.amount is None]
    saved(strike(tom.shop, tom.id, heads, **told(tom)))
    now = tom.quote()
    ways = ways_beside(tom.shop, tom.job, tom.plan(), now, drum_id=tom.drum.id)
    assert ways.sides is not None
    assert ways.sides.prices[0] == now.need().price
    assert ways.sides.titles[0].startswith(f"{now.drums[0].scheme.number}. ")
    for at, price in enumerate(ways.sides.prices):
        column = [row.amounts[at] for row in ways.sides.rows]
        assert sum(amount.minor for amount in column if amount is not None) == price.minor
    assert not any(row.says.startswith("for what cannot be seen") for row in ways.sides.rows)
    assert CONTINGENCY not in {line.key for line in now.lines}
