"""Offers stay as they were handed out; what differs since is said, line by line and hole by hole.

Truth: amounts worked by hand from the lines, the code of the permanent changes.
"""

from __future__ import annotations

import pytest
from priced_job import BY, READY, OnTheBench, offered, saved, text_of, told

from counterhoop.bench.folders.kinds import WISH
from counterhoop.bench.folders.write_own_figures import write_figures
from counterhoop.bench.price.kept_quote import Offer
from counterhoop.bench.price.offers import accept, accepted_says, offer
from counterhoop.bench.price.papers import letter_head, offer_sheet, quote_paper
from counterhoop.bench.price.since import change_note, since_accepted
from counterhoop.bench.price.terms import terms_of
from counterhoop.bench.price.write_quote import type_price, write_line
from counterhoop.errors import BadInput
from counterhoop.job.yes.changes import lines_of
from counterhoop.papers.approval_sheet import approval_sheet_pdf
from counterhoop.papers.change_note import change_note_pdf
from counterhoop.papers.facts import Lengths
from counterhoop.papers.quote_sheet import quote_sheet_pdf
from counterhoop.shell.approval import Approval
from counterhoop.store.save import Conflict

DAY = "2030-05-14"
SAY = Lengths()


def made_offer(bench: OnTheBench) -> Offer:
    offered(bench, day=DAY)
    return bench.quote().kept.offers[-1]


def said_yes(bench: OnTheBench, number: int = 1, when: str = DAY) -> None:
    saved(
        accept(
            bench.shop, bench.job, number, who="Tobin Ashgrove", when=when, how="by letter",
            **told(bench),
        )
    )  # fmt: skip


def plug_twice_as_long(bench: OnTheBench) -> None:
    given = {("minutes", "plug a hole"): "24 min"}
    saved(write_figures(bench.shop, given, based_on=0, by=BY))


def lacquered(bench: OnTheBench) -> None:
    bench.write(WISH, "/finish_plan", {"kind": "clear lacquer"})


def test_an_offer_is_kept_to_the_coin_whatever_changes_since(snare: OnTheBench) -> None:
    before = snare.quote().need()
    made = made_offer(snare)
    assert made.quote == before
    assert not since_accepted(snare.quote(), say=SAY).any
    said_yes(snare)
    accepted = snare.quote().kept.accepted
    assert accepted is not None
    assert accepted_says(accepted.yes, accepted.offer) == (
        f"Tobin Ashgrove said yes to {before.price} on 14 May 2030, by letter (offer 1)."
    )
    assert not since_accepted(snare.quote(), say=SAY).any
    plug_twice_as_long(snare)
    assert snare.quote().kept.offers[0].quote == before
    apart = since_accepted(snare.quote(), say=SAY)
    assert not apart.any  # agreed work stays at its price, whatever is learned of its hours
    now = snare.quote().need().price
    assert now != before.price
    assert apart.learned.endswith(f"would be offered at {now} now.")
    head = letter_head(
        snare.plan().opened.job, terms_of(snare.shop), drums=("school snare",), date=made.day
    )
    paper = text_of(quote_sheet_pdf(offer_sheet(made, head=head)))
    assert str(before.price) in paper
    assert "until 13 June 2030" in paper  # thirty days
    assert READY in " ".join(paper.split())


def test_a_yes_to_a_price_is_on_a_day_on_which_it_holds(snare: OnTheBench) -> None:
    with pytest.raises(BadInput, match="no such offer"):
        said_yes(snare)
    made_offer(snare)
    with pytest.raises(BadInput, match="does not hold on that day"):
        said_yes(snare, when="2030-05-13")
    with pytest.raises(BadInput, match="cannot be"):
        said_yes(snare, when="2030-06-14")
    with pytest.raises(BadInput, match="few words"):
        accept(snare.shop, snare.job, 1, who=" ", when=DAY, how="by letter", **told(snare))


def test_two_offers_made_at_once_are_not_one_over_the_other(snare: OnTheBench) -> None:
    seen, job = snare.quote(), snare.job
    offered(snare, day=DAY)
    second = offer(
        snare.shop, job, seen, seen=str(seen.need().price), day=DAY, to="his sister", say=SAY,
        by="phone",
    )  # fmt: skip
    assert isinstance(second, Conflict)
    assert [one.to for one in snare.quote().kept.offers] == ["Tobin Ashgrove"]


def test_a_price_that_changed_behind_the_page_is_not_handed_out(snare: OnTheBench) -> None:
    seen = str(snare.quote().need().price)
    plug_twice_as_long(snare)
    with pytest.raises(BadInput, match="since that page was opened"):
        offer(
            snare.shop, snare.job, snare.quote(), seen=seen, day=DAY, to="Tobin Ashgrove",
            say=SAY, by=BY,
        )  # fmt: skip
    assert not snare.quote().kept.offers


def test_edits_after_an_offer_leave_it_alone(snare: OnTheBench) -> None:
    made = made_offer(snare)
    line = snare.quote().line(f"{snare.drum.id}/work: tune a drum")
    saved(write_line(snare.shop, snare.id, line, amount="99", currency="GBP", **told(snare)))
    assert snare.quote().kept.offers == (made,)
    assert snare.quote().need().price != made.quote.price


def test_another_scheme_than_was_accepted_asks_by_a_change_note(snare: OnTheBench) -> None:
    made_offer(snare)
    with pytest.raises(BadInput, match="no price was agreed"):
        change_note(snare.quote(), snare.drum.id, say=SAY)
    said_yes(snare)
    with pytest.raises(BadInput, match="nothing differs"):
        change_note(snare.quote(), snare.drum.id, say=SAY)
    before = snare.quote().drums[0].scheme
    lacquered(snare)
    now = snare.quote()
    apart = since_accepted(now, say=SAY)
    ((drum, differs),) = apart.drums
    assert drum == snare.drum.id
    assert differs
    assert any(said.startswith("Lacquer, ") and "not in what was" in said for said in apart.price)
    note = change_note(now, snare.drum.id, found=("The clear coat is crazed.",), say=SAY)
    assert note.differs == differs
    assert note.in_all == now.need().price  # one drum: its note is the whole difference
    assert note.more == now.need().price - now.kept.offers[0].quote.price
    assert note.more.minor > 0
    yes = Approval(
        drum="school snare", who="his sister", when=snare.shop.now().date(), how="signed",
        covers=before.code, lines=lines_of(before),
    )  # fmt: skip
    later = change_note(now, snare.drum.id, approved=(yes,), say=SAY)
    assert later.agreed == yes  # the yes to the drill goes before the one to the price
    assert later.differs == differs
    paper = text_of(change_note_pdf(snare.plan().opened.job, now.drums[0].scheme, note))
    assert "The clear coat is crazed." in paper
    assert str(note.more) in paper


def test_a_price_that_was_typed_moves_by_what_changed_alone(snare: OnTheBench) -> None:
    """The note adds what the lacquer makes dearer to the price that was asked, not to the lines."""
    by_lines = snare.quote().need().price
    saved(type_price(snare.shop, snare.id, "500", currency="GBP", **told(snare)))
    made_offer(snare)
    said_yes(snare)
    saved(type_price(snare.shop, snare.id, "", currency="GBP", **told(snare)))
    lacquered(snare)
    note = change_note(snare.quote(), snare.drum.id, say=SAY)
    assert note.more == snare.quote().need().price - by_lines
    assert note.in_all is not None
    assert note.in_all.minor == 50000 + note.more.minor


def test_quote_and_approval_sheet_say_price_and_code(snare: OnTheBench) -> None:
    now, plan = snare.quote(), snare.plan()
    quote = now.need()
    day = snare.shop.now().date()
    paper = text_of(quote_paper(plan, now, day=day))
    for said in (str(quote.price), str(quote.ceiling.gross), "school snare", "26-034"):
        assert said in paper
    scheme = now.drums[0].scheme
    assert scheme.permanent
    assert scheme.code in text_of(approval_sheet_pdf(plan.opened.job, scheme))
