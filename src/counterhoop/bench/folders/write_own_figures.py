"""Write the workshop's own limits, minutes, prices and stock."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import RULES
from counterhoop.bench.folders.own_figures import faults_in_figures
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.store.body import Json
from counterhoop.store.pointer import Nothing
from counterhoop.store.save import Conflict, Saved


def write_figures(
    shop: Workshop, given: Mapping[tuple[str, str], Json | Nothing], *, based_on: int, by: str
) -> Saved | Conflict:
    """Write own figures over the usual ones; what cannot be read is refused.

    Parameters
    ----------
    given : mapping of (str, str) to Json or Nothing
        By table and name, as typed; ``NOTHING`` goes back to the usual. A name of "" stands for
        the whole table.

    Raises
    ------
    BadInput
        When a figure cannot be read; ``where`` is table and name.
    """

    def put(base: Json) -> dict[str, Any]:
        body = dict(base) if isinstance(base, dict) else {}
        for (table, name), value in given.items():
            held = body.get(table)
            lines = {**held} if isinstance(held, dict) and name else {}
            if name:
                lines |= {} if isinstance(value, Nothing) else {name: value}
                if isinstance(value, Nothing):
                    lines.pop(name, None)
            elif isinstance(value, dict):
                lines = {**value}
            body = {k: v for k, v in body.items() if k != table} | ({table: lines} if lines else {})
        return body

    def same(seen: Json, newest: Json) -> bool:
        return all(_line(seen, *place) == _line(newest, *place) for place in given)

    shops = drawer(shop)
    before = shops.get(RULES, Kept()).table
    known = {str(one) for one in faults_in_figures(before, shop=shops)}
    for fault in faults_in_figures(put(before), shop=shops):
        if str(fault) not in known:
            raise fault
    change = ThingChange(
        kind=RULES, drum="", based_on=based_on, same=same, put=lambda _seen, base: put(base)
    )
    return write_thing(shop, None, change, by=by)


def _line(body: Json, table: str, name: str) -> Json:
    held = body.get(table) if isinstance(body, dict) else None
    if not name:
        return held
    return held.get(name) if isinstance(held, dict) else None
