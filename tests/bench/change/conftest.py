"""A job of one snare whose price and cuts were agreed, in mid-work."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "price"))
sys.path.insert(0, str(Path(__file__).parent))

from mid_work import fresh, made, shop, work

__all__ = ["fresh", "made", "shop", "work"]
