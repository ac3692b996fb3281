"""The modes laid beneath what was heard.

Truth: an exact law: the (1,1) of the struck head comes out where it was heard.
"""

from __future__ import annotations

import pytest
from small_kits import drum, tune

from counterhoop.bench.tune.heard import Heard
from counterhoop.bench.tune.modes_beneath import modes_beneath
from counterhoop.listen.round_rim import RimReading

TOM = drum("tom", girth=955, depth=203)


def at(hz: float, *, muted: bool = True) -> Heard:
    return Heard(seconds=1.0, rate_hz=8000, muted=muted, rim=RimReading(mean_hz=hz))


@pytest.mark.parametrize("heads", [1, 2])
def test_the_struck_head_s_own_pitch_is_among_them(heads: int) -> None:
    one = tune(drum("tom", girth=955, depth=203, heads=heads))
    found = [mode for mode in modes_beneath(at(220.0), one) if mode.around == 1]
    nearest = min(found, key=lambda mode: abs(mode.hz - 220.0))
    assert nearest.hz == pytest.approx(220.0, abs=220.0 * (0.001 if heads == 1 else 0.02))


def test_an_open_drum_has_its_lowest_mode_below_that() -> None:
    one = tune(drum("tom", girth=955, depth=203, heads=1))
    assert modes_beneath(at(220.0), one)[0].around == 0


def test_without_taps_round_the_rim_there_are_none() -> None:
    assert modes_beneath(Heard(seconds=1.0, rate_hz=8000), tune(TOM)) == ()
