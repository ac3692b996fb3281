"""The quote: one price and a ceiling on its face, rows that add up, what is not in it."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from documents import pages, words
from example_bills import FIFTH, gbp, lines_of, quote_of_tom
from example_letters import LONG, head_of

from counterhoop.errors import BadInput
from counterhoop.job.price.line import typed_line
from counterhoop.job.price.quote import QuoteRules, quote_of
from counterhoop.job.price.sums import Figures
from counterhoop.papers.money_rows import rows_data
from counterhoop.papers.quote_sheet import quote_data, quote_sheet_pdf


def test_what_the_quote_says() -> None:
    """Price and deposit by hand: 335.00, and a fifth of it, 67.00."""
    said = words(quote_sheet_pdf(quote_of_tom()))
    for line in (
        "What it would cost: job 17",
        "offer 2",
        "one price 335.00 GBP",
        "without a call to you first.",
        "10 holes are added to the shell: that cannot be undone.",
        "Ready by 20 March 2026: sure to at least 80 %.",
        "As it is now",
        "BATTER SIDE",
        "plug a hole 8 60.00",
        "In the price is 10 % on top of the work, for what cannot be seen before it is begun.",
        "the price 335.00",
        "holds until 3 April 2026",
        "A deposit of 67.00 GBP is asked for before work begins.",
        "What is not in it • Cases and covers.",
        "one price 335.00 430.00 340.00",
        "Yes to this price, 335.00 GBP. What cannot be undone needs its own yes.",
    ):
        assert line in said, line
    assert said.count("Cases and covers.") == 1
    assert "handed out" not in said


def test_a_price_that_is_not_handed_out_says_so_and_holds_for_no_while() -> None:
    sheet = replace(quote_of_tom(drawn=False), offer=0, sides=None)
    said = words(quote_sheet_pdf(sheet))
    assert "Not handed out yet: a price as it stands on 4 March 2026. one price" in said
    assert "would hold until 3 April 2026" in said
    assert "This price holds" not in said
    assert "Yes to this price" not in said
    assert "A deposit of 67.00 GBP" in said


def test_the_face_comes_before_everything_else_and_says_one_price() -> None:
    first = pages(quote_sheet_pdf(quote_of_tom()))[0]
    amounts = re.findall(r"\d+\.\d\d\sGBP", first)
    assert [re.sub(r"\s", " ", one) for one in amounts[:2]] == ["335.00 GBP", "440.00 GBP"]


def test_printed_rows_and_columns_add_up() -> None:
    """Read off what is printed, with tax: 335.00 and a fifth are 402.00."""
    data, _ = quote_data(quote_of_tom(tax=FIFTH))
    lines = data["lines"]
    assert lines["total"] == ["335.00", "67.00", "402.00"]
    for column, total in enumerate(lines["total"]):
        printed = [round(100 * float(row["amounts"][column])) for row in lines["rows"]]
        assert sum(printed) == round(100 * float(total))
    sides = data["sides"]
    for column, price in enumerate(sides["prices"]):
        each = [row["amounts"][column].replace("–", "0") for row in sides["rows"]]
        assert sum(round(100 * float(one)) for one in each) == round(100 * float(price))


def test_rows_that_do_not_add_up_are_not_printed() -> None:
    sums = quote_of_tom().quote.sums
    wrong = Figures(net=gbp(33400), tax=gbp(0), gross=gbp(33400))
    with pytest.raises(BadInput, match="do not add up"):
        rows_data(sums.rows, total=wrong)


def test_photographs_stand_beside_each_other() -> None:
    data, images = quote_data(quote_of_tom(drawn=False))
    assert set(images) == {"before", "after"}
    said = words(quote_sheet_pdf(quote_of_tom(drawn=False), paper="Letter"))
    assert "As it is now As it would be" in said
    assert data["pictures"]["before"]["alt"] == "as it is"


@pytest.mark.parametrize("number", [12, 13, 60])
def test_the_sum_is_never_on_a_sheet_without_rows(number: int) -> None:
    lines = [typed_line(f"{n}", f"line {n} of it, {LONG}", amount=gbp(1000)) for n in range(number)]
    offer = quote_of(lines, rules=QuoteRules(round_to=gbp(500)))
    sheet = replace(quote_of_tom(drawn=False), quote=offer, sides=None)
    sheets = pages(quote_sheet_pdf(sheet, paper="Letter"))
    total = next(text for text in sheets if re.search(r"^the price \d", text, re.MULTILINE))
    assert f"line {number - 1} of it" in total


def test_a_quote_without_a_day_is_refused() -> None:
    with pytest.raises(BadInput, match="no day"):
        quote_sheet_pdf(quote_of_tom(head=head_of(date=None)))


def test_a_bare_quote_has_no_empty_headings() -> None:
    bare = quote_of(lines_of(), rules=QuoteRules(round_to=gbp(500)))
    sheet = replace(
        quote_of_tom(), quote=bare, before=None, after=None, legend=None, permanent=(), story=(),
        sides=None, ready="",
    )  # fmt: skip
    said = words(quote_sheet_pdf(sheet))
    for heading in ("As it is now", "Cannot be undone,", "What is not in it", "Other ways"):
        assert heading not in said
    assert "No hole is added to the shell." in said
