"""A recorded yes to permanent changes."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Approval:
    """Who said yes, when, how, and to which permanent changes (by their code)."""

    drum: str
    who: str
    when: dt.date
    how: str
    covers: str
    scheme: int | None = None
