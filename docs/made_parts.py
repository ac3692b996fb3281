"""Parts of a page that are made, not typed: from ``<!-- made: NAME -->`` to ``<!-- end -->``."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

_PART = re.compile(r"(?<=<!-- made: )(?P<name>\w+) -->\n.*?(?=<!-- end -->)", re.DOTALL)


def filled(page: str, parts: Mapping[str, str]) -> str:
    """Return the page with these parts as they are today; others stay as they stand."""

    def part(found: re.Match[str]) -> str:
        made = parts.get(found["name"])
        return found[0] if made is None else f"{found['name']} -->\n{made}\n"

    return _PART.sub(part, page)


def table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return rows as a table of Markdown."""
    lines = [f"| {' | '.join(head)} |", f"|{'---|' * len(head)}"]
    lines += [f"| {' | '.join(str(cell) for cell in row)} |" for row in rows]
    return "\n".join(lines)
