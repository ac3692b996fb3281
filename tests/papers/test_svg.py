"""The SVG: true places, ids, titles, millimetres, the same text again."""

from __future__ import annotations

import itertools
import math
import xml.etree.ElementTree as ET

import pytest
from example_shells import small_tom
from svgpathtools import parse_path

from counterhoop.papers.drawing.around import whole_lead_mm
from counterhoop.papers.drawing.lettering import width_mm
from counterhoop.papers.drawing.pens import DAY, NIGHT, PALETTES, PRINT
from counterhoop.papers.drawing.records import Circle, Drawing, Layer, Text
from counterhoop.papers.drawing.shell_flat import draw_as_found, draw_flat
from counterhoop.papers.svg import to_svg
from counterhoop.scheme.verdict import Verdict

SVG = "{http://www.w3.org/2000/svg}"
LAYOUT = small_tom()


def root_of(drawing: Drawing) -> ET.Element:
    return ET.fromstring(to_svg(drawing))


@pytest.mark.parametrize("scale", [1.0, 0.25])
def test_every_hole_is_where_the_model_has_it(scale: float) -> None:
    root = root_of(draw_flat(LAYOUT, scale=scale))
    for plan in LAYOUT.holes:
        item = next(e for e in root.iter() if e.get("id") == f"hole-{plan.number}")
        place, shape = plan.new_place or plan.place, plan.new or plan.old
        if item.tag == f"{SVG}circle":
            x, y = float(item.get("cx")), float(item.get("cy"))
            size = (2 * float(item.get("r")),) * 2
        else:
            left, right, top, bottom = parse_path(item.get("d")).bbox()
            x, y, size = (left + right) / 2, (top + bottom) / 2, (right - left, bottom - top)
        assert (
            math.hypot(x - LAYOUT.flat.surface.along_mm(place.along_deg), y - place.down_mm) < 0.02
        ), plan
        assert size == pytest.approx(shape.size_mm, abs=0.02)
        title = item.find(f"{SVG}title")
        assert title is not None
        assert f"hole {plan.number}: {plan.verdict.value}" in title.text


def test_size_and_view_box_are_in_millimetres() -> None:
    for scale in (1.0, 0.3):
        drawing = draw_flat(LAYOUT, scale=scale)
        root = root_of(drawing)
        _, _, wide, high = (float(v) for v in root.get("viewBox").split())
        assert root.get("width").endswith("mm")
        assert float(root.get("width")[:-2]) == pytest.approx(wide * scale, abs=1e-3)
        assert float(root.get("height")[:-2]) == pytest.approx(high * scale, abs=1e-3)


def test_ids_are_unique_and_a_mark_across_the_datum_shows_at_both_ends() -> None:
    root = root_of(draw_flat(LAYOUT))
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert {"base-long-lug-1", "base-long-lug-1-after", "hole-1", "hole-1-after"} <= set(ids)
    both = [
        parse_path(next(e for e in root.iter() if e.get("id") == name).get("d")).bbox()
        for name in ("base-long-lug-1", "base-long-lug-1-after")
    ]
    assert both[1][0] - both[0][0] == pytest.approx(791.0, abs=1e-3)
    box = [float(v) for v in root.get("viewBox").split()]
    assert box[0] < both[0][0]
    assert both[1][1] < box[0] + box[2], "the copy must be whole"


def test_the_same_drawing_gives_the_same_bytes_and_another_ident_keeps_ids_apart() -> None:
    drawing = draw_flat(LAYOUT)
    assert to_svg(drawing) == to_svg(draw_flat(small_tom()))
    assert 'id="b-hole-1"' in to_svg(drawing, ident="b-")


def test_every_verdict_has_its_own_shape_without_colour() -> None:
    """ISO 128's idea that meaning lies in the line (from memory): no two verdicts draw alike."""
    root = root_of(draw_flat(LAYOUT))
    looks = {}
    for verdict in Verdict:
        plan = next(p for p in LAYOUT.holes if p.verdict is verdict)
        layer = "plug-and-drill" if verdict is Verdict.PLUG_AND_DRILL else verdict.value
        group = [
            e
            for g in root.iter(f"{SVG}g")
            if g.get("class") == f"layer {layer.replace(' ', '-')}"
            for e in g
        ]
        at = next(i for i, e in enumerate(group) if e.get("id") == f"hole-{plan.number}")
        end = next(
            (i for i, e in enumerate(group) if i > at and e.get("id", "").startswith("hole-")),
            len(group),
        )
        looks[verdict] = tuple(
            (e.tag, e.get("stroke-width"), e.get("class", "")) for e in group[at:end]
        )
    assert all(a != b for a, b in itertools.combinations(looks.values(), 2)), looks


def test_the_clients_copy_has_no_numbers_and_as_found_has_all() -> None:
    client = draw_flat(LAYOUT, what="client")
    assert not [s for s in client.strokes if isinstance(s, Text) and s.layer is Layer.NUMBER]
    found = draw_as_found(LAYOUT.drum)
    numbers = {
        int(s.text) for s in found.strokes if isinstance(s, Text) and s.layer is Layer.NUMBER
    }
    assert numbers == {hole.number for hole in LAYOUT.drum.holes}
    assert not [s for s in found.strokes if isinstance(s, Circle) and s.layer is Layer.DRILL]
    read = [found.says, *(s.title for s in found.strokes if isinstance(s, Circle) and s.title)]
    assert len(read) > 1
    assert not [words for words in read for verdict in ("leave open", "keep") if verdict in words]


def luminance(colour: str) -> float:
    """Relative luminance (WCAG 2.1, definition of relative luminance)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    line = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * line[0] + 0.7152 * line[1] + 0.0722 * line[2]


@pytest.mark.parametrize(("palette", "least"), [(DAY, 4.5), (NIGHT, 7.0)])
def test_inks_can_be_read(palette: object, least: float) -> None:
    """Contrast by WCAG 2.1, success criteria 1.4.3 (4.5 : 1) and 1.4.6 (7 : 1)."""
    ground = luminance(palette.paper)
    for ink in ("ink", "proposed", "cut", "kept", "shadow"):
        light, dark = sorted((luminance(palette.of(ink)), ground), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= least, ink


def test_palettes_are_known_by_name() -> None:
    assert set(PALETTES) == {"day", "night", "print", "colour print"}


def test_a_text_from_outside_stays_text() -> None:
    drawing = Drawing(
        left_mm=0, top_mm=0, width_mm=10, height_mm=10, title='<b>&"',
        strokes=(Text(layer=Layer.NOTE, x_mm=1, y_mm=5, text="</text><script>", ident='a"b'),),
    )  # fmt: skip
    root = root_of(drawing)
    assert root.find(f"{SVG}title").text == '<b>&"'
    assert next(root.iter(f"{SVG}text")).text == "</text><script>"


def test_signs_that_xml_forbids_do_not_break_it() -> None:
    """XML 1.0, section 2.2: a bell is no character."""
    drawing = Drawing(
        left_mm=0, top_mm=0, width_mm=10, height_mm=10, title="a\x07b\ud800c",
        strokes=(Text(layer=Layer.NOTE, x_mm=1, y_mm=5, text="tom\x00", ident="x\x01"),),
    )  # fmt: skip
    assert root_of(drawing).find(f"{SVG}title").text == "a\ufffdb\ufffdc"


def test_texts_on_a_screen_keep_their_width_in_another_typeface() -> None:
    """SVG 2, 11.4.4 (textLength): a viewer without the typeface squeezes words into their cells."""
    root = root_of(draw_flat(LAYOUT, facts=(("job", "17, A client"), ("drum", "small tom"))))
    texts = list(root.iter(f"{SVG}text"))
    assert len(texts) > 40
    for item in texts:
        wide = width_mm(
            "".join(item.itertext()),
            size_mm=float(item.get("font-size")),
            bold=item.get("font-weight") == "600",
        )
        assert float(item.get("textLength")) == pytest.approx(wide, abs=1e-3)
        assert item.get("lengthAdjust") == "spacingAndGlyphs"
    assert root.get("font-family").startswith("Inter, ")
    assert "textLength" not in to_svg(draw_flat(LAYOUT), palette=PRINT)


def test_nothing_across_or_near_the_datum_is_cut_by_the_rim() -> None:
    """What the lead touches is shown whole; by intervals on a line of 100, worked by hand."""
    spans = [(95.0, -2.0, 9.0), (20.0, -5.0, 5.0), (60.0, -4.0, 4.0)]
    assert whole_lead_mm(4.0, spans[1:], around_mm=100.0) == 4.0
    assert whole_lead_mm(4.0, spans, around_mm=100.0) == 7.0  # the first begins 7 before the datum
    assert whole_lead_mm(16.0, spans, around_mm=100.0) == 25.0
