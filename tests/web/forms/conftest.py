"""Let the tests of this folder share written_things and sent_by by name."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
