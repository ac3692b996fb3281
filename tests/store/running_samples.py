"""A few issued papers and a page of the work log, and what must be found of them again."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

from store_samples import stamp

from counterhoop.job.bill.receipt import Receipt
from counterhoop.job.hours.stretches import Stretch
from counterhoop.quantities.duration import parse_duration
from counterhoop.quantities.money import Money
from counterhoop.store.body import Json
from counterhoop.store.job_folder import job_folders
from counterhoop.store.running.bills import issue_bill, read_bill
from counterhoop.store.running.issue import issue
from counterhoop.store.running.issued import Issued, issued_in_series
from counterhoop.store.running.style import NumberStyle
from counterhoop.store.store import Connection, Store
from counterhoop.store.work_log.learned import from_log
from counterhoop.store.work_log.read_log import all_workings, in_hand_now
from counterhoop.store.work_log.write_log import correct_working, pick_up, put_down, type_after

DAY = dt.date(2026, 3, 4)
PLAIN = NumberStyle()
BY_YEAR = NumberStyle(by_year=True, digits=4)


def clock(hour: int, minute: int = 0) -> dt.datetime:
    return dt.datetime.combine(DAY, dt.time(hour, minute))


def says_its_number(number: str) -> Json:
    return {"number": number, "says": "½ done – “quick”", "odd": "\udc80"}


def given_out(
    connection: Connection, *, series: str = "invoice", style: NumberStyle = PLAIN,
    day: dt.date = DAY, job_id: str | None = None, why_earlier: str = "", mark: str = "",
) -> Issued:  # fmt: skip
    return issue(
        connection, series=series, style=style, kind=series, job_id=job_id, day=day,
        body=says_its_number, stamp=stamp(), why_earlier=why_earlier, mark=mark,
    )  # fmt: skip


def receipt(number: str, *, day: dt.date = DAY) -> Receipt:
    paid = Money(minor=12050, currency="GBP")
    return Receipt(number=number, day=day, job="26-3", client="Aled", amount=paid, how="cash")


def fill_running(store: Store) -> None:
    """Give papers out in three series, and work at two benches."""
    with store.writing() as w:
        job_id = job_folders(w)[0].id
        for day in (31, 31):
            given_out(w, series="quote", style=BY_YEAR, day=dt.date(2025, 12, day), job_id=job_id)
        given_out(w, series="quote", style=BY_YEAR, job_id=job_id)
        given_out(w, series="../credit note", mark="form 7")
        issue_bill(w, receipt, kind="receipt", style=PLAIN, job_id=job_id, day=DAY, stamp=stamp())
        tom: Any = {"job_id": job_id, "drum": "small tom"}
        pick_up(w, **tom, operation="plug", at=clock(9), stamp=stamp(40))
        pick_up(w, **tom, operation="soak", at=clock(9), stamp=stamp(40, "phone"))
        # The window bench turns to something else, and comes back.
        pick_up(w, job_id=None, drum="", operation="sweep", at=clock(9, 30), stamp=stamp(70))
        put_down(w, at=clock(9, 40), stamp=stamp(80), count=1, note="=1+1\nbroom broke")
        pick_up(w, **tom, operation="plug", at=clock(10), stamp=stamp(100))
        put_down(w, at=clock(10, 45), stamp=stamp(145), count=3, finished=True)
        typed = type_after(
            w, **tom, operation="drill", count=8, took=parse_duration("1 h 20"), day=DAY,
            stamp=stamp(200), answered=True,
        )  # fmt: skip
        correct_working(
            w, replace(typed, count=6), why="two were there already", stamp=stamp(201, "phone")
        )
        wrong = type_after(
            w, **tom, operation="true", count=1, took=parse_duration("5 min"), day=DAY,
            stamp=stamp(202),
        )  # fmt: skip
        correct_working(w, replace(wrong, struck=True), why="other drum", stamp=stamp(203))


def holds_the_running_books(store: Store, *, there: bool) -> None:
    """Hold a store against what ``fill_running`` did; figures reckoned by hand."""
    with store.reading() as r:
        series = ("quote", "../credit note", "receipt")
        found = {name: issued_in_series(r, name) for name in series}
        workings = all_workings(r)
        if not there:
            assert not any(found.values())
            assert workings == ()
            return
        in_hand = in_hand_now(r)
    numbers = {name: [one.number for one in its] for name, its in found.items()}
    assert numbers == {
        "quote": ["2025-0001", "2025-0002", "2026-0001"], "../credit note": ["1"], "receipt": ["1"],
    }  # fmt: skip
    assert all(one.body == says_its_number(one.number) for one in found["quote"])
    assert read_bill(found["receipt"][0]) == receipt("1")
    assert [(one.operation, one.bench) for one in in_hand] == [("soak", "phone")]
    assert in_hand[0].stretch == Stretch(picked_up=clock(9))
    said = [(one.operation, one.count, one.minutes) for one in from_log(workings).worked]
    # 9:00 to 9:30 and 10:00 to 10:45 at the plugs; 9:30 to 9:40 at the broom.
    assert said == [("sweep", 1, 10.0), ("plug", 3, 75.0), ("drill", 6, 80.0)]
