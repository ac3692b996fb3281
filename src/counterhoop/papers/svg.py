"""Play a drawing to SVG: millimetres, ids, a title for each hole, real text and circles."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from xml.sax.saxutils import escape as escape_signs
from xml.sax.saxutils import quoteattr

from counterhoop.papers.drawing.hatch import circle_hatch, path_hatch
from counterhoop.papers.drawing.lettering import width_mm
from counterhoop.papers.drawing.pens import DAY, HATCH_APART_MM, WEIGHT_MM, Palette, dashes_mm
from counterhoop.papers.drawing.records import Circle, Drawing, Line, Path, Pen, Stroke, Text

FONT = "Inter, Helvetica, Arial, sans-serif"
"""The shipped typeface, then ones that are no wider, for a viewer that has not got it."""
NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Signs that XML 1.0 (section 2.2, Char) does not allow; they come from what people paste."""


def escape(text: str) -> str:
    """Make any text fit to stand in XML; what cannot stand there becomes a mark of a lost sign."""
    return escape_signs(NOT_XML.sub("\ufffd", text))


def to_svg(drawing: Drawing, *, palette: Palette = DAY, ident: str = "") -> str:
    """Write a drawing as SVG.

    Parameters
    ----------
    drawing : Drawing
        What is drawn; ``drawing.scale`` sets the size on paper, the view box stays in drawn
        millimetres.
    palette : Palette
        Day, night, black print or colour print.
    ident : str
        Put before every id, where several drawings share a page.

    Returns
    -------
    str
        The same for the same drawing, byte for byte; numbers to 0.0001 mm.
    """
    box = (drawing.left_mm, drawing.top_mm, drawing.width_mm, drawing.height_mm)
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(drawing.width_mm * drawing.scale)}'
        f'mm" height="{number(drawing.height_mm * drawing.scale)}mm" '
        f'viewBox="{" ".join(number(v) for v in box)}" role="img" font-family="{FONT}" '
        f'fill="none" stroke-linejoin="round">',
        f"<title>{escape(drawing.title)}</title>",
        f"<desc>{escape(drawing.says)}</desc>" if drawing.says else "",
    ]
    if palette.paper:
        x, y, w, h = (number(v) for v in box)
        out.append(f'<rect x="{x}" y="{y}" width="{w}" height="{h}" fill="{palette.paper}"/>')
    writer = _Writer(palette=palette, scale=drawing.scale, ident=ident)
    layer = ""
    for stroke in drawing.strokes:
        if stroke.layer.value != layer:
            if layer:
                out.append("</g>")
            layer = stroke.layer.value
            out.append(f'<g class="layer {layer}">')
        out.append(writer.stroke(stroke))
    out += ["</g>" if layer else "", "</svg>\n"]
    return "\n".join(line for line in out if line)


def number(value: float) -> str:
    """Print a coordinate to a ten-thousandth without trailing noughts.

    Examples
    --------
    >>> number(12.50004), number(-0.00001), number(3.0)
    ('12.5', '0', '3')
    """
    shown = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if shown in ("-0", "") else shown


def path_data(path: Path, *, number: Callable[[float], str] = number) -> str:
    """Write the way of a path: straight stretches, and arcs where it bulges.

    Examples
    --------
    >>> from counterhoop.papers.drawing.records import Layer
    >>> path_data(Path(layer=Layer.OUTLINE, points=((0.0, 0.0), (3.0, 0.0), (3.0, 2.5))))
    'M0 0L3 0L3 2.5Z'
    """
    d = f"M{number(path.points[0][0])} {number(path.points[0][1])}"
    last = len(path.points) if path.closed else len(path.points) - 1
    for i in range(last):
        start, end = path.points[i], path.points[(i + 1) % len(path.points)]
        bulge = path.bulges[i] if path.bulges else 0.0
        if bulge:
            r = math.dist(start, end) * (1 + bulge * bulge) / (4 * abs(bulge))
            flags = f"{int(abs(bulge) > 1)} {int(bulge > 0)}"
            d += f"A{number(r)} {number(r)} 0 {flags} {number(end[0])} {number(end[1])}"
        elif i < len(path.points) - 1:
            d += f"L{number(end[0])} {number(end[1])}"
    return d + ("Z" if path.closed else "")


class _Writer:
    def __init__(self, *, palette: Palette, scale: float, ident: str) -> None:
        self.palette = palette
        self.scale = scale
        self.ident = ident

    def stroke(self, stroke: Stroke) -> str:
        if isinstance(stroke, Text):
            return self._text(stroke)
        if isinstance(stroke, Circle):
            return self._circle(stroke)
        if isinstance(stroke, Line):
            ends = zip(
                ("x1", "y1", "x2", "y2"),
                (stroke.x1_mm, stroke.y1_mm, stroke.x2_mm, stroke.y2_mm),
                strict=True,
            )
            shape = " ".join(f'{name}="{number(value)}"' for name, value in ends)
            return f"<line{self._id(stroke.ident)} {shape}{self._pen(stroke.pen)}/>"
        return self._path(stroke)

    def _circle(self, c: Circle) -> str:
        shape = (
            f'<circle{self._id(c.ident)} cx="{number(c.x_mm)}" cy="{number(c.y_mm)}" '
            f'r="{number(c.diameter_mm / 2)}"{self._pen(c.pen)}'
        )
        shape += f"><title>{escape(c.title)}</title></circle>" if c.title else "/>"
        if c.hatched:
            chords = circle_hatch(
                c.x_mm, c.y_mm, c.diameter_mm, apart_mm=HATCH_APART_MM / self.scale,
                clear_mm=c.clear_mm,
            )  # fmt: skip
            shape += self._hatch(chords, c.pen)
        return shape

    def _hatch(self, chords: Sequence[tuple[float, float, float, float]], pen: Pen) -> str:
        d = "".join(
            f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}" for x1, y1, x2, y2 in chords
        )
        return f'<path class="hatch" d="{d}"{self._pen(Pen(weight="dimension", ink=pen.ink))}/>'

    def _path(self, path: Path) -> str:
        d = path_data(path)
        fill = ""
        if path.fill != "none" and path.fill_share > 0:
            colour = self.palette.of(path.fill)
            fill = f' fill="{colour}" fill-opacity="{number(path.fill_share)}"'
        shape = f'<path{self._id(path.ident)} d="{d}"{fill}{self._pen(path.pen)}'
        shape += f"><title>{escape(path.title)}</title></path>" if path.title else "/>"
        if path.hatched:
            chords = path_hatch(path.points, path.bulges, apart_mm=HATCH_APART_MM / self.scale)
            shape += self._hatch(chords, path.pen)
        return shape

    def _text(self, text: Text) -> str:
        anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
        weight = ' font-weight="600"' if text.bold else ""
        x, y = number(text.x_mm), number(text.y_mm)
        long = self._long(text) if self.palette.paper else ""
        turn = f' transform="rotate({number(text.turned_deg)} {x} {y})"' if text.turned_deg else ""
        return (
            f'<text{self._id(text.ident)} x="{x}" y="{y}" font-size="{number(text.size_mm)}"'
            f'{weight}{anchor}{long}{turn} fill="{self.palette.of(text.ink)}">'
            f"{escape(text.text)}</text>"
        )

    def _long(self, text: Text) -> str:
        """Hold a text on a screen to its width in the shipped typeface (SVG 2, 11.4.4)."""
        wide = width_mm(text.text, size_mm=text.size_mm, bold=text.bold)
        return f' textLength="{number(wide)}" lengthAdjust="spacingAndGlyphs"' if wide else ""

    def _id(self, ident: str) -> str:
        return f" id={quoteattr(NOT_XML.sub('', self.ident + ident))}" if ident else ""

    def _pen(self, pen: Pen) -> str:
        if pen.ink == "none":
            return ""
        dashes = " ".join(number(v) for v in dashes_mm(pen.dash, scale=self.scale))
        dash = f' stroke-dasharray="{dashes}"' if dashes else ""
        cap = ' stroke-linecap="round"' if pen.dash == "dotted" else ""
        return (
            f' stroke="{self.palette.of(pen.ink)}" '
            f'stroke-width="{number(WEIGHT_MM[pen.weight] / self.scale)}"{dash}{cap}'
        )
