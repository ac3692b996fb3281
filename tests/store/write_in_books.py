"""Give papers out, or pick work up and put it down, so many times or until killed.

Run as a program: write_in_books.py WHAT DATA ADDRESS BENCH TIMES. It begins at a line on its
input, and says each number once it is kept.
"""

from __future__ import annotations

import sys
from pathlib import Path

from running_samples import clock, given_out
from store_samples import stamp

from counterhoop.store.address import address_of
from counterhoop.store.store import Connection, open_store
from counterhoop.store.work_log.write_log import pick_up, put_down


def draw_number(connection: Connection, bench: str, _turn: int) -> str:
    return given_out(connection).number


def work(connection: Connection, bench: str, turn: int) -> str:
    operation, at, here = f"{bench} {turn}", clock(9), stamp(0, bench)
    # Every third is put down, the others by picking up the next.
    if turn % 3:
        pick_up(
            connection,
            job_id=None,
            drum="",
            operation=operation,
            at=clock(9),
            stamp=stamp(0, bench),
        )
    else:
        put_down(connection, at=at, stamp=here, count=1)
    return operation


def main(what: str, data: str, address: str, bench: str, times: str) -> None:
    deed = {"number": draw_number, "work": work}[what]
    with open_store(address_of(address, data=Path(data))) as store:
        print("ready", flush=True)
        sys.stdin.readline()
        for turn in range(1, int(times) + 1):
            with store.writing() as w:
                said = deed(w, bench, turn)
            print(said, flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
