"""The sheet of terms. Its truths are sums worked by hand, and what the store says afterwards."""

from __future__ import annotations

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.kinds import TERMS
from counterhoop.bench.price.terms import terms_of

SHEET = "/workshop/terms"
PART = {"HX-Request": "true"}


def test_nothing_written_says_so_and_shows_what_the_usual_makes(bench):
    """Truth: 480 and a tenth is 528, to the nearest 5 is 530; 15 % more is 609.50, up to 610."""
    said = bench.ask.get(SHEET).text
    assert "The price is 530.00 GBP." in said
    assert "does not pass 610.00 GBP" in said
    assert "Nothing is written down yet" in said


def test_what_is_written_is_kept_as_typed_and_reckoned_with(bench):
    """Truth: lines of 480 at 0 % for the unseen stay 480; a fifth of tax makes 576, of it 96."""
    sent = {"based_on": "0", "tax": "added", "rate": "20 %", "contingency": "0 %",
            "deposit": "25 %", "warranty": "One year.\r\nNot on heads."}  # fmt: skip
    assert bench.ask.post(SHEET, data=sent).status_code == 200
    kept = drawer(bench.shop)[TERMS]
    assert kept.table["rate"] == "20 %"
    assert terms_of(bench.shop).warranty == ("One year.", "Not on heads.")
    said = bench.ask.get(SHEET).text
    assert "The price is 576.00 GBP." in said
    for sum_said in ("96.00 GBP", "144.00 GBP", "Tax at 20 % is added to the prices"):
        assert sum_said in said


def test_another_amount_can_be_tried_and_one_that_is_none_is_said(bench):
    """Truth: 100 and a tenth is 110; "much" is no amount."""
    assert "The price is 110.00 GBP." in bench.ask.get(SHEET, params={"try": "100"}).text
    wrong = bench.ask.get(SHEET, params={"try": "much"})
    assert "annot be read as an amount of money" in wrong.text
    assert "The price is 530.00 GBP." in wrong.text


def test_what_cannot_be_read_comes_back_beside_its_field_and_nothing_is_kept(bench):
    """Truth: tax without its rate is refused by the terms themselves."""
    answer = bench.ask.post(SHEET, data={"based_on": "0", "tax": "added", "shop": "Quennick"})
    assert answer.status_code == 422
    assert 'id="terms-rate-fault"' in answer.text
    assert 'value="Quennick"' in answer.text
    assert TERMS not in drawer(bench.shop)
    part = bench.ask.post(SHEET, data={"based_on": "0", "tax": "added"}, headers=PART)
    assert "Not kept" in part.text
    assert 'id="terms-rate-fault"' in part.text


def test_two_benches_that_change_the_same_are_shown_both(bench):
    """Truth: the store keeps the first; the second is asked."""
    bench.ask.post(SHEET, data={"based_on": "0", "shop": "Quennick"})
    answer = bench.ask.post(SHEET, data={"based_on": "0", "shop": "Hallmere"})
    assert answer.status_code == 409
    assert "Two versions" in answer.text
    assert terms_of(bench.shop).shop == "Quennick"


def test_the_last_step_can_be_taken_back(bench):
    """Truth: the first version is the newest again; both stay in the history."""
    for number, name in enumerate(("Quennick", "Hallmere")):
        bench.ask.post(SHEET, data={"based_on": str(number), "shop": name})
    back = {"kind": "terms", "number": "1", "based_on": "2"}
    assert bench.ask.post("/workshop/undo", data=back).status_code == 200
    assert terms_of(bench.shop).shop == "Quennick"
    assert (
        "Hallmere"
        in bench.ask.get(f"/workshop/history/{drawer(bench.shop)[TERMS].document_id}").text
    )


def test_tax_on_the_margin_shows_what_it_would_be_on_goods_bought_for_half(bench):
    """Truth: bought for 240, sold for 480: 240 between them, of which a sixth at 20 % is 40."""
    sent = {"based_on": "0", "tax": "on the margin", "rate": "20 %", "contingency": "0 %"}
    bench.ask.post(SHEET, data=sent)
    said = bench.ask.get(SHEET).text
    assert "40.00 GBP" in said
    assert "240.00 GBP" in said
