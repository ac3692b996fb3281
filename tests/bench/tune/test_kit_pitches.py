"""The kit's pitches, as a job's drums and the player's wish give them.

Truth: exact laws. What was wished is what is planned, no rod pulls more than it may, and a pitch
that was settled by hand comes out again.
"""

from __future__ import annotations

import pytest
from small_kits import FLOOR, LARGE, SMALL, drum, planned, tune

from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.tune.conversion_told import conversion_told
from counterhoop.bench.tune.drum_to_tune import drum_to_tune
from counterhoop.bench.tune.kit_pitches import kit_pitches
from counterhoop.bench.tune.turns_heard import turns_heard
from counterhoop.heads.tension import rim_hz

GAIN = 'turns = [{ head = "batter", from = "190 Hz", to = "205 Hz", turns = "1/8" }]'


def test_without_a_wish_every_drum_has_its_pitch_by_rising_size(three: JobPlan):
    kit = kit_pitches(three)
    assert [one.key for one in kit.drums] == ["floor tom", "large tom", "small tom"]
    assert kit.refusals == ()
    assert max(kit.steps_cents) - min(kit.steps_cents) <= 2
    for one in kit.drums:
        assert one.planned is not None
        assert [head.head for head in one.planned.heads] == ["batter", "resonant"]


def test_what_was_wished_is_what_is_planned():
    wish = '[kit]\nlowest = { drum = "floor tom", pitch = "90 Hz" }\nbottom = "a third higher"'
    kit = kit_pitches(planned(SMALL, FLOOR, kit=wish))
    low = kit.drum("Floor tom")
    assert low is not None
    assert low.planned is not None
    assert low.planned.wished
    assert low.planned.middle_hz == pytest.approx(90.0, rel=1e-4)
    batter, resonant = low.planned.heads
    # A third is four semitones of 2^(1/12).
    assert resonant.rim_hz / batter.rim_hz == pytest.approx(2 ** (4 / 12), rel=1e-3)


def test_no_rod_pulls_more_than_the_restorer_allows():
    limit = drum("small tom", girth=955, depth=203, tuning='most_per_rod = "300 N"')
    free, held = (kit_pitches(planned(one)).drums[0].planned for one in (SMALL, limit))
    assert free is not None
    assert held is not None
    assert max(head.force.most_n for head in held.heads) <= 300.0 * (1 + 1e-6)
    assert max(head.force.most_n for head in free.heads) > 300.0


def test_a_wish_that_cannot_be_met_is_answered_with_the_drum_and_what_would_do():
    wish = '[kit]\nlowest = { drum = "small tom", pitch = "40 Hz" }'
    kit = kit_pitches(planned(SMALL, kit=wish))
    assert kit.drums[0].planned is None
    assert "small tom" in kit.refusals[0]
    assert "too low" in kit.refusals[0]
    assert kit.drums[0].refusal == kit.refusals[0]


def test_a_snare_drum_stands_by_itself():
    snare = drum("snare", girth=1115, depth=140, lugs=8, kind="snare")
    kit = kit_pitches(planned(SMALL, LARGE, snare))
    assert [(one.key, one.in_steps) for one in kit.drums] == [
        ("large tom", True), ("small tom", True), ("snare", False),
    ]  # fmt: skip
    assert len(kit.steps_cents) == 1


def test_calf_gets_no_plan_and_the_others_do():
    calf = drum("large tom", girth=1035, depth=229, tuning="batter = { calf = true }")
    kit = kit_pitches(planned(SMALL, calf))
    assert [one.planned is not None for one in kit.drums] == [True, False]
    assert "Calf" in kit.drums[1].refusal


def test_a_pitch_settled_by_hand_comes_out_near_the_rim():
    said = 'pitch = { batter = "230 Hz", resonant = "250 Hz" }'
    settled = drum("small tom", girth=955, depth=203, tuning=said)
    one = kit_pitches(planned(settled)).drums[0]
    assert one.planned is not None
    batter, resonant = one.planned.heads
    assert batter.rim_hz == pytest.approx(230.0, rel=1e-3)
    assert resonant.rim_hz == pytest.approx(250.0, rel=1e-3)


@pytest.mark.parametrize(("hz", "why"), [(25, "hang slack"), (1900, "tighter than")])
@pytest.mark.parametrize("heard", ["in the middle", "near the rim"])
def test_a_pitch_that_cannot_be_is_refused_by_the_drum_s_name(hz, why, heard):
    said = f'pitch = {{ batter = "{hz} Hz" }}'
    kit = f'[kit]\nheard = "{heard}"\n'
    settled = drum("small tom", girth=955, depth=203, tuning=said)
    (one,) = kit_pitches(planned(settled, LARGE, kit=kit)).refusals
    assert one.startswith("small tom: ")
    assert f"({hz} Hz)" in one
    assert why in one


def test_turns_that_were_heard_are_used_and_those_of_another_thread_are_not():
    one = tune(drum("small tom", girth=955, depth=203, tuning=GAIN))
    heard = turns_heard(one, "batter")
    assert heard is not None
    assert heard.heard
    assert turns_heard(one, "resonant") is None
    other = GAIN.replace('turns = "1/8"', 'turns = "1/8", rod = "M6"')
    assert (
        turns_heard(tune(drum("small tom", girth=955, depth=203, tuning=other)), "batter") is None
    )


def test_turns_take_the_pitch_from_where_it_was_to_where_it_was_heard():
    one = tune(drum("small tom", girth=955, depth=203, tuning=GAIN))
    gain = turns_heard(one, "batter")
    assert gain is not None
    before, after = (
        rim_hz(n_per_m, radius_m=one.radius_m, depth_m=one.depth_m, head=one.head("batter"))
        for n_per_m in (1200.0, 1200.0 + gain.n_per_m / 8.0)
    )
    # Near the pitches that it was heard at an eighth of a turn gives about 15 Hz again.
    assert 10.0 < after - before < 20.0


def test_a_second_head_is_told_and_no_change_is_not(three: JobPlan):
    wish = drum("tom", girth=955, depth=203, heads=1)
    wish += '\n[drums.tom.wish]\nwant = "second head"\n'
    told = conversion_told(drum_to_tune(planned(wish).drums[0]))
    assert told is not None
    assert told.adds
    assert told.middle_cents > 100.0
    assert conversion_told(drum_to_tune(three.drums[0])) is None
