"""A lug that no book has, from the short form under its row."""

from __future__ import annotations

from typing import Any, Final

from starlette.datastructures import FormData

from counterhoop.bench.own_lug import LugMeasured, lug_called, lug_of_row, write_own_lug
from counterhoop.bench.workshop import Workshop
from counterhoop.web.given_form import text_in


def choose_lug(shop: Workshop, row: dict[str, Any], given: FormData, *, drum: str, by: str) -> str:
    """Write a lug into the own book from what was measured, or from its row alone."""
    typed = {name: text_in(given, f"_lug_{name}") for name in LUG_FIELDS}
    name = typed["name"] or str(row.get("fitting") or "") or lug_called(drum)
    known = lug_of_row(row, name=name) if not (typed["apart"] and typed["hole"]) else None
    measured = LugMeasured(
        name=name,
        screws=typed["screws"] or (known.screws if known else "2"),
        apart=typed["apart"] or (known.apart if known else ""),
        hole=typed["hole"] or (known.hole if known else ""),
        shape=typed["shape"] or "rounded",
        width=typed["width"],
        height=typed["height"],
        thread=typed["thread"],
        both=row.get("head") == "both",
    )
    how = "measured at this bench" if typed["width"] else f"made from the holes of the {drum}"
    return write_own_lug(shop, measured, how=how, by=by)


LUG_FIELDS: Final = ("name", "screws", "apart", "hole", "shape", "width", "height", "thread")
