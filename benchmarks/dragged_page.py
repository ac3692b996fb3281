"""Speed of a page on which a row is dragged: one question answered, as the browser sends them."""

from __future__ import annotations

import asyncio
import gc
import html
import random
import re
import statistics
import sys
import tempfile
import time
from importlib.resources import files
from pathlib import Path

import httpx
from _timing import machine

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard import pen

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
DRUMS = ("small tom", "marching snare")
PLACES = 60
LIMIT_MS = 50.0
MOVER = re.compile(r'data-move-url="([^"]+)" data-row-of="([^"]+)"')


def main() -> None:
    """Print the table; the median of each row is held against the limit."""
    print(f"\nA row dragged on its page, {PLACES} places each, past the guard\n{machine()}\n")
    print(f"{'drum and row':<36}{'processor, ms':>20}{'by the clock, ms':>20}{'kB':>8}")
    print(f"{'':<36}{'least':>10}{'median':>10}{'median':>10}{'95 %':>10}")
    broken = False
    with (
        tempfile.TemporaryDirectory() as folder,
        open_store(address_of(data=Path(folder))) as store,
    ):
        shop = Workshop(store=store, works=WorksAtOnce())
        job = take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")
        app = make_app(shop)
        # As the program does once all its pages are there.
        gc.collect()
        gc.freeze()
        for drum in kept_job(shop, job).drums:
            if drum.name not in DRUMS:
                continue
            for row, busy, clock, size in asyncio.run(
                dragged(app, f"/jobs/{job}/drums/{drum.id}/schemes")
            ):
                slow = statistics.median(busy) > LIMIT_MS
                broken |= slow
                figures = "".join(
                    f"{figure:>10.1f}"
                    for figure in (
                        *(min(busy), statistics.median(busy)),
                        *(statistics.median(clock), late(clock)),
                    )
                )
                name = f"{drum.name}, {row}"
                print(f"{name:<36}{figures}{size / 1e3:>8.0f}{'  BROKEN' if slow else ''}")
    print(f"\nlimit: {LIMIT_MS:.0f} ms of the processor in the median; the asking is in it")
    sys.exit(1 if broken else 0)


async def dragged(app, address):
    """Yield each row that may be moved, and what each of its places took."""
    inside = httpx.ASGITransport(app=app)
    headers = {"HX-Request": "true"}
    found = []
    async with httpx.AsyncClient(transport=inside, base_url="http://bench", headers=headers) as ask:
        page = await ask.get(address, timeout=120)
        for url, row in MOVER.findall(page.text):
            dice, busy, clock = random.Random(1), [], []
            for _ in range(PLACES):
                sent = {
                    "row": row, "right_mm": f"{dice.uniform(-15, 15):.3f}",
                    "down_mm": f"{dice.uniform(-5, 5):.3f}", "based_on": "0", "settled": "no",
                }  # fmt: skip
                # The guard, which would say so, is not asked.
                pen._may_write.set(True)
                began, used = time.perf_counter(), time.process_time()
                answer = await ask.post(html.unescape(url), data=sent)
                busy.append((time.process_time() - used) * 1e3)
                clock.append((time.perf_counter() - began) * 1e3)
                assert answer.status_code == 200, answer.text
            found.append((row, busy[1:], clock[1:], len(answer.content)))
    return found


def late(times: list[float]) -> float:
    """Return the time that one in twenty takes or passes."""
    return sorted(times)[int(0.95 * len(times))]


if __name__ == "__main__":
    main()
