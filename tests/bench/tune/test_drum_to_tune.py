"""A drum as tuning asks for it.

Truth: hand-worked from the readings of the survey.
"""

from __future__ import annotations

import math

import pytest
from small_kits import drum, planned, tune

from counterhoop.bench.tune.drum_to_tune import drum_to_tune
from counterhoop.bench.tune.heads_written import head_of, usual_head
from counterhoop.errors import BadInput
from counterhoop.shell.drum import DrumKind
from counterhoop.shell.tuning import HeadSaid


def test_a_drum_of_which_nothing_is_written_wears_the_usual_heads_and_says_so():
    one = tune(drum("tom", girth=955, depth=203))
    assert (one.heads_now, one.heads_then) == (2, 2)
    assert one.head("batter").film_m == pytest.approx(254e-6)
    assert one.head("resonant").film_m == pytest.approx(190.5e-6)
    assert len(one.assumed) == 3
    assert one.most_per_rod_n is None


def test_the_film_sounds_from_apex_to_apex():
    # 955 mm round is 303.985 mm across; the apex lies 1.5 mm in.
    edge = 'edges = { batter = { profile = { cut = "round-over", apex = "1.5 mm" } } }'
    one = tune(drum("tom", girth=955, depth=203, more=f'finish = {{ kind = "bare" }}\n{edge}'))
    assert one.radius_m == pytest.approx((955 / math.pi - 3.0) / 2000.0)
    assert one.depth_m == pytest.approx(0.203)
    assert not any("highest line" in said for said in one.assumed)


def test_what_is_written_goes_before_what_is_usual():
    said = 'batter = { films = ["7 mil", "7 mil"] }\nrod = "M6"\nmost_per_rod = "300 N"'
    one = tune(drum("tom", girth=955, depth=203, tuning=said))
    assert one.head("batter").film_m == pytest.approx(355.6e-6)
    assert one.most_per_rod_n == 300.0
    rods = one.rods("batter")
    assert rods is not None
    assert rods.thread.designation == "M6"
    assert not rods.thread_assumed
    assert [rod.number for rod in rods.rods] == [1, 2, 3, 4, 5, 6]
    assert rods.along_deg == pytest.approx((30, 90, 150, 210, 270, 330))


def test_rods_go_by_the_numbers_of_their_lugs_across_the_datum():
    # The row begins at 330 degrees: the second lug lies at 30.
    row = drum("tom", girth=955, depth=203, heads=1).replace("30 deg", "330 deg")
    rods = tune(row).rods("batter")
    assert rods is not None
    assert rods.along_deg == pytest.approx((330, 30, 90, 150, 210, 270))


def test_a_second_head_is_there_afterwards_only():
    wish = drum("tom", girth=955, depth=203, heads=1)
    wish += '\n[drums.tom.wish]\nwant = "second head"\n'
    one = drum_to_tune(planned(wish).drums[0])
    assert (one.heads_now, one.heads_then) == (1, 2)
    assert [rods.head for rods in one.rods_now] == ["batter"]
    assert one.rods("resonant") is not None
    # Who taps that head before it is there means the rods that it is to have.
    assert one.at("before").rods("resonant") == one.rods("resonant")
    assert one.before(batter_n_per_m=2000.0).is_open
    assert not one.then(batter_n_per_m=2000.0).is_open


def test_the_oval_is_known_where_it_was_read():
    more = 'round = { batter = { across = "303, 303.5, 304.2, 303.6, 303.1, 302.9 mm" } }'
    one = tune(drum("tom", girth=955, depth=203, more=more))
    assert one.oval("batter") == pytest.approx(1.3)
    assert one.oval("resonant") is None


def test_a_weighed_head_is_its_mass_over_its_area_with_the_collar():
    """Hand-worked: 28 g over pi/4 x 0.3348^2 = 0.088036 m2, a collar of 15 mm on 12 in of film.

    The sounding film alone is 0.072966 m2: by it the head would be a fifth too heavy.
    """
    said = HeadSaid(weight_kg=0.028, across_m=0.3348)
    taken = head_of(said, end="batter", diameter_m=0.3048)
    assert taken.head is not None
    assert taken.head.mass_kg_per_m2 == pytest.approx(0.31805, rel=1e-4)
    assert taken.head.mass_kg_per_m2 * 0.072966 / 0.028 == pytest.approx(1 / 1.2065, rel=1e-4)
    assert taken.assumed == taken.collar_assumed == ""


def test_of_a_weighed_head_that_was_not_measured_across_the_collar_taken_is_said():
    """Hand-worked: 300 and twice 12 mm; (324 / 314)^2 is 1.065, (824 / 814)^2 is 1.025.

    The root of 1.065 is 54 cents, that of 1.025 is 21: a cent is the 1200th root of 2.
    """
    said = HeadSaid(weight_kg=0.028)
    taken = head_of(said, end="batter", diameter_m=0.3)
    assert taken.head is not None
    assert taken.head.mass_kg_per_m2 == pytest.approx(0.028 / (math.pi / 4 * 0.324**2))
    assert taken.assumed == ""
    small, large = (
        head_of(said, end="batter", diameter_m=across_m).collar_assumed for across_m in (0.3, 0.8)
    )
    for told in ("324 mm from rim to rim", " 6 % heavier", "50 cents lower"):
        assert told in small
    for told in ("824 mm from rim to rim", " 2 % heavier", "20 cents lower"):
        assert told in large


def test_the_collar_taken_is_told_with_the_drum_and_gone_once_it_was_measured():
    guessed, measured = (
        tune(drum("tom", girth=955, depth=203, tuning=f'batter = {{ weight = "32 g"{across} }}'))
        for across in ("", ', across = "334 mm"')
    )
    assert any("not measured across" in said for said in guessed.assumed)
    assert not any("not measured across" in said for said in measured.assumed)
    # Hand-worked: 32 g over pi/4 x 0.334^2 = 0.087616 m2.
    assert measured.head("batter").mass_kg_per_m2 == pytest.approx(0.36523, rel=1e-4)


def test_of_calf_that_nobody_weighed_nothing_is_forecast():
    one = tune(drum("tom", girth=955, depth=203, tuning="batter = { calf = true }"))
    with pytest.raises(BadInput, match="calf that nobody weighed"):
        one.before(batter_n_per_m=2000.0)
    assert any("calf" in said for said in one.assumed)


def test_a_snare_wears_thin_film_below_only():
    """3 mil below, 10 above; 7.5 below a tom: common practice, no source."""
    worn = {
        (kind, end): usual_head(end, kind=kind).film_m
        for kind in (DrumKind.SNARE, DrumKind.MARCHING_SNARE, DrumKind.TOM)
        for end in ("batter", "resonant")
    }
    assert worn[DrumKind.SNARE, "resonant"] == pytest.approx(76.2e-6)
    assert worn[DrumKind.MARCHING_SNARE, "resonant"] == pytest.approx(76.2e-6)
    assert worn[DrumKind.SNARE, "batter"] == pytest.approx(254e-6)
    assert worn[DrumKind.TOM, "resonant"] == pytest.approx(190.5e-6)
