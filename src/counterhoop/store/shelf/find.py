"""Find pieces by words and measurements together, the likeliest first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.store.shelf.ask_the_shelf import asked_of
from counterhoop.store.shelf.look_up import Kept, pieces_at
from counterhoop.store.shelf.question import Had
from counterhoop.store.shelf.rarest_first import rarest_first
from counterhoop.store.shelf.reckoned import known_words
from counterhoop.store.shelf.words import words_in

MOST_WORDS = 12
MOST_MEASURES = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A piece that a search has found.

    Attributes
    ----------
    kept : Kept
        The piece, and how many there are.
    fits : tuple of Dimension
        Which of the measurements asked for were taken on it: all of these fit.
    not_taken : tuple of Dimension
        Which were not.
    off : int
        How far off those that fit are together: for each the thousandths of what both doubts
        allow.
    """

    kept: Kept
    fits: tuple[Dimension, ...]
    not_taken: tuple[Dimension, ...]
    off: int


def find(
    connection: Connection, *, words: Sequence[str] = (), measures: Sequence[Measured] = (),
    client: str | None = None, only_free: bool = False, with_hidden: bool = False, limit: int = 50,
) -> tuple[Found, ...]:  # fmt: skip
    """Return the pieces that say every word and that no measurement rules out.

    A measurement rules a piece out when the best reading of it there is further off than both
    doubts together. First come the pieces on which most of what is asked was taken, then those
    that are least off, then those that came last. A piece on which nothing that is asked was taken
    is found by its words only.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        From ``Store.reading``.
    words : sequence of str
        Parted and trimmed as ``words_in`` does; the order means nothing.
    measures : sequence of Measured
        At most five, each dimension once.
    client : str, optional
        Leaves out the pieces that belong to other clients; left out, all are shown.
    only_free : bool
        Leaves out the pieces of which none can be promised.
    with_hidden : bool
        Whether the pieces are found too that were put out of sight.
    limit : int
        How many at most.

    Raises
    ------
    BadInput
        When more is asked than the shelf can answer at once.
    """
    texts = words_in(" ".join(words))
    _need_answerable(texts, measures)
    known = known_words(connection, list(texts))
    if len(known) < len(texts) or limit < 1:
        return ()
    asked = [asked_of(connection, one) for one in measures]
    numbers = [known[text] for text in texts]
    had = Had(client=client, only_free=only_free, with_hidden=with_hidden)
    hits = rarest_first(connection, words=numbers, asked=asked, had=had, limit=limit)
    kept = pieces_at(connection, [one.entry for one in hits])
    return tuple(
        Found(
            kept=kept[one.entry],
            fits=tuple(
                m.dimension for m, it in zip(measures, asked, strict=True) if it in one.fits
            ),
            not_taken=tuple(
                m.dimension for m, it in zip(measures, asked, strict=True) if it not in one.fits
            ),
            off=one.off,
        )
        for one in hits
    )


def _need_answerable(texts: Sequence[str], measures: Sequence[Measured]) -> None:
    dimensions = [one.dimension for one in measures]
    if len(set(dimensions)) < len(dimensions):
        twice = next(one for one in dimensions if dimensions.count(one) > 1)
        raise BadInput("asked for twice", where=twice.value, wanted="each measurement once")
    for what, given, most in (
        ("words", len(texts), MOST_WORDS),
        ("measurements", len(measures), MOST_MEASURES),
    ):
        if given > most:
            raise BadInput(
                f"more {what} than can be looked for at once",
                where="search",
                given=given,
                wanted=f"at most {most}",
            )
