"""Pieces as lists of the pages have them, and where each is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from urllib.parse import quote

from counterhoop.bench.shelf.said import called, count_says, main_says
from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension
from counterhoop.store.shelf.find import Found
from counterhoop.store.shelf.look_up import Kept
from counterhoop.web.forms import fault_words


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceLine:
    """A piece as a list has it.

    Attributes
    ----------
    id, number, called, href : str
        Which piece.
    says : tuple of str
        How many, where, whose, what fits: each a few words.
    """

    id: str
    number: str
    called: str
    href: str
    says: tuple[str, ...]


def address(piece_id: str) -> str:
    """Return where a piece's card is."""
    return f"/shelf/pieces/{piece_id}"


def bin_address(name: str) -> str:
    """Return where a bin's list is."""
    return f"/shelf/bins/{quote(name, safe='')}"


def line_of(kept: Kept, *, fits: Sequence[Dimension] = (), not_taken: Iterable[Dimension] = (),
            with_bin: bool = True) -> PieceLine:  # fmt: skip
    """Return a piece as a list has it."""
    piece = kept.piece
    says = [count_says(kept)]
    if piece.bin and with_bin:
        says.append(f"bin {piece.bin}")
    if piece.owner:
        says.append(f"belongs to {piece.owner}")
    says += [
        f"{one} {best.written or best}" for one in fits if (best := piece.best(one)) is not None
    ]
    says += [f"{one} not taken" for one in not_taken]
    if not fits:
        says += main_says(piece)
    return PieceLine(
        id=piece.id, number=piece.number, called=called(piece), href=address(piece.id),
        says=tuple(says),
    )  # fmt: skip


def found_line(found: Found) -> PieceLine:
    """Return a piece that was found, with the measurements that fit."""
    return line_of(found.kept, fits=found.fits, not_taken=found.not_taken)


def fault_says(fault: BadInput) -> str:
    """Return what is said of a fault at its field, as a sentence."""
    line = fault_words(fault)
    return line if line[-1] in ".?" else f"{line}."
