"""A workshop's clock, its small job worked on, and the plan of its bench."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.promise.shop_plan import ShopPlan, shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.quantities.duration import parse_duration
from counterhoop.store.work_log.write_log import pick_up, type_after

TUESDAY = dt.datetime(2030, 5, 14, 9, 0)
SNARE = files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml").read_bytes()
QUICK: dict[str, Any] = {"limit": 0.1, "count": 100}


@dataclass
class Clock:
    """The workshop's clock, wherever the machine stands."""

    at: dt.datetime = TUESDAY

    def __call__(self) -> dt.datetime:
        return self.at.astimezone()


def planned(shop: Workshop) -> ShopPlan:
    """Return the plan of the bench."""
    answer = shop_plan(shop, **QUICK)
    assert isinstance(answer, Done), answer
    return answer.value


def worked(
    shop: Workshop, job: str, operation: str, count: int, *, took: str, day: dt.date | None = None,
    place: int = 0,
) -> None:  # fmt: skip
    """Type into the log that so many were done on a drum."""
    drum = kept_job(shop, job).drums[place]
    with shop.store.writing() as connection:
        type_after(
            connection, job_id=job, drum=drum.id, operation=operation, count=count,
            took=parse_duration(took), day=day or shop.now().astimezone().date(),
            stamp=shop.stamp("window bench"),
        )  # fmt: skip


def taken_up(shop: Workshop, job: str, operation: str, at: dt.datetime) -> None:
    """Pick work up on the job's first drum."""
    drum = kept_job(shop, job).drums[0]
    with shop.store.writing() as connection:
        pick_up(
            connection, job_id=job, drum=drum.id, operation=operation, at=at,
            stamp=shop.stamp("window bench"),
        )  # fmt: skip
