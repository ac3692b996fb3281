"""The code of a scheme's permanent changes: what an approval is given to."""

from __future__ import annotations

import hashlib

from counterhoop.development.shape import HoleShape
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict

PERMANENT = (Verdict.PLUG, Verdict.DRILL, Verdict.PLUG_AND_DRILL, Verdict.ENLARGE, Verdict.SLOT)
LETTERS = "ABCDEFGHJKLMNPQRTUVWXY346789"


def permanent_changes(layout: Layout) -> tuple[str, ...]:
    """Return every change that cannot be undone, a line each, places to 0.1 mm and 0.1 degree."""
    lines = [
        f"depth {layout.flat.depth_mm:.1f} from {layout.drum.depth_mm:.1f}",
        f"surface {layout.flat.surface.skin} {layout.flat.surface.circumference_mm:.1f}",
    ]
    lines += [_line(plan) for plan in layout.holes if plan.verdict in PERMANENT]
    return tuple(lines)


def code_of(layout: Layout) -> str:
    """Return a short code that changes with any permanent change, and with nothing else.

    Eight letters and figures in two groups, none of which can be misread for another. Drawn from
    SHA-256 (FIPS 180-4) of the drum's name and its permanent changes.
    """
    text = "\n".join((layout.drum.key, *permanent_changes(layout)))
    number = int.from_bytes(hashlib.sha256(text.encode("utf-8")).digest()[:8], "big")
    drawn = ""
    for _ in range(8):
        number, index = divmod(number, len(LETTERS))
        drawn += LETTERS[index]
    return f"{drawn[:4]}-{drawn[4:]}"


def _line(plan: HolePlan) -> str:
    at = plan.new_place or plan.place
    plug = f" plug {plan.plug_mm:.1f}" if plan.plug_mm is not None else ""
    return (
        f"{plan.number} {plan.verdict} {_size(plan.new)}{plug}"
        f" at {at.along_deg:.1f} {at.down_mm:.1f}"
    )


def _size(shape: HoleShape | None) -> str:
    if shape is None:
        return "closed"
    along_mm, down_mm = shape.size_mm
    return f"{along_mm:.1f} x {down_mm:.1f}"
