"""Play a drawing to DXF: millimetres, a layer a verdict, the shell upright and not mirrored."""

from __future__ import annotations

import io
import re
import threading
from typing import TYPE_CHECKING, Any

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

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

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
            writer = _Writer(doc.modelspace(), depth_mm=drawing.depth_mm, scale=drawing.scale)
            for stroke in drawing.strokes:
                writer.stroke(stroke)
            low = drawing.depth_mm - drawing.top_mm - drawing.height_mm
            doc.header["$EXTMIN"] = (drawing.left_mm, low, 0.0)
            doc.header["$EXTMAX"] = (
                drawing.left_mm + drawing.width_mm, drawing.depth_mm - drawing.top_mm, 0.0,
            )  # fmt: skip
            stream = io.StringIO()
            doc.write(stream)
        finally:
            options.write_fixed_meta_data_for_testing = was
    return stream.getvalue().encode("utf-8")


class _Writer:
    def __init__(self, space: Modelspace, *, depth_mm: float, scale: float) -> None:
        self.space = space
        self.depth = depth_mm
        self.scale = scale

    def stroke(self, stroke: Stroke) -> None:
        if isinstance(stroke, Text):
            self._text(stroke)
        elif isinstance(stroke, Line):
            self._line((stroke.x1_mm, stroke.y1_mm, stroke.x2_mm, stroke.y2_mm), stroke)
        elif isinstance(stroke, Circle):
            middle = (stroke.x_mm, self.depth - stroke.y_mm)
            self.space.add_circle(
                middle, stroke.diameter_mm / 2, dxfattribs=self._looks(stroke.layer, stroke.pen)
            )
            if stroke.hatched:
                self._hatch(
                    circle_hatch(
                        stroke.x_mm, stroke.y_mm, stroke.diameter_mm,
                        apart_mm=HATCH_APART_MM / self.scale, clear_mm=stroke.clear_mm,
                    ),
                    stroke,
                )  # fmt: skip
        else:
            self._path(stroke)

    def _path(self, path: Path) -> None:
        bulges = path.bulges or (0.0,) * len(path.points)
        # An arc that turns from +x toward +y on the drawing turns the other way once y is up.
        corners = [
            (x, self.depth - y, -bulge) for (x, y), bulge in zip(path.points, bulges, strict=True)
        ]
        self.space.add_lwpolyline(
            corners, format="xyb", close=path.closed, dxfattribs=self._looks(path.layer, path.pen)
        )
        if path.hatched:
            lines = path_hatch(path.points, path.bulges, apart_mm=HATCH_APART_MM / self.scale)
            self._hatch(lines, path)

    def _hatch(self, segments: tuple[Segment, ...], stroke: Circle | Path) -> None:
        for segment in segments:
            self._line(segment, stroke, pen=Pen(weight="dimension", ink=stroke.pen.ink))

    def _line(self, ends: Segment, stroke: Line | Circle | Path, *, pen: Pen | None = None) -> None:
        x1, y1, x2, y2 = ends
        self.space.add_line(
            (x1, self.depth - y1), (x2, self.depth - y2),
            dxfattribs=self._looks(stroke.layer, pen or stroke.pen),
        )  # fmt: skip

    def _text(self, text: Text) -> None:
        from ezdxf.enums import TextEntityAlignment

        align = {
            "start": TextEntityAlignment.LEFT,
            "middle": TextEntityAlignment.CENTER,
            "end": TextEntityAlignment.RIGHT,
        }[text.anchor]
        entity = self.space.add_text(
            CONTROL.sub(" ", text.text), height=text.size_mm * CAP_SHARE, rotation=-text.turned_deg,
            dxfattribs={
                "layer": text.layer.value.upper(), "style": STYLE, "color": COLOURS[text.ink],
            },
        )  # fmt: skip
        entity.set_placement((text.x_mm, self.depth - text.y_mm), align=align)

    def _looks(self, layer: Layer, pen: Pen) -> dict[str, Any]:
        looks: dict[str, Any] = {
            "layer": layer.value.upper(),
            "color": COLOURS[pen.ink],
            "lineweight": round(WEIGHT_MM[pen.weight] * 100),
        }
        if pen.dash != "solid":
            looks["linetype"] = LINETYPES[pen.dash]
        return looks
