"""Texts that people typed, made printable: a sign that the typeface lacks becomes an empty box."""

from __future__ import annotations

import struct
import unicodedata
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from functools import cache
from importlib.resources import files
from typing import Any

from counterhoop.errors import CannotDo
from counterhoop.papers.typst.set import set_pdf

BOX = "□"
FACE = "Inter-Regular.ttf"


def set_readable(
    template_name: str, data: Mapping[str, Any], *, title: str,
    images: Mapping[str, str] | None = None, kept: bool = False,
) -> bytes:  # fmt: skip
    """Set a paper as it is or, where a sign has no picture in any typeface, with boxes for those.

    A paper that people with a screen reader can use (PDF/UA-1, ISO 14289-1) may hold no sign
    without a picture; a client's name with one must not keep the paper from being printed. A paper
    to be kept is written for that too (`set_pdf`).
    """
    try:
        return set_pdf(template_name, data, title=title, images=images, kept=kept)
    except CannotDo:
        given = (data, title, images)
        cleaned, boxed, drawn = printable(given)
        if (cleaned, boxed, drawn) == given:
            raise
        return set_pdf(template_name, cleaned, title=boxed, images=drawn, kept=kept)


def printable(thing: Any) -> Any:
    """Return the same data, records included, with every sign that the typeface lacks as a box.

    Control characters become spaces, marks that only join or colour others go.

    Examples
    --------
    >>> printable({"client": "J. Ŵ 🥁", "rows": ["a\\tb"]})
    {'client': 'J. Ŵ □', 'rows': ['a b']}
    """
    if isinstance(thing, Enum):
        return thing
    if isinstance(thing, str):
        return "".join(_sign(sign) for sign in thing)
    if isinstance(thing, Mapping):
        return {key: printable(value) for key, value in thing.items()}
    if isinstance(thing, list | tuple):
        return type(thing)(printable(value) for value in thing)
    if is_dataclass(thing) and not isinstance(thing, type):
        now = {f.name: getattr(thing, f.name) for f in fields(thing) if f.init}
        changed = {name: new for name, old in now.items() if (new := printable(old)) != old}
        return replace(thing, **changed) if changed else thing
    return thing


def _sign(sign: str) -> str:
    kind = unicodedata.category(sign)
    if kind in ("Cc", "Zl", "Zp"):
        return " "
    # A sign of private use means nothing to another reader: no file that is kept may hold one.
    if kind == "Co":
        return BOX
    if ord(sign) in face_signs():
        return sign
    if kind == "Zs":
        return " "
    return "" if kind in ("Cf", "Mn", "Me") else BOX


@cache
def face_signs() -> frozenset[int]:
    """Return the code points that the shipped typeface has, from its cmap table (ISO 14496-22).

    Formats 4 and 12 are read, which every common typeface carries.
    """
    face = (files("counterhoop.papers") / "fonts" / FACE).read_bytes()
    tables = struct.unpack(">H", face[4:6])[0]
    records = (struct.unpack(">4sLLL", face[12 + 16 * i : 28 + 16 * i]) for i in range(tables))
    start = next(offset for tag, _, offset, _ in records if tag == b"cmap")
    found: set[int] = set()
    for i in range(struct.unpack(">H", face[start + 2 : start + 4])[0]):
        at = start + struct.unpack(">HHL", face[start + 4 + 8 * i : start + 12 + 8 * i])[2]
        form = struct.unpack(">H", face[at : at + 2])[0]
        if form == 12:
            groups = struct.unpack(">L", face[at + 12 : at + 16])[0]
            for g in range(groups):
                row = face[at + 16 + 12 * g : at + 28 + 12 * g]
                first, last, _ = struct.unpack(">LLL", row)
                found |= set(range(first, last + 1))
        elif form == 4:
            double = struct.unpack(">H", face[at + 6 : at + 8])[0]
            lasts = struct.unpack(f">{double // 2}H", face[at + 14 : at + 14 + double])
            firsts = struct.unpack(
                f">{double // 2}H", face[at + 16 + double : at + 16 + 2 * double]
            )
            for first, last in zip(firsts, lasts, strict=True):
                found |= set(range(first, min(last, 0xFFFE) + 1))
    return frozenset(found)
