"""Save one revision after another until killed; say each number once the store has said it is kept.

Run as a program: stream_of_saves.py DATA ADDRESS NAME SEED. Every fourth save has a photograph.
"""

from __future__ import annotations

import io
import random
import sys
from pathlib import Path

from PIL import Image

from counterhoop.errors import CannotDo
from counterhoop.store.address import address_of
from counterhoop.store.enclosures.enclose import enclose
from counterhoop.store.enclosures.keep import keep_file
from counterhoop.store.job_folder import job_folders
from counterhoop.store.revision import find_document
from counterhoop.store.save import Saved, save
from counterhoop.store.stamp import Stamp, read_time
from counterhoop.store.store import open_store


def photograph(chance: random.Random) -> bytes:
    out = io.BytesIO()
    Image.frombytes("RGB", (40, 40), chance.randbytes(4800)).save(out, "PNG")
    return out.getvalue()


def main(data: str, address: str, name: str, seed: str) -> int:
    chance = random.Random(int(seed))
    stamp = Stamp(when=read_time("2026-03-04T09:00:00Z"), bench=name)
    try:
        with open_store(address_of(address, data=Path(data))) as store:
            with store.reading() as r:
                (job,) = job_folders(r)
                found = find_document(r, job_id=job.id, kind="notes", name=name)
            number = found.head if found else 0
            print("ready", flush=True)
            while True:
                body = {"number": number + 1, "padding": "x" * chance.randrange(20_000)}
                picture = keep_file(store, [photograph(chance)]) if number % 4 == 3 else None
                with store.writing() as w:
                    done = save(
                        w, job_id=job.id, kind="notes", name=name, body=body, based_on=number,
                        stamp=stamp,
                    )  # fmt: skip
                    assert isinstance(done, Saved)
                    if picture is not None:
                        enclose(w, job_id=job.id, file=picture, name_given="x", stamp=stamp)
                number += 1
                print(number, picture.sha256 if picture else "-", flush=True)
    except CannotDo as fault:
        print("told:", fault, flush=True)
        return 2


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
