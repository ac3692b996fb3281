"""Drills against two independent lists, and the nearest one against a search of all."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.standards.drills import SYSTEMS, all_drills, nearest_drills
from counterhoop.standards.thread_geometry import internal_minor_mm, tap_drill_mm
from counterhoop.standards.threads import find_thread

ROUNDED = {5: 0.2055, 10: 0.1935, 18: 0.1695, 25: 0.1495, 28: 0.1405, 69: 0.0292}


def inches(system: str) -> dict[str, float]:
    return {
        drill.name: drill.diameter_mm / 25.4 for drill in all_drills() if drill.system == system
    }


def test_number_drills(bd_warehouse: Callable[[str], list[dict[str, str]]]) -> None:
    """Source: bd_warehouse 0.4.0, drill_sizes.csv. Six of its rows are rounded to three decimals;
    the true sizes are those of ASME B94.11M as listed in Machinery's Handbook, 31st ed.,
    pp. 2155 and 2168, and docslib 4942776."""
    listed = {
        int(row["Size"][1:]): float(row["Diameter"])
        for row in bd_warehouse("drill_sizes.csv")
        if row["Size"].startswith("#")
    }
    ours = {int(name[4:]): size for name, size in inches("number").items()}
    assert set(ours) == set(listed) == set(range(1, 81))
    off = {n for n in ours if abs(ours[n] - listed[n]) > 1e-9}
    assert off == set(ROUNDED)
    for number, true_in in ROUNDED.items():
        assert ours[number] == pytest.approx(true_in, abs=1e-9)
        assert abs(listed[number] - true_in) < 0.00051
    assert all(ours[n] > ours[n + 1] for n in range(1, 80))


def test_letter_drills(bd_warehouse: Callable[[str], list[dict[str, str]]]) -> None:
    """Source: bd_warehouse 0.4.0, drill_sizes.csv (A and Z also slashgear.com)."""
    listed = {
        row["Size"]: float(row["Diameter"])
        for row in bd_warehouse("drill_sizes.csv")
        if row["Size"].isalpha()
    }
    ours = inches("letter")
    assert ours == pytest.approx(listed, abs=1e-9)
    assert [ours["A"], ours["Z"]] == pytest.approx([0.234, 0.413])
    assert list(ours) == sorted(ours)


def test_fraction_drills_are_every_64th_to_an_inch() -> None:
    ours = inches("fraction")
    assert len(ours) == 64
    assert ours["7/32 in"] == pytest.approx(7 / 32, abs=1e-12)
    assert ours["1 in"] == pytest.approx(1.0, abs=1e-12)
    assert ours["1/64 in"] == pytest.approx(1 / 64, abs=1e-12)


def test_metric_drills() -> None:
    """Source: BS 328 set as listed at dictionary.sensagent.com: 0.2 to 0.98 by .00 .02 .05 .08,
    1.0 to 2.95 by 0.05, 3.0 to 13.9 by 0.1, 14 to 25 by 0.25."""
    sizes = [drill.diameter_mm for drill in all_drills(system="metric")]
    small = [round(n / 10 + part, 2) for n in range(2, 10) for part in (0.0, 0.02, 0.05, 0.08)]
    assert sizes[:32] == pytest.approx(small)
    assert len(sizes) == 32 + 40 + 110 + 45
    assert {4.5, 5.0, 13.9, 14.0, 14.25, 25.0} <= set(sizes)
    names = [drill.name for drill in all_drills(system="metric")]
    assert {"4.5 mm", "5.0 mm", "0.98 mm", "2.95 mm", "14.25 mm"} <= set(names)


def test_every_name_is_one_drill_and_every_set_rises() -> None:
    names = [drill.name for drill in all_drills()]
    assert len(names) == len(set(names))
    for system in (None, *SYSTEMS):
        sizes = [drill.diameter_mm for drill in all_drills(system=system)]
        assert sizes == sorted(sizes)


@pytest.mark.parametrize(
    ("diameter_mm", "overall", "off_mm", "metric", "metric_off_mm"),
    [
        (4.455, ["No. 16"], 0.041, ["4.5 mm"], 0.045),
        (5.113, ["No. 7"], -0.008, ["5.1 mm"], -0.013),
        (3.746, ["No. 26"], -0.012, ["3.7 mm"], -0.046),
        (6.350, ["E", "1/4 in"], 0.0, ["6.3 mm", "6.4 mm"], 0.05),
    ],
)
def test_nearest(
    diameter_mm: float,
    overall: list[str],
    off_mm: float,
    metric: list[str],
    metric_off_mm: float,
) -> None:
    """Worked by hand from the lists above; E and 1/4 in are one size, so both are said."""
    found = nearest_drills(diameter_mm)
    assert [drill.name for drill in found] == overall
    assert found[0].diameter_mm - diameter_mm == pytest.approx(off_mm, abs=6e-4)
    found = nearest_drills(diameter_mm, system="metric")
    assert [drill.name for drill in found] == metric
    assert abs(found[0].diameter_mm - diameter_mm) == pytest.approx(abs(metric_off_mm), abs=6e-4)


def test_for_tapping_never_below_the_minor_diameter() -> None:
    m6 = find_thread("M6")
    least_mm = internal_minor_mm(m6)
    assert [drill.name for drill in nearest_drills(least_mm, system="metric")] == ["4.9 mm"]
    right = nearest_drills(least_mm, system="metric", at_least=True)
    assert [drill.name for drill in right] == ["5.0 mm"]
    assert right[0].diameter_mm >= least_mm > 4.9
    assert tap_drill_mm(m6) > least_mm


@given(diameter_mm=st.floats(0.01, 25.4), at_least=st.booleans())
def test_nearest_against_a_search_of_all(diameter_mm: float, at_least: bool) -> None:
    drills = [d for d in all_drills() if not at_least or d.diameter_mm >= diameter_mm - 1e-9]
    least = min(abs(d.diameter_mm - diameter_mm) for d in drills)
    wanted = {d.name for d in drills if abs(d.diameter_mm - diameter_mm) <= least + 1e-9}
    found = nearest_drills(diameter_mm, at_least=at_least)
    assert {drill.name for drill in found} == wanted


@pytest.mark.parametrize("diameter_mm", [0.0, -1.0, float("nan"), float("inf"), 25.5])
def test_no_such_hole(diameter_mm: float) -> None:
    with pytest.raises(BadInput):
        nearest_drills(diameter_mm)


def test_no_such_set() -> None:
    with pytest.raises(BadInput, match="no such set"):
        nearest_drills(5.0, system="roman")
