"""Play a drawing to DXF: millimetres, a layer a verdict, the shell upright and not mirrored."""

from __future__ import annotations

import io
import re
import threading
from collections.abc import Callable
from itertools import repeat
from typing import TypeAlias

from counterhoop.papers.drawing.hatch import Segment, circle_hatch, path_hatch
from counterhoop.papers.drawing.lettering import CAP_SHARE
from counterhoop.papers.drawing.pens import DASH_MM, HATCH_APART_MM, WEIGHT_MM
from counterhoop.papers.drawing.records import (
    Circle,
    Dash,
    Drawing,
    Ink,
    Layer,
    Line,
    Path,
    Pen,
    Stroke,
    Text,
)

Tag: TypeAlias = tuple[int, float | int | str]
ENTITIES = "  0\nSECTION\n  2\nENTITIES\n"
LINETYPES: dict[Dash, str] = {
    "dashed": "SHELL_DASHED",
    "chain": "SHELL_CHAIN",
    "dotted": "SHELL_DOTTED",
}
COLOURS: dict[Ink, int] = {"ink": 7, "proposed": 5, "cut": 1, "kept": 3, "shadow": 8, "none": 7}
"""AutoCAD colour index: 7 is black or white, whichever shows."""
STYLE = "SHELL"
CONTROL = re.compile("[\x00-\x1f\x7f\ud800-\udfff]")
"""Signs that would end a line of the file or cannot be written at all."""
_WRITING = threading.Lock()


def to_dxf(drawing: Drawing) -> bytes:
    """Write a drawing as DXF R2010.

    Heights turn over: y = depth - down, so that the batter edge is up and along still runs to
    the right. Lines, circles, arcs of slots and texts are true ones; hatching is lines at 45
    degrees on the verdict's layer. There are no dimensions whose factor could mislead.

    Returns
    -------
    bytes
        The same for the same drawing, byte for byte.
    """
    from ezdxf import units
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    with _WRITING:
        was = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            doc = new("R2010", units=units.MM)
            doc.header["$MEASUREMENT"] = 1
            doc.header["$DIMLFAC"] = 1.0
            doc.header["$LTSCALE"] = 1.0
            doc.styles.new(STYLE, dxfattribs={"font": "Inter-Regular.ttf"})
            for dash, name in LINETYPES.items():
                pattern = DASH_MM[dash]
                signed = [
                    v / drawing.scale * (1 if i % 2 == 0 else -1) for i, v in enumerate(pattern)
                ]
                doc.linetypes.add(name, pattern=[sum(abs(v) for v in signed), *signed])
            for layer in Layer:
                doc.layers.add(layer.value.upper())
            space = doc.modelspace().layout_key
            writer = _Writer(drawing, space=space, next_handle=doc.entitydb.next_handle)
            for stroke in drawing.strokes:
                writer.stroke(stroke)
            low = drawing.depth_mm - drawing.top_mm - drawing.height_mm
            doc.header["$EXTMIN"] = (drawing.left_mm, low, 0.0)
            doc.header["$EXTMAX"] = (
                drawing.left_mm + drawing.width_mm, drawing.depth_mm - drawing.top_mm, 0.0,
            )  # fmt: skip
            for name in sorted(doc.entitydb.dxf_types_in_use()):  # else a set's chance order
                doc.classes.add_class(name)
            stream = io.StringIO()
            doc.write(stream)
        finally:
            options.write_fixed_meta_data_for_testing = was
    frame, section, rest = stream.getvalue().partition(ENTITIES)
    return "".join((frame, section, *writer.records, rest)).encode("utf-8")


class _Writer:
    """Writes each stroke as the tags of its entity, as ezdxf would; that takes a tenth of the time.

    Group codes are those of the DXF Reference for LINE, CIRCLE, LWPOLYLINE and TEXT.
    """

    def __init__(self, drawing: Drawing, *, space: str, next_handle: Callable[[], str]) -> None:
        self.records: list[str] = []
        self.depth = drawing.depth_mm
        self.scale = drawing.scale
        self.space = space
        self.next_handle = next_handle

    def stroke(self, stroke: Stroke) -> None:
        if isinstance(stroke, Text):
            self._text(stroke)
        elif isinstance(stroke, Line):
            ends = (stroke.x1_mm, stroke.y1_mm, stroke.x2_mm, stroke.y2_mm)
            self._line(ends, _looks(stroke.layer, stroke.pen))
        elif isinstance(stroke, Circle):
            self._circle(stroke)
        else:
            self._path(stroke)

    def _circle(self, c: Circle) -> None:
        middle = self._point(c.x_mm, c.y_mm)
        looks = _looks(c.layer, c.pen)
        self._record("CIRCLE", looks, "AcDbCircle", *middle, (40, float(c.diameter_mm / 2)))
        if c.hatched:
            chords = circle_hatch(
                c.x_mm, c.y_mm, c.diameter_mm, apart_mm=HATCH_APART_MM / self.scale,
                clear_mm=c.clear_mm,
            )  # fmt: skip
            self._hatch(chords, c)

    def _path(self, path: Path) -> None:
        tags: list[Tag] = [(90, len(path.points)), (70, int(path.closed))]
        for (x, y), bulge in zip(path.points, path.bulges or repeat(0.0), strict=False):
            tags += self._point(x, y)[:2]
            if bulge:
                # An arc that turns from +x toward +y turns the other way once y is up.
                tags.append((42, -bulge))
        self._record("LWPOLYLINE", _looks(path.layer, path.pen), "AcDbPolyline", *tags)
        if path.hatched:
            apart = HATCH_APART_MM / self.scale
            self._hatch(path_hatch(path.points, path.bulges, apart_mm=apart), path)

    def _hatch(self, segments: tuple[Segment, ...], stroke: Circle | Path) -> None:
        looks = _looks(stroke.layer, Pen(weight="dimension", ink=stroke.pen.ink))
        for segment in segments:
            self._line(segment, looks)

    def _line(self, ends: Segment, looks: tuple[Tag, ...]) -> None:
        x1, y1, x2, y2 = ends
        points = (*self._point(x1, y1), *self._point(x2, y2, second=1))
        self._record("LINE", looks, "AcDbLine", *points)

    def _text(self, text: Text) -> None:
        looks = ((8, text.layer.value.upper()), (62, COLOURS[text.ink]))
        middle = {"start": 0, "middle": 1, "end": 2}[text.anchor]
        tags: list[Tag] = [
            *self._point(text.x_mm, text.y_mm),
            (40, text.size_mm * CAP_SHARE),
            (1, CONTROL.sub(" ", text.text)),
        ]
        if text.turned_deg:
            tags.append((50, -text.turned_deg))
        tags.append((7, STYLE))
        if middle:
            tags.append((72, middle))
        tags += self._point(text.x_mm, text.y_mm, second=1)
        self._record("TEXT", looks, "AcDbText", *tags, (100, "AcDbText"))

    def _point(self, x_mm: float, y_mm: float, *, second: int = 0) -> tuple[Tag, Tag, Tag]:
        x, y = float(x_mm), float(self.depth - y_mm)
        return (10 + second, x), (20 + second, y), (30 + second, 0.0)

    def _record(self, kind: str, looks: tuple[Tag, ...], subclass: str, *tags: Tag) -> None:
        head = ((0, kind), (5, self.next_handle()), (330, self.space), (100, "AcDbEntity"))
        every = (*head, *looks, (100, subclass), *tags)
        self.records.append("".join(f"{code:3d}\n{value}\n" for code, value in every))


def _looks(layer: Layer, pen: Pen) -> tuple[Tag, ...]:
    dash = () if pen.dash == "solid" else ((6, LINETYPES[pen.dash]),)
    weight = round(WEIGHT_MM[pen.weight] * 100)
    return ((8, layer.value.upper()), *dash, (62, COLOURS[pen.ink]), (370, weight))
