"""Whitworth and BA threads against published tables, and where a published table is wrong."""

from __future__ import annotations

import math
import re

import pytest

from counterhoop.standards.drills import all_drills
from counterhoop.standards.thread_form import FORMS
from counterhoop.standards.thread_geometry import (
    external_minor_mm,
    internal_minor_mm,
    pitch_diameter_mm,
    tap_drill_mm,
    thread_percent,
)
from counterhoop.standards.threads import Thread, all_threads, find_thread
from counterhoop.standards.unlike_threads import unlike

WHITWORTH = [thread for thread in all_threads() if thread.form.name == "whitworth"]
BA = [thread for thread in all_threads() if thread.form.name == "ba"]


def test_the_profiles() -> None:
    """Source: BS 84 (H 0.960491 p, depth 0.640327 p) and BS 93 (H 1.13634 p, depth 0.6 p,
    0.26817 p cut off at crest and root), as printed in specifications of both."""
    whitworth, ba = FORMS["whitworth"], FORMS["ba"]
    assert 0.5 / math.tan(math.radians(55 / 2)) == pytest.approx(0.960491, abs=5e-7)
    assert whitworth.pitch_diameter == pytest.approx(0.640327, abs=5e-7)
    assert whitworth.full_thread == pytest.approx(1.280654, abs=1e-6)
    sharp = 0.5 / math.tan(math.radians(47.5 / 2))
    assert sharp == pytest.approx(1.13634, abs=6e-6)
    assert sharp - 2 * 0.26817 == pytest.approx(ba.pitch_diameter, abs=1e-5)


@pytest.mark.parametrize("thread", WHITWORTH, ids=lambda thread: thread.designation)
def test_whitworth_rows_measure_what_their_names_say(thread: Thread) -> None:
    """Source: BS 84 list of threads to the inch at unikgaugesindia.com."""
    per_inch = {
        "5/32 BSW": 32,
        "3/16 BSW": 24,
        "7/32 BSW": 24,
        "1/4 BSW": 20,
        "5/16 BSW": 18,
        "3/16 BSF": 32,
        "7/32 BSF": 28,
        "1/4 BSF": 26,
        "5/16 BSF": 22,
    }
    found = re.fullmatch(r"(\d+)/(\d+) BS[WF]", thread.designation)
    assert found
    assert thread.major_mm == pytest.approx(25.4 * int(found[1]) / int(found[2]), abs=1e-9)
    assert thread.threads_per_inch == per_inch[thread.designation]
    assert thread.pitch_mm == pytest.approx(25.4 / per_inch[thread.designation], abs=1e-12)


@pytest.mark.parametrize(
    ("name", "effective_in", "core_in", "core_mm"),
    [
        ("3/16 BSW", 0.1608, 0.1341, 3.4071),
        ("7/32 BSW", 0.1921, 0.1654, 4.2009),
        ("7/32 BSF", 0.1959, 0.1730, 4.3945),
        ("1/4 BSF", 0.2254, 0.2007, 5.0989),
    ],
)
def test_whitworth_diameters(
    name: str, effective_in: float, core_in: float, core_mm: float
) -> None:
    """Source: 3/16 BSW at engineersedge.com after BS 1157:1975; the rest by hand from BS 84."""
    thread = find_thread(name)
    assert pitch_diameter_mm(thread) / 25.4 == pytest.approx(effective_in, abs=6e-5)
    assert internal_minor_mm(thread) / 25.4 == pytest.approx(core_in, abs=6e-5)
    assert external_minor_mm(thread) == pytest.approx(core_mm, abs=6e-5)


@pytest.mark.parametrize(
    ("name", "drill_mm", "percent"),
    [
        ("3/16 BSW", 3.70, 78.4),
        ("7/32 BSW", 4.60, 70.6),
        ("7/32 BSF", 4.60, 82.3),
        ("1/4 BSF", 5.30, 83.9),
        ("0BA", 5.1, 75.0),
        ("2BA", 4.0, 72.0),
        ("4BA", 3.0, 75.8),
    ],
)
def test_published_tap_drills(name: str, drill_mm: float, percent: float) -> None:
    """Source: BS 1157 drills as carried by FreeCAD, FeatureHole.cpp (77 to 87 per cent of the full
    thread); 7/32 BSW and BA from ministeam.net; percentages by hand."""
    got = thread_percent(find_thread(name), drill_mm=drill_mm)
    assert got == pytest.approx(percent, abs=0.06)


@pytest.mark.parametrize(
    ("name", "drill_mm"),
    [("3/16 BSW", 3.746), ("7/32 BSW", 4.540), ("7/32 BSF", 4.685), ("1/4 BSF", 5.412)],
)
def test_three_quarters_of_a_whitworth_thread(name: str, drill_mm: float) -> None:
    """Worked by hand: d - 0.75 x 1.280654 p."""
    assert tap_drill_mm(find_thread(name)) == pytest.approx(drill_mm, abs=6e-4)


@pytest.mark.parametrize("thread", BA, ids=lambda thread: thread.designation)
def test_ba_is_the_formula_rounded_to_two_figures(thread: Thread) -> None:
    """BS 93: p = 0.9 to the power of the number, D = 6 p to the power of 1.2; the standard's
    sizes are both, rounded to two figures, so 2BA is 4.70 where the formula gives 4.659."""
    pitch_mm = 0.9 ** int(thread.designation.removesuffix("BA"))
    major_mm = 6 * pitch_mm**1.2
    assert thread.pitch_mm == float(f"{pitch_mm:.2g}")
    assert thread.major_mm == float(f"{major_mm:.2g}")
    assert thread.major_mm == pytest.approx(major_mm, abs=0.05)
    assert thread.pitch_mm == pytest.approx(pitch_mm, abs=0.005)


def test_published_majors_of_ba() -> None:
    """Source: studylib 18906762, BA table, 0 to 4BA."""
    got = [find_thread(f"{number}BA").major_mm for number in range(5)]
    assert got == [6.0, 5.3, 4.7, 4.1, 3.6]


@pytest.mark.parametrize(
    ("name", "effective_mm", "minor_mm"),
    [("0BA", 5.400, 4.80), ("2BA", 4.215, 3.73), ("4BA", 3.205, 2.81)],
)
def test_published_diameters_of_ba(name: str, effective_mm: float, minor_mm: float) -> None:
    """Source: BA table after BS 93:1951, which prints to the nearest 0.005 mm and hundredth."""
    assert pitch_diameter_mm(find_thread(name)) == pytest.approx(effective_mm, abs=0.0026)
    assert internal_minor_mm(find_thread(name)) == pytest.approx(minor_mm, abs=0.0051)


def test_published_tables_that_are_wrong() -> None:
    """A page gives the pitch of 2BA as the square root of 0.9 (it is 0.9 squared); another the
    major diameter of BA as 6 p; a model engineer's table 3/16 BSF as 28 to the inch (BS 84: 32)
    and another a drill No. 9, larger than the screw, for 3/16 BSW."""
    assert find_thread("2BA").pitch_mm == pytest.approx(0.9**2, abs=0.005)
    assert abs(find_thread("2BA").pitch_mm - math.sqrt(0.9)) > 0.1
    assert abs(find_thread("4BA").major_mm - 6 * find_thread("4BA").pitch_mm) > 0.3
    assert find_thread("3/16 BSF").threads_per_inch == 32
    (no_9,) = (drill for drill in all_drills(system="number") if drill.name == "No. 9")
    assert thread_percent(find_thread("3/16 BSW"), drill_mm=no_9.diameter_mm) < 0


@pytest.mark.parametrize(
    ("first", "second", "major_mm", "pitch_mm", "angle_deg"),
    [
        ("12-24", "7/32 BSW", 0.070, 0.0, -5.0),
        ("1/4-20", "1/4 BSW", 0.0, 0.0, -5.0),
        ("M6", "0BA", 0.0, 0.0, -12.5),
        ("10-32", "3/16 BSF", -0.0635, 0.0, -5.0),
        ("M5", "2BA", -0.3, 0.01, -12.5),
        ("10-24", "3/16 BSW", -0.0635, 0.0, -5.0),
        ("M6", "1/4 BSF", 0.35, -0.0231, -5.0),
    ],
)
def test_look_alikes_across_the_standards(
    first: str, second: str, major_mm: float, pitch_mm: float, angle_deg: float
) -> None:
    """Differences worked by hand from the basic sizes of each standard."""
    found = unlike(find_thread(first), find_thread(second))
    assert found.verdict == "look-alike"
    assert found.major_apart_mm == pytest.approx(major_mm, abs=6e-4)
    assert found.pitch_apart_mm == pytest.approx(pitch_mm, abs=6e-4)
    assert found.angle_apart_deg == angle_deg


def test_same_size_and_pitch_is_not_the_same_thread() -> None:
    says = unlike(find_thread("1/4-20"), find_thread("1/4 BSW")).says
    assert says == (
        "1/4-20 UNC and 1/4 BSW look alike but are not the same: major 6.35 mm both, "
        "pitch 1.27 mm both, flanks 60 and 55 deg"
    )
