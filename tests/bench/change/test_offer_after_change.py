"""What was agreed on the way is billed once, whatever offers are made and accepted around it.

Truth: brute force over every order of offers, yeses and changes; the amounts are powers of two, so
that a sum names its terms.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from itertools import product

import pytest
from mid_work import DAY, InWork
from priced_job import offered, saved, told

from counterhoop.bench.change.agreed import agreed_changes, left_out, names_agreed
from counterhoop.bench.change.answer import write_answer
from counterhoop.bench.folders.decide import Yes
from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import FOUND, QUOTE
from counterhoop.bench.price.bills import give_invoice
from counterhoop.bench.price.kept_quote import Offer, kept_quote, offer_written
from counterhoop.bench.price.offers import accept
from counterhoop.bench.promise.promises import promises_of, write_promise
from counterhoop.errors import BadInput, CannotDo
from counterhoop.job.bill.done import lines_done
from counterhoop.job.price.line import typed_line
from counterhoop.job.price.quote import QuoteRules, quote_of
from counterhoop.job.price.sums import add_up
from counterhoop.job.price.tax import NO_TAX
from counterhoop.job.yes.note import DayMoved
from counterhoop.quantities.money import Money

CRACK = {"along": "at lug 3", "from_": "0 mm", "to": "60 mm", "means": "into the hole"}
YES = {"who": "Tobin", "when": DAY, "how": "by letter"}
FIRST_PRICE = 1 << 10
DRUMS = ("d1", "d2")


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


@dataclass(slots=True)
class Told:
    """A job of two drums in memory, whose work costs what was asked and agreed."""

    job: KeptJob
    agreed: int = 0
    changes: int = 0

    def offers(self) -> None:
        table, number = self.job.kept(QUOTE).table, len(kept_quote(self.job).offers) + 1
        line = typed_line("w", "work", amount=gbp(FIRST_PRICE + self.agreed))
        made = Offer(
            number=number, day=dt.date(2030, 5, 14), to="Tobin", by="bench", drums=(), title="",
            quote=quote_of([line], rules=QuoteRules(round_to=gbp(1))), story=(), permanent=(),
            agreed=names_agreed(self.job),
        )  # fmt: skip
        self._keep({**table, "offers": [*table.get("offers", []), offer_written(made)]})

    def accepts(self, number: int) -> bool:
        """Whether the yes to it can be written down."""
        kept = kept_quote(self.job)
        if number > len(kept.offers) or left_out(self.job, kept.offer(number)):
            return False
        self._keep({**self.job.kept(QUOTE).table, "accepted": {**YES, "offer": number}})
        return True

    def agrees(self, drum: int) -> None:
        """Say yes to a change on a drum, on top of the offer that stands accepted."""
        accepted = kept_quote(self.job).accepted
        assert accepted is not None
        amount = 1 << self.changes
        charge = {"kind": "work", "minor": amount, "currency": "GBP"}
        row = {"yes": True, **YES, "offer": accepted.offer.number, "charges": [charge]}
        its = self.job.drums[drum]
        body = {"things": {}, "answers": [*its.kept(FOUND).table.get("answers", []), row]}
        drums = list(self.job.drums)
        drums[drum] = replace(its, documents={FOUND: Kept(body=body, number=1)})
        self.job = replace(self.job, drums=tuple(drums))
        self.agreed, self.changes = self.agreed + amount, self.changes + 1

    def bill(self) -> int:
        accepted = kept_quote(self.job).accepted
        assert accepted is not None
        lines = lines_done(accepted.offer.quote, changes=agreed_changes(self.job))
        return add_up(lines, tax=NO_TAX, currency="GBP").total.gross.minor

    def _keep(self, body: dict[str, object]) -> None:
        self.job = replace(self.job, documents={QUOTE: Kept(body=body, number=1)})


def test_no_agreed_change_vanishes_and_none_is_billed_twice() -> None:
    steps = ("offer", "accept 1", "accept 2", "change 0", "change 1")
    refused = billed = 0
    for order in product(steps, repeat=4):
        drums = tuple(KeptDrum(id=name, name=name) for name in DRUMS)
        told_so = Told(job=KeptJob(id="j", title="", documents={}, drums=drums))
        told_so.offers()
        assert told_so.accepts(1)
        for step in order:
            did, _, which = step.partition(" ")
            if did == "offer":
                told_so.offers()
            elif did == "accept":
                refused += not told_so.accepts(int(which))
            else:
                told_so.agrees(int(which))
            assert told_so.bill() == FIRST_PRICE + told_so.agreed, order
            billed += bool(told_so.changes)
    assert refused
    assert billed


def test_an_offer_made_before_a_change_was_agreed_is_not_accepted_after_it(work: InWork) -> None:
    """By hand: 390.00 was agreed, 15.00 for the crack on the way: 405.00, by whichever offer."""
    offered(work, day=DAY)
    work.finds("crack", **CRACK)
    work.hears(yes=True)
    with pytest.raises(BadInput, match="on the way since this offer was made is not in it"):
        accept(work.shop, work.job, 2, **YES, **told(work))
    assert [one.amount.minor for one in agreed_changes(work.job)] == [1500]
    offered(work, day=DAY)
    saved(accept(work.shop, work.job, 3, **YES, **told(work)))
    assert agreed_changes(work.job) == ()  # it is in the price
    bill = give_invoice(work.shop, work.job, day=DAY, changes=agreed_changes(work.job), by="bench")
    assert str(bill.total) == "405.00 GBP"


def test_a_change_agreed_while_an_offer_is_accepted_stops_it(work: InWork) -> None:
    offered(work, day=DAY)
    read, based = work.job, told(work)
    work.finds("crack", **CRACK)
    work.hears(yes=True)
    with pytest.raises(BadInput, match="at the same time"):
        accept(work.shop, read, 2, **YES, **based)


def test_an_answer_is_kept_with_its_day_or_not_at_all(work: InWork) -> None:
    """Else the yes would stand and the day that was agreed with it would be promised to nobody."""
    first = {"day": "2030-05-20", "to": "Tobin", "share": None}
    saved(write_promise(work.shop, work.job, **first, based_on=0, by="bench"))
    work.finds("crack", **CRACK)
    moved = DayMoved(was=dt.date(2030, 5, 20), now=dt.date(2030, 5, 24))
    changed = replace(work.changed(), note=replace(work.changed().note, day=moved))
    read, drum, yes = work.job, work.drum, Yes(who="Tobin", when=DAY, how="by letter")
    told_yes = {"scheme": work.scheme, "seen": changed.seen, "said_yes": True, "said": yes}
    other = {"day": "2030-05-22", "to": "his sister", "share": None}
    saved(write_promise(work.shop, work.job, **other, based_on=1, by="phone"))
    with pytest.raises(CannotDo, match="nothing was kept"):
        write_answer(work.shop, read, drum, changed, **told_yes, by="bench")
    assert work.found.open
    assert len(promises_of(work.job).every) == 2
    write_answer(work.shop, work.job, work.drum, changed, **told_yes, by="bench")
    assert not work.found.open
    stands = promises_of(work.job).stands
    assert stands is not None
    assert (stands.day, stands.to) == (dt.date(2030, 5, 24), "Tobin")


def test_an_answer_to_a_price_that_was_accepted_anew_meanwhile_is_not_kept(work: InWork) -> None:
    """It would come on top of an offer that has it in its price, or of none."""
    work.finds("crack", **CRACK)
    changed, read = work.changed(), work.job
    offered(work, day=DAY)
    saved(accept(work.shop, work.job, 2, **YES, **told(work)))
    with pytest.raises(CannotDo, match="nothing was kept"):
        write_answer(
            work.shop, read, work.drum, changed, scheme=work.scheme, seen=changed.seen,
            said_yes=True, said=Yes(**YES), by="bench",
        )  # fmt: skip
    assert agreed_changes(work.job) == ()
