"""An invented workshop, its client and photographs, for the papers between the two."""

from __future__ import annotations

import datetime as dt
import io
from typing import Any

import numpy as np
from PIL import Image, ImageDraw

from counterhoop.papers.letter_head import LetterHead
from counterhoop.papers.photograph import Photograph

DAY = dt.date(2026, 3, 4)
LONG = "Maximiliane Featherstonehaugh-Quennick of the Lower Dunmarrow Silver Band and Concert Party"


def head_of(**changes: Any) -> LetterHead:
    given: dict[str, Any] = {
        "shop": "Millrace Drum Workshop",
        "shop_lines": ("2 Millrace Yard, Dunmarrow", "drums by appointment"),
        "job": "17",
        "client": "A. Player",
        "client_lines": ("9 Ferry Lane, Hallmere", "0100 000 000"),
        "drums": ("old snare", "small tom"),
        "date": DAY,
    }
    return LetterHead(**(given | changes))


def photograph_of(shows: str, *, wide: int = 320, high: int = 240, tint: int = 0) -> Photograph:
    """Draw a drum seen from the front, so that the eye can tell one picture from another."""
    ground = np.full((high, wide, 3), (214, 208 - tint % 40, 196), dtype=np.uint8)
    picture = Image.fromarray(ground)
    pen = ImageDraw.Draw(picture)
    left, right, top, low = wide * 0.2, wide * 0.8, high * 0.25, high * 0.8
    pen.rectangle((left, top, right, low), fill=(120 - tint % 60, 70, 50), outline=(20, 20, 20))
    pen.ellipse((left, top - high * 0.12, right, top + high * 0.12), fill=(235, 230, 220))
    for n in range(4):
        x = left + (n + 0.5) * (right - left) / 4
        pen.rectangle((x - 4, top + high * 0.2, x + 4, low - high * 0.1), fill=(190, 190, 185))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=80)
    return Photograph(jpeg=out.getvalue(), shows=shows)
