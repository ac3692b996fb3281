"""Files of rows that were put in and wait until they are taken or put aside."""

from __future__ import annotations

import datetime as dt
import json
import re
import secrets
import shutil
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any, Final

from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.parts.rows.row import MOST_BYTES
from counterhoop.store.faults import plain_faults
from counterhoop.store.to_disk import move_into_place

FOLDER: Final = "rows"
MOST_WAITING: Final = 12
_STATE, _FILE = "state.json", "file"
_ID = re.compile(r"[0-9a-f]{16}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """How a file is read; what is empty is found out.

    Attributes
    ----------
    sheet : str
        Of a workbook.
    header_row : int
        Where the headers stand; 0 for the first row that is not empty.
    delimiter, encoding : str
        Of a text file.
    comma : str
        What a comma in a number is: "decimal", "thousands", or empty.
    """

    sheet: str = ""
    header_row: int = 0
    delimiter: str = ""
    encoding: str = ""
    comma: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """A file that waits.

    Attributes
    ----------
    folder : Path
        Where it lies, with what was made of it.
    name, size_bytes : str, int
        As it was called where it came from, and how long it is.
    sort : str
        What its rows are: see ``row_sorts``.
    at, by : str
        When and at which bench it was put in.
    reading : Reading
        How it is read.
    chosen, units : mapping of int to str
        By column: the field and the unit that a person chose; empty before that.
    mapped : bool
        Whether a person has looked at the columns.
    tries : int
        How often it was tried.
    taking : bool
        Its rows began to be taken; still so when the program was ended meanwhile.
    said : tuple of str
        What the last try to take them came to, where it came to nothing.
    """

    folder: Path
    name: str
    size_bytes: int
    sort: str
    at: str
    by: str
    reading: Reading = field(default_factory=Reading)
    chosen: dict[int, str] = field(default_factory=dict)
    units: dict[int, str] = field(default_factory=dict)
    mapped: bool = False
    tries: int = 0
    taking: bool = False
    said: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """Its name for programs."""
        return self.folder.name

    @property
    def file(self) -> Path:
        """The file as it came."""
        return self.folder / _FILE

    @property
    def rows_file(self) -> Path:
        """What the last try would write, a row a line."""
        return self.folder / f"rows-{self.tries}.jsonl"

    @property
    def told_file(self) -> Path:
        """What the last try came to; it is there once the try is done."""
        return self.folder / f"told-{self.tries}.json"

    @property
    def list_file(self) -> Path:
        """Everything that the last try would change, as a sheet."""
        return self.folder / f"list-{self.tries}.csv"


def put_rows_in(
    shop: Workshop, *, sort: str, name: str, pieces: Iterable[bytes], by: str
) -> Waiting:
    """Keep a file of rows until it is taken or put aside.

    Raises
    ------
    BadInput
        When it is empty, or larger than any sheet.
    CannotDo
        When too many wait, or the disk is full.
    """
    where = _folder(shop)
    waiting = waiting_files(shop)
    if len(waiting) >= MOST_WAITING:
        raise CannotDo(
            f"{len(waiting)} files wait already: take one of them or put it aside first."
        )
    folder = where / secrets.token_hex(8)
    with plain_faults():
        where.mkdir(mode=0o700, exist_ok=True)
        folder.mkdir(mode=0o700)
        try:
            size = _written(folder / _FILE, pieces, name=name)
            found = Waiting(
                folder=folder, name=name, size_bytes=size, sort=sort, by=by,
                at=shop.now().isoformat(timespec="seconds"),
            )  # fmt: skip
            _write_state(found)
        except BaseException:
            shutil.rmtree(folder, ignore_errors=True)
            raise
    return found


def waiting_files(shop: Workshop, *, sorts: Iterable[str] = ()) -> tuple[Waiting, ...]:
    """Return the files that wait, the last put in first."""
    folder = _folder(shop)
    ids = [one.name for one in folder.iterdir()] if folder.is_dir() else []
    found = [one for id_ in ids if (one := find_waiting(shop, id_)) is not None]
    wanted = tuple(sorts)
    mine = [one for one in found if not wanted or one.sort in wanted]
    return tuple(sorted(mine, key=lambda one: (one.at, one.id), reverse=True))


def find_waiting(shop: Workshop, id_: str) -> Waiting | None:
    """Return a file that waits, or None."""
    if not _ID.fullmatch(id_):
        return None
    return read_waiting(_folder(shop) / id_)


def read_waiting(folder: Path) -> Waiting | None:
    """Return the file that waits in a folder, or None."""
    try:
        state: dict[str, Any] = json.loads((folder / _STATE).read_text("utf-8"))
    except (FileNotFoundError, NotADirectoryError, ValueError):
        return None
    for name in ("chosen", "units"):
        state[name] = {int(at): value for at, value in state[name].items()}
    reading = Reading(**state.pop("reading"))
    return Waiting(folder=folder, **{**state, "reading": reading, "said": tuple(state["said"])})


def need_waiting(shop: Workshop, id_: str) -> Waiting:
    """Return a file that waits.

    Raises
    ------
    BadInput
        When there is none of that name.
    """
    found = find_waiting(shop, id_)
    if found is None:
        raise BadInput(
            "no such file waits here", where="file", given=id_,
            step="It was taken or put aside; put it in again if you want to",
        )  # fmt: skip
    return found


def change_waiting(one: Waiting, **changes: Any) -> Waiting:
    """Write down something else of a file that waits."""
    changed = replace(one, **changes)
    with plain_faults():
        _write_state(changed)
    return changed


def read_anew(one: Waiting, **changes: Any) -> Waiting:
    """Write down another way to read a file or its columns: what was tried before is no more."""
    with plain_faults():
        for old in ("rows-*.jsonl", "told-*.json", "list-*.csv"):
            for file in one.folder.glob(old):
                file.unlink(missing_ok=True)
    return change_waiting(one, **{"tries": one.tries + 1, "said": (), "taking": False, **changes})


def put_aside(one: Waiting) -> None:
    """Delete a file and all that was made of it."""
    # The state first: what is left of a folder without it is not listed any more.
    with plain_faults():
        (one.folder / _STATE).unlink(missing_ok=True)
        shutil.rmtree(one.folder, ignore_errors=True)


def day_of(one: Waiting) -> dt.datetime:
    """Return when a file was put in."""
    return dt.datetime.fromisoformat(one.at)


def _folder(shop: Workshop) -> Path:
    return shop.store.address.folder / FOLDER


def _written(to: Path, pieces: Iterable[bytes], *, name: str) -> int:
    size = 0
    with to.open("xb") as out:
        for piece in pieces:
            size += len(piece)
            if size > MOST_BYTES:
                raise BadInput(
                    f"larger than {MOST_BYTES // 10**6} MB", where=name, step="Part the file in two"
                )
            out.write(piece)
    if not size:
        raise BadInput(
            "the file is empty", where=name, wanted='a file saved as "XLSX" or as "CSV UTF-8"'
        )
    return size


def _write_state(one: Waiting) -> None:
    state = asdict(one)
    del state["folder"]
    part = one.folder / f"{_STATE}.part"
    part.write_text(json.dumps(state), "utf-8")
    move_into_place(part, to=one.folder / _STATE)
