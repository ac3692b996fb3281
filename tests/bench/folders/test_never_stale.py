"""What is remembered of jobs is never old, whoever wrote. Truth: a workshop that remembers nothing.

The second writer is a store of its own on the same database, as another process has it.
"""

from __future__ import annotations

import datetime as dt
import subprocess
import sys
from collections.abc import Callable, Iterator

import pytest
from empty_workshop import FIRST
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.history import choose_version
from counterhoop.bench.folders.kinds import ARRIVAL, HANDOVER, JOB, SURVEY
from counterhoop.bench.folders.open_folder import add_drum, call_drum, open_folder
from counterhoop.bench.folders.out_of_sight import (
    put_away,
    put_drum_away,
    take_out_again,
    what_is_away,
)
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.hide import Thing
from counterhoop.store.save import Saved
from counterhoop.store.store import open_store

WRITES = """
import sys
from pathlib import Path
from counterhoop.bench.folders.open_folder import open_folder
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import open_workshop
with open_workshop(data=Path(sys.argv[1]), works=WorksAtOnce()) as shop:
    open_folder(shop, job={"number": "30-777"}, by="laptop")
"""


def forgetful(shop: Workshop) -> Workshop:
    """Return the same workshop with nothing remembered."""
    return Workshop(store=shop.store, works=shop.works)


def need_fresh(*shops: Workshop) -> None:
    """See that each says what one says that reads everything anew."""
    for shop in shops:
        assert on_the_bench(shop) == on_the_bench(forgetful(shop))
        assert what_is_away(shop) == what_is_away(forgetful(shop))


@pytest.fixture
def other(shop: Workshop) -> Iterator[Workshop]:
    """Return a second workshop on the store of the first."""
    with open_store(shop.store.address) as store:
        yield Workshop(store=store, works=WorksAtOnce(), now=shop.now)


def test_whatever_another_writes_is_seen(shop: Workshop, other: Workshop, demo: str) -> None:
    drum = kept_job(shop, demo).drums[0]
    survey = drum.kept(SURVEY).document_id

    def came() -> None:
        number = kept_job(other, demo).kept(ARRIVAL).number
        write(ARRIVAL, {"came_on": "2030-05-02"}, number)

    def undo() -> None:
        kept = kept_job(other, demo).kept(HANDOVER)
        done = choose_version(other, kept.document_id, number=1, based_on=2, by="phone")
        assert isinstance(done, Saved)

    def write(kind: str, value: object, based_on: int) -> None:
        change = Change(kind=kind, value=value, based_on=based_on)
        assert isinstance(write_down(other, demo, change, by="phone"), Saved)

    def called() -> None:
        number = kept_job(other, demo).kept(JOB).number
        call_drum(other, demo, drum.id, name="rack tom", based_on=number, by="phone")

    steps: tuple[Callable[[], object], ...] = (
        came,
        lambda: write(HANDOVER, {"to": "Nell"}, 0),
        lambda: write(HANDOVER, {"to": "Nell", "handed_over": "2030-05-16"}, 1),
        undo,
        called,
        lambda: put_drum_away(other, drum, by="phone"),
        lambda: take_out_again(other, thing=Thing.DOCUMENT, thing_id=survey, by="phone"),
        lambda: put_away(other, thing=Thing.JOB, thing_id=demo, by="phone"),
        lambda: take_out_again(other, thing=Thing.JOB, thing_id=demo, by="phone"),
        lambda: open_folder(other, job={"number": "30-002"}, by="phone"),
    )
    for step in steps:
        before = on_the_bench(shop), what_is_away(shop)
        step()
        # The comparison can fail: each step changes what is to be seen.
        assert (on_the_bench(shop), what_is_away(shop)) != before
        need_fresh(shop, other)


def test_a_clock_that_stands_still_hides_nothing(shop: Workshop, demo: str) -> None:
    still = Workshop(store=shop.store, works=shop.works, now=lambda: FIRST - dt.timedelta(days=9))
    for number, to in enumerate(("Nell", "Ada", "Kit")):
        words = {"to": to, "handed_over": "2030-05-16"}
        write_down(still, demo, Change(kind=HANDOVER, value=words, based_on=number), by="x")
        assert on_the_bench(shop)[0].says == f"Handed over on 16 May 2030 to {to}."


def test_another_process_that_writes_is_seen(shop: Workshop) -> None:
    assert on_the_bench(shop) == ()
    where = str(shop.store.address.folder)
    subprocess.run([sys.executable, "-c", WRITES, where], check=True, timeout=120)
    assert [one.title for one in on_the_bench(shop)] == ["30-777"]


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(
        st.tuples(st.booleans(), st.sampled_from(["open", "drum", "write", "away", "back"])),
        max_size=8,
    )
)
def test_any_order_of_two_writers(
    tmp_path_factory: pytest.TempPathFactory, done: list[tuple[bool, str]]
) -> None:
    """Exact law: what is remembered says what is read anew."""
    address = address_of(data=tmp_path_factory.mktemp("store") / "data")
    with open_store(address) as one, open_store(address) as other:
        shops = [Workshop(store=each, works=WorksAtOnce()) for each in (one, other)]
        jobs: list[str] = []
        for turn, (second, what) in enumerate(done):
            shop = shops[second]
            if what == "open" or not jobs:
                jobs.append(open_folder(shop, job={"number": f"30-{turn:03}"}, by="x"))
            elif what == "drum":
                add_drum(shop, jobs[0], name=f"tom {turn}", survey={}, by="x")
            elif what == "write":
                number = kept_job(shop, jobs[-1]).kept(ARRIVAL).number
                change = Change(
                    kind=ARRIVAL, value={"came_on": f"2030-05-{turn + 1:02}"}, based_on=number
                )
                write_down(shop, jobs[-1], change, by="x")
            elif what == "away":
                put_away(shop, thing=Thing.JOB, thing_id=jobs[0], by="x")
            else:
                take_out_again(shop, thing=Thing.JOB, thing_id=jobs[0], by="x")
            need_fresh(*shops)


def test_what_is_remembered_is_bounded() -> None:
    from counterhoop.bench.remembered import Remembered

    small = Remembered(most=3)
    for number in range(9):
        small.keep(number, str(number))
        small.find(0)
    assert [small.find(number) for number in range(9)] == ["0", *[None] * 6, "7", "8"]
