"""What the first page says of jobs. Truth: by hand, and a clock."""

from __future__ import annotations

import sys
import time
from pathlib import Path

import pytest

from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import ARRIVAL, CHOICE, HANDOVER, TICKS
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.worked_job import put_worked_job
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store

sys.path.append(str(Path(__file__).parents[2] / "store"))


def says(shop: Workshop) -> tuple[str, str]:
    last_changed = on_the_bench(shop)[0]
    return last_changed.state, last_changed.says


def test_the_worked_job_in_dated_sentences(shop: Workshop) -> None:
    job = put_worked_job(shop, by="window bench")
    came, yes = (
        "Came in on 7 March 2026.",
        "The band's drummer said yes to the marching snare on 21 March 2026.",
    )
    assert says(shop) == ("on the bench", f"{came} {yes} 6 drums without a scheme yet.")
    tom, snare = (kept_job(shop, job).drums[at].id for at in (0, 2))
    chosen = Change(kind=CHOICE, name=tom, value={"scheme": "AAAA-AAAA"}, based_on=0)
    write_down(shop, job, chosen, by="window bench")
    marks = {"7": {"when": "2030-05-16T10:00:00+00:00", "by": "x"}, "8": {"when": "2030-05-17"}}
    done = Change(kind=TICKS, name=snare, value={"code": "X", "done": marks}, based_on=0)
    write_down(shop, job, done, by="phone")
    assert says(shop)[1] == (
        f"{came} 2 holes ticked on the marching snare, the last on 17 May 2030. "
        "A scheme is taken for the small tom on 17 May 2030; no yes is written down. "
        "5 drums without a scheme yet."
    )
    assert on_the_bench(shop)[0].changed_by == "phone"


def test_it_is_handed_over_from_the_day_that_is_written(shop: Workshop, demo: str) -> None:
    words = {"handed_over": "as soon as the glue is dry", "to": "Nell"}
    write_down(shop, demo, Change(kind=HANDOVER, value=words, based_on=0), by="bench")
    assert says(shop)[0] == "on the bench"
    words["handed_over"] = "2030-05-16"
    write_down(shop, demo, Change(kind=HANDOVER, value=words, based_on=1), by="bench")
    assert says(shop) == ("handed over", "Handed over on 16 May 2030 to Nell.")


def test_a_folder_that_fills(shop: Workshop) -> None:
    job = open_folder(shop, job={"number": "30-001"}, by="bench")
    assert says(shop) == ("to survey", "No drum is in the folder yet.")
    add_drum(shop, job, name="tom", survey={}, by="bench")
    assert says(shop) == ("to survey", "Nothing is measured yet.")
    came = Change(kind=ARRIVAL, value={"came_on": "2030-05-10"}, based_on=0)
    write_down(shop, job, came, by="bench")
    add_drum(shop, job, name="snare", survey={"size": "14 in dia x 5 in deep"}, by="bench")
    assert says(shop) == ("to choose", "Came in on 10 May 2030. No scheme has been taken yet.")


@pytest.mark.parametrize("body", [[], "x", 7, {"done": 3, "handed_over": 2}, [[1], {"who": 3}]])
def test_documents_that_hold_anything_do_no_harm(shop: Workshop, demo: str, body: object) -> None:
    tom = kept_job(shop, demo).drums[0].id
    for kind, name in ((HANDOVER, ""), (ARRIVAL, ""), (CHOICE, tom), (TICKS, tom)):
        write_down(shop, demo, Change(kind=kind, name=name, value=body, based_on=0), by="x")
    assert says(shop)[0] in ("on the bench", "waits for a yes")


def test_three_hundred_jobs_are_listed_quickly(tmp_path: Path) -> None:
    """A clock: 100 ms at first and 1 ms then; ten times and more here, where others work too."""
    from large_store import fill_large_store

    with open_store(address_of(data=tmp_path / "data")) as store:
        fill_large_store(store)
        shop = Workshop(store=store, works=WorksAtOnce())
        took = []
        for _ in range(3):
            begun = time.process_time()
            found = on_the_bench(shop)
            took.append(time.process_time() - begun)
    assert len(found) == 290
    assert took[0] < 1.0
    assert min(took) < 0.1
