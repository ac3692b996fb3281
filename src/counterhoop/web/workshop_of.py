"""The workshop that a page works with."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends
from starlette.requests import Request

from counterhoop.bench.workshop import Workshop


def workshop_of(request: Request) -> Workshop:
    """Return the open workshop."""
    workshop: Workshop = request.app.state.workshop
    return workshop


GivenWorkshop = Annotated[Workshop, Depends(workshop_of)]
