"""Small snare drums, each with one figure that decides whether something is said of it."""

from __future__ import annotations

import math
import sys
from dataclasses import replace
from typing import Any

from counterhoop.development.flat import Ring
from counterhoop.development.truing import Removal, Truing
from counterhoop.scheme.layout import Layout
from counterhoop.shell.drum import Bed

t = sys.modules["findings_shells"]
Shell = t.Shell


def snare(
    *, butt_deg: float = 198.0, count: int = 10, throw: Any = None, in_way: bool = False
) -> Layout:
    s = Shell(depth_mm=165.0, girth_mm=math.pi * 353.4, heads=2)
    s.row(count=count, head="resonant", down_mm=130.0, status="stays")
    strainer = replace(t.STRAINER, throw=throw)
    half = 180.0 / count
    s.fit(strainer, half, 70.0, label="strainer")
    s.fit(t.BUTT, butt_deg, 75.0, label="butt")
    if in_way:
        s.fit(t.BADGE, half, 125.0, label="badge", status="stays")
    return s.layout(hoops=(t.hoop("resonant", replace(t.HOOP, ears=count)),))


def beds(
    *,
    deep_mm: float = 3.0,
    other_deep_mm: float | None = None,
    other_deg: float = 198.0,
    strainer_deg: float = 18.0,
    off_mm: float = 0.0,
    ring_mm: float = 30.0,
    count: int = 10,
) -> Layout:
    """Two beds of 180 mm with 60 flat, a strainer over the first; no butt stands."""
    other = deep_mm if other_deep_mm is None else other_deep_mm
    s = Shell(
        depth_mm=165.0,
        girth_mm=math.pi * 353.4,
        heads=2,
        truing=Truing(resonant=Removal(off_mm)),
        rings=(Ring(end="resonant", wide_mm=ring_mm, thick_mm=3.0),),
        beds=(
            Bed(along_deg=18.0, wide_mm=180.0, deep_mm=deep_mm, flat_mm=60.0),
            Bed(along_deg=other_deg, wide_mm=180.0, deep_mm=other, flat_mm=60.0),
        ),
    )
    s.row(count=count, head="resonant", down_mm=130.0, status="stays")
    s.fit(t.STRAINER, strainer_deg, 70.0, label="strainer")
    return s.layout(hoops=(t.hoop("resonant", replace(t.HOOP, ears=count)),))
