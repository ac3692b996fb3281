"""The date of a job as its sheets show it.

Truth: the workings of the plan itself, counted day by day; worked by hand from what is typed. The
tests of a file share one workshop, each with words of its own.
"""

from __future__ import annotations

import re

import pytest
from small_shop import TUESDAY
from two_snares import Desk, words

from counterhoop.bench.folders.folder import Kept, drawer, kept_job
from counterhoop.bench.folders.hand_over import is_handed_over
from counterhoop.bench.folders.kinds import HANDOVER, OPEN_HOURS, PROMISE
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.promise.promises import promises_of
from counterhoop.bench.promise.shop_plan import shop_plan
from counterhoop.quantities.day import say_weekday
from counterhoop.store.mark import store_mark

NUMBER = re.compile(r'name="based_on" value="(\d+)"')


def promised(desk: Desk, which: int = 0, *, day: str, to: str) -> None:
    gone = desk.send(
        f"{address(desk, which)}/promise", day=day, to=to, based_on=based_on(desk, which)
    )
    assert gone.status_code == 303
    assert gone.headers["location"] == f"/jobs/{desk.jobs[which]}/price#promised"


def address(desk: Desk, which: int = 0) -> str:
    return f"/jobs/{desk.jobs[which]}/date"


def based_on(desk: Desk, which: int = 0) -> int:
    return kept_job(desk.shop, desk.jobs[which]).kept(PROMISE).number


def test_the_day_is_the_first_by_whose_end_80_in_100_are_done(desk: Desk) -> None:
    answer = shop_plan(desk.shop)
    assert isinstance(answer, Done)
    by_day = answer.value.found.done_by[desk.jobs[0]]
    day, share = next((day, share) for day, share in by_day if share >= 0.8)
    said = desk.see(address(desk))
    assert f"Ready by {say_weekday(day)} {int(100 * share)} in 100: worked a hundred" in said
    assert "of hands at work are left of it." in said


def test_a_plan_is_found_again_and_looking_writes_nothing(desk: Desk) -> None:
    with desk.shop.store.reading() as connection:
        before = store_mark(connection)
    for path in (address(desk, 0), address(desk, 1), "/workshop/weeks", address(desk, 0)):
        assert desk.ask.get(path).status_code == 200
    assert desk.works.begun.count("plan_bench") == 1
    with desk.shop.store.reading() as connection:
        assert store_mark(connection) == before


def test_while_the_bench_is_planned_the_page_says_how_far_it_is(desk: Desk) -> None:
    desk.works.slow = True
    page = desk.ask.get(address(desk)).text
    assert "The weeks are planned" in page
    assert 'value="25"' in page
    assert re.search(r'action="/work/\w+/stop"', page)
    assert '<noscript><meta http-equiv="refresh"' in page
    assert "work.js" in page
    assert "Ready by" not in page


def test_what_was_stopped_can_be_tried_again_and_nothing_else_is_lost(desk: Desk) -> None:
    desk.works.stopped = True
    page = desk.ask.get(address(desk)).text
    assert "Stopped before it was done." in page
    assert re.search(r'action="/work/\w+/again"', page)
    assert "Tick what comes together" in page


def test_who_would_wait_is_asked_only_of_what_nobody_was_promised(desk: Desk) -> None:
    assert "Who would wait for it Should it be taken on?" in desk.see(address(desk, 1))
    said = desk.see(f"{address(desk, 1)}?if=today")
    assert re.search(r"Where nobody is to wait: ready by \w+ \d+ May 2030, \d+ in 100\.", said)
    assert "Nobody with a promised day would wait." in said
    face = re.search(r"Ready by (\w+ \d+ \w+ 2030)", said)
    assert face
    assert f"The day to tell is {face[1]}." in said


def test_a_promise_keeps_its_share_and_says_whether_it_holds(desk: Desk) -> None:
    promised(desk, day="2030-05-31", to="Nell")
    said = desk.see(address(desk))
    assert re.search(
        r"Friday 31 May 2030, told to Nell on 14 May 2030: \d+ in 100 as the bench stood then\.",
        said,
    )
    assert re.search(r"It holds: \d+ in 100 are done by then\.", said)
    assert "Who would wait for it" not in said
    promised(desk, day="2030-05-15", to="Nell again")
    said = desk.see(address(desk))
    assert "It does not hold as the bench stands: 0 in 100 are done by then. 80 in 100 are" in said
    assert said.index("told to Nell again") < said.index("told to Nell on")
    assert promises_of(kept_job(desk.shop, desk.jobs[0])).every[-1].share == 0.0
    other = desk.see(address(desk, 1))
    assert (
        "Of what was promised to others this does not hold as the bench stands: 31-001, Nell"
        " Ashby, promised for Wednesday 15 May 2030: 0 in 100 by then, 80 in 100 by" in other
    )


@pytest.mark.parametrize(
    ("day", "to", "field", "says"),
    [
        ("2030-05-01", "Nell", "day", "A day that is past, or years away"),
        ("next week", "Nell", "day", "Not a day"),
        ("2030-06-14", "", "to", "A few words belong here"),
    ],
)
def test_what_is_no_promise_comes_back_beside_its_field(
    desk: Desk, day: str, to: str, field: str, says: str
) -> None:
    number = based_on(desk)
    answer = desk.send(f"{address(desk)}/promise", day=day, to=to, based_on=number)
    assert answer.status_code == 422
    assert re.search(rf'id="promise-{field}-fault" role="alert">{says}', answer.text)
    assert f'name="day" value="{day}"' in answer.text
    assert based_on(desk) == number


def test_of_two_promises_at_once_both_are_shown_and_both_kept(desk: Desk) -> None:
    seen = based_on(desk, 1)
    first = desk.send(f"{address(desk, 1)}/promise", day="2030-06-14", to="Odo", based_on=seen)
    assert first.status_code == 303
    second = {"day": "2030-06-21", "to": "his son", "based_on": seen}
    both = desk.send(f"{address(desk, 1)}/promise", **second)
    assert both.status_code == 409
    assert "Two versions: choose one" in both.text
    (number,) = NUMBER.findall(both.text)
    left = desk.send(f"{address(desk, 1)}/promise", **second | {"keep": "theirs"})
    assert left.status_code == 303
    assert promises_of(kept_job(desk.shop, desk.jobs[1])).every[-1].to == "Odo"
    kept = desk.send(f"{address(desk, 1)}/promise", **second | {"keep": "mine", "based_on": number})
    assert kept.status_code == 303
    every = promises_of(kept_job(desk.shop, desk.jobs[1])).every
    assert [one.to for one in every[-2:]] == ["Odo", "his son"]


def test_a_promise_that_was_taken_back_stays_on_record(desk: Desk) -> None:
    promised(desk, 1, day="2030-06-28", to="his daughter")
    assert desk.send(f"{address(desk, 1)}/back", based_on=based_on(desk, 1)).status_code == 303
    said = desk.see(address(desk, 1))
    assert "Taken back on 14 May 2030." in said
    assert "told to his daughter" in said
    assert "It holds" not in said
    again = desk.send(f"{address(desk, 1)}/back", based_on=based_on(desk, 1))
    assert again.status_code == 422
    assert "No promise stands for this job" in words(again)
    desk.send(f"{address(desk, 1)}/undo", number=based_on(desk, 1) - 1, based_on=based_on(desk, 1))
    assert "Taken back" not in desk.see(address(desk, 1))


def test_what_comes_together_is_ticked_together(desk: Desk) -> None:
    """Four things are waited for: a yes, two sorts of small parts, a strainer."""
    page = desk.ask.get(address(desk))
    called = re.findall(r'name="what" value="([^"]*)"', page.text)
    assert called[0] == "the client&#39;s answer"
    assert len(called) == 4
    assert "Nobody has said when 4 things come that it waits for" in words(page)
    none = desk.send(f"{address(desk)}/comes", day="2030-05-20", based_on=based_on(desk))
    assert none.status_code == 422
    assert 'id="comes-fault"' in none.text
    parts = called[1:3]
    wrong = desk.send(f"{address(desk)}/comes", what=parts, day="soon", based_on=based_on(desk))
    assert wrong.status_code == 422
    assert 'id="comes-day-fault"' in wrong.text
    assert wrong.text.count(" checked") == 2
    gone = desk.send(
        f"{address(desk)}/comes", what=parts, day="2030-05-20", sure="yes",
        based_on=based_on(desk),
    )  # fmt: skip
    assert gone.status_code == 303
    said = desk.see(address(desk))
    assert said.count("comes on Monday 20 May 2030") == 2
    assert "Nobody has said when 2 things come" in said
    desk.send(f"{address(desk)}/comes", what=parts, day="", based_on=based_on(desk))
    assert "Nobody has said when 4 things come" in desk.see(address(desk))


def test_how_much_it_matters_is_chosen_and_goes_into_the_plan(desk: Desk) -> None:
    planned = desk.works.begun.count("plan_bench")
    desk.send(f"{address(desk)}/weight", weight="5", based_on=based_on(desk))
    page = desk.ask.get(address(desk)).text
    assert re.search(r'<option value="5" selected>', page)
    assert desk.works.begun.count("plan_bench") == planned + 1
    desk.send(f"{address(desk)}/weight", weight="", based_on=based_on(desk))
    assert promises_of(kept_job(desk.shop, desk.jobs[0])).weight == 1.0


def test_hours_that_cannot_be_read_are_said_with_the_way_to_them(desk: Desk) -> None:
    def write(value: dict[str, object]) -> None:
        number = drawer(desk.shop).get(OPEN_HOURS, Kept()).number
        write_down(desk.shop, None, Change(kind=OPEN_HOURS, value=value, based_on=number), by="b")

    write({"clamps": "a handful"})
    page = desk.ask.get(address(desk))
    assert page.status_code == 200
    assert "No day can be told while the open hours cannot be read" in words(page)
    assert 'href="/workshop/hours"' in page.text
    weeks = desk.ask.get("/workshop/weeks")
    assert weeks.status_code == 200
    assert "how many?" in words(weeks)
    write({})
    assert "Ready by" in desk.see(address(desk))


def test_of_a_job_that_is_handed_over_nothing_is_promised(desk: Desk) -> None:
    promised(desk, 1, day="2030-06-28", to="his neighbour")
    kept = kept_job(desk.shop, desk.jobs[1])
    day = TUESDAY.date().isoformat()
    write_down(
        desk.shop, kept.id,
        Change(kind=HANDOVER, value={"handed_over": day}, based_on=kept.kept(HANDOVER).number),
        by="b",
    )  # fmt: skip
    assert is_handed_over(kept_job(desk.shop, kept.id).kept(HANDOVER).table)
    said = desk.see(address(desk, 1))
    assert "The job is handed over: there is nothing left to promise." in said
    assert "Write the promise down" not in said
    assert "told to his neighbour" in said
