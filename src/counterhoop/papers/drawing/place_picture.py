"""A place on a drum with a fitting laid over it as it would stand."""

from __future__ import annotations

from collections.abc import Iterator

from counterhoop.development.outline import Outline
from counterhoop.papers.drawing.bases import STYLE
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.marks import DOTTED
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
from counterhoop.parts.places.place import HoleAt, Place
from counterhoop.parts.places.serves import Serves
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.reuse.limits import Tier

AROUND_MM = 8.0
LETTER_MM = 4.2
BAR_MM = 20.0
ARMS_MM = 2.0
KEPT, CUT, NEW = Pen(ink="kept"), Pen(ink="cut"), Pen(ink="proposed")
OPEN = Pen(ink="ink", weight="dimension")
FINE = Pen(weight="fine")


def place_drawing(place: Place, one: Serves, *, title: str) -> Drawing:
    """Draw a fitting over a place: shadow dotted, base dashed, each hole by what happens to it.

    Parameters
    ----------
    place : Place
    one : Serves
        That serves at it.
    """
    strokes = [*_marks(place), *_base(one), *_holes(place, one)]
    boxes = [extent_box(stroke) for stroke in strokes]
    left, top = min(b[0] for b in boxes), min(b[1] for b in boxes)
    right, bottom = max(b[2] for b in boxes), max(b[3] for b in boxes)
    strokes += _bar(left, bottom + 6.0)
    right = max(right, left + BAR_MM + 14.0)
    return Drawing(
        left_mm=left - AROUND_MM,
        top_mm=top - AROUND_MM,
        width_mm=right - left + 2.0 * AROUND_MM,
        height_mm=bottom - top + 2.0 * AROUND_MM + 6.0,
        strokes=tuple(strokes),
        title=title,
        says="Seen from outside, the batter edge up. " + _in_words(place, one),
    )


def _marks(place: Place) -> Iterator[Stroke]:
    chosen = {f"hole {hole.number}" for hole in place.holes}
    for number, mark in enumerate(place.marks, 1):
        if mark.called in chosen:
            continue
        what, _, its = mark.called.partition(" ")
        cut = what in ("plug", "hole")
        yield Path(
            layer=Layer.PLUGGED_ALREADY if cut else Layer.SHADOW,
            points=mark.outline.points,
            pen=OPEN if cut else DOTTED,
            hatched=what == "plug",
            ident=f"mark-{number}",
            title=mark.called,
        )
        if cut:
            _, top, right, bottom = mark.outline.bounds_mm
            yield _number(its, right_mm=right, down_mm=(top + bottom) / 2.0)


def _base(one: Serves) -> Iterator[Stroke]:
    if one.pose is None or one.fitting.base is None:
        return
    layer, pen = STYLE["new"]
    base: Outline = one.pose.laid(one.fitting.base)
    yield Path(
        layer=layer, points=base.points, pen=pen, fill="proposed", fill_share=0.06, ident="base",
        title=one.fitting.name,
    )  # fmt: skip


def _holes(place: Place, one: Serves) -> Iterator[Stroke]:
    pairs = {pair.hole: pair for pair in (one.match.pairs if one.match else ())}
    for number, hole in enumerate(place.holes):
        pair = pairs.get(number)
        ident = f"hole-{hole.number or number + 1}"
        if pair is None:
            yield _ring(hole, Layer.LEAVE_OPEN, OPEN, ident, "not used")
        elif pair.tier is Tier.KEEP:
            yield _ring(hole, Layer.KEEP, KEPT, ident, "kept")
        else:
            yield _ring(hole, Layer.ENLARGE, CUT, ident, "made larger")
            x, y = _opening(hole, one, pair.pattern, pair.opening_mm)
            yield Circle(
                layer=Layer.ENLARGE, x_mm=x, y_mm=y, diameter_mm=pair.opening_mm, pen=CUT,
                ident=f"{ident}-opening",
            )  # fmt: skip
        right_mm = hole.along_mm + hole.diameter_mm / 2.0
        yield _number(str(hole.number or ""), right_mm=right_mm, down_mm=hole.down_mm)
    yield from _new_holes(one)


def _new_holes(one: Serves) -> Iterator[Stroke]:
    if one.pose is None:
        return
    new = one.match.new if one.match else range(len(one.fitting.holes))
    for number in new:
        wanted = one.fitting.holes[number]
        x, y = one.pose.at(wanted.right_mm, wanted.down_mm)
        reach = wanted.hole_mm / 2.0 + ARMS_MM
        yield Circle(
            layer=Layer.DRILL, x_mm=x, y_mm=y, diameter_mm=wanted.hole_mm, pen=NEW,
            ident=f"new-{number + 1}", title="a new hole",
        )  # fmt: skip
        for dx, dy in ((reach, 0.0), (0.0, reach)):
            yield Line(
                layer=Layer.DRILL, x1_mm=x - dx, y1_mm=y - dy, x2_mm=x + dx, y2_mm=y + dy, pen=FINE
            )


def _number(text: str, *, right_mm: float, down_mm: float) -> Text:
    return Text(
        layer=Layer.NUMBER, x_mm=right_mm + 1.5, y_mm=down_mm + LETTER_MM / 3.0, text=text,
        size_mm=LETTER_MM,
    )  # fmt: skip


def _ring(hole: HoleAt, layer: Layer, pen: Pen, ident: str, says: str) -> Circle:
    return Circle(
        layer=layer, x_mm=hole.along_mm, y_mm=hole.down_mm, diameter_mm=hole.diameter_mm, pen=pen,
        ident=ident, title=f"hole {hole.number}, {says}",
    )  # fmt: skip


def _opening(hole: HoleAt, one: Serves, number: int, opening_mm: float) -> tuple[float, float]:
    """The opening holds the old hole and the wanted one: its middle lies on the way to that."""
    assert one.pose is not None
    wanted = one.fitting.holes[number]
    x, y = one.pose.at(wanted.right_mm, wanted.down_mm)
    off = ((x - hole.along_mm) ** 2 + (y - hole.down_mm) ** 2) ** 0.5
    share = min(1.0, (opening_mm - hole.diameter_mm) / 2.0 / off) if off > 1e-9 else 0.0
    return (hole.along_mm + share * (x - hole.along_mm), hole.down_mm + share * (y - hole.down_mm))


def _bar(left_mm: float, down_mm: float) -> Iterator[Stroke]:
    yield Line(
        layer=Layer.SCALE, x1_mm=left_mm, y1_mm=down_mm, x2_mm=left_mm + BAR_MM, y2_mm=down_mm,
        pen=Pen(weight="outline"),
    )  # fmt: skip
    yield Text(
        layer=Layer.SCALE, x_mm=left_mm + BAR_MM + 2.0, y_mm=down_mm + LETTER_MM / 3.0,
        text=print_mm(BAR_MM), size_mm=LETTER_MM,
    )  # fmt: skip


def _in_words(place: Place, one: Serves) -> str:
    pairs = one.match.pairs if one.match else ()
    used = {pair.hole: pair.tier for pair in pairs}
    said = []
    for number, hole in enumerate(place.holes):
        tier = used.get(number)
        does = "not used" if tier is None else "kept" if tier is Tier.KEEP else "made larger"
        said.append(f"Hole {hole.number} is {does}.")
    new = len(one.match.new) if one.match else len(one.fitting.holes)
    if new:
        said.append("One new hole." if new == 1 else f"{new} new holes.")
    return " ".join(said)
