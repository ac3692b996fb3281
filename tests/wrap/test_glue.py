"""Glue: areas by hand, times from the table, the cold rule (common practice, no source)."""

from __future__ import annotations

import pytest

from counterhoop.errors import BadInput
from counterhoop.wrap.glue import Gluing, all_glues, glue_called, gluing


def job(name: str = "contact", **changes: float) -> Gluing:
    figures = {"length_mm": 1000.0, "width_mm": 200.0, "pace_m2_per_min": 0.04, "laying_min": 10.0}
    return gluing(glue_called(name), **(figures | changes))


def test_worked_by_hand() -> None:
    # 0.2 m2, both faces, two coats: 0.8 m2; at 4 m2 a litre and a tenth over: 0.22 litres.
    got = job()
    assert (got.area_m2, got.spread_m2) == pytest.approx((0.2, 0.8))
    assert got.litres == pytest.approx(0.22)
    # The last coat is 0.4 m2 at 0.04 m2 a minute: 10 min, less than the 20 it dries.
    assert got.spreading_min == pytest.approx(10.0)
    assert got.spare_min == pytest.approx(60.0 - 20.0 - 10.0)


def test_a_glue_that_grabs_too_soon_is_said() -> None:
    # One face at 0.04 m2 a minute is 5 min, all the open time there is; laying takes 10 more.
    got = job("white PVA")
    assert got.spare_min == pytest.approx(-10.0)
    assert "past its open time 10 min" in got.notes[0]


def test_cold_doubles_waiting_for_ten_degrees() -> None:
    cold, usual = job("yellow PVA", temperature_c=10.0), job("yellow PVA")
    assert cold.drill_hours == pytest.approx(2 * usual.drill_hours) == pytest.approx(48.0)
    assert cold.clamp_hours == pytest.approx(2.0)
    assert cold.open_min == usual.open_min


def test_warmth_takes_open_time_and_gives_no_hours() -> None:
    warm, usual = job(temperature_c=30.0), job()
    assert warm.open_min == pytest.approx(usual.open_min / 2)
    assert warm.drill_hours == usual.drill_hours


@pytest.mark.parametrize("glue", all_glues(), ids=lambda glue: glue.name)
def test_order_of_the_hours_and_every_unsourced_figure_is_named(glue: object) -> None:
    found = glue_called(glue.name)
    assert 0 <= found.clamp_hours <= found.trim_hours <= found.drill_hours
    assert found.drill_hours >= 24.0
    assert found.dry_min < found.open_min
    assert all(hasattr(found, figure) for figure in found.unsourced)
    assert not found.source.seen


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"length_mm": 0.0}, "length: not a figure"),
        ({"pace_m2_per_min": -1.0}, "pace: not a figure"),
        ({"temperature_c": 5.0}, "not used at this temperature"),
        ({"temperature_c": 35.0}, "not used at this temperature"),
    ],
)
def test_what_cannot_be_is_said(changes: dict[str, float], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        job(**changes)


def test_an_unknown_glue_is_refused_with_the_known_ones() -> None:
    with pytest.raises(BadInput, match="contact or white PVA"):
        glue_called("spit")
