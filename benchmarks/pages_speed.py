"""Speed and weight of every page of a workshop of many years, and the memory of who serves it.

Pages are found as a person finds them: by the links of the pages before, in jobs drawn by a fixed
seed. A page counts as one whatever job, drum or photograph it is of.
"""

from __future__ import annotations

import os
import random
import re
import statistics
import sys
import tempfile
import threading
import time
from collections import Counter, defaultdict
from html.parser import HTMLParser
from pathlib import Path
from typing import TypeAlias
from urllib.parse import parse_qsl, urljoin, urlsplit

from _served import Served, Visitor, served
from _timing import machine

sys.path.insert(0, str(Path(__file__).parents[1] / "tests" / "store"))

from large_store import fill_large_store

from counterhoop.store.address import address_of
from counterhoop.store.store import open_store

SEED = 20_000
JOBS = 8
OF_EACH = 3
"""Addresses of one page that are followed in each job."""
CLIENTS = 4
SAMPLES = 40
"""How often each page is asked for in a table, at least, by all clients together."""
MEDIAN_MS, OF_A_HUNDRED_MS = 100.0, 250.0
WEIGHT_KB = 300.0
HELD_MB = 350.0
PLANNED_S = 240.0
MADE_ON_DEMAND = re.compile(r"/(file|all|preview|original|paper|survey-file)\b|\.jpg$|/events$")
"""Papers and photographs: made or sent for their own sake, and as long as they are."""
PART_OF_AN_ADDRESS = re.compile(r"^(\d+|[0-9a-f]{4,})$")
STILL = re.compile(rb'http-equiv="refresh"')
NAMES = ("VmHWM", "VmRSS")


Asked: TypeAlias = tuple[str, float, int]
"""Address, seconds until the whole answer was there, bytes of it."""


class Links(HTMLParser):
    """Gathers what a page leads to."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take the address of a link, or of what the page's script fetches."""
        for name, value in attrs:
            if (tag == "a" and name == "href") or name == "hx-get":
                self.found.append(value or "")


def links_of(path: str, body: bytes) -> list[str]:
    """Return the addresses of this server that a page leads to."""
    reader = Links()
    reader.feed(body.decode("utf-8"))
    full = [urlsplit(urljoin(path, link)) for link in reader.found]
    return [
        one.path + (f"?{one.query}" if one.query else "")
        for one in full
        if not one.netloc and not one.scheme
    ]


def page_of(address: str) -> str:
    """Return which page an address is of, without the names of jobs and drums in it.

    Examples
    --------
    >>> page_of("/jobs/00000000000000f1/drums/01a3/shell?open=row-0")
    '/jobs/*/drums/*/shell?open'
    """
    parts = urlsplit(address)
    path = "/".join("*" if PART_OF_AN_ADDRESS.match(one) else one for one in parts.path.split("/"))
    query = "&".join(sorted({name for name, _ in parse_qsl(parts.query, keep_blank_values=True)}))
    return f"{path}?{query}" if query else path


def found_pages(visitor: Visitor, begin: str, *, within: str) -> list[Asked]:
    """Return every page that can be reached, a few addresses of each, and how it answered."""
    seen, kept, counted = {begin}, [], defaultdict(int)
    todo = [begin]
    while todo:
        address = todo.pop(0)
        if counted[page_of(address)] >= OF_EACH or MADE_ON_DEMAND.search(urlsplit(address).path):
            continue
        answer = visitor.get(address)
        counted[page_of(address)] += 1
        if answer.status == 303:
            led_to = answer.headers["location"].partition("#")[0]
            if led_to not in seen:
                seen.add(led_to)
                todo.append(led_to)
            continue
        if answer.status != 200:
            print(f"(not counted: {address} answers {answer.status})")
            continue
        kept.append((address, answer.seconds, len(answer.body)))
        if "html" in answer.headers.get("content-type", ""):
            new = [
                one
                for one in links_of(address, answer.body)
                if one.startswith(within) and one not in seen
            ]
            seen.update(new)
            todo += new
    return kept


def wait_for_plans(visitor: Visitor, addresses: list[str]) -> float:
    """Load the pages that are being worked out until they are; return the seconds it took."""
    began = time.monotonic()
    for address in addresses:
        while STILL.search(visitor.get(address).body):
            if time.monotonic() - began > PLANNED_S:
                print(f"(still being worked out: {address})")
                break
            time.sleep(0.2)
    return time.monotonic() - began


def often_enough(addresses: list[str], *, clients: int) -> list[str]:
    """Return addresses as often as one client asks for them: the rarest page still has samples."""
    of_page = Counter(page_of(one) for one in addresses)
    return [
        one for one in addresses for _ in range(-(-SAMPLES // (clients * of_page[page_of(one)])))
    ]


def asked_by(server: Served, addresses: list[str], *, clients: int) -> list[Asked]:
    """Have clients ask for everything, each in an order of its own; address, seconds, bytes."""
    found: list[Asked] = []

    def client(number: int) -> None:
        visitor = server.visitor()
        chance = random.Random(SEED + number)
        mine = often_enough(addresses, clients=clients)
        chance.shuffle(mine)
        for address in mine:
            answer = visitor.get(address)
            assert answer.status == 200, (address, answer.status)
            found.append((address, answer.seconds, len(answer.body)))

    threads = [threading.Thread(target=client, args=(number,)) for number in range(clients)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


def of_a_hundred(values: list[float]) -> float:
    """Return what 99 of a hundred stay below."""
    return sorted(values)[min(len(values) - 1, int(0.99 * len(values)))]


def held_mb(pid: int) -> tuple[float, float]:
    """Return the most memory that a process has held, and what it holds now."""
    status = Path(f"/proc/{pid}/status").read_text("utf-8")
    most, now = (int(re.search(rf"{name}:\s+(\d+)", status)[1]) / 1024 for name in NAMES)
    return most, now


def beneath(pid: int) -> list[int]:
    """Return the processes that a process has started."""
    return [
        int(one.name)
        for one in Path("/proc").iterdir()
        if one.name.isdigit() and parent_of(one) == pid
    ]


def parent_of(process: Path) -> int:
    """Return who started a process; -1 when it is gone."""
    try:
        return int(process.joinpath("stat").read_text("utf-8").rpartition(")")[2].split()[1])
    except OSError:
        return -1


class Report:
    """Prints pages against the limits and remembers whether one was broken."""

    def __init__(self) -> None:
        self.broken = False

    def pages(self, title: str, found: list[Asked], *, held: bool) -> None:
        """Print one table: all pages together, then each, the slowest first."""
        print(f"\n{title}")
        print(f"{'page':<62}{'times':>6}{'median':>10}{'99 of 100':>11}{'weight':>9}")
        by_page = defaultdict(list)
        for address, seconds, size in found:
            by_page[page_of(address)].append((seconds * 1e3, size / 1024))
        every = [one for several in by_page.values() for one in several]
        self._line("every page together", every, held=held)
        for page, several in sorted(by_page.items(), key=lambda one: -of_a_hundred(ms(one[1]))):
            self._line(page, several, held=held)

    def _line(self, name: str, several: list[tuple[float, float]], *, held: bool) -> None:
        median, slow = statistics.median(ms(several)), of_a_hundred(ms(several))
        heavy = max(size for _, size in several)
        wrong = heavy > WEIGHT_KB or (held and (median > MEDIAN_MS or slow > OF_A_HUNDRED_MS))
        self.broken |= wrong
        print(
            f"{name:<62}{len(several):>6}{median:>7.0f} ms{slow:>8.0f} ms{heavy:>6.0f} KB"
            f"{'  BROKEN' if wrong else ''}"
        )

    def memory(self, pid: int) -> None:
        """Print what the process of the pages holds, and those beside it."""
        most, now = held_mb(pid)
        wrong = most > HELD_MB
        self.broken |= wrong
        print(f"\nmemory of the pages: {now:.0f} MB, at most {most:.0f} MB, limit {HELD_MB:.0f} MB"
              f"{'  BROKEN' if wrong else ''}")  # fmt: skip
        for worker in beneath(pid):
            print(f"beside it, process {worker}: {held_mb(worker)[1]:.0f} MB")


def ms(several: list[tuple[float, float]]) -> list[float]:
    """Return the times of pairs of time and weight."""
    return [time_ms for time_ms, _ in several]


def main() -> None:
    """Print the tables."""
    print("\nPages of a store after years: 300 jobs, 1,500 drums, 20,000 revisions, SQLite")
    print(f"{machine()}; load when begun {os.getloadavg()[0]:.1f}\n")
    report = Report()
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder)
        with open_store(address_of(data=data)) as store:
            names = fill_large_store(store)
        in_sight = [name for turn, name in enumerate(names) if turn % 30 != 29]
        jobs = random.Random(SEED).sample(in_sight, JOBS)
        with served(data) as server:
            visitor = server.visitor()
            first = found_pages(visitor, "/", within="/workshop")
            for job in jobs:
                first += found_pages(visitor, f"/jobs/{job}", within=f"/jobs/{job}")
            lists = [one for one in links_of("/", visitor.get("/").body) if "?" in one]
            addresses = [address for address, _, _ in first]
            addresses += ["/let-in", "/jobs/new", "/drums/new", *lists[:4]]
            addresses = [*dict.fromkeys(addresses)]
            took = wait_for_plans(visitor, addresses)
            print(f"({len(addresses)} addresses of {JOBS} jobs; their plans took {took:.0f} s)")
            report.pages("for the first time, while plans are worked out beside", first, held=False)
            report.pages(
                "one client", asked_by(server, addresses, clients=1), held=True
            )  # fmt: skip
            report.pages(
                f"{CLIENTS} clients that never pause",
                asked_by(server, addresses, clients=CLIENTS), held=True,
            )  # fmt: skip
            report.memory(server.process.pid)
    sys.exit(1 if report.broken else 0)


if __name__ == "__main__":
    main()
