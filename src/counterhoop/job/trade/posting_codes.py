"""All codes that a finding before posting can have, with what they mean."""

from __future__ import annotations

from functools import cache

from counterhoop.scheme.findings.catalogue import CatalogueEntry, codes_in


@cache
def posting_codes() -> tuple[CatalogueEntry, ...]:
    """Return all codes; no shop rule decides any of them."""
    return codes_in("counterhoop.job.trade")
