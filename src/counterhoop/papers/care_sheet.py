"""The care sheet: how to live with this drum, by what it is made of."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal, TypeAlias, get_args

from counterhoop.errors import BadInput
from counterhoop.papers.cautions import DEFER
from counterhoop.papers.letter_head import LetterHead, head_data
from counterhoop.papers.order_of_work import PACKAGE
from counterhoop.papers.printable import set_readable
from counterhoop.sources import Row, load_table

Holds: TypeAlias = Literal[
    "wood", "metal shell", "wrap", "old wrap", "lacquer", "oil", "new finish", "calf", "plastic",
    "snare side", "new edges", "plugs",
]  # fmt: skip
"""What may hold of a drum: its shell, its finish, its heads, what was done to it."""
EVERY: tuple[Holds, ...] = get_args(Holds)


def care_rows(holds: frozenset[str]) -> tuple[Row, ...]:
    """Return what is said of a drum of which these things hold, in the order of the sheet.

    Raises
    ------
    BadInput
        For a thing that no row of the table asks for.

    Examples
    --------
    >>> [row.values["part"] for row in care_rows(frozenset({"calf"}))].count("Heads")
    3
    """
    for thing in sorted(holds - {*EVERY}):
        raise BadInput(
            "nothing is known of this", where="care", given=thing, wanted=", ".join(EVERY)
        )
    rows = load_table(PACKAGE, "care.toml")
    return tuple(row for row in rows if (holds | {"always"}).issuperset(row.values["when"]))


def care_says(holds: frozenset[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the care and the cautions of a drum as sentences, for its handover record."""
    rows = care_rows(holds)
    return (
        tuple(row.values["says"] for row in rows if "caution" not in row.values),
        tuple(row.values["says"] for row in rows if "caution" in row.values),
    )


def care_sheet_pdf(
    head: LetterHead, *, drum: str, holds: frozenset[str], own: tuple[str, ...] = (),
    paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the care sheet of a drum.

    Parameters
    ----------
    head : LetterHead
        Workshop, client, job and day.
    drum : str
        Its name in the job.
    holds : frozenset of str
        What holds of it (``Holds``).
    own : tuple of str
        What this workshop adds for this drum.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    data = {
        **head_data(replace(head, drums=(drum,)), what="care sheet", paper=paper),
        **care_data(holds, own=own),
    }
    return set_readable("care_sheet", data, title=f"How to look after it: {drum}")


def care_data(holds: frozenset[str], *, own: tuple[str, ...] = ()) -> dict[str, Any]:
    """Return what the sheet says, as plain data."""
    parts: dict[str, list[dict[str, str]]] = {"For this drum": [{"says": s} for s in own]}
    sources: list[str] = []
    for row in care_rows(holds):
        line = {"says": row.values["says"]}
        if "caution" in row.values:
            if str(row.source) not in sources:
                sources.append(str(row.source))
            line["caution"] = str(sources.index(str(row.source)) + 1)
        parts.setdefault(row.values["part"], []).append(line)
    return {
        "parts": [{"part": part, "lines": lines} for part, lines in parts.items() if lines],
        "sources": sources,
        "defer": DEFER if sources else "",
    }
