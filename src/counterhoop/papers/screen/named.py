"""Which strokes of a shell laid flat are which hole, and which are the lugs of which row."""

from __future__ import annotations

from collections.abc import Collection

from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.manner import Manner
from counterhoop.papers.drawing.records import Drawing, Layer, Stroke
from counterhoop.papers.drawing.view import View
from counterhoop.papers.screen.group import Group, GroupOf
from counterhoop.papers.screen.hole_words import hole_label, hole_more
from counterhoop.scheme.layout import FittingPlan

FINGER_MM = 1.2
"""On paper: how far about a hole a finger may miss it."""
LAYERS = {Layer.BASE_NEW: "new", Layer.BASE_STAYS: "stays", Layer.BASE_GOES: "goes"}


def named_groups(
    view: View, drawing: Drawing, *, manner: Manner, movable: Collection[str] = ()
) -> GroupOf:
    """Return what finds the group of a stroke by its name.

    Parameters
    ----------
    view, drawing : View, Drawing
        What was drawn, and how it came out.
    movable : collection of str
        Rows that may be moved by hand ("batter", "resonant", "both", or a fitting by its label).
    """
    groups: dict[str, Group] = {}
    standing = [f for f in view.fittings if f.status != "goes"]
    rows = {f.label: _row_of(f, movable) for f in standing}
    on = {number: rows[f.label] for f in standing for number in f.holes}
    holes = {plan.number: plan for plan in view.holes}
    for stroke in drawing.strokes:
        if not stroke.ident.startswith("hole-"):
            continue
        number, copy = _hole_of(stroke.ident)
        if number is None:
            continue
        plan = holes[number]
        data = [("hole" if not copy else "again", str(number)), ("verdict", plan.verdict.value)]
        row = (rows.get(plan.of) or on.get(number, "")) if plan.new is not None else ""
        if row:
            data.append(("row", row))
        left, top, right, bottom = extent_box(stroke)
        r = max(right - left, bottom - top) / 2 + manner.mm(FINGER_MM)
        kind = f"hole{' movable' if row in movable else ''}"
        hit = ((left + right) / 2, (top + bottom) / 2, r)
        if copy:
            groups[f"{number}{copy}"] = Group(kind=kind, data=tuple(data), hit=hit)
            continue
        groups[f"{number}"] = Group(
            name=f"hole-{number}", kind=kind, data=tuple(data), hit=hit, reached=True,
            label=hole_label(plan, manner=manner), more=hole_more(plan, view=view, manner=manner),
        )  # fmt: skip
    bases = _base_groups(view, movable=movable)

    def group_of(stroke: Stroke) -> Group | None:
        if stroke.layer in LAYERS:
            label = _without_copy(stroke.ident).removeprefix("base-")
            return bases.get((label, LAYERS[stroke.layer]))
        number, copy = _hole_of(stroke.ident)
        return None if number is None else groups.get(f"{number}{copy}")

    return group_of


def _base_groups(view: View, *, movable: Collection[str]) -> dict[tuple[str, str], Group]:
    """Bases of one row that share a fate are one group; a fitting of no row has none."""
    found: dict[tuple[str, str], Group] = {}
    for plan in view.fittings:
        row = _row_of(plan, movable)
        if not row or plan.status == "goes":
            continue
        kind = "lugs movable" if row in movable else "lugs"
        group = Group(kind=kind, label=row, data=(("row", row),))
        found["-".join(plan.label.split()), plan.status] = group
    return found


def _row_of(plan: FittingPlan, movable: Collection[str]) -> str:
    return plan.row or (plan.label if plan.label in movable else "")


def _hole_of(ident: str) -> tuple[int | None, str]:
    """Return the hole that a name belongs to, and the mark of a copy beyond the datum."""
    for kind in ("hole-", "plug-", "number-"):
        if ident.startswith(kind):
            number, _, copy = ident.removeprefix(kind).partition("-")
            if number.isdecimal():
                return int(number), f"-{copy}" if copy else ""
    return None, ""


def _without_copy(ident: str) -> str:
    return ident.removesuffix("-before").removesuffix("-after")
