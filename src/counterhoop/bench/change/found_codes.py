"""The codes of findings that come of what was found in mid-work, with what they mean."""

from __future__ import annotations

from functools import cache

from counterhoop.scheme.findings.catalogue import CatalogueEntry, codes_in


@cache
def found_codes() -> tuple[CatalogueEntry, ...]:
    """Return all codes; no shop rule decides any of them."""
    return codes_in("counterhoop.bench.change")
