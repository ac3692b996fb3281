"""A drawing in a page: held against the drawing itself, stroke for stroke and place for place."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest
from example_shells import LONG, small_tom
from hypothesis import given
from hypothesis import strategies as st
from svgpathtools import parse_path

import counterhoop
from counterhoop.errors import Finding, Grade
from counterhoop.papers.drawing.manner import AS_FOUND, WORKING, manner_of
from counterhoop.papers.drawing.records import Circle, Drawing, Layer, Line, Text
from counterhoop.papers.drawing.records import Path as Way
from counterhoop.papers.drawing.shell_flat import draw_flat, draw_view
from counterhoop.papers.drawing.view import view_as_found, view_of_layout
from counterhoop.papers.screen.hole_words import hole_lines
from counterhoop.papers.screen.named import named_groups
from counterhoop.papers.screen.play import outline_data, to_screen
from counterhoop.papers.screen.ring import rings_of

SCALE = 0.25
STATIC = Path(counterhoop.__file__).parent / "web" / "static"
FINDINGS = (
    Finding(code="a", grade=Grade.NOTE, says="two holes", holes=(3, 4)),
    Finding(code="b", grade=Grade.NOTE, says="nowhere"),
    Finding(code="c", grade=Grade.NOTE, says="a place", along_deg=90.0, down_mm=40.0),
)


def with_lugs():
    """The invented tom, whose new holes know their lug."""
    layout = small_tom()
    lugs = [f for f in layout.fittings if f.fitting is LONG]

    def of(hole):
        near = (f.label for f in lugs if abs(f.place.along_deg - hole.place.along_deg) < 0.1)
        return next(near, "") if hole.verdict.drills else ""

    return replace(layout, holes=tuple(replace(hole, of=of(hole)) for hole in layout.holes))


LAYOUT = with_lugs()


def played(*, movable=("both",), manner=None):
    view = view_of_layout(LAYOUT)
    manner = manner or manner_of("working", scale=SCALE)
    drawing = draw_view(view, manner=manner, title="tom")
    group_of = named_groups(view, drawing, manner=manner, movable=movable)
    rings = rings_of(FINDINGS, view=view, manner=manner)
    return ET.fromstring(to_screen(drawing, ident="a1", group_of=group_of, rings=rings)), drawing


ROOT, DRAWING = played()


def by_data(root, name, value=None):
    return [
        g for g in root.iter("g")
        if g.get(f"data-{name}") is not None and value in (None, g.get(f"data-{name}"))
    ]  # fmt: skip


def test_every_hole_is_there_once_where_the_model_has_it() -> None:
    holes = {int(g.get("data-hole")): g for g in by_data(ROOT, "hole")}
    assert len(by_data(ROOT, "hole")) == len(holes)
    assert set(holes) == {plan.number for plan in LAYOUT.holes}
    for plan in LAYOUT.holes:
        group, place = holes[plan.number], plan.new_place or plan.place
        hit = next(c for c in group.iter("circle") if c.get("class") == "hit")
        x = LAYOUT.flat.surface.along_mm(place.along_deg)
        off = math.hypot(float(hit.get("cx")) - x, float(hit.get("cy")) - place.down_mm)
        assert off < 0.1, plan
        assert group.get("id") == f"a1-hole-{plan.number}"
        assert group.get("data-verdict") == plan.verdict.value
        assert group.get("aria-label").startswith(f"hole {plan.number}, ")
        assert plan.verdict.value in group.get("aria-label")
        assert [t.text for t in group.iter("text")].count(str(plan.number)) == 1


def test_a_hole_is_named_as_the_bench_names_it() -> None:
    """Worked by hand from the invented tom: hole 2 is new, 6.5 dia, through a plug."""
    (group,) = by_data(ROOT, "hole", "2")
    assert group.get("aria-label") == "hole 2, 6.5 mm dia, plug and drill"
    assert group.find("title").text == "hole 2, 4.5 mm along, 51 mm down"
    assert group.get("data-row") == "both"


def test_all_strokes_are_played_and_none_twice() -> None:
    """Lines that look alike are joined in one path: each is still a way of its own in it."""
    bare = replace(
        DRAWING,
        strokes=tuple(
            replace(s, hatched=False) if isinstance(s, Circle | Way) else s for s in DRAWING.strokes
        ),
    )
    root = ET.fromstring(to_screen(bare, ident="b"))
    texts = [s.text for s in DRAWING.strokes if isinstance(s, Text)]
    assert sorted(t.text for t in root.iter("text")) == sorted(texts)
    circles = [s for s in DRAWING.strokes if isinstance(s, Circle)]
    assert len(list(root.iter("circle"))) == len(circles)
    ways = sum(p.get("d").count("M") for p in root.iter("path"))
    assert ways == sum(isinstance(s, Line | Way) for s in DRAWING.strokes)
    hatching = sum(s.hatched for s in DRAWING.strokes if isinstance(s, Circle | Way))
    full = ET.fromstring(to_screen(DRAWING, ident="b"))
    assert len(list(full.iter("path"))) == len(list(root.iter("path"))) + hatching > hatching > 10


def test_ids_are_unique_and_carry_the_ident() -> None:
    ids = [e.get("id") for e in ROOT.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert all(name.startswith("a1-") for name in ids)
    assert ROOT.get("aria-describedby") in ids


def test_a_copy_beyond_the_datum_is_silent_and_has_no_id() -> None:
    again = by_data(ROOT, "again")
    assert {g.get("data-again") for g in again} == {"1", "2", "3", "4"}
    for group in again:
        assert group.get("aria-hidden") == "true"
        assert group.get("id") is None
        assert group.get("tabindex") is None


def test_one_hole_is_in_the_order_of_tabs_and_the_rest_follow_by_arrow_keys() -> None:
    stops = [g.get("tabindex") for g in by_data(ROOT, "hole")]
    assert stops.count("0") == 1
    assert set(stops) == {"0", "-1"}
    assert ROOT.get("role") == "group"


def test_what_may_be_moved_is_the_row_and_its_new_holes() -> None:
    movable = [g for g in ROOT.iter("g") if "movable" in (g.get("class") or "").split()]
    assert {g.get("data-row") for g in movable} == {"both"}
    bases = [g for g in movable if g.get("class") == "lugs movable"]
    assert len(bases) == 1
    assert len(bases[0]) == 6, "five long lugs, the first at both ends"
    holes = {g.get("data-hole") or g.get("data-again") for g in movable} - {None}
    new = {str(h.number) for h in LAYOUT.holes if h.of}
    assert holes == new
    still, _ = played(movable=())
    assert not [g for g in still.iter("g") if "movable" in (g.get("class") or "")]


def test_findings_have_rings_where_they_say() -> None:
    places = [g for g in ROOT.iter("g") if g.get("class") == "place"]
    assert [g.get("id") for g in places] == ["a1-place-1", "a1-place-3"]
    assert places[0].get("data-holes") == "3 4"
    holes = {h.number: h for h in LAYOUT.holes}
    for number, ring in zip((3, 4), places[0], strict=True):
        place = holes[number].place
        assert float(ring.get("cx")) == pytest.approx(791.0 * place.along_deg / 360, abs=0.01)
        assert float(ring.get("cy")) == pytest.approx(place.down_mm, abs=0.01)
        assert float(ring.get("r")) > 3.0
    (ring,) = places[1]
    assert float(ring.get("cx")) == pytest.approx(791.0 / 4, abs=0.01)


def test_nothing_in_it_that_a_page_without_own_styles_would_lose() -> None:
    """Content Security Policy 3: default-src 'self' refuses style attributes and elements."""
    for element in ROOT.iter():
        assert element.get("style") is None
        assert element.tag not in ("style", "script", "a", "image")
        for name in ("fill", "stroke", "stroke-width", "stroke-dasharray"):
            assert element.get(name) is None


def test_the_clients_copy_has_no_numbers_and_nothing_to_choose() -> None:
    root = ET.fromstring(to_screen(draw_flat(LAYOUT, what="client", scale=SCALE), ident="c"))
    assert root.get("role") == "img"
    assert not [e for e in root.iter() if e.get("tabindex")]
    assert not [t for t in root.iter("text") if t.text.isdigit() and t.get("class") == "t i-ink b"]


@given(
    st.lists(
        st.tuples(st.floats(-900, 900), st.floats(-900, 900)), min_size=3, max_size=40, unique=True
    )
)
def test_an_outline_in_tenths_lies_within_a_fifth(points) -> None:
    """Exact law: errors do not add up along the way.

    A corner is rounded from the first one (two roundings to a tenth, half a diagonal each), and
    may be left out where the way passes it within 0.05.
    """
    d = outline_data(Way(layer=Layer.OUTLINE, points=tuple(points)))
    drawn = [segment for segment in parse_path(d) if segment.length()]
    first = parse_path(d)[0].start if len(parse_path(d)) else complex(*points[0])
    for x, y in points:
        near = min(
            (segment.radialrange(complex(x, y))[0][0] for segment in drawn),
            default=abs(first - complex(x, y)),
        )
        assert near <= 2 * math.hypot(0.05, 0.05) + 0.05 + 1e-9


def test_an_outline_that_loses_a_corner_would_be_caught() -> None:
    square = ((0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0))
    d = outline_data(Way(layer=Layer.OUTLINE, points=square))
    assert d == "M0 0l10 0 0 8-10 0z"


def test_a_text_from_outside_stays_text() -> None:
    drawing = Drawing(
        left_mm=0, top_mm=0, width_mm=10, height_mm=10, title='"><script>', says="</desc>\x07",
        strokes=(Text(layer=Layer.NOTE, x_mm=1, y_mm=5, text="</text><script>"),),
    )  # fmt: skip
    root = ET.fromstring(to_screen(drawing, ident='x"y'))
    assert root.get("aria-label") == '"><script>'
    assert next(root.iter("text")).text == "</text><script>"
    assert root.get("id") == 'x"y-shell'


# --- the same in words -------------------------------------------------------------------------


def test_the_table_has_every_hole_in_the_order_along() -> None:
    view = view_of_layout(LAYOUT)
    lines = hole_lines(view, manner=WORKING)
    assert {line.number for line in lines} == {plan.number for plan in LAYOUT.holes}
    along = [float(line.along.removesuffix(" mm")) for line in lines]
    assert along == sorted(along)
    by_number = {line.number: line for line in lines}
    assert by_number[26].size == "5.0 mm dia to 7.0 mm dia"
    assert by_number[31].size == "22.0 mm wide x 9.0 mm tall"
    for line in lines:
        down, up = (float(text.removesuffix(" mm")) for text in (line.down, line.up))
        assert down + up == pytest.approx(178.0, abs=0.5)


def test_as_found_says_no_verdict_but_that_a_hole_was_plugged() -> None:
    view = view_as_found(LAYOUT.drum)
    assert {line.verdict for line in hole_lines(view, manner=AS_FOUND)} <= {"", "plugged before"}


def test_who_reads_inches_gets_inches_and_the_scales_too() -> None:
    manner = replace(manner_of("working", scale=SCALE), units="in")
    root, drawing = played(manner=manner)
    (group,) = by_data(root, "hole", "2")
    # 6.5 mm is 16.4 sixty-fourths, 4.39 mm 5.5 thirty-seconds, 50.9 mm 64.1, 791 mm 996.5.
    assert group.get("aria-label") == "hole 2, 1/4 in dia, plug and drill"
    assert group.find("title").text == "hole 2, 3/16 in along, 2 in down"
    figures = {
        int(s.text): s.x_mm
        for s in drawing.strokes
        if isinstance(s, Text) and s.layer is Layer.SCALE and s.anchor == "middle"
        if s.text.isdigit() and s.y_mm > 0
    }
    assert len(figures) > 4
    for inches, x in figures.items():
        assert x == pytest.approx(25.4 * inches)
    assert any("31 5/32 in round" in t.text for t in root.iter("text"))


# --- colours, by reckoning ---------------------------------------------------------------------


def luminance(colour: str) -> float:
    """WCAG 2.2, definition of relative luminance (from memory)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    line = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * line[0] + 0.7152 * line[1] + 0.0722 * line[2]


@pytest.mark.parametrize("block", [":root", ':root[data-light="night"]'])
def test_every_ink_of_the_drawing_reads_by_day_and_by_night(block: str) -> None:
    """WCAG 2.2, 1.4.3: 4.5 : 1 (also asked of lines here); colours as the style sheets say."""
    paper = (STATIC / "paper.css").read_text("utf-8")
    body = re.search(re.escape(block) + r" \{(.*?)\}", paper, re.S)[1]
    colours = dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6});", body))
    sheet = (STATIC / "shell_flat.css").read_text("utf-8")
    inks = set(re.findall(r"(?:stroke|fill): var\(--([a-z]+)\)", sheet))
    assert {"ink", "blue", "brick", "moss", "quiet"} <= inks
    for ink in inks:
        high, low = sorted((luminance(colours[ink]), luminance(colours["paper"])), reverse=True)
        assert (high + 0.05) / (low + 0.05) >= 4.5, ink


def test_every_class_that_is_drawn_with_has_a_rule() -> None:
    sheet = (STATIC / "shell_flat.css").read_text("utf-8")
    used = {
        name
        for element in ROOT.iter()
        if element.tag != "g"
        for name in (element.get("class") or "").split()
    }
    silent = {"i-ink", "shell-flat"}
    assert {"i-cut", "w-fine", "d-chain", "f-proposed", "hit"} <= used
    assert [name for name in used - silent if f".{name}" not in sheet] == []
