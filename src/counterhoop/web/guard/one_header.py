"""Headers as they came: a second line of the same name is never quietly dropped."""

from __future__ import annotations

from starlette.types import Scope


def header_lines(scope: Scope, name: bytes) -> list[str]:
    """Return every line of a header, in order; the name in lower case."""
    return [value.decode("latin-1") for key, value in scope["headers"] if key == name]


def one_header(scope: Scope, name: bytes) -> str | None:
    """Return the only line of a header, or nothing when there is none or more than one."""
    lines = header_lines(scope, name)
    return lines[0] if len(lines) == 1 else None
