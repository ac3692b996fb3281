"""A plan of pitches for a kit.

Truth: exact laws (limits are never passed, whatever the wish; the forward model gives the pitches
again); the choice itself is held by brute force in ``test_even_steps``.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from counts import cases
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.heads.head import film_head, weighed_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.kit import KitDrum, PitchWish, WishedPitch
from counterhoop.heads.kit_plan import kit_plan
from counterhoop.heads.mode import Standing
from counterhoop.heads.modes import lowest
from counterhoop.heads.turns import calibrate_turns
from counterhoop.quantities.print_pitch import cents
from counterhoop.standards.threads import find_thread

INCH = 0.0254
TEN, SEVEN = film_head(254e-6), film_head(190.5e-6)
CALF = weighed_head(mass_kg=0.04, diameter_m=0.33, calf=True)
TWELVE = find_thread("12-24")


def drum(name, across, deep, rods=6, **how):
    how = {"resonant": SEVEN, "thread": TWELVE, **how}
    return KitDrum(
        name=name, radius_m=across * INCH / 2, depth_m=deep * INCH, batter=TEN, rods=rods, **how
    )


SMALL, MIDDLE, FLOOR = drum("small", 12, 8), drum("middle", 13, 9), drum("floor", 16, 16, 8)
KIT = (SMALL, FLOOR, MIDDLE)
NAMES = st.sampled_from(["small", "middle", "floor", ""])
WISHED = st.none() | st.builds(WishedPitch, hz=st.floats(50, 300), drum=NAMES)


def both_ends_one_drum(lowest_wished, highest_wished):
    named = [want.drum for want in (lowest_wished, highest_wished) if want is not None]
    return len(named) == 2 and named[0] == named[1] != ""


@cases(3)
@given(
    lowest_wished=WISHED,
    highest_wished=WISHED,
    bottom=st.sampled_from([-400.0, 0.0, 200.0, 700.0]),
    most_n=st.none() | st.floats(80, 900),
    heard=st.sampled_from(["middle", "rim"]),
    open_end=st.booleans(),
)
def test_limits_are_never_passed(lowest_wished, highest_wished, bottom, most_n, heard, open_end):
    kit = [replace(one, most_per_rod_n=most_n) for one in KIT]
    if open_end:
        kit[0] = replace(kit[0], resonant=None)
    wish = PitchWish(lowest=lowest_wished, highest=highest_wished, bottom_cents=bottom, heard=heard)
    if both_ends_one_drum(lowest_wished, highest_wished):
        with pytest.raises(BadInput, match="both the lowest and the highest"):
            kit_plan(kit, wish)
        return
    plan = kit_plan(kit, wish)
    assert bool(plan.refusal) != bool(plan.drums)
    if plan.refusal:
        assert any(name in plan.refusal for name in ("small", "middle", "floor"))
        return
    for one in plan.drums:
        for head in one.heads:
            assert 499 < head.n_per_m < 6001
            assert most_n is None or head.force.most_n < most_n * 1.001
    assert all(step >= 100 for step in plan.steps_cents)
    named = [one.middle_hz if heard == "middle" else one.batter.rim_hz for one in plan.drums]
    for (low, high), step in zip(pairwise(named), plan.steps_cents, strict=True):
        assert cents(high, above_hz=low) == pytest.approx(step, abs=2.5)
    if lowest_wished is not None:
        assert abs(cents(named[0], above_hz=lowest_wished.hz)) < 2
        assert lowest_wished.drum in ("", plan.drums[0].name)
    if highest_wished is not None:
        assert abs(cents(named[-1], above_hz=highest_wished.hz)) < 2


def test_the_forward_model_gives_the_pitches_again():
    wish = PitchWish(lowest=WishedPitch(hz=80), highest=WishedPitch(hz=150), bottom_cents=200.0)
    plan = kit_plan(KIT, wish)
    assert [one.name for one in plan.drums] == ["floor", "middle", "small"]
    for one in plan.drums:
        given_drum = next(known for known in KIT if known.name == one.name)
        shell = HeadedShell(
            radius_m=given_drum.radius_m, depth_m=given_drum.depth_m, batter=TEN,
            batter_n_per_m=one.batter.n_per_m, resonant=SEVEN,
            resonant_n_per_m=one.resonant.n_per_m,
        )  # fmt: skip
        assert lowest(shell, 0).hz == pytest.approx(one.middle_hz, rel=1e-6)
        assert cents(one.resonant.rim_hz, above_hz=one.batter.rim_hz) == pytest.approx(200)
        assert one.standing is Standing.CHECKED
    assert plan.drums[0].middle_hz == pytest.approx(80, rel=1e-4)
    assert plan.drums[-1].middle_hz == pytest.approx(150, rel=1e-4)
    assert max(plan.steps_cents) - min(plan.steps_cents) <= 1


def test_the_order_of_the_list_does_not_matter():
    # Two alike but for their names among them: neither way of listing decides between them.
    pair = (FLOOR, replace(FLOOR, name="other floor"))
    assert kit_plan(pair) == kit_plan(pair[::-1])


def test_the_larger_drum_stays_the_lower_whatever_its_castings_stand():
    """Common practice, no source: nobody tunes the smaller tom below the larger one."""
    weak = replace(SMALL, most_per_rod_n=200)
    plan = kit_plan([weak, MIDDLE])
    assert [one.name for one in plan.drums] == ["middle", "small"]
    # By their middles they would rise the other way round.
    middles = {one.name: one.low_hz * one.high_hz for one in plan.drums}
    assert middles["small"] < middles["middle"]


def test_another_order_where_their_own_leaves_no_room():
    # The small tom can go down to 82.5 Hz and the middle one to 74.5, by their own plans.
    low = WishedPitch(hz=83.0, drum="small")
    plan = kit_plan([SMALL, MIDDLE], PitchWish(as_heard=(low,)))
    assert [one.name for one in plan.drums] == ["middle", "small"]
    tone_apart = PitchWish(as_heard=(low,), least_step_cents=200)
    plan = kit_plan([SMALL, MIDDLE], tone_apart)
    assert [one.name for one in plan.drums] == ["small", "middle"]
    assert plan.says[0].startswith("small is lower than middle here")
    # Unless it is said which is to be the lowest.
    held = replace(tone_apart, lowest=WishedPitch(hz=80.0, drum="middle"))
    assert "at least 2 semitones higher" in kit_plan([SMALL, MIDDLE], held).refusal


def test_as_heard_stays():
    plan = kit_plan(KIT, PitchWish(as_heard=(WishedPitch(hz=118.0, drum="middle"),)))
    middle = next(one for one in plan.drums if one.name == "middle")
    assert middle.middle_hz == pytest.approx(118.0, rel=1e-5)
    assert middle.wished
    assert not plan.drums[0].wished


def test_a_pitch_near_a_rod_among_pitches_of_the_middle():
    want = WishedPitch(hz=215.0, drum="middle", heard="rim")
    plan = kit_plan(KIT, PitchWish(as_heard=(want,)))
    middle = next(one for one in plan.drums if one.name == "middle")
    assert middle.batter.rim_hz == pytest.approx(215.0, rel=1e-5)
    assert "too high" in kit_plan(KIT, PitchWish(as_heard=(replace(want, hz=500.0),))).refusal
    # And the other way round.
    want = WishedPitch(hz=118.0, drum="middle", heard="middle")
    plan = kit_plan(KIT, PitchWish(as_heard=(want,), heard="rim"))
    middle = next(one for one in plan.drums if one.name == "middle")
    assert middle.middle_hz == pytest.approx(118.0, rel=1e-5)


@pytest.mark.parametrize(
    ("wish", "says"),
    [
        ({"lowest": WishedPitch(hz=30)}, "floor: .* too low, its head would hang slack"),
        ({"highest": WishedPitch(hz=600)}, "small: .* too high, its head would be tighter"),
        (
            {"lowest": WishedPitch(hz=120), "highest": WishedPitch(hz=125)},
            "small is wished at .* and floor is wished at .*, both struck in the middle, but small "
            "has to be at least 2 semitones higher than floor with 1 more between them. Either "
            "wish small higher or wish floor lower.",
        ),
        (
            {"lowest": WishedPitch(hz=190), "highest": WishedPitch(hz=195), "heard": "rim"},
            "small is wished at .* and floor is wished at .*, both near a rod, but small has to be",
        ),
        (
            {"as_heard": (WishedPitch(hz=240, drum="middle"), WishedPitch(hz=250, drum="small"))},
            "middle: .* too high|at least 1 semitone higher",
        ),
        (
            {"lowest": WishedPitch(hz=80), "as_heard": (WishedPitch(hz=90, drum="floor"),)},
            "floor: two pitches are wished for it",
        ),
        ({"bottom_cents": 3000.0}, "no tension suits both heads"),
    ],
)
def test_what_cannot_be(wish, says):
    import re

    plan = kit_plan(KIT, PitchWish(**wish))
    assert not plan.drums
    assert re.search(says, plan.refusal), plan.refusal


def test_castings_that_stand_little():
    weak = kit_plan([replace(SMALL, most_per_rod_n=50)])
    assert "slackest playable head already pulls" in weak.refusal
    limited = replace(SMALL, most_per_rod_n=250)
    told = kit_plan([limited], PitchWish(lowest=WishedPitch(hz=200))).refusal
    assert "your limit of 250 N" in told
    assert kit_plan([limited]).drums[0].high_hz < kit_plan([SMALL]).drums[0].high_hz


def test_calf_gets_no_plan_and_no_turns():
    plan = kit_plan([replace(SMALL, batter=CALF), MIDDLE])
    assert [one.name for one in plan.drums] == ["middle"]
    assert len(plan.left_out) == 1
    for said in ("dry day", "slack it off after use", "left to one who knows"):
        assert said in plan.left_out[0]
    assert "There is calf on every drum" in kit_plan([replace(SMALL, resonant=CALF)]).refusal


def test_turns_go_by_what_was_heard():
    gain = calibrate_turns(
        190.0, 205.0, turns=1 / 8, thread=TWELVE, radius_m=SMALL.radius_m,
        depth_m=SMALL.depth_m, head=TEN,
    )  # fmt: skip
    (heard,) = kit_plan([replace(SMALL, batter_gain=gain)]).drums
    assert not heard.batter.start.at_least
    assert heard.resonant.start.at_least
    (unknown,) = kit_plan([replace(SMALL, thread=None)]).drums
    assert unknown.batter.start is None
    assert unknown.batter.torque is None
    assert any("thread the rods have is not known" in said for said in unknown.batter.says)
    weighed = weighed_head(mass_kg=0.026, diameter_m=0.3048)
    (thin,) = kit_plan([replace(SMALL, resonant=weighed)]).drums
    assert any("How thick the film is" in said for said in thin.resonant.says)


def test_an_open_end_is_said_to_be_unchecked():
    (single,) = kit_plan([replace(SMALL, resonant=None)]).drums
    assert single.standing is Standing.UNCHECKED
    assert single.heads == (single.batter,)
    assert "other head" not in single.batter.says[0]
    assert any("nothing published" in said for said in single.says)


def test_what_is_said_of_a_head():
    (one,) = kit_plan([SMALL], PitchWish(lowest=WishedPitch(hz=140.0))).drums
    says = " ".join(one.batter.says)
    for said in ("the other head muted", "on each of 6 rods", "a guide only", "12-24 UNC"):
        assert said in says
    assert one.batter.order == (1, 4, 2, 5, 3, 6)


@pytest.mark.parametrize(
    ("kit", "wish", "says"),
    [
        ([], {}, "1 to 8 drums"),
        ([drum(f"d{n}", 12, 8) for n in range(9)], {}, "1 to 8 drums"),
        ([SMALL, SMALL], {}, "one name"),
        ([replace(SMALL, rods=0)], {}, "needs rods"),
        ([replace(SMALL, most_per_rod_n=0)], {}, "more than nothing"),
        ([SMALL], {"lowest": WishedPitch(hz=90, drum="bass")}, "no such drum"),
        ([SMALL], {"as_heard": (WishedPitch(hz=90),)}, "which drum was heard"),
        ([SMALL], {"least_step_cents": -1}, "less than nothing"),
        (
            [SMALL, FLOOR],
            {name: WishedPitch(hz=90, drum="small") for name in ("lowest", "highest")},
            "both the lowest and the highest",
        ),
        ([SMALL], {"a4_hz": 0.0}, "no drum has that"),
        ([SMALL], {"bottom_cents": float("nan")}, "no drum has that"),
        ([SMALL], {"lowest": WishedPitch(hz=float("inf"))}, "no drum has that"),
    ],
)
def test_refused(kit, wish, says):
    with pytest.raises(BadInput, match=says):
        kit_plan(kit, PitchWish(**wish))


def test_eight_drums():
    kit = [drum(f"d{across}", across, across - 3, 6 + 2 * (across > 13)) for across in
           (8, 10, 12, 13, 14, 15, 16, 18)]  # fmt: skip
    plan = kit_plan(kit)
    assert [one.name for one in plan.drums] == [one.name for one in kit[::-1]]
    assert max(plan.steps_cents) - min(plan.steps_cents) <= 1
