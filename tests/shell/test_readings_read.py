"""What is read round the ends, on heads and screws and in the air arrives as it was read."""

from __future__ import annotations

import math

import pytest
from survey_text import drum_of, read, survey

from counterhoop.shell.readings import WOODS, Air, HeadRead, ProfileRead, Readings, RimReadings
from counterhoop.shell.wish import Flatten
from counterhoop.shell.wrap_stock import GLUES, Offcut, WrapStock
from counterhoop.survey.drum_survey import survey_drum, truing_of
from counterhoop.survey.wood_movement import SPECIES
from counterhoop.wrap.glue import all_glues

GAPS = 'edges.batter = { gaps = "0, 0.1, 0.25, 0 mm" }\n'
DEPTHS = '{ "0 deg" = "203 mm", "120 deg" = "203 mm", "240 deg" = "203 mm" }'


def plan(fields: str, *, drum: str = GAPS, depth: str = DEPTHS, top: str = "") -> str:
    return survey(drum=drum, depth=depth, top=top, more=f"[drums.tom.finish_plan]\n{fields}")


def test_a_drum_of_which_nothing_more_was_read() -> None:
    assert drum_of(survey()).readings == Readings()


def test_diameters_stand_at_equal_steps_over_half_a_turn() -> None:
    drum = drum_of(survey(drum='round.batter = { across = "302, 303, 301.9 mm" }'))
    assert drum.readings.batter.across == RimReadings(
        along_deg=(0.0, 60.0, 120.0),
        value_mm=(302.0, 303.0, 301.9),
        instrument="caliper",
        resolution_mm=0.1,
        as_written=("302 mm", "303 mm", "301.9 mm"),
    )
    assert not drum.readings.batter.overlap_read
    assert drum.readings.resonant.across is None


def test_the_first_station_may_stand_anywhere_and_they_run_to_the_right() -> None:
    # SIX_LUGS has lug 1 at 30 degrees, so lug 6 at 330.
    rim = 'round.batter = { radii = "151, 151.5, 151, 151.5 mm", from = "lug 6" }'
    radii = drum_of(survey(drum=rim)).readings.batter.radii
    assert radii is not None
    assert radii.along_deg == pytest.approx((330.0, 60.0, 150.0, 240.0))
    assert (radii.instrument, radii.resolution_mm) == ("bar or card", 0.5)


def test_a_dial_goes_either_way_from_its_zero() -> None:
    rim = (
        'round.resonant = { dial = "0, 0.12, -0.05, 0.3 mm", zero = "151 mm", finest = "0.02 mm" }'
    )
    radii = drum_of(survey(drum=rim)).readings.resonant.radii
    assert radii is not None
    assert radii.value_mm == pytest.approx((151.0, 151.12, 150.95, 151.3))
    assert (radii.instrument, radii.resolution_mm) == ("dial gauge", 0.02)
    assert radii.as_written[2] == "-0.05 mm"


def test_gaps_count_below_zero_and_heights_as_they_are() -> None:
    edges = (
        'edges.batter = { gaps = "0, 0.1, 0.25, 0 mm" }\n'
        'edges.resonant = { heights = "0, -0.1, 0.25, 0 mm", finest = "0.02 mm" }'
    )
    readings = drum_of(survey(drum=edges)).readings
    assert readings.batter.edge is not None
    assert readings.resonant.edge is not None
    assert readings.batter.edge.value_mm == (0.0, -0.1, -0.25, 0.0)
    assert readings.batter.edge.resolution_mm == 0.05
    assert readings.resonant.edge.value_mm == (0.0, -0.1, 0.25, 0.0)
    assert readings.resonant.edge.resolution_mm == 0.02
    assert readings.resonant.edge.instrument == "height gauge"


def test_a_head_and_a_profile() -> None:
    drum = (
        'fit.batter = { collar = "304.6 mm", rim = "311 mm", hoop = "312 mm", says = "new" }\n'
        'edges.batter = { profile = { cut = "Single 45", apex = "1.5 mm", inner = "45 deg" } }'
    )
    batter = drum_of(survey(drum=drum)).readings.batter
    assert batter.head == HeadRead(collar_mm=304.6, rim_mm=311.0, hoop_mm=312.0, says="new")
    assert batter.profile == ProfileRead(cut="single 45", apex_mm=1.5, inner_deg=45.0)
    assert batter.edge is None


def test_an_apex_may_lie_over_the_ring() -> None:
    profile = 'edges.batter = { profile = { cut = "round-over", apex = "8 mm" } }\n'
    ring = 'rings = [{ end = "batter", wide = "25 mm", thick = "4 mm" }]'
    assert drum_of(survey(drum=profile + ring)).readings.batter.profile is not None


def test_threads_over_ten_and_by_a_blade() -> None:
    threads = (
        '[[drums.tom.threads]]\nof = "batter rods"\nhead = "batter"\noutside = "5.44 mm"\n'
        'over = "10.6 mm"\nflanks = "60 deg"\n'
        '[[drums.tom.threads]]\nof = "screws"\noutside = "0.158 in"\npitch = "32 tpi"\n'
        'finest = "0.05 mm"\n'
        '[[drums.tom.threads]]\nof = "wing"\noutside = "6 mm"\n'
    )
    rods, screws, wing = drum_of(survey(more=threads)).readings.threads
    assert (rods.over_mm, rods.threads, rods.over_doubt_mm) == (10.6, 10, 0.1)
    assert (rods.outside_doubt_mm, rods.flanks_deg, rods.head) == (0.02, 60.0, "batter")
    assert (screws.over_mm, screws.threads, screws.by_gauge) == (25.4 / 32, 1, True)
    assert (screws.outside_doubt_mm, screws.over_doubt_mm) == (0.05, 0.01)
    assert wing.over_mm is None
    assert wing.as_written == ("outside 6 mm",)
    # Half of the last step written: nobody knows 6.4 from 6 mm, unless the caliper's step is told.
    assert (rods.outside_doubt_mm, wing.outside_doubt_mm) == (0.02, 0.5)


def test_the_air_of_the_day_and_of_one_drum() -> None:
    job = 'air = { temperature = "68 F", humidity = "55 %" }'
    assert drum_of(survey(job=job)).readings.air == Air(temperature_c=20.0, humidity_percent=55.0)
    own = 'air = { temperature = "18 C", humidity = "40 %" }'
    assert drum_of(survey(job=job, drum=own)).readings.air == Air(
        temperature_c=18.0, humidity_percent=40.0
    )
    assert drum_of(survey()).readings.air is None


def test_woods_and_glues_are_those_that_later_rooms_know() -> None:
    # Held against the tables themselves, which the survey file may not read.
    assert tuple(SPECIES) == WOODS
    assert tuple(glue.name for glue in all_glues()) == GLUES
    assert drum_of(survey(drum='wood = "Hard Maple"')).readings.wood == "hard maple"


def test_diameters_of_the_ends_make_the_circumference_where_nothing_else_does() -> None:
    rim = (
        'round.batter = { across = "302, 303 mm" }\nround.resonant = { across = "302.5, 303.5 mm" }'
    )
    drum = drum_of(survey(girth=rim))
    assert drum.circumference.mean_mm == pytest.approx(math.pi * 302.75)
    assert drum.circumference.from_diameters
    assert drum.circumference.as_written == ("302 mm", "303 mm", "302.5 mm", "303.5 mm")
    assert drum_of(survey(drum=rim)).circumference.mean_mm == 950.0
    # Each end keeps its own: a head is held against the end that it goes on.
    found = survey_drum(drum)
    assert found.batter.girth_mm == pytest.approx(math.pi * 302.5)
    assert found.resonant.girth_mm == pytest.approx(math.pi * 303.0)
    one = drum_of(survey(girth='round.batter = { across = "302, 303 mm" }'))
    assert survey_drum(one).resonant.girth_mm == pytest.approx(math.pi * 302.5)


def test_a_snare_beds_flat() -> None:
    beds = 'beds = [{ along = "0 deg", wide = "80 mm", flat = "40 mm", deep = "1.5 mm" }]'
    assert drum_of(survey(drum=beds)).beds[0].flat_mm == 40.0


def test_edges_trued_by_their_readings() -> None:
    finish = read(plan('true_batter = "Flat"\ntrue_resonant = "1 mm"')).job.drums[0].finish
    assert finish.flatten == Flatten(ends=("batter",))
    assert (finish.truing.batter.mean_mm, finish.truing.resonant.mean_mm) == (0.0, 1.0)
    fields = 'true_batter = "flat"\ntruing = { least = "total", parallel = true, fresh = "0.2 mm" }'
    assert read(plan(fields)).job.drums[0].finish.flatten == Flatten(
        ends=("batter",), least="total", parallel=True, fresh_mm=0.2
    )
    assert read(survey(drum=GAPS)).job.drums[0].finish.flatten is None


def test_edges_read_at_different_stations_may_end_parallel() -> None:
    # The depth between the planes says how they lie; the stations need not be the same.
    drum = GAPS + 'edges.resonant = { gaps = "0 0.1 0 0.1 0 0.2 0 0.1 mm", from = "lug 1" }\n'
    fields = 'true_batter = "flat"\ntrue_resonant = "flat"\ntruing.parallel = true'
    wanted = read(plan(fields, drum=drum)).job.drums[0]
    assert wanted.finish.flatten is not None
    truing = truing_of(wanted.drum, wanted.finish.flatten).truing
    left = [
        truing.depth_mm(wanted.drum.depth_at_mm(a), along_deg=a) for a in (0.0, 70.0, 140.0, 250.0)
    ]
    assert max(left) - min(left) < 1e-9


def test_a_wrap_of_the_job_and_the_plan_that_names_it() -> None:
    top = (
        '[wraps."Blue Ripple"]\nthickness = "0.5 mm"\nlength = "1500 mm"\nwidth = "600 mm"\n'
        'runs = "either"\nsheets = 1\noverlap = "0 mm"\nprice = "38.50 GBP"\nglue = "epoxy"\n'
        'brushing = "15 min"\noffcuts = [{ name = "a", length = "960 mm", width = "7 in" }]\n'
    )
    job = read(plan('kind = "new wrap"\nwrap = "blue ripple"', top=top)).job
    assert job.wraps == (
        WrapStock(
            name="Blue Ripple",
            thickness_mm=0.5,
            length_mm=1500.0,
            width_mm=600.0,
            runs="either",
            sheets=1,
            offcuts=(Offcut(name="a", length_mm=960.0, width_mm=177.8),),
            overlap_mm=0.0,
            price_minor=3850,
            glue="epoxy",
            brush_min_per_m2=15.0,
        ),
    )
    finish = job.drums[0].finish
    assert (finish.kind, finish.wrap, finish.thickness_mm) == ("new wrap", "Blue Ripple", 0.5)
    assert finish.butt
    laps = read(
        plan('kind = "new wrap"\nwrap = "blue ripple"', top=top.replace('"0 mm"', '"1 in"'))
    )
    assert not laps.job.drums[0].finish.butt


def test_a_sheets_price_sets_the_currency_of_the_job_too() -> None:
    sheet = '[wraps.a]\nthickness = "0.5 mm"\nlength = "2 m"\nwidth = "0.6 m"\nprice = "40 EUR"\n'
    job = read(survey(top=f'[prices]\nhour = "45 EUR"\n{sheet}')).job
    assert (job.figures.currency, job.wraps[0].price_minor) == ("EUR", 4000)


def test_what_is_read_can_be_worked_out() -> None:
    # The file's limits are no wider than those of the rooms that work the readings out.
    drum = drum_of(
        survey(
            drum=GAPS + 'round.batter = { across = "302, 303 mm" }\n'
            'round.resonant = { radii = "151, 151.5, 151, 151.5 mm" }',
            more='[[drums.tom.threads]]\nof = "rods"\noutside = "5.44 mm"\nover = "10.6 mm"',
        )
    )
    found = survey_drum(drum)
    assert found.batter.across is not None
    assert found.batter.flat is not None
    assert found.resonant.roundness is not None
    assert len(found.threads) == 1
