"""What a row of a shelf must hold to beyond its single cells."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator

from counterhoop.errors import BadInput
from counterhoop.parts.rows.layout import Values
from counterhoop.quantities.nearest import did_you_mean

_MOST_HINTS = 100
"""Looking for the nearest name is slow; whoever has a hundred slips has a wrong column."""


def shelf_check(
    fittings: Collection[str] | None = None,
) -> Callable[[Values, Values | None], Iterator[tuple[str, BadInput]]]:
    """Return the check of a shelf's rows.

    Parameters
    ----------
    fittings : collection of str, optional
        Entries of the fittings book; a row may name no other.
    """
    hints: dict[str, str] = {}

    def hint(name: str) -> str:
        if name not in hints and len(hints) < _MOST_HINTS:
            hints[name] = did_you_mean(name, fittings or ())
        return hints.get(name, "")

    def check(values: Values, before: Values | None) -> Iterator[tuple[str, BadInput]]:
        named = values.get("fitting")
        if fittings is not None and isinstance(named, str) and named not in fittings:
            fault = BadInput(
                "no such entry in the fittings book", given=named, step=hint(named),
                wanted="an entry's name, or an empty cell while it is unknown",
            )  # fmt: skip
            yield "fitting", fault
        if before is not None and "owner" in values:
            owner = before.get("owner", "")
            if values["owner"] != owner:
                fault = BadInput(
                    f"it belongs to {owner or 'the shop'}, and a sheet does not change that",
                    given=values["owner"],
                    step="Give it back, or book it in anew.",
                )
                yield "owner", fault
        if "share of lot" in values and not (values.get("lot") or (before or {}).get("lot")):
            yield "share of lot", BadInput("a share of no lot", wanted="the lot it came with")
        if before is None and values.get("count") == 0:
            yield "count", BadInput("a new piece of which there is none", wanted="1 or more")

    return check
