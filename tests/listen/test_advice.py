"""Advice after listening.

Truth: what pitch cannot tell is never said (every sentence is read); the two-lobed law; and
figures worked by hand.
"""

from __future__ import annotations

import inspect
import itertools
import math
import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from taps import rods

from counterhoop.errors import BadInput
from counterhoop.listen import advice_words
from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, advise
from counterhoop.listen.calibration import (
    FIRST_TURNS,
    ONE_GO_TURNS,
    Calibration,
    calibrate,
    turn_step,
    turn_words,
)
from counterhoop.listen.hoop_heights import read_hoop_heights
from counterhoop.listen.pitch_said import PitchSaid
from counterhoop.listen.round_rim import RimReading
from counterhoop.listen.shares import shares_of_split
from counterhoop.shell.shop_rules import default_rules

UNEVEN = RimReading(
    mean_hz=220.0, mean_doubt_hz=0.02, split_cents=21.0, split_doubt_cents=0.3, axis_deg=0.0,
    axis_doubt_deg=1.0, quality="good",
)  # fmt: skip
COUPLED = replace(
    UNEVEN, coupled_pair=True, axis_deg=None, quality="poor", ask=("Mute the other head.",)
)
NOTHING = RimReading(ask=("No reading: 1 tap can be used.",))
POOR = replace(UNEVEN, quality="poor", ask=("Move the phone.",))
LOST = replace(UNEVEN, axis_deg=None, axis_doubt_deg=None, quality="fair")
ONE_PITCH = RimReading(
    mean_hz=220.0, split_below_cents=3.0, says=("All taps ring at one pitch.",), quality="fair"
)
ONE_PLACE = replace(ONE_PITCH, split_below_cents=None, ask=("Move it.",), quality="poor")
WAYS = ("both", "up", "down")
KNOWN = (None, Calibration(cents_per_turn=600.0), Calibration(cents_per_turn=30.0))


def rods_named(sentence: str) -> set[int]:
    """Numbers that follow "rod" or "rods"."""
    lists = re.findall(r"[Rr]ods? ((?:\d+(?:, | and )?)+)", sentence)
    return {int(number) for some in lists for number in re.findall(r"\d+", some)}


def speaks_of_one_rod(sentence: str) -> bool:
    return len(rods_named(sentence)) == 1 or bool(
        re.search(r"\b(that|this|each|every|one) rod('s)?\b.*\b(pulls?|tension)\b", sentence)
    )


OVER = "At this pitch all rods pull more than they may."
OFF = "It is 2 semitones above the pitch planned for it: slacken all rods alike."


def every_advice():
    """Advice for every number of rods, axis, way, knowledge of the drum and state of the taps."""
    for count, axis, way, known in itertools.product(
        range(3, 13), np.arange(0.0, 180.0, 3.75), WAYS, KNOWN
    ):
        at_most = None if known else 2000.0
        for split in (8.0, 21.0):
            yield advise(
                replace(UNEVEN, axis_deg=float(axis), split_cents=split), rods=count,
                rod_deg=rods(count), way=way, calibration=known, at_most_cents_per_turn=at_most,
                oval_mm=2.0, diameter_mm=304.8,
            )  # fmt: skip
    for count, reading, film in itertools.product(
        range(3, 13), (COUPLED, NOTHING, POOR, LOST, ONE_PITCH, ONE_PLACE), (True, False)
    ):
        yield advise(reading, rods=count, rod_deg=rods(count), film=film)
    for split, doubt in ((9.9, 0.3), (12.0, 0.3), (40.0, 0.3)):
        reading = replace(UNEVEN, split_cents=split, split_doubt_cents=doubt, axis_deg=20.0)
        yield advise(reading, rods=4, rod_deg=rods(4), film=False)
    off = PitchSaid(limit=OVER, says=OFF, turns=True, first=True)
    for reading in (replace(UNEVEN, split_cents=4.0), UNEVEN, ONE_PITCH):
        yield advise(reading, rods=8, rod_deg=rods(8), pitch=off)


def everything(advice):
    return (
        *advice.sentences, *advice.staying, *advice.later, *advice.because, *advice.unknown,
        advice.expected,
    )  # fmt: skip


def every_sentence():
    said = set()
    for advice in every_advice():
        said |= {*everything(advice)} - {""}
    return said


def test_no_sentence_speaks_of_one_rod_alone():
    said = every_sentence()
    assert len(said) > 500
    assert [sentence for sentence in said if speaks_of_one_rod(sentence)] == []
    assert not any(re.search(r"N/m|newton|tension", sentence) for sentence in said)


def test_every_template_was_read_by_that_test():
    """Each constant is among the sentences, and so is the beginning of what each function says."""
    said = every_sentence()
    for name, value in vars(advice_words).items():
        if name.isupper() and isinstance(value, str) and name != "RESEAT":
            assert value in said, name
    for name, function in inspect.getmembers(advice_words, inspect.isfunction):
        of_others = function.__module__ != advice_words.__name__
        if of_others or name.startswith("_") or name == "listed":
            continue
        begins = re.search(r"^\s*'([A-Z]\w+ \w*)", inspect.getdoc(function) or "", re.M)
        pattern = begins.group(1) if begins else {
            "out_of_reach": "The pitch differs by", "partly": "Of it about"}[name]  # fmt: skip
        assert any(sentence.startswith(pattern) for sentence in said), name


@pytest.mark.parametrize(
    "sentence",
    [
        "Rod 3 is tight.", "Slacken rod 11 a hair.", "Rods 3 read low: tighten all of them a hair.",
        "Of all, this rod pulls most.",
    ],
)  # fmt: skip
def test_a_planted_sentence_about_one_rod_is_found(sentence):
    assert speaks_of_one_rod(sentence)


# --- the pattern -------------------------------------------------------------------------------


def test_eight_rods_are_turned_by_opposite_pairs():
    """Axis at rods 1 and 5: they read 10.5 sharp, 3 and 7 as much flat; 2, 4, 6, 8 stay."""
    advice = advise(UNEVEN, rods=8, rod_deg=rods(8))
    assert [one.share for one in advice.pattern] == [-1.0, 0.0, 1.0, 0.0] * 2
    assert [one.cents for one in advice.pattern] == pytest.approx([10.5, 0.0, -10.5, 0.0] * 2)
    assert any(
        s.startswith("Rods 3 and 7 read low: tighten both by a hair") for s in advice.sentences
    )
    assert any(s.startswith("Rods 1 and 5 read sharp: slacken both by a") for s in advice.sentences)


def test_five_rods_are_turned_as_one_pattern():
    advice = advise(UNEVEN, rods=5, rod_deg=rods(5))
    (pattern,) = [s for s in advice.sentences if s.startswith("As one pattern")]
    assert len(rods_named(pattern)) >= 4


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    count=st.integers(3, 12), axis=st.floats(0.0, 180.0), way=st.sampled_from(WAYS),
    askew=st.lists(st.floats(-4.0, 4.0), min_size=12, max_size=12),
)  # fmt: skip
def test_the_pattern_works_against_the_two_lobes(count, axis, way, askew):
    """Its own two-lobed part points across the axis, within what halves can do of it."""
    at = [along + off for along, off in zip(rods(count), askew, strict=False)]
    advice = advise(replace(UNEVEN, axis_deg=axis), rods=count, rod_deg=at, way=way, film=False)
    if not advice.pattern:
        assert count == 4
        return
    lobes = np.exp(2j * np.radians(at))
    drive = sum(one.share * to for one, to in zip(advice.pattern, lobes, strict=True))
    against = -drive / np.exp(2j * np.radians(axis))
    assert against.real > 0.0
    if count != 4:
        assert abs(np.angle(against)) < math.radians(25.0)
    signs = {np.sign(one.share) for one in advice.pattern} - {0.0}
    assert signs <= {"both": {-1.0, 1.0}, "up": {1.0}, "down": {-1.0}}[way]
    if count % 2 == 0:
        shares = [one.share for one in advice.pattern]
        assert shares[: count // 2] == shares[count // 2 :]


def test_four_rods_leave_what_lies_between_them():
    between = replace(UNEVEN, axis_deg=45.0, split_cents=30.0)
    stuck = advise(between, rods=4, rod_deg=rods(4))
    assert stuck.stop
    assert stuck.pattern == ()
    partly = advise(replace(between, axis_deg=20.0), rods=4, rod_deg=rods(4))
    assert any("midway between the rods" in sentence for sentence in partly.sentences)
    stays = math.ceil(30.0 * math.sin(math.radians(40.0)))
    assert any(f"about {stays} cents" in sentence for sentence in partly.sentences)


# --- how far -----------------------------------------------------------------------------------


def test_before_a_turn_is_known_a_sixteenth_is_the_most():
    for count, axis, way in itertools.product(range(3, 13), (0.0, 33.0), WAYS):
        big = replace(UNEVEN, split_cents=150.0, axis_deg=axis)
        advice = advise(big, rods=count, rod_deg=rods(count), way=way)
        parts = [part for s in advice.sentences for part in re.findall(r"1/(\d+) of a turn", s)]
        assert all(1.0 / int(part) <= FIRST_TURNS for part in parts)
        assert all(one.turns is None for one in advice.pattern)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(
    count=st.integers(5, 12), axis=st.floats(0.0, 180.0), gain=st.floats(50.0, 5000.0),
    split=st.floats(14.0, 120.0),
)  # fmt: skip
def test_a_calibrated_drum_is_not_turned_past_even(count, axis, gain, split):
    reading = replace(UNEVEN, axis_deg=axis, split_cents=split)
    advice = advise(
        reading, rods=count, rod_deg=rods(count), calibration=Calibration(cents_per_turn=gain)
    )
    turns = np.array([one.turns for one in advice.pattern])
    assert np.abs(turns).max() <= ONE_GO_TURNS + 1e-12
    lobes = np.exp(2j * np.radians(rods(count)))
    before = split * np.exp(2j * np.radians(axis))
    after = before + gain * 2.0 / count * (turns @ lobes)
    assert abs(after) < split
    assert (after / before).real > -1e-6
    said = re.search(r"to about (\d+) cents", advice.expected)
    assert said is not None
    assert abs(float(said[1]) - abs(after)) <= 0.5 + 1e-9


def test_a_turn_is_learnt_from_taps_before_and_after():
    """On 8 rods with 1/32 on both pairs 30 cents became 10: 20 over 1/32, times 2 pairs of 4."""
    turned = [-1 / 32, 0, 1 / 32, 0] * 2
    after = replace(UNEVEN, split_cents=10.0)
    known = calibrate(replace(UNEVEN, split_cents=30.0), after, turned=turned, along_deg=rods(8))
    assert known.cents_per_turn == pytest.approx(20.0 * 32)
    evened = RimReading(mean_hz=220.0, split_below_cents=2.0)
    assert calibrate(UNEVEN, evened, turned=turned, along_deg=rods(8)).cents_per_turn > 0


@pytest.mark.parametrize(
    ("after", "turned", "says"),
    [
        (replace(UNEVEN, split_cents=40.0), [-0.03, 0, 0.03, 0] * 2, "did not follow"),
        (replace(UNEVEN, axis_deg=30.0), [-0.03, 0, 0.03, 0] * 2, "did not follow"),
        (UNEVEN, [0.03] * 8, "do not even"),
        (UNEVEN, [0.0] * 8, "do not even"),
        (LOST, [-0.03, 0, 0.03, 0] * 2, "axis is not known"),
    ],
)
def test_turns_that_teach_nothing_are_refused(after, turned, says):
    with pytest.raises(BadInput, match=says):
        calibrate(UNEVEN, after, turned=turned, along_deg=rods(8))


@given(st.floats(0.0, 2.0))
def test_turns_are_rounded_down_and_said_as_they_are_rounded(turns):
    step = turn_step(turns)
    assert step <= turns + 1e-8
    words = turn_words(turns)
    part = re.fullmatch(r"1/(\d+) of a turn", words)
    assert words == "a hair" or (part is not None and step == 1.0 / int(part[1]))


# --- when to stop ------------------------------------------------------------------------------


def test_what_is_even_enough_is_the_rule_of_the_workshop():
    assert default_rules().even_enough_cents == EVEN_ENOUGH_CENTS


def test_stop_below_what_is_even_enough_or_the_causes_explain():
    def stops(split, **more):
        return advise(replace(UNEVEN, split_cents=split), rods=8, rod_deg=rods(8), **more).stop

    assert stops(9.9, film=False)
    assert not stops(10.1, film=False)
    assert stops(12.0)  # 12 cents of film grain
    assert not stops(14.0)
    assert stops(13.3, oval_mm=2.0, diameter_mm=304.8)  # 12.2 and 5.7: 13.4 together
    assert not stops(9.9, film=False, even_enough_cents=5.0)


def test_the_shares_are_those_of_the_laws():
    """Oval 2 mm in 304.8: half the ratio, 5.7 cents. Film of 4.81 and 5.00 GPa: 12.5 (worked)."""
    shares = shares_of_split(oval_mm=2.0, diameter_mm=304.8)
    assert shares.oval_cents == pytest.approx(1200 / math.log(2) * 2.0 / (2 * 304.8), rel=1e-3)
    assert shares.film_cents == pytest.approx(12.5, abs=0.5)
    assert shares.together_cents == pytest.approx(math.hypot(5.68, shares.film_cents), abs=0.01)
    assert shares_of_split(film=False).says() == ""


def test_what_the_rods_pull_is_said_before_all_and_the_pitch_before_evening_it_where_far_off():
    off = PitchSaid(limit=OVER, says=OFF, turns=True, first=True)
    far = advise(UNEVEN, rods=8, rod_deg=rods(8), pitch=off)
    assert far.sentences == (OVER, OFF, advice_words.OLD_CASTINGS)
    assert (far.staying[0], far.expected) == (advice_words.STAYS, "")
    near = advise(UNEVEN, rods=8, rod_deg=rods(8), pitch=replace(off, first=False))
    assert near.sentences.index(OFF) > near.sentences.index(advice_words.OLD_CASTINGS)
    assert near.staying == ()
    # What is told to be done is the same, now or later, but for what stands beside it.
    evening = set(near.sentences) - {OVER, OFF, advice_words.OLD_CASTINGS}
    assert evening | {near.expected} == set(far.staying[1:])
    poor = advise(POOR, rods=8, rod_deg=rods(8), pitch=off).sentences
    assert OFF not in poor


def test_two_axes_that_ask_for_other_turns_are_asked_about_and_those_that_do_not_are_used():
    """Of six rods three were heard, on two lines across the head: axis 40 or, as well, 170."""
    either = replace(UNEVEN, axis_deg=40.0, mirror_deg=170.0, ask=("Tap midway.",))
    assert advise(either, rods=6, rod_deg=rods(6)).sentences == (
        "Tap midway.", advice_words.NOT_READ
    )  # fmt: skip
    # Mirrored in rod 1: a quarter of the way round apart four rods are sharp or flat alike.
    four = replace(either, axis_deg=10.0, mirror_deg=170.0)
    assert advise(four, rods=4, rod_deg=rods(4)).pattern
    even = replace(either, split_cents=8.0)
    assert advise(even, rods=6, rod_deg=rods(6)).stop


def test_a_small_split_is_even_enough_though_its_axis_is_lost():
    lost = replace(LOST, split_cents=3.0, quality="poor", says=("Astray.",))
    assert advise(lost, rods=6, rod_deg=rods(6)).stop
    for unsure in ({"split_cents": 30.0}, {"split_doubt_cents": 5.0}, {"ask": ("Mute it.",)}):
        assert not advise(replace(lost, **unsure), rods=6, rod_deg=rods(6)).stop


def test_a_split_at_the_limit_is_too_close_to_call():
    near = replace(UNEVEN, split_cents=9.8, split_doubt_cents=0.5)
    advice = advise(near, rods=8, rod_deg=rods(8), film=False)
    assert advice_words.TOO_CLOSE in advice.sentences


@pytest.mark.parametrize("reading", [COUPLED, NOTHING, POOR, LOST, ONE_PLACE])
def test_nothing_is_turned_by_a_reading_that_does_not_carry_it(reading):
    advice = advise(reading, rods=8, rod_deg=rods(8))
    assert advice.pattern == ()
    assert not advice.stop
    assert advice_words.NOT_READ in advice.sentences


def test_one_pitch_from_two_places_is_even():
    assert advise(ONE_PITCH, rods=8, rod_deg=rods(8)).stop
    assert not advise(replace(ONE_PITCH, split_below_cents=25.0), rods=8, rod_deg=rods(8)).stop


def test_heights_of_a_flat_hoop_are_used_for_what_pitch_cannot_tell():
    hoop = read_hoop_heights(
        [9.5, 9.0, 9.0, 9.0, 9.0, 9.0, 9.0, 9.0], along_deg=rods(8), hoop_flat=True
    )
    advice = advise(UNEVEN, rods=8, rod_deg=rods(8), hoop=hoop)
    assert any("higher at rod 1 than at rod 5" in sentence for sentence in advice.later)
    assert not any("higher" in sentence for sentence in advice.sentences)
    assert advice_words.HOOP_HEIGHTS not in advice.unknown


@pytest.mark.parametrize("count", [0, 2, 7])
def test_every_rod_needs_its_place(count):
    with pytest.raises(BadInput, match="every rod needs its place"):
        advise(UNEVEN, rods=8 if count == 7 else count, rod_deg=rods(count) if count else [])
