"""What was found on the way, and a yes that no longer covers the example scheme."""

from __future__ import annotations

import datetime as dt

from counterhoop.job.yes.changes import lines_of
from counterhoop.job.yes.differences import differences
from counterhoop.job.yes.note import ChangeNote, DayMoved
from counterhoop.papers.facts import Lengths
from counterhoop.quantities.money import Money
from counterhoop.scheme.code import code_for
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.approval import Approval


def agreed(scheme: Scheme) -> Approval:
    """A yes to the same scheme without its last hole, and with hole 4 a millimetre lower."""
    lines = [line for line in lines_of(scheme) if not line.startswith("31 ")]
    lines = [_lower(line) if line.startswith("4 ") else line for line in lines]
    return Approval(
        drum=scheme.drum, who="A. Player", when=dt.date(2026, 3, 5), how="signed at the bench",
        covers=code_for(scheme.drum, lines), lines=tuple(lines),
    )  # fmt: skip


def _lower(line: str) -> str:
    start, _, down = line.rpartition(" ")
    return f"{start} {float(down) + 1.0:.1f}"


def note_of(scheme: Scheme) -> ChangeNote:
    """The note on both."""
    yes = agreed(scheme)
    return ChangeNote(
        found=("A crack runs from hole 31 to the edge, under the old badge.",),
        agreed=yes,
        differs=differences(yes, scheme, say=Lengths()),
        more=Money(minor=4200, currency="GBP"),
        in_all=Money(minor=41200, currency="GBP"),
        day=DayMoved(was=dt.date(2026, 6, 3), now=dt.date(2026, 6, 10)),
    )
