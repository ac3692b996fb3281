"""Puts this folder's unsure work, and the shops of the tests of the schedule, within reach."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1] / "schedule"))
