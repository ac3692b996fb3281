"""A drum half entered: what is known is drawn, what is missing is faint and named."""

from __future__ import annotations

from dataclasses import replace

from example_shells import small_tom

from counterhoop.development.place import Place
from counterhoop.papers.drawing.begun import (
    FAINT,
    draw_unread,
    faint_strokes,
    guessed_view,
    missing_words,
)
from counterhoop.papers.drawing.manner import AS_FOUND
from counterhoop.papers.drawing.records import Line, Text
from counterhoop.papers.drawing.view import view_as_found
from counterhoop.shell.drum import OldFinish, PlacedFitting, Row

TOM = replace(small_tom().drum, holes=(), seam=None, marks=())
LUGS = tuple(
    PlacedFitting(label=f"batter lug {n + 1}", fitting="Short lug", place=Place(72.0 * n, 46.0))
    for n in range(5)
)


def faint_of(drum):
    return faint_strokes(drum, view_as_found(drum))


def test_a_row_whose_bases_no_book_gives_and_the_row_that_is_missing() -> None:
    """Worked by hand: five lugs, and five likely places at the other edge in line with them."""
    drum = replace(TOM, rows=(Row(head="batter", fitting="Short lug", lugs=LUGS),))
    strokes = faint_of(drum)
    assert [s.title for s in strokes[:5]] == [lug.label for lug in LUGS]
    assert {s.title for s in strokes[5:]} == {"resonant lug: not entered yet"}
    assert len(strokes) == 10
    for lug, likely in zip(strokes[:5], strokes[5:], strict=True):
        assert [x for x, _ in lug.points] == [x for x, _ in likely.points]
        assert max(y for _, y in likely.points) < drum.depth_mm
        assert lug.pen == FAINT
    assert missing_words(drum, view_as_found(drum)) == (
        "the resonant row of lugs",
        "a vent, if it has one",
    )


def test_nothing_is_missing_where_nothing_is_wanted() -> None:
    row = Row(head="batter", fitting="Short lug", lugs=LUGS)
    one = replace(TOM, rows=(row,), heads=1)
    assert "the resonant row of lugs" not in missing_words(one, view_as_found(one))
    assert len(faint_of(one)) == 5
    both = replace(TOM, rows=(row, replace(row, head="resonant")))
    assert "the resonant row of lugs" not in missing_words(both, view_as_found(both))


def test_a_bare_shell_lacks_lugs_and_a_wrapped_one_its_seam() -> None:
    wrapped = replace(TOM, finish=OldFinish(kind="wrap", thickness_mm=0.5))
    assert missing_words(wrapped, view_as_found(wrapped)) == (
        "the lugs",
        "a vent, if it has one",
        "the seam of the wrap",
    )
    assert faint_of(wrapped) == ()


def drawn(around, depth, **more):
    view = guessed_view(around_mm=around, depth_mm=depth)
    manner = replace(AS_FOUND, **more)
    return view, draw_unread(view, around_mm=around, depth_mm=depth, manner=manner)


def test_what_was_not_read_has_no_figure() -> None:
    view, drawing = drawn(None, None)
    words = [s.text for s in drawing.strokes if isinstance(s, Text)]
    assert "once round: not read yet" in words
    assert "depth: not read yet" in words
    assert not any(any(sign.isdigit() for sign in text) for text in words)
    assert all(s.pen == FAINT for s in drawing.strokes if isinstance(s, Line))
    assert view.around_mm > view.flat.depth_mm


def test_what_was_read_is_kept_and_the_rest_follows_it() -> None:
    view, drawing = drawn(1200.0, None, units="in")
    assert view.around_mm == 1200.0
    words = [s.text for s in drawing.strokes if isinstance(s, Text)]
    assert "once round: 47 1/4 in" in words
    view, drawing = drawn(None, 200.0)
    assert view.flat.depth_mm == 200.0
    assert "depth: 200 mm" in drawing.says
    _, drawing = drawn(1200.0, 200.0)
    assert all(s.pen != FAINT for s in drawing.strokes if isinstance(s, Line))
