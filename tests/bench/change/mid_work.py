"""A job in mid-work, and what a person would do with what is found."""

from __future__ import annotations

import datetime as dt
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import files
from itertools import count
from pathlib import Path

import pytest
from priced_job import BY, OnTheBench, offered, saved, told

from counterhoop.bench.change.answer import write_answer
from counterhoop.bench.change.changed import Changed, changed_on
from counterhoop.bench.change.found import FoundOnDrum, found_on
from counterhoop.bench.change.typed import FoundTyped, faults_of
from counterhoop.bench.change.write_found import write_found
from counterhoop.bench.folders.decide import Yes, approve
from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.price.offers import accept
from counterhoop.bench.workshop import Workshop
from counterhoop.papers.facts import Lengths
from counterhoop.scheme.plan import Scheme
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from planned_once import PLANNED

__all__ = ["BY", "DAY", "InWork", "fresh", "made", "shop", "work"]
DAY = "2030-05-14"
FIRST = dt.datetime(2030, 5, 14, 9, 0, tzinfo=dt.UTC)
SURVEY = files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml")


class InWork(OnTheBench):
    """A job in mid-work."""

    @property
    def found(self) -> FoundOnDrum:
        return found_on(self.drum)

    @property
    def scheme(self) -> Scheme:
        return self.quote().drums[0].scheme

    def faults(self, sort: str, **words: str) -> dict[str, str]:
        typed = FoundTyped(sort=sort, words=named(words))
        return faults_of(self.job, self.drum, typed, held=drawer(self.shop))

    def finds(self, sort: str, **words: str) -> int:
        assert self.faults(sort, **words) == {}
        typed = FoundTyped(sort=sort, words=named(words))
        return write_found(self.shop, self.id, self.drum.id, typed, by=BY)

    def changed(self) -> Changed:
        approvals = self.plan().opened.job.approvals
        return changed_on(self.job, self.drum.id, self.quote(), approvals=approvals, say=Lengths())

    def hears(self, *, yes: bool, seen: str = "", **said: str) -> None:
        changed = self.changed()
        words = {"who": "Tobin", "when": DAY, "how": "by telephone"} | said
        write_answer(
            self.shop, self.job, self.drum, changed, scheme=self.scheme,
            seen=seen or changed.seen, said_yes=yes, said=Yes(**words), by=BY,
        )  # fmt: skip


def named(words: dict[str, str]) -> dict[str, str]:
    """Words of this language are no names of arguments: ``from_`` is from."""
    return {name.rstrip("_"): word for name, word in words.items()}


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[Path, str]]:
    """Both jobs, made once: each test has a copy of its own."""
    kept = {}
    for name in ("fresh", "agreed"):
        data = tmp_path_factory.mktemp(name)
        with opened(data) as shop:
            content = SURVEY.read_bytes()
            job = take_in(shop, content, name="survey.toml", book_of=lambda _name: b"", by=BY)
            if name == "agreed":
                agree(InWork(shop=shop, id=job))
        kept[name] = (data, job)
    return kept


@contextmanager
def opened(data: Path) -> Iterator[Workshop]:
    minutes = count()
    with open_store(address_of(data=data)) as store:
        yield Workshop(
            store=store, works=PLANNED, now=lambda: FIRST + dt.timedelta(minutes=next(minutes))
        )


def agree(work: InWork) -> None:
    """Price and cuts."""
    offered(work, day=DAY)
    saved(accept(work.shop, work.job, 1, who="Tobin", when=DAY, how="by letter", **told(work)))
    scheme, drum = work.quote().drums[0].scheme, work.drum
    yes = Yes(who="Tobin", when=DAY, how="signed")
    saved(approve(work.shop, work.id, drum, scheme=scheme, shown_code=scheme.code, yes=yes, by=BY))


@pytest.fixture
def shop(
    made: dict[str, tuple[Path, str]], request: pytest.FixtureRequest, tmp_path: Path
) -> Iterator[Workshop]:
    name = "fresh" if "fresh" in request.fixturenames else "agreed"
    data = shutil.copytree(made[name][0], tmp_path / "data")
    with opened(data) as shop:
        yield shop


@pytest.fixture
def fresh(made: dict[str, tuple[Path, str]], shop: Workshop) -> InWork:
    """As it was booked in: nothing is agreed."""
    return InWork(shop=shop, id=made["fresh"][1])


@pytest.fixture
def work(made: dict[str, tuple[Path, str]], shop: Workshop) -> InWork:
    """Price and cuts are agreed."""
    return InWork(shop=shop, id=made["agreed"][1])
