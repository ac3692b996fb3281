"""Give papers out, pick work up and put it down, so many times or until killed.

Run as a program: write_in_books.py DATA ADDRESS BENCH TIMES. It begins at a line on its input,
and says each number once it is kept.
"""

from __future__ import annotations

import sys
from pathlib import Path

from running_samples import clock, given_out
from store_samples import stamp

from counterhoop.store.address import address_of
from counterhoop.store.store import Connection, open_store
from counterhoop.store.work_log.write_log import pick_up, put_down


def write(connection: Connection, bench: str, turn: int) -> str:
    number, at, here = given_out(connection).number, clock(9), stamp(0, bench)
    # Every third is put down, the others by picking up the next.
    if turn % 3:
        pick_up(connection, job_id=None, drum="", operation=f"turn {turn}", at=at, stamp=here)
    else:
        put_down(connection, at=at, stamp=here, count=1)
    return number


def main(data: str, address: str, bench: str, times: str) -> None:
    with open_store(address_of(address, data=Path(data))) as store:
        print("ready", flush=True)
        sys.stdin.readline()
        for turn in range(1, int(times) + 1):
            with store.writing() as w:
                number = write(w, bench, turn)
            print(number, flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
