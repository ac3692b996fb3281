"""Two snares on the bench of a workshop whose clock stands still, and its pages."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from html import unescape
from typing import Any

import httpx
from small_shop import Clock
from starlette.testclient import TestClient

from counterhoop.bench.long_work.answers import Answer, Failed, Working
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.promise.as_json import read_asked
from counterhoop.bench.promise.shop_plan import LINE, source_of
from counterhoop.bench.workshop import Workshop
from planned_once import PLANNED

HURRY = {"limit": 0.02, "count": 100}
"""Neither the best plan nor a fine share is wanted here."""


class Counted(WorksAtOnce):
    """Counts plans of the bench, made in a hurry; they can be made slow, or be stopped."""

    def __init__(self) -> None:
        super().__init__()
        self.begun: list[str] = []
        self.slow = self.stopped = False

    def ask(self, asked: Asked[Any]) -> Answer[Any]:
        if asked.line != LINE:
            return PLANNED.ask(asked)
        if self.stopped:
            return Failed(id=asked.id, says="Stopped before it was done.", why="stopped")
        return self._far(asked.id) if self.slow else super().ask(asked)

    def wait(self, id_: str, seconds: float) -> Answer[Any]:
        return self._far(id_) if self.slow else super().wait(id_, seconds)

    def _far(self, id_: str) -> Working:
        return Working(id=id_, says="the weeks are planned", share=0.25)

    def _done(self, asked: Asked[Any]) -> Answer[Any]:
        self.begun.append(asked.task.__name__)
        hurried = replace(read_asked(asked.source.tables_json), **HURRY)
        answer = super()._done(replace(asked, source=source_of(hurried)))
        return replace(answer, id=asked.id)


@dataclass
class Desk:
    """The workshop, its two jobs, its browser."""

    shop: Workshop
    works: Counted
    ask: TestClient
    clock: Clock
    jobs: list[str] = field(default_factory=list)

    def see(self, path: str) -> str:
        """Return what a page says."""
        return words(self.ask.get(path))

    def send(self, path: str, **values: object) -> httpx.Response:
        """Send a form."""
        return self.ask.post(path, data=values)


def words(answer: httpx.Response) -> str:
    """Return what an answer says, without its markup."""
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", answer.text)).split())
