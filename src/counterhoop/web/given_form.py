"""What a form sent, for handlers that run beside the loop."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends
from starlette.datastructures import FormData
from starlette.requests import Request


async def given_form(request: Request) -> FormData:
    """Return the fields of a form; files are no part of it."""
    from counterhoop.web.forms import MOST_FIELDS

    return await request.form(max_fields=MOST_FIELDS, max_files=0)


GivenForm = Annotated[FormData, Depends(given_form)]


def text_in(given: FormData, name: str) -> str:
    """Return what stands in a field, its ends trimmed; nothing when it was not sent."""
    value = given.get(name, "")
    return value.strip() if isinstance(value, str) else ""


def number_in(given: FormData, name: str) -> int:
    """Return a whole number that the page itself put into a field, 0 when it is none."""
    text = text_in(given, name)
    return int(text) if text.isdecimal() and len(text) < 10 else 0


def pairs_in(given: FormData) -> list[tuple[str, str]]:
    """Return all fields, to be sent again."""
    return [(name, value) for name, value in given.multi_items() if isinstance(value, str)]
