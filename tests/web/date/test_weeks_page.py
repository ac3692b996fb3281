"""The weeks: late first, the picture and the same in words, papers, the calendar.

Truth: worked by hand from the small job; the calendar is read back by the library that reads
calendars; the pages of a paper are counted by one that reads PDF.
"""

from __future__ import annotations

import datetime as dt
import io
import re

import icalendar
import pypdf
from small_shop import TUESDAY
from two_snares import Desk, words

from counterhoop.bench.folders.folder import Kept, drawer, kept_job
from counterhoop.bench.folders.kinds import DIARY, PROMISE, SURVEY
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.promise.promises import write_promise

WEEKS = "/workshop/weeks"


def promise(desk: Desk, which: int, day: str) -> None:
    kept = kept_job(desk.shop, desk.jobs[which])
    number = kept.kept(PROMISE).number
    write_promise(desk.shop, kept, day=day, to="Odo", share=None, based_on=number, by="b")


def test_without_a_promise_nothing_is_late_and_each_job_can_be_asked_about(desk: Desk) -> None:
    page = desk.ask.get(WEEKS)
    said = words(page)
    assert "Nothing on the bench is promised for a day." in said
    assert len(re.findall(r"/date\?if=today#if-today", page.text)) == 2


def test_the_picture_and_its_words_hold_every_drum_and_a_phone_gets_week_by_week(
    desk: Desk,
) -> None:
    page = desk.ask.get(WEEKS).text
    assert page.count('class="weeks-wide"') == page.count('class="weeks-narrow"') == 1
    # Two weeks side by side for a wide screen, one under another for a narrow one.
    assert re.findall(r'id="(weeks?-\d+-drawn)"', page) == [
        "weeks-0-drawn", "week-0-drawn", "week-7-drawn",
    ]  # fmt: skip
    idents = re.findall(r'\bid="([^"]+)"', page)
    assert len(idents) == len(set(idents))
    said = words(desk.ask.get(WEEKS))
    for number in ("31-001", "31-002"):
        assert re.search(rf"{number} · school snare: at the bench on [\d, ]+ May;", said)


def test_what_dries_says_what_hands_are_at_meanwhile(desk: Desk) -> None:
    """No price is agreed: nothing is soaked before the yes, which is taken to come on 16 May."""
    said = desk.see(WEEKS)
    assert re.search(
        r"31-00(\d) · school snare, 16 x soak and clean a lug: Friday 17 May 2030, from"
        r" \d+:\d\d\. Meanwhile 31-00(?!\1)\d · school snare\.",
        said,
    )


def test_what_is_late_stands_first_and_on_the_face(desk: Desk) -> None:
    promise(desk, 0, "2030-07-31")
    promise(desk, 1, "2030-05-14")
    said = desk.see(WEEKS)
    assert "Late as the bench stands: 31-002, Odo Fenwright." in said
    jobs = said[said.index("Job by job") :]
    assert jobs.index("31-002, Odo Fenwright Late.") < jobs.index("31-001, Nell Ashby Ready by")
    assert "It holds: 100 in 100 are done by then." in jobs
    assert "is planned from 9:00 today on" in said


def test_a_promise_whose_day_is_past_says_so(desk: Desk) -> None:
    promise(desk, 1, "2030-05-14")
    desk.clock.at = TUESDAY + dt.timedelta(days=1)
    said = desk.see(WEEKS)
    desk.clock.at = TUESDAY
    assert "That day is past: 80 in 100 are done by" in said
    assert "31-002, Odo Fenwright Late." in said


def test_papers_of_the_weeks_and_of_a_day_are_handed_out(desk: Desk) -> None:
    weeks = desk.ask.get(f"{WEEKS}/paper")
    assert weeks.headers["content-type"] == "application/pdf"
    (sheet,) = pypdf.PdfReader(io.BytesIO(weeks.content)).pages
    assert float(sheet.mediabox.width) > float(sheet.mediabox.height)
    day = desk.ask.get(f"{WEEKS}/day", params={"day": "2030-05-15"})
    assert 'filename="day list 2030-05-15.pdf"' in day.headers["content-disposition"]
    assert "Wednesday 15 May 2030" in pypdf.PdfReader(io.BytesIO(day.content)).metadata.title
    wrong = desk.ask.get(f"{WEEKS}/day", params={"day": "soon"})
    assert wrong.status_code == 422
    assert re.search(r'id="day-fault" role="alert">Not a day', wrong.text)
    assert 'name="day" value="soon"' in wrong.text


def test_while_it_is_planned_papers_lead_back_to_how_far_it_is(desk: Desk) -> None:
    desk.works.slow = True
    assert "The weeks are planned 25 %" in desk.see(WEEKS)
    for answer in (
        desk.ask.get(f"{WEEKS}/paper"), desk.ask.get(f"{WEEKS}/day"), desk.send(f"{WEEKS}/calendar")
    ):  # fmt: skip
        assert (answer.status_code, answer.headers["location"]) == (303, WEEKS)


def test_the_calendar_is_taken_along_by_a_press_and_never_by_looking(desk: Desk) -> None:
    assert desk.ask.get(f"{WEEKS}/calendar").status_code == 405
    promise(desk, 0, "2030-07-31")
    answer = desk.send(f"{WEEKS}/calendar")
    assert answer.headers["content-type"] == "text/calendar; charset=utf-8"
    made = icalendar.Calendar.from_ical(answer.content)
    days = {
        str(one["summary"]): one["dtstart"].dt
        for one in made.walk("VEVENT")
        if not isinstance(one["dtstart"].dt, dt.datetime)
    }
    assert dt.date(2030, 7, 31) in days.values()
    first = {str(one["uid"]): int(one["sequence"]) for one in made.walk("VEVENT")}
    number = drawer(desk.shop).get(DIARY, Kept()).number
    # The same plan is the same diary: nothing more is written down.
    assert desk.send(f"{WEEKS}/calendar").content == answer.content
    assert drawer(desk.shop).get(DIARY, Kept()).number == number
    promise(desk, 0, "2030-08-01")
    again = icalendar.Calendar.from_ical(desk.send(f"{WEEKS}/calendar").content)
    later = {str(one["uid"]): int(one["sequence"]) for one in again.walk("VEVENT")}
    assert set(first) <= set(later)
    assert sum(later[one] > first[one] for one in first) >= 1


def test_a_promised_job_that_cannot_be_planned_is_no_promise_that_holds(desk: Desk) -> None:
    """Its survey lost its wall, so nobody knows: not planned, and late once the day is past."""
    kept = kept_job(desk.shop, desk.jobs[0])
    drum = kept.drums[0]
    wall = Change(
        kind=SURVEY, name=drum.id, pointer="/wall", value="thick",
        based_on=drum.kept(SURVEY).number,
    )  # fmt: skip
    write_down(desk.shop, kept.id, wall, by="b")
    promise(desk, 0, "2030-07-12")
    promise(desk, 1, "2030-07-12")
    assert f"Promised, and not planned: {kept.title}." in desk.see(WEEKS)
    desk.clock.at += dt.timedelta(days=70)
    assert re.search(rf"Late as the bench stands: [^.]*{kept.title}", desk.see(WEEKS))
