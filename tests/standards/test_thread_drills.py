"""Drills of a thread in every set, against published charts and a search of all drills."""

from __future__ import annotations

import pytest

from counterhoop.standards.drills import all_drills
from counterhoop.standards.thread_drills import LEAST_PERCENT, OFF_MM, SETS, thread_drills
from counterhoop.standards.thread_geometry import internal_minor_mm
from counterhoop.standards.threads import Thread, all_threads, find_thread


@pytest.mark.parametrize(
    ("name", "number", "percent"),
    [("8-32", "No. 29", 69.0), ("12-24", "No. 16", 72.1), ("1/4-20", "No. 7", 75.4)],
)
def test_trade_drills_and_their_share_of_thread(name: str, number: str, percent: float) -> None:
    """Source: the chart docslib 4942776, and 100 (D - drill) n / 1.299038 worked by hand."""
    tap = thread_drills(find_thread(name)).tap_in("number")
    assert tap is not None
    assert tap.drill.name == number
    assert tap.trade_percent == pytest.approx(percent, abs=0.05)
    assert tap.iso_percent == pytest.approx(percent * 1.2, abs=0.1)


@pytest.mark.parametrize(("name", "drill"), [("M4", "3.3 mm"), ("M5", "4.2 mm"), ("M6", "5.0 mm")])
def test_metric_tap_drills(name: str, drill: str) -> None:
    """Source: bd_warehouse 0.4.0, tap_hole_sizes.csv, soft; ISO 2306 is d - P (from memory)."""
    tap = thread_drills(find_thread(name)).tap_in("metric")
    assert tap is not None
    assert tap.drill.name == drill
    assert tap.trade_percent == pytest.approx(77.0, abs=0.05)


@pytest.mark.parametrize(
    ("name", "drill"),
    [("3/16 BSW", "No. 26"), ("1/4 BSW", "No. 7"), ("1/4 BSF", "No. 3"), ("2BA", "No. 22")],
)
def test_british_tap_drills(name: str, drill: str) -> None:
    """Source: the model engineers' table of 75 per cent drills at ministeam.net."""
    tap = thread_drills(find_thread(name)).tap_in("number")
    assert tap is not None
    assert tap.drill.name == drill
    assert tap.trade_percent == pytest.approx(tap.iso_percent)


@pytest.mark.parametrize(
    ("name", "metric"), [("M5", "5.5 mm"), ("M6", "6.6 mm"), ("M8", "9.0 mm"), ("12-24", "5.8 mm")]
)
def test_clearance_drills(name: str, metric: str) -> None:
    """Source: ISO 273 medium as carried by FreeCAD, FeatureHole.cpp; 12-24 is 0.228 in, No. 1."""
    drill = thread_drills(find_thread(name)).clearance_in("metric")
    assert drill is not None
    assert drill.name == metric


def test_what_no_table_lists_is_the_screw_and_half_a_millimetre() -> None:
    drills = thread_drills(find_thread("7/32-24"))
    assert not drills.clearance_listed
    assert drills.clearance_mm == pytest.approx(5.55625 + 0.5)
    assert thread_drills(find_thread("12-24")).clearance_listed


@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_nearest_of_each_set_by_a_search_of_all(thread: Thread) -> None:
    """Brute force: never below the nut's basic minor diameter, never below the screw."""
    found = thread_drills(thread)
    for system in SETS:
        sizes = [drill.diameter_mm for drill in all_drills(system=system)]
        tap, passes = found.tap_in(system), found.clearance_in(system)
        wide = [size for size in sizes if size >= internal_minor_mm(thread) - 1e-9]
        best = min((abs(size - found.tap_mm) for size in wide), default=None)
        if tap is not None:
            assert abs(tap.drill.diameter_mm - found.tap_mm) == pytest.approx(best, abs=1e-9)
            assert LEAST_PERCENT <= tap.trade_percent <= 100.0
        over = [size for size in sizes if size >= thread.major_mm - 1e-9]
        best = min((abs(size - found.clearance_mm) for size in over), default=9.0)
        assert (passes is not None) is (best <= OFF_MM)
        if passes is not None:
            assert abs(passes.diameter_mm - found.clearance_mm) == pytest.approx(best, abs=1e-9)
    assert found.tap_in("metric") is not None
    assert found.clearance_in("metric") is not None
