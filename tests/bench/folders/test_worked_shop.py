"""The demonstration as a whole workshop: seven jobs, each at another stage.

Truth: the files of the jobs, read by hand; an exact law for the moved days (Hypothesis); the pixel
at a place that was reckoned by hand.
"""

from __future__ import annotations

import datetime as dt
import io
import math
import re
import shutil
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from counterhoop.bench.demonstration.dates import WRITTEN_FOR, moved_to
from counterhoop.bench.demonstration.scene import FOOT_PX, HIGH_PX, WIDE_PX, Scene, picture
from counterhoop.bench.demonstration.steps import BILLED, STEPS, steps_of
from counterhoop.bench.demonstration.whole_shop import (
    demonstration_in_sight,
    put_demonstration,
    put_demonstration_away,
)
from counterhoop.bench.folders.album import missing_views, photographs_of
from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import HANDOVER, OPEN_HOURS, TERMS, TUNING
from counterhoop.bench.folders.photographs import pieces_of
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.open_job import opened
from counterhoop.bench.plan_job import plan_job
from counterhoop.bench.price.bills import bills_of_job
from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.promise.what_waits import Line, what_waits
from counterhoop.bench.tune.kept_reading import from_json
from counterhoop.bench.workshop import Workshop
from counterhoop.quantities.pitch import parse_pitch
from counterhoop.scheme.layout import Layout
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.store.work_log.read_log import all_workings
from planned_once import PLANNED

NOW = dt.datetime(2030, 5, 15, 10, 30).astimezone()
"""A Wednesday: the week before it is the one that the files call the last of May."""
BAND, GLUE, PART, LATE = "26-031", "26-036", "26-034", "26-032"
DONE, WAITS, CALLED = "26-029", "26-033", "26-039"


def shop_at(data: Path) -> Iterator[Workshop]:
    with open_store(address_of(data=data)) as store:
        yield Workshop(store=store, works=PLANNED, now=lambda: NOW)


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("whole shop") / "data"


@pytest.fixture(scope="module")
def whole(data: Path) -> Iterator[Workshop]:
    for shop in shop_at(data):
        put_demonstration(shop, by="window bench", bills=True)
        yield shop


def job_numbered(shop: Workshop, number: str) -> KeptJob:
    (found,) = (one.id for one in on_the_bench(shop) if one.title.startswith(number))
    return kept_job(shop, found)


def test_seven_jobs_stand_at_their_stages(whole: Workshop) -> None:
    stages = {one.title.partition(",")[0]: one.state for one in on_the_bench(whole)}
    assert stages == {
        CALLED: "to survey",
        WAITS: "waits for a yes",
        BAND: "on the bench",
        GLUE: "on the bench",
        PART: "on the bench",
        LATE: "on the bench",
        DONE: "handed over",
    }
    assert len(demonstration_in_sight(whole)) == 7


@pytest.mark.usefixtures("whole")
def test_the_bench_waits_on_glue_on_a_client_on_a_part_and_one_job_is_late(
    data: Path, tmp_path: Path
) -> None:
    shutil.copytree(data, tmp_path / "data")
    for shop in shop_at(tmp_path / "data"):
        # Without the band's seven drums the bench is planned in a moment.
        band = job_numbered(shop, BAND)
        done = Change(kind=HANDOVER, value={"handed_over": "2030-05-14"}, based_on=0)
        write_down(shop, band.id, done, by="window bench")
        bench = what_waits(shop, limit=0.1, count=100)
    assert bench.working is None

    def numbers(lines: Iterable[Line]) -> list[str]:
        return [one.title.partition(",")[0] for one in lines]

    assert numbers(bench.waits_on_glue) == [GLUE]
    # Twelve hours at 20 degrees are 12 h 52 min at 19; from half past nine, to the next quarter.
    assert bench.waits_on_glue[0].says == "Walnut tom, plug a hole: from 22:30."
    assert numbers(bench.waits_on_client) == [WAITS]
    assert numbers(bench.waits_on_part) == [PART]
    assert re.search(
        r"for 1 Corvane lever strainer: should come on [^:]*, not sure\.",
        bench.waits_on_part[0].says,
    )
    assert numbers(bench.promised) == [LATE, GLUE]
    assert bench.promised[0].day == dt.date(2030, 5, 10)
    assert numbers(bench.late) == [LATE]


def test_put_twice_nothing_is_there_twice(whole: Workshop) -> None:
    def counted() -> tuple[int, int, int]:
        with whole.store.reading() as connection:
            log = len(all_workings(connection))
        bills = bills_of_job(whole, job_numbered(whole, DONE))
        return len(on_the_bench(whole)), log, len(bills.receipts)

    before = counted()
    put_demonstration(whole, by="other bench", bills=True)
    assert counted() == before


def test_nothing_is_written_for_a_day_to_come(whole: Workshop) -> None:
    with whole.store.reading() as connection:
        days = [one.day for one in all_workings(connection)]
    for number in (WAITS, GLUE, PART, LATE, DONE):
        job = job_numbered(whole, number)
        days += [made.day for made in kept_quote(job).offers]
    assert days
    assert max(days) <= NOW.date()


def test_the_job_that_went_home_has_its_whole_record(whole: Workshop) -> None:
    job = job_numbered(whole, DONE)
    bills = bills_of_job(whole, job)
    accepted = kept_quote(job).accepted
    assert accepted is not None
    assert bills.invoices[0].total == accepted.offer.quote.price
    assert [one.number for one in bills.invoices] == ["2030-001"]
    assert [one.number for one in bills.receipts] == ["2030-001", "2030-002"]
    assert bills.due(bills.invoices[0]).minor == 0
    shown = photographs_of(whole, job)
    assert missing_views(shown, job.drums[0]) == ()
    assert missing_views(shown, job.drums[0], after=True) == ()
    for one in shown:
        jpeg = b"".join(pieces_of(whole, one.lies))
        assert len(jpeg) < 60_000
        assert Image.open(io.BytesIO(jpeg)).size == (WIDE_PX, HIGH_PX)
        assert one.says == "drawn; no drum was photographed"
    tuning = job.drums[0].kept(TUNING).table
    heard = from_json(tuning["readings"]["1"]["result"])
    wished = parse_pitch(tuning["pitch"]["batter"])
    assert heard.hz is not None
    assert abs(1200.0 * math.log2(heard.hz / wished.hz)) < 10.0
    assert "no drum was recorded" in tuning["readings"]["1"]["says"]


@pytest.mark.usefixtures("whole")
def test_put_away_it_leaves_nothing_but_its_bills(data: Path, tmp_path: Path) -> None:
    shutil.copytree(data, tmp_path / "data")
    for shop in shop_at(tmp_path / "data"):
        done = job_numbered(shop, DONE)
        put_demonstration_away(shop, by="window bench")
        assert on_the_bench(shop) == ()
        with shop.store.reading() as connection:
            assert all_workings(connection) == ()
        held = drawer(shop)
        assert held[TERMS].table == held[OPEN_HOURS].table == {}
        assert len(bills_of_job(shop, done).invoices) == 1


def test_on_a_bench_of_ones_own_no_running_number_is_taken() -> None:
    said = {
        "steps": [
            {"at": dt.datetime(2030, 5, 2, 9, 0), "paid": "in cash", "promised": {}},
            {"ago": 60, "worked": [], "invoiced": True},
        ]
    }
    now = NOW.replace(tzinfo=None)
    kept = list(steps_of(said, now=now, bills=False))
    assert [(moment, name) for moment, name, _ in kept] == [
        (dt.datetime(2030, 5, 2, 9, 0), "promised"),
        (dt.datetime(2030, 5, 15, 9, 30), "worked"),
    ]
    assert {name for _, name, _ in steps_of(said, now=now, bills=True)} >= set(BILLED)
    assert set(BILLED) <= set(STEPS)


@given(
    today=st.dates(dt.date(2024, 1, 1), dt.date(2060, 12, 31)),
    day=st.dates(dt.date(2026, 1, 1), dt.date(2026, 7, 31)),
)
def test_days_keep_their_weekday_and_the_past_stays_past(today: dt.date, day: dt.date) -> None:
    moved = dt.date.fromisoformat(moved_to(f"{day}T09:30:00", today=today)[:10])
    assert moved.weekday() == day.weekday()
    monday = today - dt.timedelta(days=today.weekday())
    assert (moved < monday) == (day < WRITTEN_FOR)
    assert (moved - monday) == (day - WRITTEN_FOR)


def test_a_hole_is_drawn_dark_outside_bright_inside_and_only_from_its_own_side() -> None:
    """The vent lies a quarter along, 82.3 mm below the batter edge: the middle of the picture."""
    content = Path("src/counterhoop/bench/demonstration/jobs/handed-over/survey.toml").read_bytes()
    plan = plan_job(opened(content, name="survey.toml", book_of=lambda _name: b""))
    found: Layout = plan.drums[0].found

    def middle(view: str) -> int:
        jpeg = picture(Scene(layout=found, view=view))
        grey = Image.open(io.BytesIO(jpeg)).convert("L").getpixel((WIDE_PX // 2, at))
        assert isinstance(grey, int | float)
        return int(grey)

    depth_mm, radius_mm = found.flat.depth_mm, found.flat.surface.circumference_mm / 6.2832
    scale = 0.8 * WIDE_PX / (2.0 * radius_mm)
    at = round((HIGH_PX - FOOT_PX) / 2.0 + (82.3 - depth_mm / 2.0) * scale)
    assert middle("outside 90") < 60
    assert middle("inside 90") > 220
    assert 60 < middle("outside 270") < 200
