"""Set each piece that is called aside, or put it away; say whether it was had or was gone.

Run as a program: fight_for_pieces.py DATA ADDRESS JOB, or "away" for the job. Pieces are
called on its input, a line each.
"""

from __future__ import annotations

import sys
from pathlib import Path

from shelf_samples import moved
from store_samples import stamp

from counterhoop.errors import BadInput
from counterhoop.store.address import address_of
from counterhoop.store.shelf.move import move
from counterhoop.store.shelf.put_away import hide_piece
from counterhoop.store.store import open_store

AWAY = "away"


def main(data: str, address: str, job: str) -> None:
    with open_store(address_of(address, data=Path(data))) as store:
        print("ready", flush=True)
        for line in sys.stdin:
            try:
                with store.writing() as w:
                    if job == AWAY:
                        hide_piece(w, line.strip(), stamp=stamp())
                    else:
                        move(w, moved(line.strip(), "set aside", 1, job=job))
            except BadInput:
                print("gone", flush=True)
            else:
                print("had", flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
