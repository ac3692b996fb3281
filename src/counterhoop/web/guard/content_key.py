"""The only name under which a file is asked for: the hash of its content."""

from __future__ import annotations

from typing import Annotated

from fastapi import Path

# In an address or a form nothing else passes for a file: no dot, no slash, no capital.
ContentKey = Annotated[str, Path(pattern="^[0-9a-f]{64}$", min_length=64, max_length=64)]
