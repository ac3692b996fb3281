"""What the exact search is asked: a row, the old holes, and where it may not stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.development.outline import Outline
from counterhoop.development.shape import HoleShape, Oval
from counterhoop.development.surface import Surface
from counterhoop.fittings.entry import PatternHole
from counterhoop.scheme.bars import Bar, bars_for
from counterhoop.scheme.draft import Draft, is_vent, may_serve
from counterhoop.scheme.level import Level
from counterhoop.scheme.reuse import (
    Barred,
    BarredDrill,
    Limits,
    NoRoom,
    OldHole,
    Reuse,
    WantedHole,
    WantedRow,
    Window,
    best_reuse,
    reuse_at,
)
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules

if TYPE_CHECKING:
    from counterhoop.scheme.row import RowWanted


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """How far a row may lie from where the eye expects it.

    ``clear_of_old`` asks for a place whose new holes all stand clear of every old hole, and uses
    none of them.
    """

    turn_mm: tuple[float, float] = (0.0, 0.0)
    down_mm: tuple[float, float] = (0.0, 0.0)
    clear_of_old: bool = False

    @property
    def says(self) -> str:
        """The reach in words."""
        turn, down = self.turn_mm, self.down_mm
        return f"turn {turn[0]:.1f} to {turn[1]:.1f} mm, down {down[0]:.1f} to {down[1]:.1f} mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Puzzle:
    """One question to the search, in millimetres on the surface worked on.

    Heights are the row's own: see ``level``.
    """

    level: Level
    row: WantedRow
    old: tuple[OldHole, ...]
    window: Window
    ideal: tuple[float, float]
    limits: Limits
    bars: tuple[Bar, ...]
    drills: tuple[BarredDrill, ...]

    @property
    def barred(self) -> tuple[Barred, ...]:
        """The bars as the search takes them."""
        return tuple(Barred(points=bar.corners, holes=bar.holes) for bar in self.bars)

    def best(self) -> Reuse | None:
        """Return the best free pose, or None where nothing is free."""
        found = best_reuse(
            self.row,
            self.old,
            window=self.window,
            ideal=self.ideal,
            limits=self.limits,
            barred=self.barred,
            barred_drill=self.drills,
        )
        return None if isinstance(found, NoRoom) else found

    def best_regardless(self) -> Reuse:
        """Return the best pose when nothing stood in the way."""
        found = best_reuse(
            self.row, self.old, window=self.window, ideal=self.ideal, limits=self.limits
        )
        if isinstance(found, NoRoom):
            raise RuntimeError("a window without bars always has room")
        return found

    def at(self, turn_mm: float, down_mm: float) -> Reuse:
        """Return how the old holes serve at one pose."""
        return reuse_at(
            self.row,
            self.old,
            turn_mm=turn_mm,
            down_mm=down_mm,
            limits=self.limits,
            ideal=self.ideal,
            barred=self.barred,
            barred_drill=self.drills,
        )


def puzzle_for(draft: Draft, wanted: RowWanted, *, reach: Reach, rules: ShopRules) -> Puzzle:
    """Put the question: the row within its reach, against what stands on the drum."""
    surface = draft.ground.flat.surface
    level = Level(flat=draft.ground.flat, row=wanted.head)
    ideal = (surface.along_mm(wanted.first.along_deg), level.height_mm(wanted.first))
    return Puzzle(
        level=level,
        row=_wanted_row(wanted, surface),
        old=() if reach.clear_of_old else _old_holes(draft, level),
        window=_window(ideal, reach, wanted, level, rules),
        ideal=ideal,
        limits=Limits(
            keep_mm=rules.keep_mm,
            enlarge_mm=rules.enlarge_mm,
            slot_mm=rules.slot_mm,
            opening_inside_mm=rules.opening_inside_mm,
        ),
        bars=bars_for(
            wanted.fitting, turned_deg=wanted.turned_deg, draft=draft, rules=rules, level=level
        ),
        drills=_no_drilling(draft, wanted, level, rules, old_too=reach.clear_of_old),
    )


def _wanted_row(wanted: RowWanted, surface: Surface) -> WantedRow:
    base = wanted.fitting.base
    return WantedRow(
        holes=tuple(_wanted_hole(hole, wanted.turned_deg) for hole in wanted.fitting.holes),
        count=wanted.count,
        girth_mm=surface.circumference_mm,
        base=base.turned(wanted.turned_deg).points if base else (),
    )


def _wanted_hole(hole: PatternHole, turned_deg: float) -> WantedHole:
    right, down = turned(hole.right_mm, hole.down_mm, turned_deg)
    swapped = turned_deg % 180.0 == 90.0
    return WantedHole(
        right_mm=right,
        down_mm=down,
        hole_mm=hole.hole_mm,
        screw_mm=hole.screw_mm,
        slot_along_mm=hole.slot_down_mm if swapped else hole.slot_along_mm,
        slot_down_mm=hole.slot_along_mm if swapped else hole.slot_down_mm,
    )


def turned(right_mm: float, down_mm: float, turned_deg: float) -> tuple[float, float]:
    """Return a point of a fitting as it stands when the fitting is turned."""
    return Outline(((right_mm, down_mm),)).turned(turned_deg).points[0]


def _window(
    ideal: tuple[float, float], reach: Reach, wanted: RowWanted, level: Level, rules: ShopRules
) -> Window:
    """The reach, less the heights at which a hole would come too near an edge."""
    low, high = ideal[1] + reach.down_mm[0], ideal[1] + reach.down_mm[1]
    top, bottom = _edges(ideal[0], reach, wanted, level)
    least, most = low, high
    for hole in wanted.fitting.holes:
        _, down = turned(hole.right_mm, hole.down_mm, wanted.turned_deg)
        room = rules.edge_mm + hole.hole_mm / 2.0
        least, most = max(least, top + room - down), min(most, bottom - room - down)
    if least <= most:
        low, high = least, most
    return Window(
        turn_min_mm=ideal[0] + reach.turn_mm[0],
        turn_max_mm=ideal[0] + reach.turn_mm[1],
        down_min_mm=low,
        down_max_mm=high,
    )


def _edges(turn_mm: float, reach: Reach, wanted: RowWanted, level: Level) -> tuple[float, float]:
    """Where the edges lie, as the row counts, wherever its fittings may come to stand."""
    surface = level.flat.surface
    rooms = [
        level.room_mm(
            from_deg=step + (turn_mm + reach.turn_mm[0]) * 360.0 / surface.circumference_mm,
            to_deg=step + (turn_mm + reach.turn_mm[1]) * 360.0 / surface.circumference_mm,
        )
        for step in (index * 360.0 / wanted.count for index in range(wanted.count))
    ]
    return max(top for top, _ in rooms), min(bottom for _, bottom in rooms)


def _old_holes(draft: Draft, level: Level) -> tuple[OldHole, ...]:
    return tuple(_old_hole(hole, level) for hole in draft.free_holes if may_serve(hole))


def _old_hole(hole: Hole, level: Level) -> OldHole:
    width, longer_along, longer_down = _usable(hole.shape)
    return OldHole(
        number=hole.number,
        along_mm=level.flat.surface.along_mm(hole.place.along_deg),
        down_mm=level.height_mm(hole.place),
        diameter_mm=width,
        longer_along_mm=longer_along,
        longer_down_mm=longer_down,
    )


def _usable(shape: HoleShape) -> tuple[float, float, float]:
    """Width and further length along and down; an oval serves as the circle that fits in it."""
    if isinstance(shape, Oval):
        return (shape.width_mm, 0.0, 0.0)
    along_mm, down_mm = shape.size_mm
    width_mm = min(along_mm, down_mm)
    return (width_mm, along_mm - width_mm, down_mm - width_mm)


def _no_drilling(
    draft: Draft, wanted: RowWanted, level: Level, rules: ShopRules, *, old_too: bool
) -> tuple[BarredDrill, ...]:
    """Discs round holes that stay open or in use, as wide as the web wants at the bore.

    Holes draw together toward the bore, so the disc is widened by R / (R - wall): a little more
    than the exact rule asks down the shell, never less.
    """
    flat, surface = level.flat, level.flat.surface
    wider = surface.radius_mm / (surface.radius_mm - flat.wall_mm)
    used = {use.number for use in draft.uses}
    largest = max((hole.hole_mm for hole in wanted.fitting.holes), default=0.0)
    drills = []
    for hole in draft.ground.holes:
        if hole.number in used or is_vent(hole) or old_too:
            size = max(hole.shape.size_mm)
            web_mm = rules.web_needed_mm(size, largest)
            drills.append(
                BarredDrill(
                    along_mm=surface.along_mm(hole.place.along_deg),
                    down_mm=level.height_mm(hole.place),
                    radius_mm=web_mm * (1.0 if old_too else wider) + (size + largest) / 2.0,
                )
            )
    for cut in draft.cuts:
        size = max(cut.shape.size_mm)
        drills.append(
            BarredDrill(
                along_mm=surface.along_mm(cut.place.along_deg),
                down_mm=level.height_mm(cut.place),
                radius_mm=rules.web_needed_mm(size, largest) * wider + (size + largest) / 2.0,
            )
        )
    return tuple(drills)
