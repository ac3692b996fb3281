"""What fits some holes, as the command prints it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from counterhoop.bench.parts.ask_fits import FitsTold
from counterhoop.bench.parts.fits_shelf import Offered
from counterhoop.cli.text import WIDTH
from counterhoop.parts.places.cover_words import hides_said
from counterhoop.parts.places.serves import How
from counterhoop.scheme.phrases import listed

HEADINGS = {
    How.AS_IT_IS: "As it is:",
    How.AFTER_A_CHANGE: "After a change:",
    How.NO: "Not here:",
}


def fits_text(found: FitsTold) -> str:
    """Say what fits a place, what it hides, and what lies on the shelf of it."""
    on = found.told.on
    lines = [f"Holes {listed([str(hole.number) for hole in on.place.holes] or ['-'])}:"]
    for label in on.also_off:
        lines += _wrapped(f"the {label} stands over this place and comes off for it", indent=2)
    kinds = set(on.place.kinds)
    for how, heading in HEADINGS.items():
        its = [one for one in found.offered if one.serves.how is how]
        if how is How.NO:
            its = [one for one in its if not kinds or one.serves.fitting.kind in kinds]
        if not its and how is not How.AS_IT_IS:
            continue
        lines += ["", heading]
        lines += [line for one in its for line in _one(found, one)] or ["  nothing."]
    if any(one.serves.how is not How.NO for one in found.offered):
        lines += ["", "Offer it up before you drill or promise: castings differ from the book."]
    return "\n".join(lines)


def _one(found: FitsTold, one: Offered) -> Iterator[str]:
    serves = one.serves
    hides = ""
    if serves.pose is not None and serves.fitting.base is not None:
        hides = hides_said(serves.pose.laid(serves.fitting.base), found.told.on.place.marks)
    name = serves.fitting.name
    if serves.how is How.NO:
        yield from _wrapped(f"{name}: {serves.why}", indent=2)
        return
    yield from _wrapped(f"{name}: {hides}" if hides else name, indent=2)
    for change in serves.changes:
        yield from _wrapped(change, indent=4)
    if serves.why:
        yield from _wrapped(serves.why, indent=4)
    for kept in one.lies:
        piece = kept.piece
        lies = f" in bin {piece.bin}" if piece.bin else ""
        own = f", {piece.owner}'s own" if piece.owner else ""
        yield from _wrapped(
            f"on the shelf: {kept.free} free{lies}, number {piece.number}{own}", indent=4
        )


def _wrapped(text: str, *, indent: int) -> list[str]:
    first = " " * indent
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=first + "  ")
