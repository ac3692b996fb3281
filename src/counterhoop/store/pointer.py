"""One place in a body, by its names and numbers: "/drums/0/depth" (RFC 6901, from memory)."""

from __future__ import annotations

import copy
from enum import Enum
from typing import Final

from counterhoop.errors import BadInput
from counterhoop.store.body import Json


class Nothing(Enum):
    """No value at all, where ``None`` is a value."""

    HERE = "nothing"


NOTHING: Final = Nothing.HERE


def write_pointer(parts: list[str]) -> str:
    """Return the text of a place.

    Examples
    --------
    >>> write_pointer(["drums", "small/tom", "depth"])
    '/drums/small~1tom/depth'
    """
    return "".join("/" + part.replace("~", "~0").replace("/", "~1") for part in parts)


def read_pointer(pointer: str) -> list[str]:
    """Return the names and numbers of a place.

    Examples
    --------
    >>> read_pointer("/drums/small~1tom/depth")
    ['drums', 'small/tom', 'depth']
    """
    if not pointer.startswith("/"):
        raise BadInput(
            "cannot be read as a place",
            where="pointer",
            given=pointer,
            wanted='one such as "/depth"',
        )
    return [part.replace("~1", "/").replace("~0", "~") for part in pointer[1:].split("/")]


def value_at(body: Json, pointer: str) -> Json | Nothing:
    """Return what stands at a place, or ``NOTHING``."""
    here: Json = body
    for part in read_pointer(pointer):
        if isinstance(here, dict) and part in here:
            here = here[part]
        elif isinstance(here, list) and _number(part) < len(here):
            here = here[_number(part)]
        else:
            return NOTHING
    return here


def with_value(body: Json, pointer: str, value: Json | Nothing) -> Json:
    """Return a body in which another value stands at a place; ``NOTHING`` takes it away.

    In a list only the place after the last is new, and only the last can be taken away: all others
    would move, and their own corrections with them.
    """
    changed = copy.deepcopy(body)
    *way, last = read_pointer(pointer)
    holder = value_at(changed, write_pointer(way)) if way else changed
    if isinstance(holder, dict):
        if value is not NOTHING:
            holder[last] = copy.deepcopy(value)
        elif last in holder:
            del holder[last]
        return changed
    if isinstance(holder, list):
        place = _number(last)
        if value is not NOTHING and place < len(holder):
            holder[place] = copy.deepcopy(value)
            return changed
        if value is not NOTHING and place == len(holder):
            holder.append(copy.deepcopy(value))
            return changed
        if value is NOTHING and place == len(holder) - 1:
            holder.pop()
            return changed
    raise BadInput(
        "nothing can be put there or taken away", where="pointer", given=pointer,
        wanted="a place in what is written, or the next one in a list",
    )  # fmt: skip


def _number(part: str) -> int:
    """Return a place in a list; one past any list for what is no number."""
    plain = part.isascii() and part.isdigit() and (part == "0" or not part.startswith("0"))
    return int(part) if plain and len(part) < 9 else 10**9
