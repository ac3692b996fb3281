"""Play a drawing to SVG that stands in a page: colours and weights are the style sheet's.

A page that allows no style of its own has classes only. Pens keep their width in pixels at any
size, so a class is enough for them too.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import groupby, pairwise
from xml.sax.saxutils import quoteattr

from counterhoop.papers.drawing.hatch import circle_hatch, path_hatch
from counterhoop.papers.drawing.pens import HATCH_APART_MM
from counterhoop.papers.drawing.records import (
    Circle,
    Drawing,
    Layer,
    Line,
    Path,
    Pen,
    Stroke,
    Text,
)
from counterhoop.papers.screen.group import Group, GroupOf, ungrouped
from counterhoop.papers.screen.ring import Ring
from counterhoop.papers.svg import NOT_XML, escape, path_data

PX_PER_MM = 96.0 / 25.4
"""CSS Values and Units 3, 6.2 (from memory): an inch is 96 px."""
JOINING = frozenset(
    {
        *(Layer.KEEP, Layer.ENLARGE, Layer.SLOT, Layer.PLUG, Layer.DRILL, Layer.PLUG_AND_DRILL),
        *(Layer.LEAVE_OPEN, Layer.PLUGGED_ALREADY, Layer.NUMBER),
    }
)
"""A stroke without a name on these belongs to the named one before it: hatch, arms, leader."""


def to_screen(
    drawing: Drawing, *, ident: str, group_of: GroupOf = ungrouped, rings: Iterable[Ring] = ()
) -> str:
    """Write a drawing as SVG for a page.

    Parameters
    ----------
    drawing : Drawing
        What is drawn; ``drawing.scale`` sets its own size, which the style sheet may overrule.
    ident : str
        Before every id; unique on the page.
    group_of : GroupOf
        Says which named stroke is part of what.
    rings : iterable of Ring
        Places of findings, seen when they are chosen.

    Returns
    -------
    str
        The same for the same drawing; numbers to 0.01 mm, outlines to 0.1. Without groups it is
        one picture to who hears it, with them a group whose parts have names.
    """
    nodes = _sorted_out(drawing.strokes, group_of)
    box = (drawing.left_mm, drawing.top_mm, drawing.width_mm, drawing.height_mm)
    wide, high = (math.ceil(v * drawing.scale * PX_PER_MM) for v in box[2:])
    reached = next((node for node, _ in nodes if isinstance(node, Group) and node.reached), None)
    out = [
        f'<svg class="shell-flat" id={value(ident + "-shell")} '
        f'viewBox="{" ".join(short(v) for v in box)}" width="{wide}" height="{high}" '
        f'role="{"group" if reached else "img"}" aria-label={value(drawing.title)}'
        + (f" aria-describedby={value(ident + '-shell-says')}>" if drawing.says else ">"),
    ]
    if drawing.says:
        out.append(f"<desc id={value(ident + '-shell-says')}>{escape(drawing.says)}</desc>")
    for node, strokes in nodes:
        played = _played(strokes, drawing.scale)
        if isinstance(node, Group):
            out.append(_opened(node, ident=ident, first=node is reached))
            out += played
            if node.hit is not None:
                x, y, r = (short(v) for v in node.hit)
                out.append(f'<circle class="hit" cx="{x}" cy="{y}" r="{r}"/>')
        else:
            out += [f'<g class="layer {node.value}">', *played]
        out.append("</g>")
    out += [_ring(ring, ident=ident) for ring in rings]
    return "\n".join((*out, "</svg>"))


def short(number: float) -> str:
    """Print a coordinate to a hundredth without trailing noughts.

    Examples
    --------
    >>> short(12.504), short(-0.001), short(3.0)
    ('12.5', '0', '3')
    """
    shown = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


@lru_cache(maxsize=4096)
def value(text: str) -> str:
    """Write any text as the value of an attribute, in its quotes."""
    return quoteattr(NOT_XML.sub("\ufffd", text))


def _sorted_out(
    strokes: Iterable[Stroke], group_of: GroupOf
) -> list[tuple[Layer | Group, list[Stroke]]]:
    """Gather strokes by what they are part of, each gathering at the place of its first stroke."""
    nodes: list[tuple[Layer | Group, list[Stroke]]] = []
    groups: dict[Group, list[Stroke]] = {}
    last: Group | None = None
    for stroke in strokes:
        if stroke.ident:
            last = group_of(stroke)
        elif stroke.layer not in JOINING:
            last = None
        if last is not None:
            if last not in groups:
                groups[last] = []
                nodes.append((last, groups[last]))
            groups[last].append(stroke)
        elif nodes and nodes[-1][0] == stroke.layer:
            nodes[-1][1].append(stroke)
        else:
            nodes.append((stroke.layer, [stroke]))
    return nodes


def _opened(group: Group, *, ident: str, first: bool) -> str:
    parts = [f"<g class={value(group.kind)}"]
    if group.name:
        parts.append(f"id={value(f'{ident}-{group.name}')}")
    parts += [f"data-{name}={value(said)}" for name, said in group.data]
    if group.reached:
        parts.append(f'tabindex="{0 if first else -1}" role="img" aria-label={value(group.label)}')
    elif not group.label:
        parts.append('aria-hidden="true"')
    return " ".join(parts) + ">" + (f"<title>{escape(group.more)}</title>" if group.more else "")


def _played(strokes: Sequence[Stroke], scale: float) -> list[str]:
    """Write strokes; neighbours that look alike and have no words become one path."""
    out: list[str] = []
    for pen, run in groupby(strokes, key=_plain_pen):
        if pen is None:
            out += [_written(stroke, scale) for stroke in run]
            continue
        d = "".join(_way(stroke) for stroke in run)
        out.append(f'<path class="{classes(pen)}" d="{d}"/>')
    return out


def _plain_pen(stroke: Stroke) -> Pen | None:
    """Return the pen of a stroke that is a line and nothing else."""
    if isinstance(stroke, Line):
        return stroke.pen
    if isinstance(stroke, Path) and not (stroke.title or stroke.hatched or stroke.fill != "none"):
        return stroke.pen
    return None


@lru_cache(maxsize=1024)
def outline_data(path: Path) -> str:
    """Write a path; a polygon in steps of a tenth, which takes a third of the room.

    Examples
    --------
    >>> outline_data(Path(layer=Layer.OUTLINE, points=((0.0, 0.0), (3.04, 0.0), (2.8, -12.5))))
    'M0 0l3 0-.2-12.5z'
    """
    if path.bulges:
        return path_data(path, number=short)
    left, top = path.points[0]
    # From its first point on, so that the same base at another place is written only once.
    way = _steps(tuple([(round((x - left) * 10), round((y - top) * 10)) for x, y in path.points]))
    first = "".join(_tenths(round(v * 10)) for v in (left, top))
    return f"M{first.lstrip()}l{way}{'z' if path.closed else ''}"


@lru_cache(maxsize=512)
def _steps(tenths: tuple[tuple[int, int], ...]) -> str:
    """Write the way along a polygon, in tenths of a millimetre from its first point."""
    kept = thinned(tenths)
    steps = ((x - a, y - b) for (a, b), (x, y) in pairwise(kept) if (x, y) != (a, b))
    return "".join(_tenths(v) for step in steps for v in step).lstrip()


def thinned(points: Sequence[tuple[int, int]], *, off: float = 0.5) -> list[tuple[int, int]]:
    """Leave out the points of a way that lie no farther than ``off`` from the straight one.

    U. Ramer, Computer Graphics and Image Processing 1 (1972) 244; D. H. Douglas and T. K. Peucker,
    Cartographica 10 (1973) 112 (both from memory).

    Examples
    --------
    >>> thinned([(0, 0), (5, 0), (10, 0), (10, 8)])
    [(0, 0), (10, 0), (10, 8)]
    """
    (ax, ay), (bx, by) = points[0], points[-1]
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    far, at = 0.0, 0
    for index, (x, y) in enumerate(points[1:-1], 1):
        along = ((x - ax) * dx + (y - ay) * dy) / square if square else 0.0
        along = min(max(along, 0.0), 1.0)
        away = math.hypot(x - ax - along * dx, y - ay - along * dy)
        if away > far:
            far, at = away, index
    if far <= off:
        return [points[0], points[-1]]
    return [*thinned(points[: at + 1], off=off)[:-1], *thinned(points[at:], off=off)]


@lru_cache(maxsize=4096)
def _tenths(count: int) -> str:
    """Print tenths with the sign or the blank that parts them from what stands before."""
    shown = f"{abs(count) / 10:g}".removeprefix("0") or "0"
    return f"-{shown}" if count < 0 else f" {shown}"


def _way(stroke: Stroke) -> str:
    if isinstance(stroke, Path):
        return outline_data(stroke)
    assert isinstance(stroke, Line)
    x1, y1, x2, y2 = (short(v) for v in (stroke.x1_mm, stroke.y1_mm, stroke.x2_mm, stroke.y2_mm))
    if x1 == x2:
        return f"M{x1} {y1}V{y2}"
    return f"M{x1} {y1}H{x2}" if y1 == y2 else f"M{x1} {y1}L{x2} {y2}"


# Most of a drawing stands still while a row is dragged over it.
@lru_cache(maxsize=2048)
def _written(stroke: Stroke, scale: float) -> str:
    if isinstance(stroke, Text):
        return _text(stroke)
    apart = HATCH_APART_MM / scale
    if isinstance(stroke, Circle):
        shape = (
            f'circle class="{classes(stroke.pen)}" cx="{short(stroke.x_mm)}" '
            f'cy="{short(stroke.y_mm)}" r="{short(stroke.diameter_mm / 2)}"'
        )
        chords = circle_hatch(
            stroke.x_mm, stroke.y_mm, stroke.diameter_mm, apart_mm=apart, clear_mm=stroke.clear_mm
        )
    else:
        assert isinstance(stroke, Path)
        fill = f" f-{stroke.fill}" if stroke.fill_share > 0 else ""
        shape = f'path class="{classes(stroke.pen)}{fill}" d="{outline_data(stroke)}"'
        chords = path_hatch(stroke.points, stroke.bulges, apart_mm=apart) if stroke.hatched else ()
    # The words of a hole are its group's; a base has its own.
    title = stroke.title if stroke.layer not in JOINING else ""
    name = shape.partition(" ")[0]
    out = f"<{shape}><title>{escape(title)}</title></{name}>" if title else f"<{shape}/>"
    if stroke.hatched:
        d = "".join(f"M{short(a)} {short(b)}L{short(x)} {short(y)}" for a, b, x, y in chords)
        out += f'<path class="{classes(Pen(weight="dimension", ink=stroke.pen.ink))}" d="{d}"/>'
    return out


def classes(pen: Pen) -> str:
    """Return the classes of a pen: its ink, its weight and its dashes.

    Examples
    --------
    >>> classes(Pen(ink="cut", dash="dashed")), classes(Pen(weight="fine"))
    ('p i-cut w-hole d-dashed', 'p i-ink w-fine')
    """
    dashes = f" d-{pen.dash}" if pen.dash != "solid" else ""
    return f"p i-{pen.ink} w-{pen.weight}{dashes}"


def _text(text: Text) -> str:
    bold = " b" if text.bold else ""
    anchor = f' text-anchor="{text.anchor}"' if text.anchor != "start" else ""
    x, y = short(text.x_mm), short(text.y_mm)
    turn = f' transform="rotate({short(text.turned_deg)} {x} {y})"' if text.turned_deg else ""
    return (
        f'<text class="t i-{text.ink}{bold}" x="{x}" y="{y}" font-size="{short(text.size_mm)}"'
        f"{anchor}{turn}>{escape(text.text)}</text>"
    )


def _ring(ring: Ring, *, ident: str) -> str:
    holes = " ".join(str(number) for number in ring.holes)
    circles = "".join(
        f'<circle class="p w-outline" cx="{short(x)}" cy="{short(y)}" r="{short(r)}"/>'
        for x, y, r in ring.circles
    )
    where = f'id={value(f"{ident}-{ring.name}")} data-holes="{holes}"'
    return f'<g class="place" {where} aria-hidden="true">{circles}</g>'
