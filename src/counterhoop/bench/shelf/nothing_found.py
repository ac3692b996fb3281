"""What to leave out of a search that found nothing, or to spell otherwise."""

from __future__ import annotations

from collections.abc import Iterator

from counterhoop.bench.workshop import Workshop
from counterhoop.parts.asked import Asked
from counterhoop.parts.dimension import Measured
from counterhoop.store.shelf.find import find
from counterhoop.store.shelf.near_words import near_words

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

    return tuple(dict.fromkeys(tried()))


def found_instead(
    shop: Workshop, asked: Asked, *, only_free: bool, client: str | None = None
) -> dict[str, str]:
    """Return the words to spell otherwise, and how, where something is found then."""
    with shop.store.reading() as connection:
        instead = near_words(connection, asked.words)
        found = instead and find(
            connection, words=[instead.get(word, word) for word in asked.words],
            measures=asked.measures, only_free=only_free, client=client, limit=1,
        )  # fmt: skip
    return instead if found else {}


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
