"""Make the stores that are kept as data. Run once when a shape or a layout is new, never again.

python tests/store/keep_a_store.py FOLDER writes into a folder; what is there already stays.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from running_samples import fill_running
from shelf_samples import fill_shelf, put_some_away
from store_samples import START, fill

from counterhoop.store.address import address_of
from counterhoop.store.copies.backup import back_up
from counterhoop.store.copy_database import copy_database
from counterhoop.store.migrate import NEWEST
from counterhoop.store.plain_folder.layout import VERSION
from counterhoop.store.plain_folder.write import write_folder
from counterhoop.store.store import open_store


def main(folder: str) -> None:
    to = Path(folder)
    with tempfile.TemporaryDirectory() as work:
        address = address_of(data=Path(work) / "store")
        with open_store(address) as store:
            fill(store)
            fill_shelf(store)
            put_some_away(store)
            fill_running(store)
            archive = to / f"backup-shape-{NEWEST}.zip"
            if not archive.exists():
                back_up(store, to=archive, made_at=START)
            packed = to / f"folder-version-{VERSION}.zip"
            if not packed.exists():
                write_folder(store, to=Path(work) / "drums", made_at=START)
                with ZipFile(packed, "w", ZIP_DEFLATED) as out:
                    for file in sorted((Path(work) / "drums").rglob("*")):
                        if file.is_file():
                            name = file.relative_to(Path(work) / "drums").as_posix()
                            out.writestr(ZipInfo(name), file.read_bytes(), ZIP_DEFLATED)
        first = to / "shape-0001.sqlite3"
        if not first.exists():
            with open_store(address, shape="0001") as store:
                copy_database(store.engine, to=first)


if __name__ == "__main__":
    main(sys.argv[1])
