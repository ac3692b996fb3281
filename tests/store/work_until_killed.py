"""Migrate up and down, back up or restore, over and over until killed; say what is finished.

Run as a program: work_until_killed.py WHAT DATA ADDRESS TO.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from itertools import count
from pathlib import Path

from store_samples import START

from counterhoop.store.address import address_of
from counterhoop.store.copies.backup import back_up
from counterhoop.store.copies.restore import restore
from counterhoop.store.migrate import NEWEST
from counterhoop.store.store import open_store


def main(what: str, data: str, address: str, to: str) -> None:
    place, folder = address_of(address, data=Path(data)), Path(to)

    def migrate(number: int) -> None:
        with open_store(place, shape=("0002", NEWEST)[number % 2]):
            pass

    def write_archive(number: int) -> None:
        with open_store(place) as store:
            back_up(store, to=folder / f"{number}.zip", made_at=START)

    def bring_back(number: int) -> None:
        restore(folder / "whole.zip", to=address_of(data=folder / f"{number}"))

    ways: dict[str, Callable[[int], None]] = {
        "migrate": migrate, "back up": write_archive, "restore": bring_back,
    }  # fmt: skip
    # Once before it counts: whatever is imported late is then in memory.
    work = ways[what]
    work(0)
    print("ready", flush=True)
    for number in count(1):
        work(number)
        print(number, flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
