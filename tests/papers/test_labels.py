"""Numbers and names stand on nothing: no line, no mark, no other word."""

from __future__ import annotations

import itertools
import math
import random
from dataclasses import replace

import pytest
from example_shells import scheme_of, small_tom
from shapely import LineString, Point, Polygon, box

from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.labels import Room, place_number
from counterhoop.papers.drawing.lettering import Box, box_of
from counterhoop.papers.drawing.manner import Manner, What, manner_of
from counterhoop.papers.drawing.records import Circle, Drawing, Layer, Line, Path, Text
from counterhoop.papers.drawing.shell_flat import (
    draw_as_found,
    draw_flat,
    draw_view,
    fitting_scale,
)
from counterhoop.papers.drawing.view import View, view_of_layout
from counterhoop.papers.template import template_drawings
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict
from planned_once import planned_demo


def busy(around_mm: float = 791.0) -> Layout:
    """The example with a crowd of holes more, many of them a few millimetres apart."""
    layout = small_tom(around_mm=around_mm)
    more = []
    for index in range(40):
        deg = 28.0 + (index % 8) * 2.0 + (index // 8) * 51.0
        down = 40.0 + (index * 37 % 90)
        more.append(
            HolePlan(
                number=len(layout.holes) + index + 1, verdict=list(Verdict)[index % 5],
                place=Place(deg, down), old=Round(5.0), new=Round(6.0),
            )
        )  # fmt: skip
    return replace(layout, holes=(*layout.holes, *more))


def overlap(a: Box, b: Box) -> bool:
    return a[0] < b[2] - 1e-6 and b[0] < a[2] - 1e-6 and a[1] < b[3] - 1e-6 and b[1] < a[3] - 1e-6


def texts_that_overlap(drawing: Drawing) -> list[tuple[str, str]]:
    boxes = [(s.text, box_of(s)) for s in drawing.strokes if isinstance(s, Text)]
    return [(a, b) for (a, p), (b, q) in itertools.combinations(boxes, 2) if overlap(p, q)]


def sampled(stroke: object) -> list[tuple[float, float]]:
    """Points on a stroke every half millimetre or closer."""
    if isinstance(stroke, Circle):
        r = stroke.diameter_mm / 2
        turns = [i * math.tau / 200 for i in range(200)]
        return [(stroke.x_mm + r * math.cos(a), stroke.y_mm + r * math.sin(a)) for a in turns]
    if isinstance(stroke, Line):
        corners = [(stroke.x1_mm, stroke.y1_mm), (stroke.x2_mm, stroke.y2_mm)]
    else:
        from counterhoop.papers.drawing.hatch import flattened

        corners = flattened(stroke.points, stroke.bulges)
        corners = [*corners, corners[0]] if stroke.closed else corners
    points = []
    for (x1, y1), (x2, y2) in itertools.pairwise(corners):
        count = max(1, math.ceil(math.dist((x1, y1), (x2, y2)) / 0.4))
        points += [
            (x1 + (x2 - x1) * i / count, y1 + (y2 - y1) * i / count) for i in range(count + 1)
        ]
    return points


def words_on_lines(drawing: Drawing, *, layers: set[Layer]) -> list[tuple[str, str]]:
    """Words of these layers that a line, circle or outline runs through."""
    found = []
    things = [s for s in drawing.strokes if not isinstance(s, Text)]
    reach = [(extent_box(s), s) for s in things]
    for text in (s for s in drawing.strokes if isinstance(s, Text) and s.layer in layers):
        box = box_of(text)
        for extent, thing in reach:
            wide = (extent[0] - 1e-3, extent[1] - 1e-3, extent[2] + 1e-3, extent[3] + 1e-3)
            if not overlap(box, wide):
                continue
            if any(box[0] < x < box[2] and box[1] < y < box[3] for x, y in sampled(thing)):
                found.append((text.text, f"{thing.layer} {getattr(thing, 'ident', '')}"))
    return found


WORDS = {Layer.NUMBER, Layer.NOTE}


@pytest.mark.parametrize("scale", [1.0, 0.6])
def test_words_of_the_working_drawing_stand_on_nothing(scale: float) -> None:
    drawing = draw_flat(small_tom(), scale=scale, facts=(("job", "17"), ("drum", "small tom")))
    assert texts_that_overlap(drawing) == []
    assert words_on_lines(drawing, layers=WORDS) == []


@pytest.mark.parametrize("what", ["working", "client"])
def test_words_of_a_small_drawing_do_not_run_into_each_other(what: str) -> None:
    for scale in (0.35, 0.25, 0.2):
        assert texts_that_overlap(draw_flat(small_tom(), what=what, scale=scale)) == []


def test_words_of_a_busy_shell_stand_on_nothing() -> None:
    drawing = draw_flat(busy())
    numbers = [s for s in drawing.strokes if isinstance(s, Text) and s.layer is Layer.NUMBER]
    assert len({s.text for s in numbers}) == len(busy().holes)
    assert texts_that_overlap(drawing) == []
    marks = {"hole", "drill", "plug", "keep", "enlarge", "slot"}
    on = words_on_lines(drawing, layers=WORDS)
    assert [pair for pair in on if pair[1].split()[0] in marks or "hole-" in pair[1]] == []
    assert on == []


def test_the_busy_shell_as_found() -> None:
    layout = busy()
    drawing = draw_as_found(layout.drum)
    assert texts_that_overlap(drawing) == []
    assert words_on_lines(drawing, layers=WORDS) == []


@pytest.mark.parametrize("paper", ["A4", "A3", "Letter", "roll"])
def test_words_of_every_sheet_stand_on_nothing(paper: str) -> None:
    for layout in (busy(), small_tom(around_mm=1757.0, depth_mm=356.0)):
        for drawing in template_drawings(scheme_of(layout), paper=paper).drawings:
            assert texts_that_overlap(drawing) == [], drawing.title
            assert words_on_lines(drawing, layers=WORDS) == [], drawing.title


def test_words_of_every_sheet_are_as_large_as_promised() -> None:
    """3.2 mm capitals are read at arm's length (common practice, no source)."""
    for drawing in template_drawings(scheme_of(small_tom()), paper="A4").drawings:
        for text in (s for s in drawing.strokes if isinstance(s, Text)):
            assert text.size_mm * 0.7275 >= 3.2, text


def test_a_word_on_a_line_would_be_seen() -> None:
    drawing = draw_flat(small_tom())
    hole = next(s for s in drawing.strokes if isinstance(s, Circle) and s.ident == "hole-25")
    planted = Text(
        layer=Layer.NUMBER, x_mm=hole.x_mm - 12.0, y_mm=hole.y_mm + 1.0, text="25 25 25", size_mm=4
    )
    worse = replace(drawing, strokes=(*drawing.strokes, planted, replace(planted, x_mm=hole.x_mm)))
    assert words_on_lines(worse, layers=WORDS)
    assert texts_that_overlap(worse)


def test_a_number_takes_the_first_free_place_and_gets_a_leader_when_far() -> None:
    room = Room((0.0, 0.0, 100.0, 100.0))
    asks = {"x_mm": 50.0, "y_mm": 50.0, "half_mm": (3.0, 3.0), "size_mm": 4.0}
    found, leader = place_number("7", room=room, **asks)
    assert leader is None
    assert found[0] > 50.0
    assert found[3] < 50.0, "upper right is tried first"
    wall = Path(
        layer=Layer.BASE_NEW, points=((46.0, 46.0), (54.0, 46.0), (54.0, 54.0), (46.0, 54.0))
    )
    room.take([wall, Circle(layer=Layer.KEEP, x_mm=50.0, y_mm=50.0, diameter_mm=14.0)])
    found, leader = place_number("7", room=room, **asks)
    assert leader is not None
    assert not overlap(found, (46.0, 46.0, 54.0, 54.0))


def crowd(chance: random.Random) -> list[Circle | Line | Path]:
    """Lines any way, upright and level ones, discs and slanting outlines."""

    def at() -> float:
        return chance.uniform(-5.0, 105.0)

    strokes: list[Circle | Line | Path] = []
    for _ in range(25):
        x, y = at(), at()
        dx, dy = chance.choice(((0.0, 9.0), (14.0, 0.0), (chance.uniform(-60, 60), 25.0)))
        strokes.append(Line(layer=Layer.OUTLINE, x1_mm=x, y1_mm=y, x2_mm=x + dx, y2_mm=y + dy))
        strokes.append(
            Circle(layer=Layer.KEEP, x_mm=at(), y_mm=at(), diameter_mm=chance.uniform(1, 12))
        )
    for _ in range(6):
        x, y = at(), at()
        corners = ((x, y), (x + 7.0, y + 3.0), (x + 2.0, y + 9.0))
        strokes.append(Path(layer=Layer.SHADOW, points=corners, closed=chance.random() < 0.5))
    return strokes


def shapely_meets(stroke: Circle | Line | Path, where: Polygon) -> bool:
    if isinstance(stroke, Circle):
        return where.distance(Point(stroke.x_mm, stroke.y_mm)) < stroke.diameter_mm / 2
    if isinstance(stroke, Line):
        return where.intersects(
            LineString([(stroke.x1_mm, stroke.y1_mm), (stroke.x2_mm, stroke.y2_mm)])
        )
    ring = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    return where.intersects(LineString(ring))


@pytest.mark.parametrize("seed", range(12))
def test_the_first_free_spot_is_the_one_that_shapely_finds(seed: int) -> None:
    """An independent implementation, which asks every stroke at every spot."""
    chance = random.Random(seed)
    strokes = crowd(chance)
    room = Room((0.0, 0.0, 100.0, 100.0))
    room.take(strokes[:40])
    room.take(strokes[40:])
    about, pad = (-3.0, -1.5, 3.5, 1.0), 0.4
    spots = [(chance.uniform(0, 100), chance.uniform(0, 100)) for _ in range(90)]
    free = []
    for x, y in spots:
        left, top, right, bottom = x - 3.0, y - 1.5, x + 3.5, y + 1.0
        wide = box(left - pad, top - pad, right + pad, bottom + pad)
        inside = left >= 0.0 and top >= 0.0 and right <= 100.0 and bottom <= 100.0
        free.append(inside and not any(shapely_meets(s, wide) for s in strokes))
    assert 0 < sum(free) < len(free), "a question that has one answer only asks nothing"
    for start in range(0, len(spots), 7):
        first = next((s for s, ok in zip(spots[start:], free[start:], strict=True) if ok), None)
        assert room.first_free(about, iter(spots[start:]), pad_mm=pad) == first


@pytest.fixture(scope="module")
def shipped() -> list[Layout]:
    """The first scheme of every drum of the worked job."""
    return [drum.ranked.shown[0].layout for drum in planned_demo().drums]


@pytest.mark.parametrize("what", ["working", "template"])
def test_every_lug_has_its_name_at_full_size(what: What, shipped: list[Layout]) -> None:
    """Room that numbers took beside a lug is found farther off."""
    for layout in shipped:
        said = {s.text for s in draw_flat(layout, what=what).strokes if isinstance(s, Text)}
        lugs = {plan.label for plan in layout.standing if plan.row and plan.outline is not None}
        assert lugs <= said, layout.drum.key


def test_on_a_page_lugs_are_named_in_short_and_no_number_stands_on_another(
    shipped: list[Layout],
) -> None:
    """A scheme on a page is about a fifth of its size; every hole still has its number."""
    for layout in shipped:
        view = view_of_layout(layout)
        drawing = draw_view(view, manner=on_page(view), title="")
        texts = [s for s in drawing.strokes if isinstance(s, Text)]
        assert texts_that_overlap(drawing) == [], layout.drum.key
        numbers = {int(s.text) for s in texts if s.layer is Layer.NUMBER}
        assert numbers == {plan.number for plan in view.holes}, layout.drum.key
        lugs = [plan for plan in layout.standing if plan.row and plan.outline is not None]
        named = [s for s in texts if s.layer is Layer.NOTE and "lug " in s.text]
        # Not all find room where rows of holes stand close together; none did with the head's word.
        assert 3 * len(named) >= len(lugs), layout.drum.key


def on_page(view: View) -> Manner:
    """Lettering nearly as large on the screen as on paper, for a drawing as wide as a sheet."""
    large = replace(manner_of("working"), number_mm=4.0, note_mm=3.7, scale_mm=3.5)
    return replace(large, scale=fitting_scale(view, manner=large, wide_mm=252.0))
