"""What the ticks of the hole list say is done."""

from __future__ import annotations

import datetime as dt

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.ticks import ticks_of
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.price import BY_VERDICT
from counterhoop.scheme.verdict import Verdict

PLUGGED = BY_VERDICT[Verdict.PLUG]


def ticked_holes(drum: KeptDrum, scheme: Scheme) -> dict[str, list[dt.datetime]]:
    """Return when each ticked hole was done, by operation, on the workshop's clock.

    A hole that is plugged and drilled is ticked when it is drilled: its plug was done by then.
    """
    ticks = ticks_of(drum, scheme=scheme)
    found: dict[str, list[dt.datetime]] = {}
    for plan in scheme.layout.holes:
        at = _at(ticks.get(str(plan.number)))
        if at is None or plan.verdict not in BY_VERDICT:
            continue
        found.setdefault(BY_VERDICT[plan.verdict], []).append(at)
        if plan.verdict is Verdict.PLUG_AND_DRILL:
            found.setdefault(PLUGGED, []).append(at)
    return found


def _at(mark: object) -> dt.datetime | None:
    when = mark.get("when") if isinstance(mark, dict) else None
    try:
        at = dt.datetime.fromisoformat(when) if isinstance(when, str) else None
    except ValueError:
        return None
    return at.astimezone().replace(tzinfo=None) if at is not None and at.tzinfo else at
