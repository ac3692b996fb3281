"""Puts this folder's own modules (example shells, a reader of PDF paths) within reach."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
