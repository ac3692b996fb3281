"""A close size in other weather: by hand from the moistures of the Wood Handbook's eq. 4-5."""

from __future__ import annotations

import pytest

from counterhoop.survey.wood_movement import Direction
from counterhoop.survey.wood_weather import WeatherChange, weather_change


def change(direction: Direction, *, humidity_percent: float = 50.0) -> WeatherChange:
    return weather_change(
        140.0,
        species="yellow birch",
        direction=direction,
        humidity_percent=humidity_percent,
        temperature_c=20.0,
    )


def test_depth_of_a_birch_shell() -> None:
    """At 20 C: 30, 50, 70 per cent of humidity give 6.188, 9.271 and 13.129 of moisture."""
    found = change(Direction.TANGENTIAL)
    assert found.now_percent == pytest.approx(9.271, abs=6e-4)
    assert found.drier_mm == pytest.approx(140 * (6.188 - 9.271) / 295.060, abs=2e-3)
    assert found.wetter_mm == pytest.approx(140 * (13.129 - 9.271) / 295.060, abs=2e-3)


def test_a_steam_bent_shell_keeps_its_diameter_better_than_a_ply_shell() -> None:
    bent, ply, depth = (
        change(way) for way in (Direction.ALONG, Direction.CROSS_PLY, Direction.TANGENTIAL)
    )
    assert 0 < bent.wetter_mm < ply.wetter_mm < depth.wetter_mm / 10


@pytest.mark.parametrize("humidity", [0.0, 3.0, 10.0, 90.0, 95.0])
def test_air_is_never_drier_than_dry_or_wetter_than_wet(humidity: float) -> None:
    found = change(Direction.TANGENTIAL, humidity_percent=humidity)
    assert found.drier_mm <= 0 <= found.wetter_mm
