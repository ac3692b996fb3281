"""A drum told to a buyer from its folder: nothing that is on record is left out.

Truth: the survey and the scheme themselves, counted beside the listing.
"""

from __future__ import annotations

import pytest
from handed_job import hand_over, take_first, tick, write
from hypothesis import given
from hypothesis import strategies as st
from priced_job import BY, OnTheBench, offered, saved

from counterhoop.bench.folders.decide import Yes, approve
from counterhoop.bench.folders.kinds import ARRIVAL, FOUND, LISTING, SURVEY
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.price.bills import give_invoice
from counterhoop.bench.price.offers import accept
from counterhoop.bench.price.write_quote import strike
from counterhoop.bench.record.record_of import record_of
from counterhoop.bench.trade.drum_told import facts_told
from counterhoop.bench.trade.from_drum import drum_typed, sale_typed_of
from counterhoop.bench.trade.holes_told import between_lugs
from counterhoop.bench.trade.parts_told import parts_told
from counterhoop.bench.trade.posting_typed import read_posting
from counterhoop.errors import BadInput
from counterhoop.job.trade.facts import DrumFacts
from counterhoop.job.trade.listing import listing
from counterhoop.papers.handover_record import PartDone
from counterhoop.quantities.duration import parse_duration
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Origin
from counterhoop.store.body import Json
from counterhoop.store.work_log.write_log import type_after


def told(tom: OnTheBench, *, planned: bool = True) -> DrumFacts:
    return facts_told(tom.shop, tom.job, tom.drum, tom.plan() if planned else None)


def test_as_it_came_every_hole_of_others_is_told(as_found: OnTheBench) -> None:
    facts, drum = told(as_found), as_found.plan().drums[0].wanted.drum
    extra = {hole.number: hole for hole in drum.holes if hole.origin is not Origin.FACTORY}
    assert {hole.number for hole in facts.extra_holes} == set(extra)
    assert extra
    for one in facts.extra_holes:
        hole = extra[one.number]
        assert one.across_mm == max(hole.shape.size_mm)
        assert one.sure == (hole.origin is Origin.EXTRA)
        assert hole.purpose in one.where
    text = listing(facts).text
    assert text.startswith("Corvane tom, 12 dia x 8 deep, with extra holes")
    assert "Made: most likely 1958 to 1962 (4 in 5), by the badge" in text
    assert "none was ever cut here" in text


def test_as_left_every_hole_that_was_made_and_every_change_is_told(tom: OnTheBench) -> None:
    code, holes = take_first(tom)
    tick(tom, code, holes)
    hand_over(tom)
    scheme = tom.plan().drums[0].chosen
    assert scheme is not None
    made = {plan.number for plan in scheme.layout.holes if plan.verdict is Verdict.DRILL}
    closed = {plan.number for plan in scheme.layout.holes if plan.verdict is Verdict.PLUG}
    facts = told(tom)
    by_number = {hole.number: hole for hole in facts.extra_holes}
    assert made
    assert made <= set(by_number)
    assert all("made by us" in by_number[number].where for number in made)
    assert all(hole.state == "plugged" for n, hole in by_number.items() if n in closed)
    text = listing(facts).text
    for said in ("12 new holes drilled", "Rods cleaned and oiled", "Who painted the inside"):
        assert said in text, said
    new = {one.fitting.name for one in scheme.layout.fittings if one.status == "new"}
    assert new
    assert all(any(name in part.says for part in facts.changed) for name in new)


def test_what_was_added_and_came_off_again_is_not_missed() -> None:
    """Truth: a buyer who reads that a strainer is missing looks for another one."""
    done = (
        PartDone(
            part="later strainer", done="taken off, was added later", says="in the bag, yours"
        ),
        PartDone(part="butt", done="taken off", says="in the bag, yours"),
    )
    assert [(one.name, one.state) for one in parts_told(None, None, done)] == [("butt", "missing")]


def test_no_buyer_reads_the_log_and_what_was_found_is_no_fault(tom: OnTheBench) -> None:
    code, holes = take_first(tom)
    tick(tom, code, holes)
    hand_over(tom, found="A sound three-ply shell.")
    with tom.shop.store.writing() as connection:
        type_after(
            connection, job_id=tom.id, drum=tom.drum.id, operation="strip a drum", count=1,
            took=parse_duration("40 min"), day=tom.shop.now().date(), stamp=tom.shop.stamp(BY),
        )  # fmt: skip
    text = listing(told(tom)).text
    assert "log of work" not in text
    assert "As it came to the workshop:\n- A sound three-ply shell" in text


def test_no_buyer_reads_who_said_yes(tom: OnTheBench) -> None:
    take_first(tom)
    hand_over(tom)
    scheme = tom.plan().drums[0].chosen
    assert scheme is not None
    yes = Yes(who="Nell Amberwick", when="2030-05-13", how="by letter")
    drum = tom.drum
    code = scheme.code
    saved(approve(tom.shop, tom.id, drum, scheme=scheme, shown_code=code, yes=yes, by=BY))
    thing: dict[str, Json] = {"sort": "other", "where": "", "means": "The ring is loose."}
    answer: dict[str, Json] = {
        "yes": True, "who": "Nell Amberwick", "when": "2030-05-13", "how": "by letter",
        "things": [1],
    }  # fmt: skip
    write(tom, FOUND, {"things": {"1": thing}, "answers": [answer]}, drum=drum.id)
    (record,) = record_of(tom.shop, tom.job, tom.plan())
    assert "Nell Amberwick" in " ".join(record.record.story)
    assert "Nell Amberwick" in " ".join(record.record.found)
    facts = told(tom)
    assert "The ring is loose. Found on the way." in facts.faults
    assert "Rods cleaned and oiled." in facts.work_done
    assert "Nell" not in listing(facts).text


def test_what_is_not_ticked_is_not_told_as_done(tom: OnTheBench) -> None:
    code, _ = take_first(tom)
    before = {hole.number for hole in told(tom).extra_holes}
    scheme = tom.plan().drums[0].chosen
    assert scheme is not None
    drilled = [one.number for one in scheme.layout.holes if one.verdict is Verdict.DRILL]
    tick(tom, code, drilled[:1])
    assert {hole.number for hole in told(tom).extra_holes} - before == set(drilled[:1])


def test_without_a_plan_nothing_is_said_of_holes(as_found: OnTheBench) -> None:
    facts = told(as_found, planned=False)
    assert facts.extra_holes == ()
    assert "whether there are more holes: they were not all counted" in listing(facts).text
    assert "No extra holes" not in listing(facts).text


def test_what_is_typed_besides_and_what_came_in_with_it(tom: OnTheBench) -> None:
    besides = {"faults": "A dent.\nSmoke.", "comes_with": "a case", "not_known": "who cut it"}
    write(tom, LISTING, dict(besides), drum=tom.drum.id)
    write(tom, ARRIVAL, {"woodworm": {"found": "yes", "says": "in the hoop"}})
    text = listing(told(tom)).text
    for said in ("A dent", "Smoke", "a case", "who cut it", "woodworm when it came in"):
        assert f"- {said}" in text, said


def test_without_a_size_it_says_what_to_write(tom: OnTheBench) -> None:
    body: Json = {"kind": "tom", "says": "a tom"}
    drum = tom.drum
    write_down(
        tom.shop, tom.id,
        Change(kind=SURVEY, name=drum.id, value=body, based_on=drum.kept(SURVEY).number), by="b",
    )  # fmt: skip
    with pytest.raises(BadInput, match="nobody has said how large"):
        told(tom, planned=False)


def test_a_part_that_was_changed_is_not_called_original_as_well(as_found: OnTheBench) -> None:
    drum = as_found.plan().drums[0].wanted.drum
    before = parts_told(drum, None, ())
    assert ("bracket", "original") in [(one.name, one.state) for one in before]
    done = (PartDone(part="bracket", done="replaced", says="another"),)
    after = [one for one in parts_told(drum, None, done) if "bracket" in one.name]
    assert [(one.state, one.says) for one in after] == [("later", "replaced by us: another")]


def test_what_a_drum_of_a_job_is_like(tom: OnTheBench) -> None:
    typed = drum_typed(tom.shop, tom.job, tom.drum)
    found = tom.plan().drums[0].wanted.drum
    extra = sum(hole.origin is Origin.EXTRA for hole in found.holes)
    assert typed["extra_holes"] == str(extra)
    assert typed["made"] == "1958 to 1962"
    assert typed["kind"] == "tom"
    quote = tom.quote()
    dear = [line for line in quote.lines if line.stands.amount is None]
    saved(strike(tom.shop, tom.id, dear, based_on=quote.kept.number, by=BY))
    offered(tom, day="2030-05-14")
    yes = {"who": "Nell", "when": "2030-05-14", "how": "by letter", "by": BY}
    saved(accept(tom.shop, tom.job, 1, based_on=tom.quote().kept.number, **yes))
    give_invoice(tom.shop, tom.job, day="2030-05-14", by=BY)
    hand_over(tom)
    sale = sale_typed_of(tom.shop, tom.job, tom.drum)
    assert sale["sold_on"] == "2030-05-13"
    # Neither what was wrong with it as it came, nor what its work cost, was sold.
    assert not {"condition", "price"} & set(sale)


@given(
    st.floats(min_value=0, max_value=360, exclude_max=True),
    st.integers(min_value=2, max_value=12),
    st.floats(min_value=0, max_value=360),
)
def test_a_place_among_lugs_turns_with_the_datum(along: float, lugs: int, turn: float) -> None:
    """Exact law: said from lug to lug, a place does not depend on where the datum is."""
    at = [360.0 * lug / lugs for lug in range(lugs)]
    nearest = min(min((along - one) % 360.0, (one - along) % 360.0) for one in at)
    if abs(nearest - 3.0) < 1e-6 or nearest < 1e-9:
        return
    assert between_lugs(along, at) == between_lugs(along + turn, [one + turn for one in at])


def test_what_is_asked_before_posting_by_what_was_typed() -> None:
    """By hand: 52 + 2 x (52 + 32) is 220 cm; the doubt of the tape is 3 cm."""
    typed = {
        "timbers": "maple\nmahogany", "nitrate": "no", "parcel": "52 x 52 x 32 cm",
        "weight": "6.4 kg", "carrier": "the post, May 2030", "longest": "60 cm",
        "length_and_girth": "2 m", "heaviest": "14 lb",
    }  # fmt: skip
    said = read_posting(typed)
    assert said.faults == {}
    codes = {one.code: one for one in said.findings}
    assert codes["parcel-girth"].measured == pytest.approx(2200.0)
    assert not codes["parcel-girth"].too_close
    assert codes["parcel-weight"].too_close  # 14 lb are 6.35 kg
    assert "abroad-timber" in codes
    assert "parcel-longest" not in codes
    wrong = read_posting({"parcel": "52 x 52", "weight": "600 kg", "longest": "long"})
    assert set(wrong.faults) == {"parcel", "weight", "longest"}
    assert "parcel-not-measured" in {one.code for one in wrong.findings}
