"""The price of a job on its page.

Truth: the quote as the bench makes it beside the page, sums added here in whole coins, and what
was typed.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from price_sheet import TODAY, PriceSheet, sheet_of, words

from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.answers import Working
from counterhoop.quantities.money import parse_money
from counterhoop.store.pointer import write_pointer
from counterhoop.store.save import Saved
from counterhoop.web import plans, price_desk
from counterhoop.web.plans import Planned

PLUG = "plug a hole"


def amounts(text: str) -> list[int]:
    """Return what is written at each line that is not struck, in coins."""
    found = re.findall(r'<span class="price-amount">([^<]+)</span>', text)
    return [parse_money(one).minor for one in found]


# --- one price ------------------------------------------------------------------------------------


def test_heads_without_a_price_hold_the_quote_and_the_page_says_the_way_out(
    sheet: PriceSheet,
) -> None:
    said = words(sheet.look())
    assert sheet.face() == "No price yet"
    assert "2 lines have no price: type one, or leave the line out." in said
    sheet.kept("line", key=sheet.unpriced[0], amount="£18", do="write", at="price")
    sheet.kept("line", key=sheet.unpriced[1], do="leave out", at="price")
    assert sheet.face() == str(sheet.quote().need().price)


def test_the_face_is_the_price_and_the_ceiling_of_the_bench(priced: PriceSheet) -> None:
    quote = priced.quote().need()
    said = words(priced.look())
    assert priced.face() == str(quote.price)
    assert f"Not above {quote.ceiling.gross} without a call to the client first." in said
    assert f"{quote.extra_holes} holes are added" in said
    assert "The date" in words(sheet_of(priced.look(), "date"))


def test_lines_that_stand_on_the_page_come_to_the_price(priced: PriceSheet) -> None:
    sheet = sheet_of(priced.look(), "lines")
    over = re.search(r"cannot be seen before, [^<]+</dt><dd>([^<]+)<", sheet)
    assert over
    in_all = sum(amounts(sheet)) + parse_money(over[1]).minor
    assert in_all == priced.quote().need().price.minor


# --- lines ----------------------------------------------------------------------------------------


def test_a_line_is_written_on_and_goes_back_as_it_came(priced: PriceSheet) -> None:
    before = priced.face()
    key = priced.key(PLUG)
    priced.kept("line", key=key, do="write", says="close the old vent", amount="90", count="1")
    said = words(priced.look())
    assert "Close the old vent 90.00 GBP" in said
    assert "Changed by hand; it came as “plug a hole”, 8.50 GBP." in said
    assert priced.face() != before
    priced.kept("line", key=key, do="as it came")
    assert priced.face() == before
    assert "Close the old vent" not in words(priced.look())


def test_a_line_left_out_stays_to_be_seen_and_can_be_put_back(priced: PriceSheet) -> None:
    before = priced.face()
    priced.kept("line", key=priced.key("tune a drum"), do="leave out")
    text = priced.look()
    assert "<s>Tune a drum</s>" in text
    assert priced.face() != before
    priced.kept("line", key=priced.key("tune a drum"), do="put back")
    assert "<s>Tune a drum</s>" not in priced.look()
    assert priced.face() == before


def test_what_cannot_be_read_comes_back_beside_its_field(priced: PriceSheet) -> None:
    before = priced.number
    ident = re.search(r'id="(line-\w+)">\s*<details>\s*<summary><span[^>]*>Plug a', priced.look())
    assert ident
    answer = priced.send(
        "line", key=priced.key(PLUG), do="write", amount="ninety", at=ident[1], count="1",
        says="a plug",
    )  # fmt: skip
    assert answer.status_code == 422
    field = answer.text.partition(f'id="{ident[1]}-amount"')[2].partition("</div>")[0]
    assert 'value="ninety"' in field
    assert 'role="alert"' in field
    assert 'value="a plug"' in answer.text
    assert priced.number == before


def test_a_line_of_ones_own_is_added_and_taken_out_again(priced: PriceSheet) -> None:
    wrong = priced.send("add", says="a bag for the spares", amount="€4", at="add")
    assert wrong.status_code == 422
    assert "Prices of this job are in another currency" in words(wrong.text)
    priced.kept("add", says="a bag for the spares", amount="4.50", count="2", at="add")
    assert "2 × a bag for the spares 4.50 GBP typed by hand" in words(priced.look())
    priced.kept("line", key="typed: 1", do="as it came")
    assert "bag for the spares" not in words(priced.look())


def test_a_price_and_a_discount_for_the_whole(priced: PriceSheet) -> None:
    priced.kept("asked", price="600", at="asked")
    priced.kept("discount", discount="10 %", says="old friend", at="discount")
    assert priced.face() == "540.00 GBP"
    assert "Old friend, 10 % -60.00 GBP" in words(priced.look())
    priced.kept("asked", price="", at="asked")
    priced.kept("discount", discount="", at="discount")
    assert priced.face() == str(priced.quote().need().price)


def test_two_benches_on_two_lines_both_write_and_on_one_line_both_are_shown(
    priced: PriceSheet,
) -> None:
    seen = priced.number
    priced.kept("line", key=priced.key(PLUG), do="write", amount="20", based_on=seen)
    priced.kept("line", key=priced.key("tune a drum"), do="write", amount="30", based_on=seen)
    sent = {"key": priced.key(PLUG), "do": "write", "amount": "25", "based_on": seen}
    answer = priced.send("line", **sent)
    assert answer.status_code == 409
    said = words(answer.text)
    assert "plug a hole, 25.00 GBP" in said
    assert "plug a hole, 20.00 GBP" in said
    assert "tune a drum" not in said
    kept = priced.send("line", **{**sent, "based_on": priced.number, "keep": "mine"})
    assert kept.status_code == 303
    assert "Plug a hole 25.00 GBP" in words(priced.look())
    for work in (PLUG, "tune a drum"):
        priced.kept("line", key=priced.key(work), do="as it came")


def test_two_prices_for_the_whole_are_shown_beside_each_other(priced: PriceSheet) -> None:
    seen = priced.number
    priced.kept("asked", price="600", based_on=seen)
    answer = priced.send("asked", price="620", based_on=seen)
    assert answer.status_code == 409
    assert "the price asked for the whole 620 600" in words(answer.text)
    left = priced.send("asked", price="620", based_on=priced.number, keep="theirs")
    assert left.status_code == 303
    assert priced.face() == "600.00 GBP"
    priced.kept("asked", price="")


def test_a_line_that_comes_otherwise_than_when_it_was_changed_is_shown(sheet: PriceSheet) -> None:
    """What it stood on is set back by hand, as though the scheme had asked for less then."""
    sheet.kept("line", key=sheet.key(PLUG), do="write", amount="20")
    place = write_pointer(["lines", sheet.key(PLUG), "stood_on", "amount", "minor"])
    change = Change(kind=QUOTE, pointer=place, value=700, based_on=sheet.number)
    assert isinstance(write_down(sheet.job.shop, sheet.job.id, change, by="bench"), Saved)
    news = "You changed it when it came as 7.00 GBP; it comes as 8.50 GBP now."
    assert f"Plug a hole : {news}" in words(sheet_of(sheet.look(), "price"))
    sheet.kept("line", key=sheet.key(PLUG), do="keep over")
    assert news not in words(sheet.look())
    assert "Plug a hole 20.00 GBP" in words(sheet.look())


# --- offers ---------------------------------------------------------------------------------------


def test_an_offer_is_handed_out_at_the_price_that_was_seen(offered: PriceSheet) -> None:
    stale = offered.send("offer", seen="1.00 GBP", day=TODAY, to="Tobin Ashgrove", at="offer")
    assert stale.status_code == 422
    assert "The price has changed since that page was opened" in words(stale.text)
    said = words(offered.look())
    assert f"Offer 1, {offered.face()}, was handed to Tobin Ashgrove" in said
    assert "No yes to it is written down." in said


def test_a_yes_on_a_day_on_which_the_offer_does_not_hold_is_refused(offered: PriceSheet) -> None:
    answer = offered.send(
        "accept", offer=1, who="Nell", when="2020-01-01", how="by letter", at="accept-1"
    )
    assert answer.status_code == 422
    assert "The offer does not hold on that day" in words(answer.text)
    assert 'value="by letter"' in answer.text


def test_a_yes_to_an_offer_what_differs_since_and_no_way_back_behind_either(
    sheet: PriceSheet,
) -> None:
    sheet.kept("line", key=[*sheet.unpriced, sheet.key("tune a drum")], do="leave out")
    sheet.hand_out(day=TODAY)
    sheet.kept("accept", offer=1, who="Tobin Ashgrove", when=TODAY, how="by letter")
    assert "Everything stands as it was agreed." in words(sheet.look())
    sheet.kept("line", key=sheet.key(PLUG), do="leave out")
    said = words(sheet_of(sheet.look(), "offers"))
    assert "Not as it was agreed: Plug a hole, 8.50 GBP: agreed, and asked for no more." in said
    # Back to before the first change: the lines are as they came, offer and yes are still there.
    sheet.kept("undo", number=0)
    text = sheet.look()
    assert "<s>" not in text
    assert "was handed to Tobin Ashgrove" in words(text)
    assert "Tobin Ashgrove said yes to" in words(text)
    assert undo_of(sheet) == ""
    # A wrong name is put right by the yes written anew.
    sheet.kept("accept", offer=1, who="Nell Ashgrove", when=TODAY, how="by letter")
    assert "Nell Ashgrove said yes to" in words(sheet_of(sheet.look(), "offers"))


def test_going_back_steps_over_an_offer(sheet: PriceSheet) -> None:
    sheet.kept("line", key=sheet.unpriced, do="leave out")
    sheet.hand_out(day=TODAY)
    sheet.kept("line", key=sheet.key(PLUG), do="leave out")
    assert sheet.number == 3
    sheet.kept("undo", number=2)
    assert undo_of(sheet) == "0"
    assert "was handed to Tobin Ashgrove" in words(sheet.look())


def undo_of(sheet: PriceSheet) -> str:
    found = re.search(r'/price/undo">.*?name="number" value="(\d+)"', sheet.look(), re.S)
    return found[1] if found else ""


# --- what is agreed of a drum ---------------------------------------------------------------------


def test_a_yes_is_written_here_as_on_the_sheet_of_schemes_and_taken_back(
    priced: PriceSheet,
) -> None:
    code = priced.quote().drums[0].scheme.code
    drum, yes = priced.drum.id, {"who": "Nell Ashby", "when": TODAY, "how": "signed at the bench"}
    assert f"DRAFT. Nobody has said yes yet to its permanent changes, code {code}." in words(
        priced.look()
    )
    wrong = priced.send(f"drums/{drum}/yes", code=code, **{**yes, "when": "next week"})
    assert wrong.status_code == 422
    assert 'value="next week"' in wrong.text
    priced.kept(f"drums/{drum}/yes", code=code, **yes)
    assert not priced.quote().drums[0].scheme.draft
    assert "Nell Ashby said yes on" in words(priced.look())
    priced.kept(f"drums/{drum}/take-back", code=code, when=TODAY, how="the owner, by telephone")
    assert priced.quote().drums[0].scheme.draft
    assert "taken back" in words(priced.look())


def test_permanent_hidden_and_reversible_stand_apart_each_with_its_place(
    priced: PriceSheet,
) -> None:
    agreed = sheet_of(priced.look(), "agreed")
    headings = re.findall(r"<h4>([^<]+)</h4>", agreed)
    assert headings == [
        "Cannot be undone",
        "Cannot be undone, and is not seen from outside",
        "Can be undone",
    ]
    hidden = agreed.partition(headings[1])[2].partition("<h4>")[0]
    assert "A ring is glued in for good" in hidden
    shown = re.findall(r'href="(/jobs/[^"]+)#(taken-[\w-]+)"', agreed)
    drawing = priced.job.ask.get(shown[0][0]).text
    assert len(shown) >= 3
    assert [ident for _, ident in shown if f'id="{ident}"' not in drawing] == []


def test_other_ways_stand_beside_it_with_their_price_and_what_they_cut(
    priced: PriceSheet,
) -> None:
    ways = sheet_of(priced.look(), "ways")
    prices = re.findall(r'<span class="figure"><strong>([^<]+)</strong>', ways)
    assert len(prices) == len(priced.quote().drums[0].plan.ranked.shown) > 1
    assert prices[0] == priced.face()
    assert "Cut:" in words(ways)


# --- while schemes are worked out, and papers -----------------------------------------------------


def test_while_schemes_are_worked_out_the_page_answers_with_what_is_known(
    offered: PriceSheet, monkeypatch: pytest.MonkeyPatch
) -> None:
    at_work = Working(id="0" * 32, says="schemes for the small tom", share=0.4)

    def under_way(*given: object, **more: object) -> Planned:
        found = plans.plan_for(*given, **more)  # the plan is there, and is not told
        return replace(found, answer=at_work)

    monkeypatch.setattr(price_desk, "plan_for", under_way)
    said = words(offered.look())
    assert "The schemes are being worked out; the price stands here when they are there." in said
    assert "40 %" in said
    assert "was handed to Tobin Ashgrove" in said


def test_the_papers_of_a_price_are_handed_out(offered: PriceSheet) -> None:
    for name in ("quote.pdf", "offers/1.pdf", f"drums/{offered.drum.id}/approval.pdf"):
        answer = offered.job.ask.get(f"{offered.address}/{name}")
        assert answer.status_code == 200
        assert answer.content.startswith(b"%PDF")
        assert ".pdf" in answer.headers["content-disposition"]
    assert offered.job.ask.get(f"{offered.address}/offers/7.pdf").status_code == 404
