"""A new piece put on the shelf from texts as a person types them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from counterhoop.bench.shelf.cards import next_number, write_piece
from counterhoop.bench.shelf.piece_form import Line, Typed, read_typed
from counterhoop.bench.shelf.workshops_own import workshops_own
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension
from counterhoop.store.shelf.look_up import Kept
from counterhoop.store.shelf.put import PieceConflict


def put_new(shop: Workshop, texts: Mapping[str, str], *, measured: Sequence[str], by: str) -> Kept:
    """Put a piece on the shelf.

    Parameters
    ----------
    texts : mapping of str to str
        By the names of ``piece_form``; without a number it gets the next free one.
    measured : sequence of str
        "holes apart 42.5 mm", "pitch 24 tpi (thread gauge)": a dimension and what it reads.

    Raises
    ------
    BadInput
        For the first thing that cannot be read.
    """
    lines = tuple(_line(one) for one in measured)
    said = {**texts, "number": texts.get("number") or next_number(shop)}
    own = workshops_own(shop)
    read = read_typed(
        Typed(texts=said, lines=lines), new=True, book=own.book, currency=own.currency, units="mm",
        today=shop.now().astimezone().date(),
    )  # fmt: skip
    for name, fault in read.faults.items():
        raise BadInput(
            fault.what, where=name, given=fault.given, wanted=fault.wanted, step=fault.step
        )
    done = write_piece(shop, None, read.fields, based_on=0, by=by)
    assert not isinstance(done, PieceConflict)
    return done


def _line(text: str) -> Line:
    plain = " ".join(text.split())
    named = [one for one in Dimension if plain.casefold().startswith(f"{one.value} ")]
    if not named:
        names = ", ".join(one.value for one in Dimension)
        raise BadInput("what was measured?", where="measured", given=text, wanted=f"one of {names}")
    what = max(named, key=lambda one: len(one.value))
    return Line(what=what.value, written=plain[len(what.value) :].strip())
