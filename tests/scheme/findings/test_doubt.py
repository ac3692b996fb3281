"""Limits inside the doubt of a reading, and the margin."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import Grade
from counterhoop.scheme.findings import look_over
from counterhoop.scheme.findings.tally import MARGIN_CAP_MM, together
from counterhoop.shell.shop_rules import default_rules


def test_independent_readings_add_as_squares():
    """JCGM 100:2008, equation 10, with sensitivities of one: 0.5 and 0.5 make 0.707."""
    assert together(0.5, 0.5) == pytest.approx(math.sqrt(0.5))
    assert together() == 0.0


def two_holes(shells, wood_mm, *, doubt_mm=0.5, both_old=False):
    """Above each other, so that skin and bore agree."""
    s = shells.Shell()
    s.old(0.0, 60.0, doubt_mm=doubt_mm)
    if both_old:
        s.old(0.0, 66.0 + wood_mm, doubt_mm=doubt_mm)
    else:
        s.new(0.0, 66.0 + wood_mm)
    return s.layout()


@pytest.mark.parametrize(
    ("wood_mm", "grade", "close"),
    [
        (6.6, None, False),
        (6.4, Grade.TAKE_CARE, True),
        (5.6, Grade.TAKE_CARE, True),
        (5.4, Grade.STOP, False),
    ],
)
def test_half_a_millimetre_of_doubt_decides_nothing(shells, rules, wood_mm, grade, close):
    found = [
        f
        for f in look_over(two_holes(shells, wood_mm), rules=rules).findings
        if f.code == "web-thin"
    ]
    assert [(f.grade, f.too_close) for f in found] == ([] if grade is None else [(grade, close)])
    for finding in found:
        assert ("measure hole 1 again" in finding.says) is close


def test_two_old_readings_leave_more_doubt(shells, rules):
    """0.707 between two holes read with a tape; old to old stays a note."""
    layout = two_holes(shells, 5.4, both_old=True)
    [found] = [f for f in look_over(layout, rules=rules).findings if f.code == "web-thin-as-found"]
    assert found.doubt == pytest.approx(math.sqrt(0.5))
    assert found.too_close
    assert "measure holes 1 and 2 again" in found.says


def test_a_hole_drilled_by_plan_has_no_doubt(shells, rules):
    s = shells.Shell()
    s.new(0.0, 60.0)
    s.new(0.0, 60.0 + 6.0 + 5.9)
    [found] = [f for f in look_over(s.layout(), rules=rules).findings if f.code == "web-thin"]
    assert found.doubt == 0.0
    assert found.grade is Grade.STOP


def test_a_figure_that_prints_like_its_limit_meets_it(shells, rules):
    s = shells.Shell()
    s.new(0.0, 60.0)
    s.new(0.0, 60.0 + 6.0 + 5.96)
    assert [f for f in look_over(s.layout(), rules=rules).findings if f.code == "web-thin"] == []


@pytest.mark.parametrize("wood_mm", [2.0, 7.0, 20.0])
def test_the_margin_is_the_least_distance_left(shells, rules, wood_mm):
    assert look_over(two_holes(shells, wood_mm), rules=rules).margin_mm == pytest.approx(
        wood_mm - 6.0
    )


def test_old_holes_are_no_part_of_the_margin(shells, rules):
    layout = two_holes(shells, 1.0, both_old=True)
    assert look_over(layout, rules=rules).margin_mm == MARGIN_CAP_MM


def test_the_webs_limit_is_the_smaller_diameter_when_that_is_more(shells, rules):
    """Between holes of 12.7 and 9.0 the rule is 9.0, not 6.0."""
    s = shells.Shell()
    s.old(0.0, 60.0, 12.7, doubt_mm=0.0)
    s.new(0.0, 60.0 + (12.7 + 9.0) / 2 + 8.0, 9.0)
    [found] = [f for f in look_over(s.layout(), rules=rules).findings if f.code == "web-thin"]
    assert found.limit == 9.0
    assert found.measured == pytest.approx(8.0)


@given(
    holes=st.lists(
        st.tuples(
            st.floats(0.0, 359.0),
            st.floats(20.0, 180.0),
            st.sampled_from([4.8, 6.0, 8.0, 12.7]),
            st.booleans(),
        ),
        min_size=2,
        max_size=14,
    )
)
def test_quick_bounds_leave_out_no_pair(holes, shells):
    """Brute force over every pair with the exact web: the same findings and the same margin."""
    from counterhoop.development.web import to_edge_mm, web

    rules = default_rules()
    s = shells.Shell()
    for along, down, size, new in holes:
        if new:
            s.new(along, down, size)
        else:
            s.old(along, down, size)
    layout = s.layout()
    found = look_over(layout, rules=rules)
    thin, margin = set(), MARGIN_CAP_MM
    plans = layout.holes
    for i, a in enumerate(plans):
        if a.verdict.cuts:
            for end in ("batter", "resonant"):
                left = to_edge_mm(a.place, a.new, flat=layout.flat, end=end)
                margin = min(margin, left - rules.edge_mm)
        for b in plans[i + 1 :]:
            cut = a.verdict.cuts or b.verdict.cuts
            left = web(a.place, a.new, b.place, b.new, flat=layout.flat).least_mm
            left -= rules.web_needed_mm(max(a.new.size_mm), max(b.new.size_mm))
            doubt = together(*(0.5 for p in (a, b) if not p.verdict.cuts))
            if cut:
                margin = min(margin, left)
            if left < -0.05 or (cut and doubt and abs(left) <= doubt):
                thin.add((a.number, b.number))
    said = {f.holes for f in found.findings if f.code.startswith("web-thin")}
    assert said == thin
    assert found.margin_mm == pytest.approx(margin, abs=1e-6)  # it is kept to six places


def test_a_bound_that_promises_too_much_would_lose_a_pair(shells, rules, monkeypatch):
    """The comparison above can fail: with 100 mm too much wood promised, thin webs go unseen."""
    from counterhoop.scheme.findings import webs

    true_mm = webs._Box.least_mm
    monkeypatch.setattr(webs._Box, "least_mm", lambda one, other: true_mm(one, other) + 100.0)
    found = look_over(two_holes(shells, 2.0), rules=rules).findings
    assert [f for f in found if f.code == "web-thin"] == []
