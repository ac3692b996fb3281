"""What of a drum goes back on under its scheme: what else lacks nobody needs to find."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, get_args

from counterhoop.bench.parts.stripped import Stripped
from counterhoop.development.flat import End
from counterhoop.fittings.entry import Kind
from counterhoop.parts.spares import Spare, spares_bag
from counterhoop.parts.ticked import Counted

if TYPE_CHECKING:
    from counterhoop.scheme.layout import Layout
    from counterhoop.scheme.plan import Scheme

HEADS = {f"{end} head": end for end in get_args(End)}
"""The places at which a strip-down counts what holds a head."""


def goes_back(counted: Sequence[Counted], layout: Layout | None) -> tuple[Counted, ...]:
    """Return the lines of a count whose pieces go back on the drum and are not bought new.

    The scheme lists what is new on a drum, so nothing of that is wanted once more: no piece of a
    fitting that goes, no hoop and no rod of a head that gets new ones, and not the body of a lost
    fitting that the scheme puts there anew. Its screws and washers the scheme does not list.

    Where a part comes off here and goes on again elsewhere, as many are wanted as go on again; it
    is those that are there which do.

    Parameters
    ----------
    counted : sequence of Counted
        The drum's count.
    layout : Layout or None
        Of its scheme; without one everything goes back.
    """
    if layout is None:
        return tuple(counted)
    off = _places_off(counted, layout)
    renewed = _heads_renewed(layout)
    hoops = {hoop.head for hoop in layout.hoops if hoop.new}
    anew = {(plan.label, plan.fitting.name) for plan in layout.fittings if plan.status == "new"}

    def wanted(one: Counted) -> bool:
        line = one.expected
        if line.place in HEADS:
            if line.sort.kind in (Kind.ROD, Kind.T_ROD):
                return HEADS[line.place] not in renewed
            return line.sort.kind != Kind.HOOP or HEADS[line.place] not in hoops
        if line.lost and (line.place, line.sort.book) in anew:
            return False
        return line.place not in off

    return tuple(one for one in counted if wanted(one))


def _places_off(counted: Iterable[Counted], layout: Layout) -> set[str]:
    """Return the places whose fitting is not on the drum afterwards."""
    standing = {(plan.label, plan.fitting.name) for plan in layout.standing}
    on_the_drum = {placed.label: placed.fitting for placed in layout.drum.everything}
    going = [label for label, name in on_the_drum.items() if (label, name) not in standing]
    # The same part in another place: as many go back on as the scheme has new ones of it.
    again = Counter(
        plan.fitting.name
        for plan in layout.fittings
        if plan.status == "new" and on_the_drum.get(plan.label) != plan.fitting.name
    )
    lacks: Counter[str] = Counter()
    for one in counted:
        lacks[one.expected.place] += one.missing
    off = set(going)
    for label in sorted(going, key=lambda label: lacks[label]):
        if again[on_the_drum[label]] > 0:
            again[on_the_drum[label]] -= 1
            off.discard(label)
    return off


def _heads_renewed(layout: Layout) -> set[str]:
    """Return the heads whose rods the scheme lists: those of a new hoop or of new lugs."""
    rows = {plan.row for plan in layout.fittings if plan.status == "new" and plan.row}
    heads = {*(hoop.head for hoop in layout.hoops if hoop.new), *rows}
    return set(HEADS.values()) if "both" in heads else {str(head) for head in heads}


def spares_of(stripped: Stripped, scheme: Scheme | None) -> tuple[Spare, ...]:
    """Return the spares bag of a drum as its scheme leaves it."""
    off = _places_off(stripped.counted, scheme.layout) if scheme else set()
    return spares_bag(stripped.expected, stays_off=off)
