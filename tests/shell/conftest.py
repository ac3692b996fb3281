"""Let the tests of this folder share survey_text and bad_surveys by name."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
