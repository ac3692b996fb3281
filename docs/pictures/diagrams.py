"""Draw the diagrams of the pages: every mark, a small search for the best reuse, a lobed shell.

``.venv/bin/python docs/pictures/diagrams.py`` writes them beside this script. The marks are drawn
by the code that draws templates; every disc, candidate and answer comes from the search itself,
and the circles of the lobed shell from its own readings. The same code gives the same bytes, and a
test holds the files to it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from counterhoop.papers.drawing.legend import ORDER, lay_out
from counterhoop.papers.drawing.manner import WORKING
from counterhoop.papers.drawing.records import Drawing, Text
from counterhoop.papers.svg import to_svg
from counterhoop.scheme.reuse import (
    BarredDrill,
    Limits,
    OldHole,
    Reuse,
    WantedHole,
    WantedRow,
    Window,
    best_reuse,
    reuse_at,
)
from counterhoop.survey.circle_readings import RadialReadings
from counterhoop.survey.circle_zone import minimum_zone_circle

HERE = Path(__file__).parent
GIRTH_MM = 400.0
ROW = WantedRow(
    holes=(WantedHole(right_mm=0.0, down_mm=0.0, hole_mm=6.0, screw_mm=4.4),),
    count=4,
    girth_mm=GIRTH_MM,
)
OLD = tuple(
    OldHole(number=number, along_mm=along, down_mm=down, diameter_mm=6.0)
    for number, along, down in (
        (1, 0.9, 41.2),
        (2, 101.9, 38.9),
        (3, 203.6, 40.7),
        (4, 296.8, 39.6),
    )
)
IDEAL = (0.0, 40.0)
WINDOW = Window(turn_min_mm=-6.0, turn_max_mm=7.0, down_min_mm=36.0, down_max_mm=44.0)
WHOLE = (WINDOW.turn_min_mm, WINDOW.down_min_mm, WINDOW.turn_max_mm, WINDOW.down_max_mm)
LIMITS = Limits(keep_mm=0.8, enlarge_mm=2.0, slot_mm=2.0, bush=False)
STEP_MM = 0.1
PER_MM = 46.0
INK, PALE, BEST = "#22303a", "#d9d3c3", "#b5482a"
SHELL_MM, LOBE_MM = 100.0, 9.0
PANEL = 270.0
SHADES = ("#ffffff", "#efe9dc", "#ddd0b4", "#c6b083", "#a98c54")


def main() -> None:
    """Write them all."""
    for name, text in diagrams().items():
        (HERE / name).write_text(text, encoding="utf-8")
        print(name)


def diagrams() -> dict[str, str]:
    """Return each diagram by its name."""
    return {
        "verdict-marks.svg": verdict_marks(),
        "reuse.svg": reuse(),
        "ring.svg": ring(),
        "three-lobes.svg": three_lobes(),
    }


def verdict_marks() -> str:
    """One sample of every mark with its word, as the legend of a template draws it."""
    strokes = lay_out(
        [(verdict.value, verdict) for verdict in ORDER], x_mm=2.0, y_mm=0.0, wide_mm=120.0,
        manner=WORKING,
    )  # fmt: skip
    low = max(s.y_mm for s in strokes if isinstance(s, Text)) + 7.0
    return to_svg(
        Drawing(
            left_mm=0.0, top_mm=0.0, width_mm=124.0, height_mm=low, strokes=strokes,
            title="The marks of the eight verdicts",
            says="Keep: circle. Enlarge: circle in circle. Slot: stadium round a circle. Plug: "
            "hatched circle. Drill: circle with a cross. Plug and drill: hatched circle with a "
            "cross. Leave open: thin circle. Plugged already: thin circle, crossed out.",
        )
    )  # fmt: skip


def reuse() -> str:
    """The poses of a row of four lugs over four old holes that lie a little off."""
    found = best_reuse(ROW, OLD, window=WINDOW, ideal=IDEAL, limits=LIMITS)
    assert isinstance(found, Reuse)
    out = _shaded()
    for hole in OLD:
        x, y = _own_pose(hole)
        out += [_circle(x, y, LIMITS.enlarge_mm), _circle(x, y, LIMITS.keep_mm, dash="5 4")]
        away = -LIMITS.enlarge_mm - 0.15 if y < IDEAL[1] else LIMITS.enlarge_mm + 0.4
        out.append(_text(x, y + away, f"hole {hole.number}", anchor="middle"))
    out += [_cross(*IDEAL, INK), _text(IDEAL[0] - 0.25, IDEAL[1] + 0.1, "ideal", anchor="end")]
    out += [_dot(found.turn_mm, found.down_mm)]
    out += [_text(found.turn_mm, found.down_mm + 0.5, "the answer", anchor="middle", fill=BEST)]
    says = (
        f"Each circle holds the places of the row at which one old hole can be used. The answer "
        f"lies {found.turn_mm:.2f} mm along and {found.down_mm:.2f} mm down, where "
        f"{found.used} of {len(OLD)} can: {found.kept} kept, {found.enlarged} enlarged."
    )
    return _svg(out, title="Best use of four old holes", says=says)


def ring() -> str:
    """A disc round one old hole, and inside it a disc in which another lug meets a hole."""
    old = OLD[2]
    x, y = _own_pose(old)
    bar = BarredDrill(along_mm=100.0 + x - 0.15, down_mm=y + 0.1, radius_mm=1.2)
    found = best_reuse(
        ROW, [old], window=WINDOW, ideal=(x - 0.4, y), limits=LIMITS, barred_drill=[bar]
    )
    assert isinstance(found, Reuse)
    assert found.used == 1
    inner = (bar.along_mm - 100.0, bar.down_mm)
    left = x - LIMITS.enlarge_mm - 0.2
    out = [
        _circle(x, y, LIMITS.enlarge_mm, fill=SHADES[2]),
        _circle(*inner, bar.radius_mm, fill="#ffffff"),
        _text(left, y - 1.4, "hole 3 can be used", anchor="end"),
        _text(inner[0], inner[1] + 0.8, "barred", anchor="middle"),
        _cross(x - 0.4, y, INK),
        _dot(found.turn_mm, found.down_mm),
        _text(left, found.down_mm + 0.1, "the answer", anchor="end", fill=BEST),
    ]
    return _svg(
        out,
        title="A ring without a corner",
        says="Round an old hole lies a disc in which it serves, and inside it a smaller disc that "
        "is barred. What is left is a ring whose two borders cross nothing. The answer is the "
        "point of the inner border nearest to the ideal.",
        window=(x - 5.4, y - 2.3, x + 2.3, y + 2.3),
    )


def three_lobes() -> str:
    """A shell with three lobes: what a caliper says of it, and what radii say."""
    rim = [_lobed(turn) for turn in range(0, 360, 2)]
    zone = minimum_zone_circle(
        RadialReadings(
            along_deg=tuple(math.degrees(math.atan2(y, x)) % 360.0 for x, y in rim),
            radius_mm=tuple(math.hypot(x, y) for x, y in rim),
        )
    )
    out = [_outline(rim, left=0.0), _outline(rim, left=PANEL)]
    widths = []
    for turn in (10, 70, 130):
        strokes, width = _jaws(rim, turn)
        out += strokes
        widths.append(f"{width:.0f}")
    middle = 1.5 * PANEL
    for radius in (zone.inner_mm, zone.outer_mm):
        out.append(
            f'<circle cx="{middle:.1f}" cy="{PANEL / 2:.1f}" r="{radius:.1f}" fill="none" '
            f'stroke="{BEST}" stroke-width="1.5" stroke-dasharray="5 4"/>'
        )
    for turn, radius, right, down in (
        (120, zone.outer_mm, 22.0, 8.0),
        (180, zone.inner_mm, 0.0, -8.0),
    ):
        x, y = middle + radius * _cos(turn), PANEL / 2 + radius * _sin(turn)
        out.append(_line(middle, PANEL / 2, x, y, ink=BEST))
        where = (middle + x) / 2 + right, (PANEL / 2 + y) / 2 + down
        out.append(_words(*where, f"{radius:.0f}"))
    out.append(_words(PANEL / 2, PANEL + 14, f"across: {', '.join(widths)}"))
    apart = zone.total_mm
    out.append(_words(middle, PANEL + 14, f"between two circles: {apart:.0f}"))
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {2 * PANEL:.0f} '
            f'{PANEL + 24:.0f}" width="{2 * PANEL:.0f}" role="img" '
            'font-family="Inter, sans-serif">',
            "<title>A shell with three lobes</title>",
            "<desc>The same outline twice, its lobes drawn far too strong. On the left three pairs "
            f"of caliper jaws in different directions all read {widths[0]}. On the right the "
            f"outline lies between two circles about one middle, {apart:.0f} apart: radii from "
            f"there run from {zone.inner_mm:.0f} to {zone.outer_mm:.0f}.</desc>",
            f'<rect width="{2 * PANEL:.0f}" height="{PANEL + 24:.0f}" fill="#ffffff"/>',
            *out,
            "</svg>\n",
        ]
    )


def _lobed(turn: float) -> tuple[float, float]:
    """A point of an outline whose tangent lies ``R + a cos 3 turn`` off the middle."""
    away = SHELL_MM + LOBE_MM * _cos(3 * turn)
    along = -3.0 * LOBE_MM * _sin(3 * turn)
    return away * _cos(turn) - along * _sin(turn), away * _sin(turn) + along * _cos(turn)


def _jaws(rim: Sequence[tuple[float, float]], turn: float) -> tuple[list[str], float]:
    """Two jaws of a caliper on the outline, the beam between them, and what it reads."""
    c, s = _cos(turn), _sin(turn)
    reach = [x * c + y * s for x, y in rim]
    out, ends = [], []
    for off in (max(reach), min(reach)):
        x, y = PANEL / 2 + off * c, PANEL / 2 + off * s
        out.append(_line(x - 40 * s, y + 40 * c, x + 40 * s, y - 40 * c, ink=INK))
        ends += [x, y]
    return [*out, _line(*ends, ink=SHADES[4])], max(reach) - min(reach)


def _outline(rim: Sequence[tuple[float, float]], *, left: float) -> str:
    middle = left + PANEL / 2
    points = " ".join(f"{middle + x:.1f},{PANEL / 2 + y:.1f}" for x, y in rim)
    return f'<polygon points="{points}" fill="none" stroke="{INK}" stroke-width="2.5"/>'


def _line(x1: float, y1: float, x2: float, y2: float, *, ink: str) -> str:
    return (
        f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="{ink}" '
        'stroke-width="1.5"/>'
    )


def _words(x: float, y: float, words: str) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="15" text-anchor="middle" fill="{INK}">'
        f"{words}</text>"
    )


def _cos(turn: float) -> float:
    return math.cos(math.radians(turn))


def _sin(turn: float) -> float:
    return math.sin(math.radians(turn))


def _own_pose(hole: OldHole) -> tuple[float, float]:
    """The pose at which a lug of the row stands exactly on the hole."""
    spacing = ROW.period_mm
    return (hole.along_mm + spacing / 2) % spacing - spacing / 2, hole.down_mm


def _shaded() -> list[str]:
    """Tint each small square by how many old holes can be used there: asked of the search."""
    out = []
    w = WINDOW
    rows = round((w.down_max_mm - w.down_min_mm) / STEP_MM)
    columns = round((w.turn_max_mm - w.turn_min_mm) / STEP_MM)
    for r in range(rows):
        y = w.down_min_mm + (r + 0.5) * STEP_MM
        used = _along(y, columns)
        start = 0
        for c in range(1, columns + 1):
            if c == columns or used[c] != used[start]:
                if used[start]:
                    out.append(_box(w.turn_min_mm + start * STEP_MM, y, c - start, used[start]))
                start = c
    return out


def _along(y: float, columns: int) -> list[int]:
    """Ask every fourth square of a line, and those between two that are not alike.

    A tip of a disc narrower than that may lose a square of 0.1 mm, under the line drawn there.
    """

    @cache
    def ask(c: int) -> int:
        x = WINDOW.turn_min_mm + (c + 0.5) * STEP_MM
        return reuse_at(ROW, OLD, turn_mm=x, down_mm=y, limits=LIMITS).used

    def one(c: int) -> int:
        before, after = c - c % 4, min(c - c % 4 + 4, columns - 1)
        return ask(before) if ask(before) == ask(after) else ask(c)

    return [one(c) for c in range(columns)]


def _box(x: float, y: float, steps: int, used: int) -> str:
    left, top = _at(x, y - STEP_MM / 2)
    wide, high = steps * STEP_MM * PER_MM, STEP_MM * PER_MM
    return (
        f'<rect x="{left:.1f}" y="{top:.1f}" width="{wide:.1f}" height="{high + 0.6:.1f}" '
        f'fill="{SHADES[used]}"/>'
    )


def _at(x: float, y: float) -> tuple[float, float]:
    return (x - WINDOW.turn_min_mm) * PER_MM, (y - WINDOW.down_min_mm) * PER_MM


def _circle(x: float, y: float, r: float, *, fill: str = "none", dash: str = "") -> str:
    cx, cy = _at(x, y)
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<circle cx="{cx:.1f}" cy="{cy:.1f}" r="{r * PER_MM:.1f}" fill="{fill}" '
        f'stroke="{INK}" stroke-width="1.5"{dashed}/>'
    )


def _dot(x: float, y: float) -> str:
    cx, cy = _at(x, y)
    return f'<circle cx="{cx:.1f}" cy="{cy:.1f}" r="6" fill="{BEST}"/>'


def _cross(x: float, y: float, ink: str) -> str:
    cx, cy = _at(x, y)
    arms = f"M{cx - 8:.1f} {cy:.1f}h16M{cx:.1f} {cy - 8:.1f}v16"
    return f'<path d="{arms}" stroke="{ink}" stroke-width="2"/>'


def _text(x: float, y: float, words: str, *, anchor: str = "start", fill: str = INK) -> str:
    cx, cy = _at(x, y)
    return (
        f'<text x="{cx:.1f}" y="{cy:.1f}" font-size="15" text-anchor="{anchor}" '
        f'fill="{fill}">{words}</text>'
    )


def _svg(
    parts: Sequence[str],
    *,
    title: str,
    says: str,
    window: tuple[float, float, float, float] = WHOLE,
) -> str:
    left, top = _at(*window[:2])
    right, low = _at(*window[2:])
    wide, high = right - left, low - top
    box = f"{left:.0f} {top:.0f} {wide:.0f} {high:.0f}"
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" '
            f'width="{wide:.0f}" role="img" font-family="Inter, sans-serif">',
            f"<title>{title}</title>",
            f"<desc>{says}</desc>",
            f'<rect x="{left:.0f}" y="{top:.0f}" width="{wide:.0f}" height="{high:.0f}" '
            'fill="#ffffff"/>',
            *parts,
            "</svg>\n",
        ]
    )


if __name__ == "__main__":
    main()
