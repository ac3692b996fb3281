"""The gummed sheets of labels that the workshop uses, measured once and kept in its drawer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import LABELS
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.label_sheet import LabelSheet, plain_sheet
from counterhoop.papers.sheets import sheet_of
from counterhoop.quantities.length import parse_length
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved

PLAIN: Final = ("A4", "Letter")
OWN: Final = "own"
"""How the workshop's gummed sheet is asked for."""
COUNTS: Final = ("across", "down")
LENGTHS: Final = ("wide", "high", "left", "top", "step_across", "step_down")
FIELDS: Final = ("paper", *COUNTS, *LENGTHS)
"""The names under which its measures are typed and kept."""
_MOST = 20


def typed_sheet(shop: Workshop) -> tuple[dict[str, str], Kept]:
    """Return the gummed sheet as it was typed, empty texts before that, and what is kept."""
    kept = drawer(shop).get(LABELS, Kept())
    return {name: str(kept.table.get(name) or "") for name in FIELDS}, kept


def chosen_sheet(shop: Workshop, chosen: str) -> LabelSheet:
    """Return the sheet to print on: plain paper by its name, or the workshop's gummed one.

    Raises
    ------
    BadInput
        For another paper, and where no gummed sheet was measured.
    """
    if chosen == OWN:
        return read_sheet(typed_sheet(shop)[0])
    if chosen not in PLAIN:
        raise BadInput("no such sheet", where="sheet", given=chosen, wanted=" or ".join(PLAIN))
    return plain_sheet(chosen)


def read_sheet(typed: Mapping[str, str]) -> LabelSheet:
    """Return the sheet that was typed.

    Raises
    ------
    BadInput
        ``where`` is the field, or "label sheet" where the measures do not go together.
    """
    across, down = (_count(typed[name], where=name) for name in COUNTS)
    mm = {name: _mm(typed[name], where=name) for name in LENGTHS}
    return LabelSheet(
        paper=sheet_of(typed["paper"] or "A4"), across=across, down=down, wide_mm=mm["wide"],
        high_mm=mm["high"], left_mm=mm["left"], top_mm=mm["top"],
        step_across_mm=mm["step_across"], step_down_mm=mm["step_down"],
    )  # fmt: skip


def write_sheet(
    shop: Workshop, typed: Mapping[str, str], *, based_on: int, by: str
) -> Saved | Conflict:
    """Write down what the gummed sheet measures; nothing typed forgets it.

    Raises
    ------
    BadInput
        For what cannot be read, or labels that lie on each other.
    """
    body: dict[str, Json] = {name: typed[name] for name in FIELDS if typed[name]}
    if body.keys() - {"paper"}:
        read_sheet(typed)
    else:
        body = {}
    return write_down(shop, None, Change(kind=LABELS, value=body, based_on=based_on), by=by)


def _count(text: str, *, where: str) -> int:
    if text.isascii() and text.isdecimal() and len(text) < 3 and 1 <= int(text) <= _MOST:
        return int(text)
    raise BadInput("how many?", where=where, given=text or None, wanted=f"1 to {_MOST}")


def _mm(text: str, *, where: str) -> float:
    if not text:
        raise BadInput("not measured yet", where=where, wanted="a length such as 38.1 mm")
    return parse_length(text, where=where, allow_zero=True).mm
