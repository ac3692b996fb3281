"""The chosen scheme of a drum, with its rows moved by hand."""

from __future__ import annotations

from counterhoop.errors import BadInput
from counterhoop.shell.choice import Chosen, RowMoved
from counterhoop.shell.survey_file.models_choice import ChosenWritten


def resolve_choice(written: ChosenWritten | None, *, where: str) -> Chosen | None:
    """Return what was chosen; None where nothing was.

    Raises
    ------
    BadInput
        When one row is moved twice.
    """
    if written is None:
        return None
    seen: set[str] = set()
    for index, one in enumerate(written.moved, 1):
        if one.row.casefold() in seen:
            raise BadInput(
                "the same row moved twice",
                where=f"{where}.moved[{index}].row",
                given=one.row,
                wanted="one line a row, both ways together from where the scheme put it",
            )
        seen.add(one.row.casefold())
    return Chosen(
        scheme=written.scheme,
        title=written.title,
        moved=tuple(
            RowMoved(
                row=one.row,
                right_mm=one.right.mm if one.right is not None else 0.0,
                down_mm=one.down.mm if one.down is not None else 0.0,
            )
            for one in written.moved
        ),
    )
