"""What to leave out of a search that found nothing."""

from __future__ import annotations

from collections.abc import Iterator

from counterhoop.bench.workshop import Workshop
from counterhoop.parts.asked import Asked
from counterhoop.parts.dimension import Measured
from counterhoop.store.shelf.find import find

MOST_TRIED = 8


def found_without(
    shop: Workshop, asked: Asked, *, only_free: bool, client: str | None = None
) -> tuple[str, ...]:
    """Return the words and measurements without any one of which something is found.

    Only the first few are tried.
    """

    def tried() -> Iterator[str]:
        with shop.store.reading() as connection:
            for at, (left_out, words, measures) in enumerate(_ways(asked)):
                if at < MOST_TRIED and (words or measures) and find(
                    connection, words=words, measures=measures, only_free=only_free,
                    client=client, limit=1,
                ):  # fmt: skip
                    yield left_out

    return tuple(tried())


def _ways(asked: Asked) -> Iterator[tuple[str, list[str], list[Measured]]]:
    words, measures = list(asked.words), list(asked.measures)
    for line in asked.unread:
        # A number of which nobody knows what it measures was taken as words.
        number, _, _ = line.partition(":")
        others = [word for word in words if word not in number.split()]
        if others != words:
            yield number, others, measures
    for at, word in enumerate(words):
        yield word, words[:at] + words[at + 1 :], measures
    for at, measured in enumerate(measures):
        yield (
            f"{measured.dimension} {measured.written}".strip(),
            words,
            measures[:at] + measures[at + 1 :],
        )
