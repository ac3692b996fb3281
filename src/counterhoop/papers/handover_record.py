"""The handover record: the drum as found and as left, what was done, what nobody knows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from counterhoop.fittings.book import Book
from counterhoop.papers.drawing.manner import AS_FOUND, WORKING
from counterhoop.papers.drawing.marks import HARM
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.drawing.shell_flat import draw_view, fitting_scale
from counterhoop.papers.drawing.view import view_as_found, view_of_layout
from counterhoop.papers.facts import Fact, count, holes_said, listed, sheet_for
from counterhoop.papers.letter_head import LetterHead, head_data, kept_data, photographs_shown
from counterhoop.papers.photograph import Photograph
from counterhoop.papers.printable import set_readable
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.svg import to_svg
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.hole import Origin

MADE = {
    Origin.FACTORY: "from the factory",
    Origin.EXTRA: "extra, made before it came to us",
    Origin.NOT_SURE: "not sure who made it",
    None: "added by us",
}
"""Who made a hole, in the words of the record."""
FATES = (
    ((Verdict.KEEP, Verdict.LEAVE_OPEN), "as found"),
    ((Verdict.ENLARGE, Verdict.SLOT), "made larger"),
    ((Verdict.PLUG,), "closed by us"),
    ((Verdict.PLUGGED_ALREADY,), "closed before it came to us"),
)
"""What became of old holes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One place photographed twice.

    Attributes
    ----------
    place : str
        From where ("outside, front").
    found, left : Photograph, optional
        As it came, as it goes.
    """

    place: str
    found: Photograph | None = None
    left: Photograph | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDone:
    """What happened to one part: "put back", "mended", "replaced", "added", and by what."""

    part: str
    done: str
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadLeft:
    """A head as the drum goes: what it is and what it was tuned to."""

    head: str
    what: str
    pitch: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandedOver:
    """All that goes with one drum.

    Attributes
    ----------
    head : LetterHead
        Workshop, client, job and day.
    drum, what : str
        Its name in the job and what it is in a line.
    unfinished : tuple of str
        What is not done yet, a sentence each: the paper is a DRAFT as long as anything is.
    mended : bool
        Whether cracks and lifted plies are glued: the drum as left is drawn without them.
    sure : tuple of (str, str)
        What it is, and how sure that is: ("made between 1957 and 1963", "likely").
    found, story : tuple of str
        What was found and what was done, a sentence each.
    pairs : tuple of Pair
        Photographs from the same places.
    edges : tuple of (str, str)
        Of each edge how it was and how it is.
    parts : tuple of PartDone
        Part by part.
    bag : tuple of str
        What is in the bag, the owner's.
    heads : tuple of HeadLeft
        As tuned.
    not_known : tuple of str
        What could not be known.
    care, cautions : tuple of str
        How to live with it; what harms it or its player.
    warranty : str
        In the shop's own words.
    """

    head: LetterHead
    drum: str
    what: str = ""
    unfinished: tuple[str, ...] = ()
    mended: bool = False
    sure: tuple[Fact, ...] = ()
    found: tuple[str, ...] = ()
    story: tuple[str, ...] = ()
    pairs: tuple[Pair, ...] = ()
    edges: tuple[Fact, ...] = ()
    parts: tuple[PartDone, ...] = ()
    bag: tuple[str, ...] = ()
    heads: tuple[HeadLeft, ...] = ()
    not_known: tuple[str, ...] = ()
    care: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    warranty: str = ""


def handover_record_pdf(
    record: HandedOver, *, left: Layout | None = None, book: Book | None = None,
    paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the handover record, as a file that opens in twenty years (PDF/A-2a and PDF/UA-1).

    Parameters
    ----------
    record : HandedOver
        What is said and shown.
    left : Layout, optional
        The shell as it goes. It is drawn laid flat, and above it as it was found, both at one
        scale; and the holes are told by who made them.
    book : Book, optional
        For the bases of its fittings as found.
    paper : str
        "Letter" sets it on Letter, anything else on A4.

    Raises
    ------
    BadInput
        Without the day of handing over.
    """
    data, images = handover_data(record, left=left, book=book, paper=paper)
    return set_readable(
        "handover_record", data, title=f"Handover record: {record.drum}", images=images, kept=True
    )


def handover_data(
    record: HandedOver, *, left: Layout | None = None, book: Book | None = None,
    paper: str = "A4",
) -> tuple[dict[str, Any], dict[str, str]]:  # fmt: skip
    """Return what the record says, as plain data, and its pictures by name."""
    wide_mm = sheet_for(paper).short_mm - 2 * MARGIN_MM
    drawings = _drawn(left, book=book, wide_mm=wide_mm, mended=record.mended) if left else {}
    images = {
        name: to_svg(drawing, palette=PRINT, ident=f"{name}-") for name, drawing in drawings.items()
    }
    pairs = []
    for number, pair in enumerate(record.pairs, 1):
        names = (f"found {number}", f"left {number}")
        drawn, shown = photographs_shown(dict(zip(names, (pair.found, pair.left), strict=True)))
        images |= drawn
        pairs.append(
            {"place": pair.place, "found": shown.get(names[0]), "left": shown.get(names[1])}
        )
    return {
        **head_data(
            replace(record.head, drums=(record.drum,)), what="handover record", paper=paper
        ),
        **kept_data(record.head, what="handover record"),
        "what": record.what,
        "unfinished": list(record.unfinished),
        "sure": record.sure,
        "found": list(record.found),
        "story": list(record.story),
        "pairs": pairs,
        "flat": {
            name: {"alt": f"{one.title}. {one.says}", "wide": one.width_mm * one.scale}
            for name, one in drawings.items()
        },
        "holes": hole_lines(left.holes) if left else [],
        "edges": record.edges,
        "parts": [(one.part, one.done, one.says) for one in record.parts],
        "bag": list(record.bag),
        "heads": [(one.head, one.what, one.pitch, one.says) for one in record.heads],
        "not-known": list(record.not_known),
        "care": list(record.care),
        "cautions": list(record.cautions),
        "warranty": record.warranty,
    }, images


def hole_lines(holes: Iterable[HolePlan]) -> list[Fact]:
    """Tell the holes by who made them, and what became of the old ones."""
    made_by: dict[Origin | None, list[HolePlan]] = {origin: [] for origin in MADE}
    for plan in holes:
        made_by[None if plan.verdict.drills else plan.origin or Origin.NOT_SURE].append(plan)
    lines = []
    for origin, found in made_by.items():
        if not found:
            continue
        fates = [_counted(found, verdicts, fate) for verdicts, fate in FATES] if origin else []
        total = f"{count(len(found), 'hole')} ({_numbered(found)})"
        told = listed([fate for fate in fates if fate])
        lines.append((MADE[origin], f"{total}: {told}." if told else f"{total}."))
    return lines


def _counted(found: list[HolePlan], verdicts: tuple[Verdict, ...], fate: str) -> str:
    some = [plan for plan in found if plan.verdict in verdicts]
    if not some:
        return ""
    if len(found) == 1:
        return fate
    return f"{'all' if len(some) == len(found) else _numbered(some)} {fate}"


def _numbered(found: list[HolePlan]) -> str:
    return holes_said(plan.number for plan in found)


def _drawn(left: Layout, *, book: Book | None, wide_mm: float, mended: bool) -> dict[str, Drawing]:
    """Draw the shell as found and as left, with the numbers of its holes, at one scale."""
    as_left = view_of_layout(left)
    if mended:
        as_left = replace(
            as_left, lines=tuple(line for line in as_left.lines if line.kind not in HARM)
        )
    ways = {
        "found": (view_as_found(left.drum, book=book), AS_FOUND, "as found"),
        "left": (as_left, replace(WORKING, gone=False), "as left"),
    }
    scale = min(
        fitting_scale(view, manner=manner, wide_mm=wide_mm) for view, manner, _ in ways.values()
    )
    return {
        name: draw_view(
            view,
            manner=replace(manner, scale=scale),
            title=f"{left.drum.key} {said}: the shell laid flat",
            # The picture beneath says what the marks of both are.
            legend=name == "left",
        )
        for name, (view, manner, said) in ways.items()
    }
