"""A drum's edges trued by what was read round them."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.surface import Skin
from counterhoop.errors import BadInput
from counterhoop.shell.drum import Circumference, Drum
from counterhoop.shell.readings import EndReadings, Readings, RimReadings
from counterhoop.shell.wish import Flatten
from counterhoop.survey.drum_survey import survey_drum, truing_of

BOTH = ("batter", "resonant")


def rim(*heights, first=0.0):
    return RimReadings(
        along_deg=tuple((first + 360.0 * i / len(heights)) % 360 for i in range(len(heights))),
        value_mm=heights,
        instrument="feeler gauges on a flat plate",
        resolution_mm=0.05,
    )


def drum(batter=None, resonant=None, *, cos=0.0, sin=0.0, places=(0.0, 120.0, 240.0)):
    return Drum(
        key="small tom",
        circumference=Circumference(skin=Skin.OLD, mean_mm=1118.0),
        wall_mm=5.0,
        depth_mm=200.0,
        depth_cos_mm=cos,
        depth_sin_mm=sin,
        depth_readings_mm=tuple((f"{a:g} deg", 200.0) for a in places),
        depth_along_deg=places,
        readings=Readings(
            batter=EndReadings(end="batter", edge=batter),
            resonant=EndReadings(end="resonant", edge=resonant),
        ),
    )


def test_one_edge_least_at_any_station_by_hand():
    # A saddle of 0.3 to each side: all of it comes off the two high places, nothing elsewhere.
    plan = truing_of(drum(rim(0.0, -0.3, 0.0, -0.3)), Flatten(ends=("batter",), fresh_mm=0.1))
    assert plan.batter.removal_mm == pytest.approx((0.4, 0.1, 0.4, 0.1), abs=1e-9)
    assert plan.resonant is None
    assert plan.truing.batter.mean_mm == pytest.approx(0.4, abs=1e-9)
    assert plan.depth_after_mm == pytest.approx((199.6, 199.6), abs=1e-9)
    # Half-width of the difference of two readings to 0.05: 2 sqrt(2) 0.05 / sqrt(12).
    assert plan.batter.resolution_mm == 0.05
    assert plan.batter.doubt_mm == pytest.approx(2 * math.sqrt(2) * 0.05 / math.sqrt(12))


HEIGHTS = st.lists(st.floats(-1, 0), min_size=4, max_size=12)


@given(
    HEIGHTS, HEIGHTS, st.floats(0, 360), st.floats(-2, 2), st.floats(-2, 2),
    st.sampled_from([BOTH, ("batter",), ("resonant",)]), st.sampled_from(["most", "total"]),
)  # fmt: skip
def test_parallel_whatever_is_cut(first, second, shift, cos, sin, ends, least):
    # Exact law: what is left is as deep everywhere, to the plate that an edge left alone stands on.
    made = drum(rim(*first), rim(*second, first=shift), cos=cos, sin=sin)
    plan = truing_of(made, Flatten(ends=ends, least=least, parallel=True))
    left = np.array(
        [plan.truing.depth_mm(made.depth_at_mm(a), along_deg=a) for a in range(0, 360, 15)]
    )
    stays = next((end for end in BOTH if end not in ends), None)
    if stays is not None:
        # The other's own plate, from which gaps were read; by gauge the edge touches it.
        edge = survey_drum(made).at(stays).edge
        angles = np.radians(range(0, 360, 15))
        swing = np.column_stack((np.ones(24), np.cos(angles), np.sin(angles)))
        plate = left - swing[:, :1].ravel() * left.mean()
        factors = np.linalg.lstsq(swing, -plate, rcond=None)[0]
        here = np.radians(edge.along_deg)
        stands = np.asarray(edge.height_mm) - factors[1] * np.cos(here) - factors[2] * np.sin(here)
        if max(edge.height_mm) == 0.0:
            assert np.ptp(left) < 1e-9
        else:
            assert (np.abs(stands - stands.max()) < 1e-8).sum() >= 2
    else:
        assert np.ptp(left) < 1e-9
    for end in ends:
        assert min(getattr(plan, end).removal_mm) >= 0.0


def test_an_edge_that_was_not_read_is_not_trued():
    with pytest.raises(BadInput, match="small tom, truing: the resonant edge was not read"):
        truing_of(drum(rim(0.0, -0.3, 0.0, -0.3)), Flatten(ends=BOTH))


def test_parallel_to_what_nobody_read():
    edge = rim(0.0, -0.3, 0.0, -0.3)
    for places in ((), (0.0, 180.0), (0.0, 120.0, 360.0)):
        with pytest.raises(BadInput, match=r"small tom\.truing: parallel to what cannot be told"):
            truing_of(drum(edge, places=places), Flatten(ends=("batter",), parallel=True))


def test_every_reading_has_its_answer_and_no_other():
    made = drum(rim(0.0, -0.3, 0.0, -0.3))
    survey = survey_drum(made)
    assert survey.batter.flat.minimum_zone.total_mm == pytest.approx(0.3)
    assert survey.batter.flat.stations == 4
    assert (survey.batter.roundness, survey.batter.across, survey.batter.waves) == (None, None, ())
    assert (survey.resonant.edge, survey.resonant.flat) == (None, None)
    radii = RimReadings(
        along_deg=(0.0, 90.0, 180.0, 270.0),
        value_mm=(178.0, 177.5, 178.0, 177.5),
        instrument="dial gauge",
        resolution_mm=0.01,
    )
    batter = replace(made.readings.batter, radii=radii)
    found = survey_drum(replace(made, readings=replace(made.readings, batter=batter))).batter
    # By hand: opposite radii make 356 and 355.
    assert (found.across.largest_mm, found.across.smallest_mm) == pytest.approx((356.0, 355.0))
    assert found.roundness.minimum_zone.total_mm == pytest.approx(0.5)
    assert found.roundness.stations == 4
