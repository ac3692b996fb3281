"""What is heard held against the pitch that is planned, and against what a rod may pull.

Truth: exact laws. Turning what is said leads to the plan; what is heard and what is planned change
places and the advice turns the other way; no rod goes up that pulls more than it may.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from small_kits import FLOOR, LARGE, SMALL, drum, planned, tune

from counterhoop.bench.tune.advice_on import MUTE_FIRST, advice_on
from counterhoop.bench.tune.against_plan import PitchPlanned, against_plan, pitch_planned
from counterhoop.bench.tune.drum_asked import drum_asked
from counterhoop.bench.tune.drum_to_tune import DrumToTune, drum_to_tune
from counterhoop.bench.tune.kit_pitches import kit_pitches
from counterhoop.bench.tune.rods_at import RodsOfHead
from counterhoop.bench.tune.turns_heard import turns_heard
from counterhoop.heads.rods import rod_force
from counterhoop.heads.tension import rim_hz, tension_from_pitch
from counterhoop.listen.advice import Advice
from counterhoop.listen.advice_words import STAYS
from counterhoop.listen.pitch_said import PitchSaid
from counterhoop.listen.round_rim import RimReading
from counterhoop.quantities.pitch import parse_pitch
from counterhoop.quantities.print_pitch import cents, moved_hz

TURNED = 'turns = [{ head = "batter", from = "190 Hz", to = "205 Hz", turns = "1/8" }]'
UNEVEN = RimReading(
    mean_hz=200.0, mean_doubt_hz=0.1, split_cents=30.0, split_doubt_cents=1.0, axis_deg=70.0,
    axis_doubt_deg=2.0, quality="good",
)  # fmt: skip
EVEN = replace(UNEVEN, split_cents=3.0)


def hz_at(one: DrumToTune, n_per_m: float) -> float:
    return rim_hz(n_per_m, radius_m=one.radius_m, depth_m=one.depth_m, head=one.head("batter"))


def plan(hz: float, *, wished: bool = True) -> PitchPlanned:
    return PitchPlanned(hz=hz, n_per_m=_n_per_m(tune(SMALL), hz), wished=wished)


def _n_per_m(one: DrumToTune, hz: float) -> float:
    return tension_from_pitch(
        hz, radius_m=one.radius_m, depth_m=one.depth_m, head=one.head("batter")
    ).n_per_m


def rods(one: DrumToTune) -> RodsOfHead:
    found = one.rods("batter")
    assert found is not None
    return found


def said(hz: float, planned_hz: float, *, one: DrumToTune | None = None) -> PitchSaid:
    one = one or tune(SMALL)
    return against_plan(
        hz, tune=one, rods=rods(one), planned=plan(planned_hz), even_enough_cents=10.0
    )


def advised(rim: RimReading, planned_hz: float | None, **more: Any) -> Advice:
    one = tune(SMALL)
    return advice_on(
        rim, tune=one, rods=rods(one), stage="after",
        planned=plan(planned_hz) if planned_hz else None, **more,
    )  # fmt: skip


@pytest.mark.parametrize(("off", "words"), [(325.0, "3 1/4 semitones"), (50.0, "1/2 of a semi")])
def test_how_far_off_is_said_and_which_way_to_turn(off: float, words: str):
    high, low = (said(moved_hz(200.0, cents=by), 200.0) for by in (off, -off))
    assert f"It is {words}" in high.says
    assert "above" in high.says
    assert "slacken all rods alike" in high.says
    assert "below" in low.says
    assert "tighten all rods alike" in low.says
    assert high.turns
    assert low.turns
    assert high.first == low.first == (off > 100.0)


@pytest.mark.parametrize("off", [0.0, 9.0, -9.0])
def test_near_the_plan_it_is_there(off: float):
    found = said(moved_hz(200.0, cents=off), 200.0)
    assert found.says.startswith("It is there: ")
    assert not found.turns
    # The note that is named is the planned one, read back by the program's own reader.
    note = found.says.removeprefix("It is there: ").removesuffix(" is planned for it.")
    assert cents(parse_pitch(note, a4_hz=440.0).hz, above_hz=200.0) == pytest.approx(0.0, abs=5.0)


def test_the_turns_that_are_said_lead_from_what_is_heard_to_the_plan():
    """By what a turn gives on this drum; a sixteenth is the finest that is said."""
    one = tune(drum("small tom", girth=955, depth=203, tuning=TURNED))
    gain = turns_heard(one, "batter")
    assert gain is not None
    found = said(230.0, 200.0, one=one)
    told = re.search(r"about (\d+)/(\d+) of a turn each", found.says)
    assert told is not None
    turns = int(told[1]) / int(told[2])
    left, over = (
        hz_at(one, _n_per_m(one, 230.0) - by * gain.n_per_m) for by in (turns, turns + 1 / 16)
    )
    assert left > 200.0 > over


def test_without_turns_heard_only_a_bound_is_said():
    found = said(230.0, 200.0)
    assert re.search(r"1/\d+ of a turn each or more|a hair at a time", found.says)
    assert "about" not in found.says


def test_an_even_head_off_its_plan_is_not_told_to_stop():
    off, there, none = (advised(EVEN, hz) for hz in (170.0, 200.5, None))
    assert off.sentences[0].startswith("Even enough: ")
    assert "semitones above the pitch planned for it" in off.sentences[1]
    assert there.sentences[0].startswith("Stop here")
    assert there.sentences[1].startswith("It is there")
    assert none.sentences[0].startswith("Stop here")
    assert not any("planned" in one for one in none.sentences)


def test_far_off_the_pitch_comes_before_evening_and_near_it_after():
    far, near = (advised(UNEVEN, hz) for hz in (170.0, 195.0))
    assert "planned" in far.sentences[0]
    assert far.staying[0] == STAYS
    assert "planned" not in near.sentences[0]
    assert sum("planned" in one for one in near.sentences) == 1
    assert near.staying == ()
    assert far.pattern == near.pattern != ()


def test_what_nobody_wished_is_no_order():
    one = tune(SMALL)
    given: dict[str, Any] = {"tune": one, "rods": rods(one), "planned": plan(170.0, wished=False)}
    after = advice_on(EVEN, stage="after", **given)
    assert any(one.startswith("Nobody wished a pitch for it") for one in after.sentences)
    assert not any("all rods alike" in one for one in after.sentences)
    before = advice_on(EVEN, stage="before", **given)
    assert not any("wished" in one for one in before.sentences)


def test_rods_beyond_the_limit_are_said_first_and_none_is_tightened():
    free = tune(SMALL)
    force = rod_force(_n_per_m(free, 200.0), radius_m=free.radius_m, rods=6)
    for limit_n, words in ((force.n - 20.0, "slacken all"), (force.most_n - 20.0, "tighten none")):
        lines = f'most_per_rod = "{limit_n:.0f} N"'
        held = tune(drum("small tom", girth=955, depth=203, tuning=lines))
        found = advice_on(UNEVEN, tune=held, rods=rods(held), stage="after", planned=plan(150.0))
        assert words in found.sentences[0]
        assert "above your limit" in found.sentences[0]
        assert max(one.share for one in found.pattern) <= 0.0
    lines = f'most_per_rod = "{force.most_n + 20.0:.0f} N"'
    safe = tune(drum("small tom", girth=955, depth=203, tuning=lines))
    found = advice_on(UNEVEN, tune=safe, rods=rods(safe), stage="after")
    assert not any("limit" in one for one in found.sentences)
    assert max(one.share for one in found.pattern) > 0.0


def test_while_the_other_head_rings_nothing_is_turned():
    loud = advised(UNEVEN, 170.0, muted=False)
    assert loud == Advice(sentences=(MUTE_FIRST,))
    pair = advised(replace(UNEVEN, coupled_pair=True, ask=("Mute it.",)), 170.0)
    assert pair == Advice(sentences=("Mute it.",))
    single = tune(drum("small tom", girth=955, depth=203, heads=1))
    alone = advice_on(UNEVEN, tune=single, rods=rods(single), stage="before", muted=False)
    assert alone.pattern != ()


def test_heights_of_an_earlier_sitting_are_named_as_such():
    one = tune(
        drum("small tom", girth=955, depth=203, tuning='heights = [{ at = "9, 9, 9, 9, 9, 9 mm" }]')
    )
    before, after = (
        advice_on(EVEN, tune=one, rods=rods(one), stage=stage).unknown
        for stage in ("before", "after")
    )
    assert not any("anything was turned" in said for said in before)
    assert any("read before anything was turned" in said for said in after)


def test_one_drum_is_asked_for_as_the_whole_plan_has_it():
    """Independent: the whole job planned, its kit's choice and all."""
    wish = drum("small tom", girth=955, depth=203, heads=1)
    wish += '\n[drums."small tom".wish]\nwant = "second head"\n'
    snare = drum("snare", girth=1115, depth=140, lugs=8, kind="snare")
    kit = '[kit]\nlowest = { drum = "floor tom", pitch = "90 Hz" }'
    whole = planned(wish, LARGE, FLOOR, snare, kit=kit)
    pitches = kit_pitches(whole)
    for key in ("small tom", "Large tom", "snare"):
        asked = drum_asked(whole.opened, key, head="batter", stage="after")
        same = drum_to_tune(whole.drum(key))
        assert asked.planned == pitch_planned(pitches, same, head="batter")
        assert asked.tune.heads_then == same.heads_then
    now = drum_asked(whole.opened, "small tom", head="batter", stage="before")
    assert now.planned is None
    assert now.tune.at("before") == drum_to_tune(whole.drum("small tom")).at("before")
