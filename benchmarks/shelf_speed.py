"""Speed of a shelf: taking many pieces in, and finding one among 50,000 and among a million.

python benchmarks/shelf_speed.py [PIECES ...] [--postgresql] [--kept FOLDER]

A shelf that is kept in a folder (SQLite) is not filled again.
"""

from __future__ import annotations

import contextlib
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from _shelf import many_pieces
from _timing import Table, peak_mb, timed

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))
sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "store"))

from store_samples import START, stamp

from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.movement import Movement
from counterhoop.store.address import Address, address_of
from counterhoop.store.shelf.find import find
from counterhoop.store.shelf.look_up import piece_by_number
from counterhoop.store.shelf.move import move
from counterhoop.store.shelf.newest import how_many_pieces
from counterhoop.store.shelf.put import put_new_pieces
from counterhoop.store.store import Store, open_store
from store_postgres import Cluster, programs

TIMES = 20
MEASURES_S, WORDS_S = 0.050, 0.300
IMPORT_S_PER_PIECE = 60.0 / 100_000
MOST_MB = 500.0


def near(dimension: Dimension, value: float, doubt: float = 0.5) -> Measured:
    return Measured(dimension=dimension, value=value, doubt=doubt)


HOLES, PITCH = near(Dimension.HOLES_APART, 42.0), near(Dimension.PITCH, 25.4 / 24, 0.02)
COMMON_HOLES = near(Dimension.HOLES_APART, 25.4)
MEASURES: dict[str, dict[str, Any]] = {
    "holes 42 +- 0.5": {"measures": [HOLES]},
    "the commonest holes, 25.4 +- 0.5": {"measures": [COMMON_HOLES]},
    "24 to the inch: half of what is measured": {"measures": [PITCH]},
    "holes 42 +- 0.5, 24 to the inch": {"measures": [HOLES, PITCH]},
    "holes, pitch, base, stands out": {
        "measures": [
            COMMON_HOLES, PITCH, near(Dimension.BASE_WIDE, 20.0), near(Dimension.REACH, 22.0),
        ]
    },
    "holes that nothing has": {"measures": [near(Dimension.HOLES_APART, 400.0)]},
    "24 to the inch, for a client's job, free": {
        "measures": [PITCH], "client": "Client 0", "only_free": True,
    },
    "24 to the inch, two holes": {"measures": [PITCH, near(Dimension.HOLE_COUNT, 2.0, 0.0)]},
}  # fmt: skip
WORDS: dict[str, dict[str, Any]] = {
    "two common words: chrome, lug": {"words": ["chrome", "lugs"]},
    "two common words that no piece has both": {"words": ["rod", "washer"]},
    "a common word and a rare one": {"words": ["lug", "1499"]},
    "words and holes: single-ended, 42, 24 to the inch": {
        "words": ["single-ended"], "measures": [HOLES, PITCH],
    },
    "chrome, 24 to the inch": {"words": ["chrome"], "measures": [PITCH]},
    "chrome lug, holes 42, for a client's job, free": {
        "words": ["chrome", "lug"], "measures": [HOLES], "client": "Client 0", "only_free": True,
    },
    "everything, the newest first": {},
}  # fmt: skip


def asked(store: Store, question: dict[str, Any]) -> Callable[[], object]:
    """Return the asking of one question, as a page does it."""

    def ask() -> object:
        with store.reading() as r:
            return find(r, **question)

    return ask


def moved(store: Store) -> Callable[[], object]:
    """Return the taking of one piece and putting it back."""

    def once() -> None:
        for kind in ("came in", "sold"):
            with store.writing() as w:
                move(w, Movement(piece_id=f"{7:016x}", kind=kind, count=1, on=START, bench="b"))  # type: ignore[arg-type]

    return once


def fill(store: Store, *, count: int, table: Table) -> None:
    """Take so many pieces in, and say how long it took."""
    began, used = time.perf_counter(), time.process_time()
    with store.writing() as w:
        put_new_pieces(w, many_pieces(count), stamp=stamp())
    table.row(
        "take all of it in", [time.perf_counter() - began], limit_s=IMPORT_S_PER_PIECE * count
    )
    print(f"(of that {time.process_time() - used:.0f} s of this program's processor time)")


def measured(address: Address, *, count: int, what: str) -> bool:
    """Print the table of one shelf; tell whether a limit was broken."""
    table = Table(f"A shelf of {count:,} pieces, {what}")
    with open_store(address) as store:
        with store.reading() as r:
            is_filled = how_many_pieces(r) > 0
        if not is_filled:
            fill(store, count=count, table=table)
        for questions, limit_s in ((MEASURES, MEASURES_S), (WORDS, WORDS_S)):
            for name, question in questions.items():
                ask = asked(store, question)
                ask()
                table.row(name, timed(ask, times=TIMES), limit_s=limit_s)
        with store.reading() as r:
            number = f"{count // 2000}-001"
            table.row(
                "by its number",
                timed(lambda: piece_by_number(r, number), times=TIMES),
                limit_s=0.010,
            )
        table.row(
            "in and out again, two movements", timed(moved(store), times=TIMES), limit_s=0.100
        )
    if address.in_a_file:
        print(f"(the file has {address.file.stat().st_size / 2**20:.0f} MB)")
    table.figure("most memory", peak_mb(), "MB", limit=MOST_MB)
    return table.broken


@contextlib.contextmanager
def places(*, postgresql: bool, kept: str) -> Iterator[Callable[[str], Address]]:
    """Give a maker of addresses: empty ones, or those in a folder that is kept."""
    if kept:
        yield lambda name: address_of(data=Path(kept) / name)
        return
    with tempfile.TemporaryDirectory() as folder:
        if not postgresql:
            yield lambda name: address_of(data=Path(folder) / name)
            return
        found = programs()
        assert found is not None
        cluster = Cluster(found)
        try:
            yield lambda name: address_of(cluster.new_database(), data=Path(folder) / name)
        finally:
            cluster.close()


def main(words: list[str]) -> None:
    """Print a table for each size."""
    postgresql = "--postgresql" in words
    counts = [int(one) for one in words if one.isdigit()] or [50_000, 1_000_000]
    what = "PostgreSQL" if postgresql else "SQLite"
    kept = words[words.index("--kept") + 1] if "--kept" in words else ""
    with places(postgresql=postgresql, kept=kept) as place:
        broken = [measured(place(str(one)), count=one, what=what) for one in counts]
    sys.exit(1 if any(broken) else 0)


if __name__ == "__main__":
    main(sys.argv[1:])
