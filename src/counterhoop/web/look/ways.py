"""What stands at the head of every page: the ways that lie outside the folders of jobs."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A link at the head of every page."""

    href: str
    says: str


WAYS = (
    Way(href="/", says="My jobs"),
    Way(href="/today", says="Today"),
    Way(href="/shelf", says="The shelf"),
    Way(href="/workshop", says="The workshop"),
)
