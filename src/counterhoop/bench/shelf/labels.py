"""Labels for pieces and bins of the shelf, with a code that opens them on the phone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final
from urllib.parse import quote

from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.labels_task import make_labels
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.shelf.bins import bin_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.papers.bag_labels import Label, bin_label, piece_label
from counterhoop.papers.label_sheet import LabelSheet
from counterhoop.store.shelf.look_up import Kept, piece_by_id

MOST_LABELS: Final = 240
"""Twenty sheets of plain paper."""


def labelled(shop: Workshop, piece_ids: Iterable[str]) -> tuple[Kept, ...]:
    """Return the pieces that labels are wanted for.

    Raises
    ------
    BadInput
        When there is no such piece.
    """
    with shop.store.reading() as connection:
        return tuple(piece_by_id(connection, one) for one in dict.fromkeys(piece_ids))


def labels_for(
    shop: Workshop, *, piece_ids: Sequence[str] = (), bins: Sequence[str] = (), address: str = ""
) -> tuple[Label, ...]:
    """Return the labels of pieces and bins, pieces first.

    Parameters
    ----------
    piece_ids, bins : sequence of str
        Keys of pieces, names of bins.
    address : str
        Where a phone reaches the pages, "http://192.0.2.7:8600"; empty for labels without codes.

    Raises
    ------
    BadInput
        For none, for more than `MOST_LABELS`, or a piece that is not there.
    """
    wanted = len(piece_ids) + len(bins)
    if not 0 < wanted <= MOST_LABELS:
        raise BadInput(
            "no label is chosen" if not wanted else "too many labels at once", where="labels",
            given=wanted or None, wanted=f"1 to {MOST_LABELS}",
        )  # fmt: skip
    made = [
        piece_label(
            kept.piece, count=kept.on_shelf,
            link=f"{address}/shelf/pieces/{kept.piece.id}" if address else "",
        )
        for kept in labelled(shop, piece_ids)
    ]  # fmt: skip
    for name in dict.fromkeys(bins):
        pieces = [kept.piece for kept in bin_of(shop, name)]
        link = f"{address}/shelf/bins/{quote(name, safe='')}" if address else ""
        made.append(bin_label(name, pieces, link=link))
    return tuple(made)


def make_label_sheets(
    shop: Workshop, labels: tuple[Label, ...], *, sheet: LabelSheet, used: int
) -> Answer[Paper]:
    """Set labels on sheets, beside the pages.

    Parameters
    ----------
    used : int
        How many labels of the first sheet are gone already.
    """
    none = JobSource(tables_json=b"")
    return shop.works.ask(
        Asked(line="papers", task=make_labels, source=none, arguments=(labels, sheet, used))
    )
