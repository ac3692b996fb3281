"""The day while schemes, or the order of the bench, are still worked out.

Truth: the small job worked by hand (a plug cures 12 hours at 20 degrees, so one that hands were
off at 9:20 may be touched from the quarter of an hour after 21:20), and what nobody may be told of
a drum that nothing has looked at yet.
"""

from __future__ import annotations

import datetime as dt
import re
from html import unescape
from typing import Any

import pytest
from httpx import Response
from small_shop import TUESDAY, Clock
from starlette.testclient import TestClient

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.long_work.answers import Answer, Working
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.long_work.works import Works
from counterhoop.bench.promise.shop_plan import LINE
from counterhoop.bench.workshop import Workshop
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite

PLUG = "plug a hole"
SCHEMES = "plans"


class Busy(WorksAtOnce):
    """Asks other works, but for what is still worked out as long as the test says so."""

    def __init__(self, works: Works) -> None:
        super().__init__()
        self.works = works
        self.at: set[str] = set()

    def ask(self, asked: Asked[Any]) -> Answer[Any]:
        if asked.line in self.at:
            return Working(id=asked.id, says="laying out", share=0.25)
        return self.works.ask(asked)

    def wait(self, id_: str, seconds: float) -> Answer[Any]:
        return Working(id=id_, says="laying out", share=0.25) if self.at else self.works.state(id_)


@pytest.fixture
def busy(shop: Workshop) -> Busy:
    return Busy(shop.works)


def started(shop: Workshop, busy: Busy) -> TestClient:
    """Return the program as it is just started: it remembers nothing."""
    anew = Workshop(store=shop.store, works=busy, now=shop.now)
    return TestClient(WhoMayWrite(make_app(anew)), follow_redirects=False)


@pytest.fixture
def page(shop: Workshop, busy: Busy) -> TestClient:
    return started(shop, busy)


def sheet(answer: Response, ident: str) -> str:
    """Return the words of one sheet of a page."""
    (found,) = re.findall(
        rf'(?s)<section class="sheet[^"]*" id="{ident}".*?</section>', answer.text
    )
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", found)).split())


@pytest.fixture
def plugged(shop: Workshop, page: TestClient, job: str, clock: Clock) -> dict[str, str]:
    """Return the snare, on which a hole was plugged until 9:20."""
    whose = {"job": job, "drum": kept_job(shop, job).drums[0].id, "operation": PLUG}
    page.post("/today/pick-up", data=whose)
    clock.at = TUESDAY + dt.timedelta(minutes=20)
    page.post("/today/put-down", data={"entry": "1", "deed": "down", "count": "1"})
    return whose


def test_glue_is_told_from_the_log_before_any_scheme_is_there(
    page: TestClient, busy: Busy, plugged: dict[str, str], shop: Workshop
) -> None:
    known = sheet(page.get("/today"), "touch")
    assert "plug a hole from 21:30" in known
    busy.at, page = {SCHEMES}, started(shop, busy)
    title = kept_job(shop, plugged["job"]).title
    anew = page.get("/today")
    assert "plug a hole from 21:30" in sheet(anew, "touch")
    for ident in ("touch", "waits"):
        assert f"Not known yet of {title}" in sheet(anew, ident)
    assert title in sheet(anew, "done")
    assert not re.findall("Nothing dries|Nothing waits|not open|no open job", anew.text)
    waits = page.get("/waits")
    assert "plug a hole: from 21:30" in sheet(waits, "waits")
    assert "what it waits for is not known yet" in sheet(waits, "waits")
    refused = page.post("/today/pick-up", data=plugged)
    assert "just being worked out" in refused.text


def test_after_a_press_the_last_order_of_the_day_stands(
    page: TestClient, busy: Busy, plugged: dict[str, str]
) -> None:
    def order(answer: Response) -> list[str]:
        every = re.findall(r'name="operation" value="([^"]+)"', answer.text)
        return list(dict.fromkeys(every))

    before = page.get("/today")
    first, second, *rest = order(before)
    assert "worked out anew" not in before.text
    busy.at = {LINE}
    # Another than the first, so that an order of what could begin would be another one.
    page.post("/today/pick-up", data=plugged | {"operation": second})
    after = page.get("/today")
    assert order(after) == [second, first, *rest]
    assert "In hand" in sheet(after, "in-hand")
    assert "The order is being worked out anew" in sheet(after, "then")
    assert not re.findall(r"\d:\d\d to \d", sheet(after, "then"))
