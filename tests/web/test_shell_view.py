"""What a template is given of the shell laid flat, and what a form says of a row that moves."""

from __future__ import annotations

import re
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.open_job import open_job
from counterhoop.bench.plan_job import plan_job
from counterhoop.errors import BadInput
from counterhoop.web.look.jinja import templates
from counterhoop.web.shell_moves import read_move
from counterhoop.web.shell_view import (
    blank_view,
    client_view,
    found_view,
    readings_views,
    scheme_view,
)

DEMONSTRATION = (
    Path(sys.modules["counterhoop"].__file__).parent / "bench" / "demonstration" / "survey.toml"
)
MOST_BYTES = 100_000


@pytest.fixture(scope="module")
def plan():
    return plan_job(open_job(DEMONSTRATION))


def test_every_demonstration_drum_is_drawn_within_the_weight_of_a_page(plan):
    """A page may weigh 300 KB with its scripts and fonts; one drawing takes a third at most."""
    for drum in plan.drums:
        scheme = drum.ranked.shown[0]
        for view in (
            scheme_view(scheme, ident="a"),
            found_view(drum.wanted.drum, ident="b", book=plan.opened.shop.book),
        ):
            assert len(view.svg.encode()) < MOST_BYTES, view.title
            wide = int(re.search(r' width="(\d+)"', view.svg)[1])
            assert 900 < wide <= 953, "a whole drum beside the margin index of a laptop"


def test_a_finding_with_holes_has_a_place_and_others_say_so(plan):
    found = 0
    for drum in plan.drums:
        for scheme in drum.ranked.shown:
            view = scheme_view(scheme, ident="x")
            numbers = {hole.number for hole in scheme.layout.holes}
            for finding in scheme.findings:
                name = view.place_of(finding)
                has = bool(numbers & set(finding.holes)) or finding.along_deg is not None
                assert bool(name) == has, finding
                assert not name or f'id="{name}"' in view.svg
                found += has
    assert found > 10


def test_rows_carry_how_far_they_stand_and_a_picture_while_moving_is_bare(plan):
    scheme = plan.drums[0].ranked.shown[0]
    moved = {"resonant": (2.5, -1.0)}
    view = scheme_view(scheme, ident="x", movable=moved)
    (row,) = view.rows
    assert (row.says, row.right, row.down) == ("resonant row", "2.5 mm", "-1 mm")
    assert view.drawn == {"resonant": (2.5, -1.0)}
    live = scheme_view(scheme, ident="x", movable=moved, live=True)
    assert live.svg.count('class="t i-ink b"') < view.svg.count('class="t i-ink b"') / 4
    assert 'data-row="resonant"' in live.svg


def test_a_clients_picture_has_no_holes_to_choose(plan):
    view = client_view(plan.drums[0].ranked.shown[0].layout, ident="x")
    assert view.holes == ()
    assert "data-hole" not in view.svg
    assert "tabindex" not in view.svg


def test_readings_are_a_picture_to_look_at_that_says_every_one(plan):
    drawn = 0
    for drum in plan.drums:
        for view in readings_views(drum.wanted.drum, drum.surveyed.survey, ident="x"):
            assert "tabindex" not in view.svg
            assert 'role="img"' in view.svg
            drawn += view.says.count(" degrees ")
    assert drawn > 20


def test_a_tape_that_reads_more_than_the_girth_is_kept(plan):
    drum = plan.drums[0].wanted.drum
    assert found_view(drum, ident="x", tape_mm=1000.5).tape_mm == 1000.5
    assert found_view(drum, ident="x").tape_mm == drum.circumference.mean_mm


def test_the_macros_show_what_the_drawing_shows(plan):
    scheme = plan.drums[0].ranked.shown[0]
    view = scheme_view(scheme, ident="x", movable={"resonant": (0.0, 0.0)})
    shell = templates().get_template("shell_flat.html").module
    table = shell.hole_table(view)
    for hole in scheme.layout.holes:
        assert f'id="x-line-{hole.number}"' in table
        assert f'href="#x-hole-{hole.number}"' in table
        assert f'id="x-hole-{hole.number}"' in view.svg
    mover = shell.row_mover(view, view.rows[0], "/move", "rev-7")
    assert 'name="based_on" id="x-based-on-resonant" value="rev-7"' in mover
    assert 'action="/move"' in mover
    blank = shell.picture(blank_view(ident="y"))
    assert "Not entered yet: the way round; the depth; the lugs." in blank


def test_an_ident_that_would_break_out_of_its_attribute_is_text(plan):
    view = found_view(replace(plan.drums[0].wanted.drum, key='"><script>x'), ident="x")
    assert "<script>" not in view.svg


# --- moves -------------------------------------------------------------------------------------


@given(st.floats(-4000, 4000), st.floats(-4000, 4000), st.booleans())
def test_a_move_reads_back_as_the_script_sends_it(right, down, settled):
    """Round trip, to the thousandth that the script writes."""
    form = {"row": "both", "right_mm": f"{right:.3f}", "down_mm": f"{down:.3f}", "based_on": "3"}
    move = read_move(form | {"settled": "yes" if settled else "no"})
    assert move.right_mm == pytest.approx(right, abs=6e-4)
    assert move.down_mm == pytest.approx(down, abs=6e-4)
    assert (move.row, move.settled, move.based_on) == ("both", settled, "3")


@pytest.mark.parametrize("wrong", ["a bit", "1e9", "nan", "5 furlongs", "99999"])
def test_a_distance_that_cannot_be_read_is_said_at_its_field(wrong):
    with pytest.raises(BadInput) as found:
        read_move({"row": "both", "right_mm": wrong})
    assert found.value.where == "to the right"


def test_a_move_without_a_row_is_refused_and_without_distances_is_none():
    with pytest.raises(BadInput, match="no row is named"):
        read_move({"right_mm": "1"})
    move = read_move({"row": "batter"})
    assert (move.right_mm, move.down_mm, move.settled) == (0.0, 0.0, False)
