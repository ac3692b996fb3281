"""Today's list as a browser without a script sees and presses it.

Truth: a person's own steps, and the small job worked by hand (strip, 16 lugs, two plugs of 12
minutes; a plug cures 12 hours at 20 degrees).
"""

from __future__ import annotations

import datetime as dt
import re
from html import unescape
from io import BytesIO

import pytest
from httpx import Response
from PIL import Image
from small_shop import SNARE, TUESDAY, Clock
from starlette.testclient import TestClient

from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.answers import Answer, Working
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.promise.hours_open import write_open_hours
from counterhoop.bench.promise.shop_plan import LINE
from counterhoop.bench.workshop import Workshop
from counterhoop.store.work_log.read_log import all_workings
from counterhoop.store.work_log.working import Working as LogLine
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import WhoMayWrite

PLUG = "plug a hole"


def words(answer: Response) -> str:
    """Return what the page says between its head and its foot, without what lists offer."""
    main = re.sub(r"(?s)^.*<main[^>]*>|</main>.*$|<option.*?</option>", "", answer.text)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", main)).split())


def sheet(answer: Response, ident: str) -> str:
    """Return one sheet of a page."""
    (found,) = re.findall(rf'(?s)<section class="sheet" id="{ident}".*?</section>', answer.text)
    return str(found)


class Press:
    """Whoever presses: what is sent is what the page itself put into its forms."""

    def __init__(self, ask: TestClient, shop: Workshop, job: str) -> None:
        self.ask, self.shop, self.job = ask, shop, job
        self.drum = kept_job(shop, job).drums[0].id

    def form(self, page: str, button: str, **typed: str) -> Response:
        """Press the first button of that name on a page, with what is typed into its form."""
        for action, body in re.findall(
            r'(?s)<form[^>]*action="([^"]+)"[^>]*>(.*?)</form>', self.ask.get(page).text
        ):
            pressed = re.search(rf"<button([^>]*)>{re.escape(button)}</button>", body)
            if pressed is None:
                continue
            sent = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', body))
            named = re.search(r'name="([^"]+)" value="([^"]+)"', pressed[1])
            sent |= {named[1]: named[2]} if named else {}
            return self.ask.post(action, data=sent | typed)
        raise AssertionError(f"no button {button} on {page}")

    def pick(self, operation: str) -> Response:
        data = {"job": self.job, "drum": self.drum, "operation": operation}
        return self.ask.post("/today/pick-up", data=data)

    def follow(self, answer: Response) -> Response:
        assert answer.status_code == 303, words(answer)
        return self.ask.get(answer.headers["location"].partition("#")[0])

    @property
    def log(self) -> tuple[LogLine, ...]:
        with self.shop.store.reading() as connection:
            return all_workings(connection)


@pytest.fixture
def press(ask: TestClient, shop: Workshop, job: str) -> Press:
    return Press(ask, shop, job)


def test_the_first_piece_is_picked_up_and_finished(press: Press, clock: Clock) -> None:
    answer = press.ask.get("/today")
    first = sheet(answer, "next")
    assert "Strip a drum" in first
    assert "About 45 min; planned 9:00 to 9:45" in words(answer)
    assert "A badge taken off is a badge at risk" in first
    (paper,) = re.findall(r'href="([^"]+)">Strip-down sheet', first)
    assert paper.startswith(
        f"/jobs/{press.job}/papers/file?name=1+school+snare%2Fstrip-down+sheet.pdf"
    )
    held = press.follow(press.form("/today", "Pick up"))
    assert "Strip a drum, school snare: in hand since 9:00." in words(held)
    clock.at = TUESDAY + dt.timedelta(minutes=42)
    assert "In hand since 9:00, 42 min so far; usually about 45 min" in words(
        press.ask.get("/today")
    )
    done = press.follow(press.form("/today", "Finished", note="stubborn rods"))
    assert "9:00 to 9:42, 42 min: done. stubborn rods" in words(done)
    assert "Strip a drum" not in sheet(done, "next")


def test_picking_up_another_puts_the_first_down_and_says_so(press: Press, clock: Clock) -> None:
    press.pick("strip a drum")
    clock.at = TUESDAY + dt.timedelta(minutes=10)
    answer = press.follow(press.pick(PLUG))
    assert "Put down, as hands are one pair: strip a drum, school snare: 9:00 to 9:10" in words(
        answer
    )
    assert [one.is_open for one in press.log] == [False, True]


def test_a_count_is_asked_where_there_are_several(press: Press, clock: Clock) -> None:
    press.pick(PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=12)
    short = press.form("/today", "Finished", count="1", note="soft ply")
    assert short.status_code == 422
    assert "1 of 2 are done" in words(short)
    assert "The others are not to be done" in words(short)
    assert "soft ply</textarea>" in short.text
    wrong = press.form("/today", "Put down", count="one")
    assert (wrong.status_code, press.log[0].is_open) == (422, True)
    press.follow(press.form("/today", "Put down", count="1", note="soft ply"))
    assert (press.log[0].count, press.log[0].note) == (1, "soft ply")


def test_what_cures_says_from_when_it_may_be_touched(press: Press, clock: Clock) -> None:
    """Put down at 9:24; 12 hours later it is 21:24, and told to the quarter after."""
    press.pick(PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=24)
    answer = press.follow(press.form("/today", "Finished"))
    touch = re.sub(r"<[^>]+>", " ", sheet(answer, "touch"))
    assert "plug a hole" in touch
    assert "from 21:30" in touch
    clock.at = TUESDAY + dt.timedelta(hours=13)
    assert "Nothing dries or sets" in sheet(press.ask.get("/today"), "touch")


def test_a_wild_time_is_asked_about_and_either_answer_is_one_press(
    press: Press, clock: Clock
) -> None:
    press.pick(PLUG)
    clock.at = TUESDAY + dt.timedelta(hours=3)
    answer = press.follow(press.form("/today", "Put down", count="1"))
    assert "3 h for one hole, where 12 min is usual: was that one hole or 15?" in words(answer)
    told = press.follow(press.form("/today", "No, 15 holes"))
    assert 'id="asked"' not in told.text
    assert press.log[0].count == 15


def test_a_form_sent_twice_writes_once(press: Press, clock: Clock) -> None:
    """The program was started anew in between: only the log itself knows the form."""
    data = {"job": press.job, "drum": press.drum, "operation": PLUG, "sent_once": "mark"}
    press.ask.post("/today/pick-up", data=data)
    clock.at = TUESDAY + dt.timedelta(minutes=9)
    anew = TestClient(WhoMayWrite(make_app(press.shop)), follow_redirects=False)
    down = {"entry": "1", "deed": "down", "count": "1", "sent_once": "other"}
    first = press.ask.post("/today/put-down", data=down)
    assert anew.post("/today/pick-up", data=data).status_code == 303
    assert anew.post("/today/put-down", data=down).headers == first.headers
    assert [(one.count, one.is_open) for one in press.log] == [(1, False)]


def test_what_is_not_in_hand_any_more_is_said(press: Press) -> None:
    answer = press.ask.post("/today/put-down", data={"entry": "7", "deed": "done"})
    assert answer.status_code == 422
    assert "No such row" in words(answer)


def test_other_work_without_a_yes_is_refused_with_why(shop: Workshop, press: Press) -> None:
    other = take_in(shop, SNARE, name="survey.toml", book_of=lambda _name: b"", by="bench")
    drum = kept_job(shop, other).drums[0].id
    data = {"whose": f"{other}/{drum}", "operation": PLUG}
    answer = press.ask.post("/today/pick-up", data=data)
    assert answer.status_code == 422
    assert "The school snare waits for a yes to the scheme" in words(answer)
    assert press.log == ()


def test_a_time_typed_after_keeps_what_was_typed_when_it_cannot_be_read(
    press: Press, clock: Clock
) -> None:
    clock.at = TUESDAY + dt.timedelta(hours=4)
    typed = {"whose": f"{press.job}/{press.drum}", "operation": PLUG, "took": "25 x",
             "count": "2", "day": "2030-05-14", "begun": "9:40", "note": "by lamp"}  # fmt: skip
    answer = press.form("/today", "Write it down", **typed)
    assert answer.status_code == 422
    assert "is not a unit of time" in words(answer)
    assert 'value="9:40"' in answer.text
    assert "by lamp</textarea>" in answer.text
    assert f'value="{PLUG}" selected' in answer.text
    press.follow(press.form("/today", "Write it down", **typed | {"took": "25"}))
    assert "9:40 to 10:05, 25 min: two holes done" in words(press.ask.get("/today"))


def test_a_line_is_put_right_struck_and_its_history_shown(press: Press, clock: Clock) -> None:
    press.pick(PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=50)
    press.follow(press.form("/today", "Put down", count="1"))
    one = "/today/log/1"
    page, before = press.ask.get(one), press.log[0].stretch
    shown = dict(re.findall(r'name="(begun|ended|count)" value="([^"]*)"', page.text))
    assert shown == {"begun": "9:00", "ended": "9:50", "count": "1"}
    right = {"whose": f"{press.job}/{press.drum}", "operation": PLUG, "day": "2030-05-14",
             "begun": "9:00", "ended": "9:20", "count": "1", "why": "lunch"}  # fmt: skip
    bad = press.form(one, "Put it right", **right | {"ended": "9.99"})
    assert (bad.status_code, "not a time of day" in words(bad).casefold()) == (422, True)
    seen = re.search(r'name="seen" value="(\d+)"', page.text)
    assert seen is not None
    press.follow(press.form(one, "Put it right", **right))
    late = press.ask.post(one, data=right | {"ended": "9:30", "seen": seen[1]})
    assert late.status_code == 409
    assert "Somebody wrote in this line of the log since you looked" in words(late)
    assert 'value="9:30"' in late.text
    assert "Put right (lunch): 9:00 to 9:20, 20 min: one hole done" in words(press.ask.get(one))
    press.follow(press.form(one, "Back to this"))
    assert press.log[0].stretch == before
    press.follow(press.form(one, "Strike it", why="it was another drum"))
    assert press.log == ()
    gone = words(press.ask.get(one))
    assert "Struck (it was another drum)" in gone
    assert "Put it right" not in gone


def test_earlier_days_are_had(press: Press, clock: Clock) -> None:
    press.pick(PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=20)
    press.form("/today", "Put down", count="1")
    clock.at = TUESDAY + dt.timedelta(days=2)
    assert "Nothing was put down today yet" in words(press.ask.get("/today"))
    assert "9:00 to 9:20, 20 min: one hole done" in words(press.ask.get("/today/log"))
    assert "9:00 to 9:20" in words(press.ask.get("/today/log?day=2030-05-14"))
    assert "Nothing was put down on this day" in words(press.ask.get("/today/log?day=2030-05-13"))


def test_a_photograph_of_work_lies_in_its_job(press: Press) -> None:
    press.pick(PLUG)
    picture = BytesIO()
    Image.new("RGB", (40, 30), "tan").save(picture, "JPEG")
    whose = {"job": press.job, "drum": press.drum, "operation": PLUG}
    file = {"files": ("camera.jpg", picture.getvalue(), "image/jpeg")}
    answer = press.follow(press.ask.post("/today/photograph", data=whose, files=file))
    assert "One photograph lies in the job." in words(answer)
    (kept,) = photographs_of(press.shop, kept_job(press.shop, press.job))
    assert (kept.view, kept.says, kept.after) == ("in work", PLUG, False)
    none = press.ask.post("/today/photograph", data=whose, files={"files": ("a.jpg", b"no")})
    assert (none.status_code, "no photograph that can be read" in words(none)) == (422, True)


def test_a_drum_on_the_bench_says_what_hands_took_against_its_price(
    press: Press, clock: Clock
) -> None:
    bench = f"/jobs/{press.job}/drums/{press.drum}/bench"
    assert "Nothing is written yet; the price holds" in sheet(press.ask.get(bench), "hands")
    press.pick(PLUG)
    clock.at = TUESDAY + dt.timedelta(minutes=20)
    press.form("/today", "Put down", count="1")
    clock.at = TUESDAY + dt.timedelta(minutes=30)
    press.pick("clean a hoop")
    hands = " ".join(re.sub(r"<[^>]+>", " ", sheet(press.ask.get(bench), "hands")).split())
    assert "Clean a hoop: in hand at this bench since 9:30." in hands
    assert "20 min so far; the price holds" in hands
    assert "Plug a hole 20 min, 1 of 2 done" in hands


class SlowSchedule(WorksAtOnce):
    """A worker whose plan of the bench is never there yet; all else is done at once."""

    def ask(self, asked: Asked[object]) -> Answer[object]:
        if asked.line == LINE:
            return Working(id=asked.id, says="laying out the weeks", share=0.25)
        return super().ask(asked)

    def wait(self, id_: str, seconds: float) -> Answer[object]:
        return Working(id=id_, says="laying out the weeks", share=0.25)


def test_the_page_does_not_wait_for_the_plan(shop: Workshop, job: str) -> None:
    slow = Workshop(store=shop.store, works=SlowSchedule(), now=shop.now)
    answer = TestClient(WhoMayWrite(make_app(slow))).get("/today")
    assert answer.status_code == 200
    assert "Laying out the weeks 25 %" in words(answer)
    assert '<meta http-equiv="refresh"' in answer.text
    assert "Strip a drum" in sheet(answer, "next")


def test_hours_that_cannot_be_met_are_said_and_what_was_written_stands(
    shop: Workshop, press: Press
) -> None:
    """Open one hour a year: the end of the work is not seen."""
    press.pick("strip a drum")
    extra = {"2030-12-24": "9:00-10:00"}
    closed = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "closed")
    write_open_hours(shop, {"week": closed, "extra": extra}, based_on=0, by="bench")
    answer = press.ask.get("/today")
    assert answer.status_code == 200
    assert "Nothing can be planned" in words(answer)
    assert "/workshop/hours" in answer.text
    assert "Strip a drum" in sheet(answer, "in-hand")
    put_down = press.follow(press.form("/today", "Put down"))
    assert "goes on another time" in sheet(put_down, "done")
