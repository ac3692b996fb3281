"""Positions that are written as text: in XMP packets, and in the boxes of films and sounds."""

from __future__ import annotations

import re
from collections.abc import Iterator

from counterhoop.errors import BadInput

# A packet holds some twenty; each takes a quarter of a millisecond to look at.
_MOST_MENTIONS = 2000
_XMP = re.compile(
    rb"""[A-Za-z][\w.-]{0,30}:GPS\w{1,40}\s{0,20}=\s{0,20}(?:"[^"]{0,500}"|'[^']{0,500}')"""
    rb"""|<(?P<name>[A-Za-z][\w.-]{0,30}:GPS\w{1,40})[^<>]{0,500}>[^<]{0,500}</(?P=name)\s{0,20}>"""
)
# Latitude and longitude in degrees, with minutes and seconds or without, as ISO 6709 writes them:
# +51.5074-000.1278/ (annex H, from memory).
_FILM = re.compile(
    rb"[+-]\d{2}(?:\d\d){0,2}\.\d{1,12}[+-]\d{3}(?:\d\d){0,2}\.\d{1,12}(?:[+-]\d{1,9}(?:\.\d{1,9})?)?"
    rb"[^\x00-\x1f]{0,20}/"
)


def blank_written(data: bytearray) -> bool:
    """Write blanks and zeros over positions in text; tell whether there were any.

    Raises
    ------
    BadInput
        When there are more than any camera writes.
    """
    found = [*_in_packets(data)]
    for first, last in found:
        data[first:last] = b" " * (last - first)
    films = [match.span() for match in _FILM.finditer(data)]
    for first, last in films:
        data[first:last] = re.sub(rb"\d", b"0", bytes(data[first:last]))
    return bool(found or films)


def _in_packets(data: bytearray) -> Iterator[tuple[int, int]]:
    # A plain search for the word first: the pattern alone is slow over a whole photograph.
    done = mentions = 0
    at = data.find(b":GPS")
    while at >= 0:
        mentions += 1
        if mentions > _MOST_MENTIONS:
            raise BadInput("more written positions than a photograph has", where="file")
        match = _XMP.search(data, max(at - 40, done), at + 1200)
        if match:
            yield match.span()
        done = match.end() if match else at + 4
        at = data.find(b":GPS", done)
