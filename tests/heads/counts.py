"""How many cases a law of heads is held on: each of them solves for pitches, and takes a while."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import settings

REDUCED = settings.get_profile("reduced").max_examples
MORE = 10

Law = Callable[..., Any]


def cases(count: int) -> Callable[[Law], Law]:
    """Hold a law on so many cases; where the full counts are asked for, on ten times as many.

    A law that is held on a few cases every time would else never be held on many.
    """
    if settings.default.max_examples <= REDUCED:
        return settings(max_examples=count, deadline=None)
    many = settings(max_examples=MORE * count, deadline=None)
    return lambda law: pytest.mark.full(many(law))
