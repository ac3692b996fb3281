"""Labels for bags and bins: what is in it, whose it is, where it goes, and a code for the phone."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from typing import Any

from counterhoop.papers.facts import labels as places_said
from counterhoop.papers.label_sheet import LabelSheet, plain_sheet
from counterhoop.papers.printable import set_readable
from counterhoop.papers.qr_code import qr_svg
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.piece import Piece
from counterhoop.parts.spares import Spare
from counterhoop.parts.strip_down import StripDown
from counterhoop.parts.ticked import Counted, count_off

CODE_MM = 31.0
UNDER_MM = 8.0
"""Side of the code, its white border included, and the room for the number under it."""
CODE_SHARE = 0.38
NARROW_MM = 75.0
"""A code takes at most so much of the width; on a narrow label the count stands before the name."""
PAD_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label.

    Attributes
    ----------
    head : str
        The largest line: the piece, or the bin's name.
    count : int or None
        How many are in it; None on a bin.
    lines : tuple of str
        Beneath: drum and place, or what lies in the bin.
    number : str
        The shop's own number, under the code, for when the phone fails.
    job : str
        Number of the job; empty on the shop's own stock.
    owner : str
        The client whose it is; empty for the shop's own.
    link : str
        What the code opens; empty for no code.
    bin : bool
        A bin's label has its name as large as it goes.
    """

    head: str
    count: int | None = None
    lines: tuple[str, ...] = ()
    number: str = ""
    job: str = ""
    owner: str = ""
    link: str = ""
    bin: bool = False


def labels_pdf(labels: Sequence[Label], *, sheet: LabelSheet | None = None, used: int = 0) -> bytes:
    """Set labels on sheets.

    Parameters
    ----------
    labels : sequence of Label
        In the order in which they are printed, row by row.
    sheet : LabelSheet, optional
        Gummed sheets as measured; plain A4 to be cut otherwise.
    used : int
        How many labels of the first sheet are gone already.

    Raises
    ------
    BadInput
        For a link that no code on this label can hold, or a sheet with none left.
    """
    chosen = sheet or plain_sheet()
    data, images = label_data(labels, sheet=chosen, used=used)
    return set_readable("bag_labels", data, title="Labels for bags and bins", images=images)


def label_data(
    labels: Sequence[Label], *, sheet: LabelSheet, used: int = 0
) -> tuple[dict[str, Any], dict[str, str]]:
    """Return what the sheets say, as plain data, and the codes by name."""
    code_mm = min(CODE_MM, sheet.high_mm - PAD_MM - UNDER_MM, CODE_SHARE * sheet.wide_mm)
    links = tuple(dict.fromkeys(label.link for label in labels if label.link))
    named = {link: f"code-{n}" for n, link in enumerate(links)}
    sheets: dict[int, list[dict[str, Any]]] = {}
    for label, (page, left, top) in zip(labels, sheet.corners(len(labels), used=used), strict=True):
        sheets.setdefault(page, []).append(
            {
                "x": left,
                "y": top,
                "head": kept_together(label.head),
                "count": "" if label.count is None else f"{label.count}",
                "lines": [kept_together(line) for line in label.lines],
                "number": label.number,
                "job": label.job,
                "owner": label.owner,
                "code": named.get(label.link, ""),
                "alt": f"Code for the phone: opens {label.head} at {label.link}",
                "bin": label.bin,
            }
        )
    data = {
        "wide": sheet.paper.short_mm,
        "high": sheet.paper.long_mm,
        "label-wide": sheet.wide_mm,
        "label-high": sheet.high_mm,
        "code": code_mm,
        "pad": PAD_MM,
        "cut": sheet.cut,
        "narrow": sheet.wide_mm < NARROW_MM,
        "sheets": [sheets[page] for page in sorted(sheets)],
    }
    return data, {name: qr_svg(link, wide_mm=code_mm) for link, name in named.items()}


def kept_together(text: str) -> str:
    """Keep a number and its unit on one line.

    Examples
    --------
    >>> kept_together("screw 10-24 x 5/8 in").split(" ")
    ['screw', '10-24', 'x', '5/8\\xa0in']
    """
    return re.sub(r"(?<=\d) (?=(?:mm|in)\b)", "\u00a0", text)


def bag_labels(
    stripped: StripDown, *, job: str, owner: str = "", counted: Sequence[Counted] | None = None,
    link_of: Callable[[Sort], str] | None = None,
) -> tuple[Label, ...]:  # fmt: skip
    """Return a label for the bag of each sort of piece that comes off a drum.

    Parameters
    ----------
    stripped : StripDown
        What comes off; what is lost is not bagged.
    counted : sequence of Counted, optional
        What was counted of it: then a bag says what was found, and nothing found has no bag.
    job, owner : str
        The job's number and whose drum it is.
    link_of : callable, optional
        Gives what the code on a bag opens.
    """
    places: dict[Sort, dict[str, int]] = {}
    for one in count_off(stripped, ()) if counted is None else counted:
        line = one.expected
        if here := line.count if one.found is None else one.found:
            places.setdefault(line.sort, {})[line.place] = here
    return tuple(
        Label(
            head=sort.piece,
            count=sum(where.values()),
            lines=(stripped.drum, _from(sort, where)),
            job=job,
            owner=owner,
            link=link_of(sort) if link_of else "",
        )
        for sort, where in places.items()
    )


def _from(sort: Sort, where: Collection[str]) -> str:
    said = places_said(where)
    return "" if said == sort.piece else said


def spares_label(
    spares: Sequence[Spare], *, drum: str, job: str, owner: str = "", link: str = ""
) -> Label:
    """Return the label of the spares bag, which lists what is in it."""
    return Label(
        head="spares",
        lines=(drum, "; ".join(f"{spare.count} x {spare.sort.piece}" for spare in spares)),
        job=job,
        owner=owner,
        link=link,
    )


def piece_label(piece: Piece, *, count: int, link: str = "") -> Label:
    """Return the label of a piece on the shelf; ``count`` is what is left of it."""
    facts = (piece.finish or piece.plating, *piece.condition)
    return Label(
        head=piece.says or piece.fitting or piece.kind,
        count=count,
        lines=tuple(
            line
            for line in (
                ", ".join(
                    f"{each.dimension} {each.written or each}" for each in piece.measured[:4]
                ),
                ", ".join(filter(None, facts)),
                f"bin {piece.bin}" if piece.bin else "",
            )
            if line
        ),
        number=piece.number,
        owner=piece.owner,
        link=link,
    )


def bin_label(name: str, pieces: Sequence[Piece], *, link: str = "") -> Label:
    """Return the label of a bin: its name, and the kinds of what lies in it."""
    kinds = dict.fromkeys(piece.kind for piece in pieces if piece.kind)
    label = Label(head=name, lines=(", ".join(kinds),) if kinds else (), bin=True)
    return replace(label, link=link)
