"""Names beside fittings, marks and row lines, where there is room for them."""

from __future__ import annotations

import math
from typing import TypeAlias

from counterhoop.fittings.entry import Kind
from counterhoop.papers.drawing.labels import Room
from counterhoop.papers.drawing.lettering import CAP_SHARE, DROP_SHARE, Box, width_mm
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Layer, Stroke, Text
from counterhoop.papers.drawing.view import View

Offsets: TypeAlias = tuple[tuple[float, float], ...]
"""Where words may stand, from the point that they belong to to the middle of their line."""
Wording: TypeAlias = tuple[str, Offsets]
CUT_OUT = frozenset(Kind) - {Kind.LUG, Kind.LONG_LUG}


def note_strokes(view: View, *, manner: Manner, room: Room) -> tuple[Stroke, ...]:
    """Name what is not a hole; a name that finds no room is left out (its title keeps it).

    The room knows what is drawn; names are taken in it as they are placed.
    """
    size = manner.mm(manner.note_mm)
    found: list[Stroke] = []
    for wordings, x, y in wanted(view, manner=manner, bounds=room.bounds):
        for text, tries in wordings:
            placed = _place(text, x=x, y=y, tries=tries, size=size, room=room, pad=manner.mm(0.6))
            if placed is not None:
                room.take([placed])
                found.append(placed)
                break
    return tuple(found)


def wanted(
    view: View, *, manner: Manner, bounds: Box
) -> list[tuple[tuple[Wording, ...], float, float]]:
    """Wordings, the first the best, and the point that they belong to."""
    size = manner.mm(manner.note_mm)
    asks: list[tuple[tuple[Wording, ...], float, float]] = []
    c = view.around_mm

    def ask(text: str, x: float, y: float, tries: Offsets, *shorter: Wording) -> None:
        for at in (x - c, x, x + c):
            if bounds[0] <= at <= bounds[2]:
                asks.append((((text, tries), *shorter), at, y))

    for plan in view.fittings:
        if plan.status == "goes" or plan.outline is None:
            continue
        left, top, right, bottom = plan.outline.bounds_mm
        x, y = view.x_mm(plan.place.along_deg), plan.place.down_mm
        high = size * 1.2
        if plan.fitting.kind in (Kind.LUG, Kind.LONG_LUG):
            below = y + top > view.depth_at_mm(x) / 2
            side = (bottom + high) if below else (top - high * 0.4)
            # Which head it is of, its place says too.
            names = dict.fromkeys((plan.label, f"lug {plan.label.rpartition('lug ')[2]}"))
            first, *short = [
                (name, _round_lug(name, plan.outline.bounds_mm, side=side, size=size))
                for name in names
            ]
            ask(first[0], x, y, first[1], *short)
            continue
        middle = ((left + right) / 2, (top + bottom) / 2 + size * CAP_SHARE / 2)
        tries = [middle]
        for step in (0.0, 1.0, 2.0):
            tries += [
                (middle[0], bottom + high * (1 + step)),
                (middle[0], top - high * (0.4 + step)),
            ]
        aside = width_mm(plan.label, size_mm=size) / 2 + size * 0.5
        for down in (middle[1], bottom, top + size):
            tries += [(right + aside, down), (left - aside, down)]
        for step in (0.0, 1.0, 2.0, 3.0):
            for down in (bottom + high * (1 + step), top - high * (0.4 + step)):
                tries += [(aside, down), (-aside, down)]
        if manner.what == "template" and plan.fitting.kind in CUT_OUT and plan.status == "stays":
            ask(f"{plan.label}: cut out", x, y, tuple(tries))
        else:
            ask(plan.label, x, y, tuple(tries))
    if manner.what == "client":
        return asks
    for mark in view.marks:
        left, top, right, bottom = mark.outline.bounds_mm
        x, y = view.x_mm(mark.place.along_deg), mark.place.down_mm
        if manner.what != "template":
            ask(mark.kind, x, y, ((0.0, bottom + size), (0.0, top - size * 0.4)))
    for line in view.lines:
        wide = width_mm(line.kind, size_mm=size) / 2 + size
        halfway = (line.from_mm + line.to_mm) / 2
        ups = tuple(
            (side * wide, step * size) for step in (0, 2, -2, 4, -4, 7, -7) for side in (1, -1)
        )
        ask(line.kind, view.x_mm(line.along_deg), halfway, ups)
    if view.seam is not None:
        wide = view.x_mm((view.seam.to_deg - view.seam.from_deg) % 360.0)
        x = view.x_mm(view.seam.from_deg % 360.0) + wide / 2
        depth = view.depth_at_mm(x)
        ask("wrap seam", x, depth, tuple((0.0, -step * size) for step in (0.8, 2.4, 4.0, 7.0)))
    for bed in view.beds:
        above = ((0.0, -size), (0.0, -2.5 * size))
        x = view.x_mm(bed.along_deg)
        ask("snare bed", x, view.depth_at_mm(x), above)
    return asks


def _round_lug(text: str, bounds_mm: Box, *, side: float, size: float) -> Offsets:
    """Where a lug's name may stand: over or under its base, beside it, farther up and down."""
    left, top, right, bottom = bounds_mm
    wide = width_mm(text, size_mm=size) / 2 + size * 0.5
    tries = [(wide, side), (-wide, side), (wide, -side), (0.0, 0.0), (-wide, -side)]
    # Where numbers took all of these.
    for down in (0.0, top + size, bottom):
        tries += [(right + wide, down), (left - wide, down)]
    for step in (1.0, 2.0, 3.0):
        for far in (side + math.copysign(size * 1.2 * step, side), -side):
            tries += [(wide, far), (-wide, far), (0.0, far)]
    return tuple(tries)


def _place(
    text: str, *, x: float, y: float, tries: Offsets, size: float, room: Room, pad: float
) -> Text | None:  # fmt: skip
    half = width_mm(text, size_mm=size) / 2
    about = (-half, -CAP_SHARE * size, half, DROP_SHARE * size)
    chosen = room.first_free(about, [(x + dx, y + dy) for dx, dy in tries], pad_mm=pad)
    if chosen is None:
        return None
    return Text(
        layer=Layer.NOTE, x_mm=chosen[0] - half, y_mm=chosen[1], text=text, size_mm=size,
        anchor="start",
    )  # fmt: skip
