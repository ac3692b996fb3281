"""The record says what the folder says, and leaves out what nobody did.

Truth: worked by hand from the survey of the invented small tom.
"""

from __future__ import annotations

import re
from dataclasses import replace

from handed_job import hand_over, photographed, record, said, take_first, tick, write
from priced_job import BY, OnTheBench

from counterhoop.bench.folders.kinds import FOUND
from counterhoop.bench.record.left import as_left, not_ticked, ticked
from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.quantities.duration import parse_duration
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.store.body import Json
from counterhoop.store.work_log.write_log import type_after


def test_a_drum_that_nobody_worked_on_shows_how_it_was_found(tom: OnTheBench) -> None:
    one = record(tom)
    assert one.left is None
    assert not one.record.parts
    assert "No scheme is taken: the record does not show how it was left." in one.lacks
    assert ("Made by: Corvane", "seen on it: its badge") in one.record.sure
    # The feelers read from 0 to 1.1 mm; no plane lies nearer to all of them than 0.8 mm.
    says = "As found its heights were 1.1 mm apart, its lean with them; within 0.8 mm of flat."
    assert one.record.edges[0] == ("batter edge", says)


def test_what_is_ticked_was_done_and_nothing_else(tom: OnTheBench) -> None:
    code, holes = take_first(tom)
    new = [number for number in holes if number > 18]
    assert "No hole of its scheme is ticked: the record does not show how it was left." in (
        record(tom).lacks
    )
    # The survey has eighteen holes; of the new ones all but two are ticked, and hole 18 is not.
    tick(tom, code, new[:-2])
    one = record(tom)
    assert one.left is not None
    left = {plan.number: plan for plan in one.left.holes}
    assert sorted(left) == [*range(1, 19), *new[:-2]]
    assert left[18].verdict is Verdict.LEAVE_OPEN
    assert left[18].new == left[18].old
    assert [line for line in one.lacks if "not ticked" in line] == [
        f"Holes 18, {new[-2]}, {new[-1]} are not ticked as done: the record leaves them as found."
    ]
    tick(tom, code, holes)
    whole = record(tom)
    assert whole.left is not None
    assert {plan.verdict for plan in whole.left.holes if plan.number == 18} == {Verdict.PLUG}
    assert not [line for line in whole.lacks if "ticked" in line]
    assert any(line.startswith("12 new holes drilled") for line in whole.record.story)


def test_typed_words_go_to_the_drum_that_they_name(tom: OnTheBench) -> None:
    code, holes = take_first(tom)
    tick(tom, code, holes)
    hand_over(tom, done="Small tom: rods oiled.\nBoth keys are in the bag.")
    told = said(record(tom))
    # "Other tom" is no drum of this job, so nobody is meant but all.
    assert told["found"] == ("Rust on every rod.", "Other tom: nothing.")
    assert told["story"][:2] == ("rods oiled.", "Both keys are in the bag.")
    assert told["not_known"][0] == "Who painted the inside."
    assert told["bag"][-1] == "The old wrap."
    assert any(line.startswith("Spare: 2 x screw") for line in told["bag"])


def test_a_place_that_was_photographed_before_only_lacks(tom: OnTheBench) -> None:
    photographed(tom)
    one = record(tom)
    assert [(side.place, side.after is None) for side in one.sides] == [
        ("outside, with the datum in front", False), ("batter edge", False),
        ("resonant edge", True),
    ]  # fmt: skip
    assert "No photograph after the work: resonant edge." in one.lacks


def test_what_was_found_on_the_way_is_told_with_the_answer(tom: OnTheBench) -> None:
    things: Json = {
        "1": {"sort": "crack", "where": "lug 4", "means": "glued and clamped", "on": "2030-05-10"},
        "2": {"sort": "other", "means": "the glue of the ring is dust", "on": "2030-05-11"},
        "3": {"sort": "part", "where": "lug 2", "taken_back": "it was dirt"},
    }
    yes: Json = {
        "yes": True,
        "who": "Nell",
        "when": "2030-05-11",
        "how": "by letter",
        "things": [1],
    }
    write(tom, FOUND, {"things": things, "answers": [yes]}, drum=tom.drum.id)
    one = record(tom)
    assert one.record.found == (
        "Crack in the shell at lug 4: glued and clamped. Found on the way on 10 May 2030;"
        " Nell said yes on 11 May 2030, by letter.",
        "The glue of the ring is dust. Found on the way on 11 May 2030.",
    )
    assert "Not answered yet: The glue of the ring is dust." in one.lacks


def test_a_hole_through_a_plug_was_plugged_before(tom: OnTheBench) -> None:
    """By hand: hole 1 is plugged for hole 3, which alone is ticked; hole 2 is to be larger."""
    layout = record(tom).left or tom.plan().drums[0].found
    at = Place(40.0, 30.0)
    holes = (
        HolePlan(number=1, verdict=Verdict.PLUG, place=at, old=Round(6.0)),
        HolePlan(number=2, verdict=Verdict.ENLARGE, place=at, old=Round(6.0), new=Round(8.0)),
        HolePlan(number=3, verdict=Verdict.PLUG_AND_DRILL, place=at, new=Round(7.0), through=(1,)),
        HolePlan(number=4, verdict=Verdict.DRILL, place=at, new=Round(7.0)),
        HolePlan(number=5, verdict=Verdict.KEEP, place=at, old=Round(5.0), new=Round(5.0)),
    )
    planned = replace(layout, holes=holes)
    chosen = tom.plan().drums[0].chosen
    assert chosen is not None
    tick(tom, chosen.code, [3])
    done = ticked(tom.drum, replace(chosen, layout=planned))
    assert done == {1, 3}
    left = as_left(planned, done)
    assert [(plan.number, plan.verdict, plan.new) for plan in left.holes] == [
        (1, Verdict.PLUG, None), (2, Verdict.LEAVE_OPEN, Round(6.0)),
        (3, Verdict.PLUG_AND_DRILL, Round(7.0)), (5, Verdict.KEEP, Round(5.0)),
    ]  # fmt: skip
    assert not_ticked(planned, done) == (2, 4)


def test_while_work_is_open_by_the_log_the_record_is_a_draft(tom: OnTheBench) -> None:
    code, holes = take_first(tom)
    tick(tom, code, holes)
    # Nobody keeps a log of this drum: nothing is claimed of its work.
    assert record(tom).record.unfinished == ()
    logged(tom, "strip a drum", 1)
    (says,) = record(tom).record.unfinished
    assert re.match(r"\d+ of \d+ works are open by the log: ", says)
    assert "strip a drum" not in says
    assert "plug a hole" not in says
    assert "By the log of work: taken apart." in record(tom).record.story
    # What left the bench is finished; the page says all the same what the log does not.
    hand_over(tom)
    gone = record(tom)
    assert gone.record.unfinished == ()
    assert says in gone.lacks


def logged(tom: OnTheBench, operation: str, count: int) -> None:
    with tom.shop.store.writing() as connection:
        type_after(
            connection, job_id=tom.id, drum=tom.drum.id, operation=operation, count=count,
            took=parse_duration("40 min"), day=tom.shop.now().date(), stamp=tom.shop.stamp(BY),
        )  # fmt: skip
