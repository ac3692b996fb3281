"""What a base leaves in sight, in words. Truth: areas worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.outline import disc, rounded
from counterhoop.parts.places.cover_words import hides_said
from counterhoop.parts.places.place import MarkAt

SHADOW = MarkAt(called="shadow of the strainer", outline=rounded(20.0, 100.0))
HOLE = MarkAt(called="hole 7", outline=disc(6.0).moved(40.0, 0.0))


@pytest.mark.parametrize(
    ("moved", "said"),
    [
        ((0.0, 0.0), "hides all of it"),
        # 10 of 100 is uncovered: a tenth.
        ((0.0, 10.0), "hides all but a sliver of the shadow of the strainer at the top"),
        ((0.0, -30.0), "hides all but a strip of the shadow of the strainer at the bottom"),
        ((8.0, 0.0), "hides all but a strip of the shadow of the strainer at the left"),
        ((-10.0, 0.0), "hides all but about half of the shadow of the strainer at the right"),
        ((0.0, 80.0), "leaves most of the shadow of the strainer at the top in sight"),
        ((100.0, 0.0), "hides none of it"),
    ],
)
def test_the_side_and_the_share_are_said(moved, said):
    assert hides_said(SHADOW.outline.moved(*moved), [SHADOW]) == said


def test_a_narrower_base_leaves_some_all_round():
    assert (
        hides_said(rounded(14.0, 94.0), [SHADOW])
        == "hides all but a strip of the shadow of the strainer round it"
    )


def test_what_is_left_at_two_sides_is_said_of_both():
    strip = "hides all but a strip of the shadow of the strainer at the"
    assert hides_said(rounded(14.0, 120.0), [SHADOW]) == f"{strip} left and the right"
    assert hides_said(rounded(40.0, 70.0), [SHADOW]) == f"{strip} top and the bottom"


def test_a_hole_is_called_by_its_number_and_several_are_listed():
    assert hides_said(SHADOW.outline, [SHADOW, HOLE]) == "hides all but hole 7"
    assert hides_said(SHADOW.outline.moved(0.0, 10.0), [SHADOW, HOLE]) == (
        "hides all but a sliver of the shadow of the strainer at the top and hole 7"
    )
    assert hides_said(SHADOW.outline.moved(0.0, 10.0), []) == ""


def test_what_no_eye_finds_is_not_said():
    """Under 3 mm2, or a hundredth of the mark."""
    assert hides_said(SHADOW.outline.moved(0.0, 0.9), [SHADOW]) == "hides all of it"
    assert hides_said(SHADOW.outline.moved(0.0, 1.1), [SHADOW]) != "hides all of it"


@given(st.floats(-15.0, 15.0), st.floats(-60.0, 60.0))
def test_seen_in_a_mirror_left_and_right_change_and_nothing_else(x, y):
    """Law: symmetry."""
    there = hides_said(SHADOW.outline.moved(x, y), [SHADOW])
    mirrored = hides_said(SHADOW.outline.moved(-x, y), [SHADOW])
    swap = {"left": "right", "right": "left"}
    assert mirrored == " ".join(swap.get(word, word) for word in there.split())
