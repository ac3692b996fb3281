"""The body of a document as text, and the hash that tells whether it is still the same."""

from __future__ import annotations

import hashlib
import json
import secrets
from typing import TypeAlias

from counterhoop.errors import BadInput

Json: TypeAlias = "bool | int | float | str | list[Json] | dict[str, Json] | None"


# A body that holds itself is not looked for: nothing here can make one.
_ENCODER = json.JSONEncoder(
    ensure_ascii=True, allow_nan=False, check_circular=False, separators=(",", ":")
)


def write_body(body: Json) -> str:
    r"""Return a body as one line of JSON that reads back the same, key order and all.

    Signs beyond ASCII are written as escapes: half a surrogate pair or a zero sign, which a
    PostgreSQL text cannot hold, then pass through like any other.

    Examples
    --------
    >>> write_body({"depth": "5 1/2 in", "seen": [True, None, 0.1]})
    '{"depth":"5 1/2 in","seen":[true,null,0.1]}'
    """
    _need_json(body, where="body")
    return write_sound(body)


def write_sound(body: Json) -> str:
    """Return as `write_body` does a body that our own code has made, not looked over once more."""
    try:
        return _ENCODER.encode(body)
    except ValueError as fault:
        raise BadInput(f"cannot be kept: {fault}", where="body", wanted="finite numbers") from fault


def read_body(text: str) -> Json:
    """Return the body that was written."""
    body: Json = json.loads(text)
    return body


def hash_of(text: str, original: bytes | None) -> str:
    """Return the hash of a revision: of its body and of the file that it was read from.

    The length stands between the two, so that no byte can move from one into the other unseen.
    """
    digest = hashlib.sha256(f"{len(text)}:{text}:".encode("ascii"))
    digest.update(b"-" if original is None else b"+" + original)
    return digest.hexdigest()


def new_id() -> str:
    """Return a name that no other row has."""
    return secrets.token_hex(8)


_PLAIN = frozenset((str, int, float, bool, type(None)))


def _need_json(value: object, *, where: str) -> None:
    # Most of what is kept are plain values, looked at together: no call is made for those.
    if isinstance(value, dict):
        for key in value:
            if not isinstance(key, str):
                raise BadInput("a name that is no text", where=where, given=key, wanted="a text")
        if not _PLAIN.issuperset(map(type, value.values())):
            for key, inner in value.items():
                if type(inner) not in _PLAIN:
                    _need_json(inner, where=f"{where}.{key}")
    elif isinstance(value, list):
        if not _PLAIN.issuperset(map(type, value)):
            for place, inner in enumerate(value):
                if type(inner) not in _PLAIN:
                    _need_json(inner, where=f"{where}.{place}")
    elif value is not None and not isinstance(value, bool | int | float | str):
        raise BadInput(
            "cannot be kept as it is",
            where=where,
            given=value,
            wanted="text, numbers, yes or no, lists and tables of these",
        )
