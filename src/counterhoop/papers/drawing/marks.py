"""What else is on the skin: shadows, imprints, the seam, cracks, seams of plies, beds."""

from __future__ import annotations

from collections.abc import Collection

from counterhoop.papers.drawing.around import Around
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Layer, Line, Path, Pen, Stroke
from counterhoop.papers.drawing.view import View, laid_on_shell
from counterhoop.shell.drum import Bed, PlySeam

DOTTED = Pen(weight="dimension", dash="dotted", ink="shadow")
HIDDEN = Pen(weight="fine", dash="dashed", ink="shadow")
ZIGZAG_STEP_MM = 3.0
ZIGZAG_OUT_MM = 1.2
HARM = ("crack", "lifted ply")


def mark_strokes(view: View, *, manner: Manner, around: Around) -> tuple[Stroke, ...]:
    """Draw shadows and imprints dotted, things inside hidden, the seam as a band, cracks as zigzag.

    A fitting on the drum as found that goes has its shadow drawn by its base.
    """
    strokes: list[Stroke] = [*seam_strokes(view, around=around)]
    for number, mark in enumerate(view.marks, 1):
        left, _, right, _ = mark.outline.bounds_mm
        x = view.x_mm(mark.place.along_deg)
        of = f" of {mark.of}" if mark.of else ""
        for at, copy in around.seen(x, from_mm=left, to_mm=right):
            points = laid_on_shell(mark.outline, at, mark.place.down_mm, flat=view.flat)
            if not points:
                continue
            strokes.append(
                Path(
                    layer=Layer.SHADOW,
                    points=points,
                    pen=DOTTED,
                    ident=f"{mark.kind}-{number}{copy}",
                    title=f"{mark.kind}{of}",
                )
            )
    if manner.what != "client":
        strokes += inside_strokes(view, around=around)
        strokes += line_strokes(view, manner=manner, around=around)
    return (*strokes, *bed_strokes(view, around=around))


def line_strokes(
    view: View, *, manner: Manner, around: Around, kinds: Collection[str] = ()
) -> tuple[Stroke, ...]:
    """Draw what runs down the shell: cracks, lifted plies, seams of plies; all, or some kinds."""
    return tuple(
        _down_the_shell(line, x=at, ident=f"line-{number}{copy}", manner=manner)
        for number, line in enumerate(view.lines, 1)
        if not kinds or line.kind in kinds
        for at, copy in around.seen(
            view.x_mm(line.along_deg), from_mm=-ZIGZAG_OUT_MM, to_mm=ZIGZAG_OUT_MM
        )
    )


def seam_strokes(view: View, *, around: Around) -> tuple[Stroke, ...]:
    """The wrap's overlap as a band from edge to edge."""
    if view.seam is None:
        return ()
    start = view.x_mm(view.seam.from_deg % 360.0)
    wide = view.x_mm((view.seam.to_deg - view.seam.from_deg) % 360.0)
    return tuple(
        Path(
            layer=Layer.SEAM,
            points=(
                (at, 0.0),
                (at + wide, 0.0),
                (at + wide, view.depth_at_mm(at + wide)),
                (at, view.depth_at_mm(at)),
            ),
            pen=Pen(weight="dimension", ink="ink"),
            fill="shadow",
            fill_share=0.12,
            ident=f"seam{copy}",
            title="wrap seam",
        )
        for at, copy in around.seen(start, from_mm=0.0, to_mm=wide)
    )


def inside_strokes(view: View, *, around: Around) -> tuple[Stroke, ...]:
    """What lies behind the shell, as hidden outlines."""
    found: list[Stroke] = []
    for number, (what, place, outline) in enumerate(view.inside, 1):
        left, _, right, _ = outline.bounds_mm
        for at, copy in around.seen(view.x_mm(place.along_deg), from_mm=left, to_mm=right):
            found.append(
                Path(
                    layer=Layer.NOTE,
                    points=outline.moved(at, place.down_mm).points,
                    pen=HIDDEN,
                    ident=f"inside-{number}{copy}",
                    title=f"inside: {what}",
                )
            )
    return tuple(found)


def bed_strokes(view: View, *, around: Around) -> tuple[Stroke, ...]:
    """A snare bed as a flat trapezium on the resonant edge."""
    found: list[Stroke] = []
    for number, bed in enumerate(view.beds, 1):
        half = bed_half_mm(bed)
        deep = max(bed.deep_mm, 2.0)
        points = ((-half, 0.0), (-half * 0.7, deep), (half * 0.7, deep), (half, 0.0))
        for at, copy in around.seen(view.x_mm(bed.along_deg), from_mm=-half, to_mm=half):
            found.append(
                Path(
                    layer=Layer.OUTLINE,
                    points=tuple((at + x, view.depth_at_mm(at + x) - up) for x, up in points),
                    closed=False,
                    pen=Pen(weight="dimension"),
                    ident=f"bed-{number}{copy}",
                    title="snare bed",
                )
            )
    return tuple(found)


def bed_half_mm(bed: Bed) -> float:
    """Half the width that a bed is drawn with; a bed of no stated width is a small one."""
    return max(bed.wide_mm / 2.0, 6.0)


def _down_the_shell(line: PlySeam, *, x: float, ident: str, manner: Manner) -> Stroke:
    title = line.kind + (f": {line.says}" if line.says else "")
    if line.kind in HARM:
        step, out = manner.mm(ZIGZAG_STEP_MM), manner.mm(ZIGZAG_OUT_MM)
        count = max(2, round((line.to_mm - line.from_mm) / step))
        tall = (line.to_mm - line.from_mm) / count
        points = tuple(
            (x + (0.0 if i in (0, count) else out * (-1) ** i), line.from_mm + i * tall)
            for i in range(count + 1)
        )
        return Path(
            layer=Layer.DAMAGE, points=points, closed=False, pen=Pen(ink="cut"), ident=ident,
            title=title,
        )  # fmt: skip
    pen = HIDDEN if line.kind == "ply seam" else Pen(weight="fine", dash="chain", ink="shadow")
    return Line(
        layer=Layer.DAMAGE, x1_mm=x, y1_mm=line.from_mm, x2_mm=x, y2_mm=line.to_mm, pen=pen,
        ident=ident,
    )  # fmt: skip
