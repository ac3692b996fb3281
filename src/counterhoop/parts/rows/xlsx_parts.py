"""The parts of an XLSX workbook: opened and read piece by piece, whatever was put into them.

Such a file is a ZIP archive of XML (ISO/IEC 29500-1:2016, from memory). Both can be made to swell
without end; every count is held while it grows, never believed beforehand.
"""

from __future__ import annotations

import re
import zipfile
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from posixpath import normpath
from xml.parsers import expat

from counterhoop.errors import BadInput
from counterhoop.parts.rows.held import Held

MOST_PARTS = 2_000
MOST_UNPACKED = 400_000_000
"""Bytes of XML in all: a full shelf takes less than half of it."""
DEEPEST = 60
_CHUNK = 1 << 16
_PLAINLY = re.compile(rb"(\xef\xbb\xbf)?(<\?xml\s[^>]*encoding=[\"']utf-8[\"'][^>]*>\s*)?<\w", re.I)
"""How a part begins that is UTF-8 beyond doubt."""
# A locked archive, or one packed in a way that is not known, is a RuntimeError.
_FAULTS = (
    *(zipfile.BadZipFile, zlib.error, expat.ExpatError, EOFError, OSError),
    *(RuntimeError, LookupError, UnicodeError),
)
_AGAIN = "Open it in a spreadsheet and save it again, or save the sheet as CSV UTF-8."

Attributes = dict[str, str]
Start = Callable[[str, Attributes], None]
End = Callable[[str], None]
Chars = Callable[[str], None]


@dataclass(slots=True, kw_only=True)
class Parts:
    """An archive that was opened, and how much of it was unpacked."""

    archive: zipfile.ZipFile
    where: str
    names: dict[str, str]
    unpacked: int = 0

    def has(self, name: str) -> bool:
        """Whether there is such a part; capitals do not matter."""
        return name.lower() in self.names

    def size(self, name: str) -> int:
        """Return how long a part says it is."""
        return self.archive.getinfo(self.names[name.lower()]).file_size


class _LocalNames(dict[str, str]):
    """Names without the prefix of their vocabulary, which any writer may choose."""

    def __missing__(self, name: str) -> str:
        local = name.rpartition(":")[2]
        if len(self) < 1_000:
            self[name] = local
        return local


@dataclass(slots=True, kw_only=True)
class Watch:
    """What is told of a part's XML: tags without prefix, attributes as written."""

    start: Start
    end: End | None = None
    chars: Chars | None = None


def open_parts(data: bytes, *, where: str) -> Parts:
    """Open the archive of a workbook.

    Raises
    ------
    BadInput
        It is damaged, or has more parts than a workbook has.
    """
    # Every entry of the list at the archive's end begins so: counted before they are all made.
    if data.count(b"PK\x01\x02") > MOST_PARTS:
        raise BadInput(f"more than {MOST_PARTS} files in the workbook", where=where, step=_AGAIN)
    try:
        archive = zipfile.ZipFile(Held(data))
    except (zipfile.BadZipFile, ValueError, OverflowError, RuntimeError) as fault:
        raise damaged(where) from fault
    names = {name.lstrip("/").lower(): name for name in archive.namelist()}
    return Parts(archive=archive, where=where, names=names)


def damaged(where: str) -> BadInput:
    """Return the complaint of a workbook that breaks off or was never one."""
    return BadInput(
        "the workbook is damaged or not complete and cannot be opened", where=where, step=_AGAIN
    )


def read_part(parts: Parts, name: str, watch: Watch) -> Iterator[int]:
    """Read one part's XML, telling ``watch``; yield the bytes read after every piece.

    Raises
    ------
    BadInput
        Damaged, swelling, nested without end, or with definitions of its own.
    """
    parser = expat.ParserCreate()
    parser.buffer_text = True
    local, depth = _LocalNames(), 0
    told_start, told_end = watch.start, watch.end

    def start(tag: str, attributes: Attributes) -> None:
        nonlocal depth
        depth += 1
        if depth > DEEPEST:
            raise BadInput("nested deeper than any sheet", where=parts.where, step=_AGAIN)
        told_start(local[tag], attributes)

    def end(tag: str) -> None:
        nonlocal depth
        depth -= 1
        if told_end is not None:
            told_end(local[tag])

    def refuse(*_: object) -> None:
        raise BadInput(
            "the workbook carries definitions of its own, which no spreadsheet writes",
            where=parts.where,
            step=_AGAIN,
        )

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.StartDoctypeDeclHandler = refuse
    if watch.chars is not None:
        parser.CharacterDataHandler = watch.chars
    done = 0
    try:
        for chunk in _unpacked(parts, name):
            done += len(chunk)
            parser.Parse(chunk, False)
            yield done
        parser.Parse(b"", True)
    except _FAULTS as fault:
        raise damaged(parts.where) from fault


def may_name(parts: Parts, name: str, names: tuple[bytes, ...]) -> bool:
    """Tell whether a part may have a tag or an attribute that is called so, far sooner than XML.

    In UTF-8 a name can be written in one way only; whatever else it is written in, it may.

    Raises
    ------
    BadInput
        Damaged or swelling.
    """
    before = b""
    try:
        for chunk in _unpacked(parts, name):
            if not before and not _PLAINLY.match(chunk):
                return True
            # A name may be cut in two by the end of a piece.
            looked_at = before[-max(map(len, names)) :] + chunk
            if any(one in looked_at for one in names):
                return True
            before = chunk
    except _FAULTS as fault:
        raise damaged(parts.where) from fault
    return False


def _unpacked(parts: Parts, name: str) -> Iterator[bytes]:
    with parts.archive.open(parts.names[name.lower()]) as unpacking:
        while chunk := unpacking.read(_CHUNK):
            parts.unpacked += len(chunk)
            if parts.unpacked > MOST_UNPACKED:
                raise BadInput(
                    "unpacked, the workbook is larger than any shelf",
                    where=parts.where,
                    step=_AGAIN,
                )
            yield chunk


def read_whole(parts: Parts, name: str, watch: Watch) -> None:
    """Read one part to its end."""
    for _ in read_part(parts, name, watch):
        pass


def relations(parts: Parts, name: str) -> dict[str, tuple[str, str]]:
    """Return what a part refers to: by its key, kind (last word of its address) and target part."""
    folder, _, stem = name.rpartition("/")
    listing = f"{folder}/_rels/{stem}.rels".lstrip("/")
    found: dict[str, tuple[str, str]] = {}

    def start(tag: str, attributes: Attributes) -> None:
        if tag == "Relationship" and attributes.get("TargetMode") != "External":
            target = attributes.get("Target", "")
            path = target if target.startswith("/") else f"{folder}/{target}"
            kind = attributes.get("Type", "").rpartition("/")[2]
            found[attributes.get("Id", "")] = (kind, normpath(path).lstrip("/"))

    if parts.has(listing):
        read_whole(parts, listing, Watch(start=start))
    return found
