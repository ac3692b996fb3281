"""The sheet of schemes without a browser: what it says when nothing is worked out, and refusals."""

from __future__ import annotations

import asyncio
import re
from importlib.resources import files
from urllib.parse import urlencode

import httpx
import pytest

from counterhoop.bench.folders import folder
from counterhoop.bench.folders.decide import choose
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard import pen
from counterhoop.web.plans import plan_for
from planned_once import PLANNED

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
MOST_BYTES = 300_000


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)


@pytest.fixture
def demo(shop):
    return take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")


@pytest.fixture
def ask(shop):
    """Ask the app without a guard before it, which would say that this request may write."""
    app = make_app(shop)

    def answer(method, path, data=None, **headers):
        async def once():
            pen._may_write.set(method == "POST")
            inside = httpx.ASGITransport(app=app)
            async with httpx.AsyncClient(transport=inside, base_url="http://bench") as browser:
                return await browser.request(method, path, data=data, headers=headers)

        return asyncio.run(once())

    return answer


def drum(shop, job, name="small tom"):
    return next(one for one in kept_job(shop, job).drums if one.name == name)


def sheet(shop, job, name="small tom"):
    return f"/jobs/{job}/drums/{drum(shop, job, name).id}/schemes"


def chosen(shop, job, name="small tom"):
    return plan_for(shop, kept_job(shop, job)).plan.drum(name).chosen


def test_every_sheet_of_the_demonstration_keeps_its_weight(shop, demo, ask):
    for one in kept_job(shop, demo).drums:
        answer = ask("GET", sheet(shop, demo, one.name))
        assert answer.status_code == 200, one.name
        assert len(answer.content) < MOST_BYTES, one.name
        scheme = chosen(shop, demo, one.name)
        assert scheme.title in answer.text
        assert answer.text.count("How it was worked out") == 4 * answer.text.count('"sheet scheme')


@pytest.mark.parametrize("of", ["", "/sign"])
def test_a_sheet_asks_the_store_once_for_the_folder_and_once_for_the_drawer(
    shop, demo, ask, monkeypatch, of
):
    asked, documents = [], folder.folder_documents

    def noted(connection, job):
        asked.append(job)
        return documents(connection, job)

    monkeypatch.setattr(folder, "folder_documents", noted)
    address = sheet(shop, demo) + of
    asked.clear()
    assert ask("GET", address).status_code == 200
    assert asked == [demo, None]


def test_a_drum_of_which_nothing_is_wanted_says_where_to_write_it(shop, demo, ask):
    small = drum(shop, demo)
    wish = small.kept("wish")
    write_down(
        shop, demo, Change(kind="wish", name=small.id, value={}, based_on=wish.number), by="b"
    )
    answer = ask("GET", sheet(shop, demo))
    assert "Nothing is wanted yet" in answer.text
    assert f'href="/jobs/{demo}/drums/{small.id}/shell#wanted"' in answer.text
    # The others are planned, also the one that was to match it.
    assert chosen(shop, demo, "large tom")


def test_what_cannot_be_read_keeps_a_drum_out_and_is_linked_to_its_field(shop, demo, ask):
    small = drum(shop, demo)
    change = Change(
        kind="survey", name=small.id, pointer="/wall", value="5", why="typed wrong",
        based_on=small.kept("survey").number,
    )  # fmt: skip
    write_down(shop, demo, change, by="b")
    answer = ask("GET", sheet(shop, demo))
    assert "Not worked out yet" in answer.text
    assert f'href="/jobs/{demo}/drums/{small.id}/shell?open=shell#shell"' in answer.text
    others = ask("GET", sheet(shop, demo, "large tom"))
    assert re.search("The small tom is left out of the plan: .* in its survey", others.text)
    assert "the large tom is held against nothing" in others.text


def test_a_wish_that_nothing_meets_keeps_back_its_own_drum_only(shop, demo, ask):
    """A shell is cut down once; two wishes to shorten it cannot be met (the wish's own rule)."""
    small = drum(shop, demo)
    kept = small.kept("wish")
    wish = {"wish": [{"want": "shorten", "depth": f"{mm} mm"} for mm in (150, 140)]}
    write_down(
        shop, demo, Change(kind="wish", name=small.id, value=wish, based_on=kept.number), by="b"
    )
    href = f'href="/jobs/{demo}/drums/{small.id}/shell#wanted"'
    own = ask("GET", sheet(shop, demo))
    assert own.status_code == 200
    assert "What is wanted of the small tom cannot be met: a shell is cut down once" in own.text
    assert href in own.text
    large = ask("GET", sheet(shop, demo, "large tom"))
    assert chosen(shop, demo, "large tom").title in large.text
    assert "The small tom is left out of the plan: a shell is cut down once" in large.text
    assert "The two are to match: until it is put right the large tom is held against" in large.text
    assert href in large.text
    plan = plan_for(shop, kept_job(shop, demo)).plan
    assert any("the large tom is not held to match" in says for says in plan.kit.says)
    bench = ask("GET", sheet(shop, demo).replace("/schemes", "/bench"))
    assert "What is wanted of this drum cannot be met: a shell is cut down once" in bench.text


def test_one_is_taken_and_left_to_the_kit_again(shop, demo, ask):
    own = chosen(shop, demo)
    other = next(
        s for s in plan_for(shop, kept_job(shop, demo)).plan.drum("small tom").ranked.shown
        if s.code != own.code
    )  # fmt: skip
    sent = {"scheme": other.code, "title": other.title, "based_on": "0"}
    assert ask("POST", sheet(shop, demo) + "/take", sent).status_code == 303
    assert chosen(shop, demo).code == other.code
    assert "Taken by hand" in ask("GET", sheet(shop, demo)).text
    # Somebody else looked before that.
    stale = ask("POST", sheet(shop, demo) + "/take", {"scheme": own.code, "based_on": "0"})
    assert stale.status_code == 409
    assert "the scheme that is taken" in stale.text
    sent = {"number": "0", "based_on": "1"}
    assert ask("POST", sheet(shop, demo) + "/undo", sent).status_code == 303
    assert chosen(shop, demo).code == own.code


def test_a_choice_that_is_gone_is_said(shop, demo, ask):
    choose(shop, demo, drum(shop, demo).id, code="AAAA-AAAA", moved=[], based_on=0, by="b")
    assert "AAAA-AAAA, is no longer among those" in ask("GET", sheet(shop, demo)).text


@pytest.fixture
def mover(shop, demo):
    own = chosen(shop, demo)
    query = urlencode({"scheme": own.code, "title": own.title})
    return f"{sheet(shop, demo)}/move?{query}"


def put(right, down, *, row="resonant", based_on="0", settled="no"):
    return {
        "row": row, "right_mm": right, "down_mm": down, "based_on": based_on, "settled": settled,
    }  # fmt: skip


def ids(text):
    return set(re.findall(r'\bid="(taken-[a-z-]+|what-says|yes-says|foot-says)"', text))


PART = {"HX-Request": "true"}


def test_a_row_that_is_dragged_is_answered_piece_by_piece_and_nothing_is_written(
    shop, demo, ask, mover
):
    tried = ask("POST", mover, put("2", "-12"), **PART)
    assert tried.status_code == 200
    assert {"taken-picture", "taken-short", "taken-findings", "taken-money-is"} <= ids(tried.text)
    assert "yes-says" not in ids(tried.text)
    assert "1 stop" in tried.text
    assert "<html" not in tried.text
    assert drum(shop, demo).kept("choice").number == 0
    kept = ask("POST", mover, put("2", "-4", settled="yes"), **PART)
    assert {"taken-picture", "yes-says", "what-says", "taken-put-back"} <= ids(kept.text)
    assert 'value="1"' in kept.text
    assert drum(shop, demo).kept("choice").table["moved"] == [
        {"row": "resonant", "right": "2 mm", "down": "-4 mm"}
    ]
    # What was answered is what the plan says.
    moved = chosen(shop, demo)
    assert moved.code in kept.text
    # Its number too, above and below.
    assert f"Scheme {moved.number}: " in kept.text
    assert f'id="taken-title">{moved.number}. ' in kept.text
    assert f"taken by hand, moved from scheme {moved.moved_from}" in kept.text
    # Back at nought it is the scheme as it was worked out.
    back = ask("POST", mover, put("0", "0", based_on="1", settled="yes"), **PART)
    assert back.status_code == 200
    assert "moved" not in drum(shop, demo).kept("choice").table


@pytest.mark.parametrize(
    ("sent", "status", "says"),
    [
        (put("2", "-400"), 422, "off the shell"),
        (put("2", "1", row="cow bell"), 422, "nothing of that name"),
        (put("two", "1"), 422, "To the right: "),
        (put("2", "1", based_on="7"), 409, "Somebody changed"),
    ],
)
def test_a_move_that_cannot_be_is_refused_in_words(ask, mover, sent, status, says):
    answer = ask("POST", mover, sent, **PART)
    assert answer.status_code == status
    assert says in answer.text


def test_what_is_not_there_is_said_as_not_there(shop, demo, ask):
    assert ask("GET", f"/jobs/{demo}/drums/none/schemes").status_code == 404
    assert ask("GET", "/jobs/none/drums/none/schemes").status_code == 404
    assert ask("GET", sheet(shop, demo) + "/sign?scheme=99").status_code == 404
    gone = f"{sheet(shop, demo)}/move?scheme=AAAA-AAAA"
    assert ask("POST", gone, put("1", "1"), **PART).status_code == 422


def test_a_yes_to_what_has_changed_meanwhile_is_refused(shop, demo, ask):
    sent = {"who": "Nell", "when": "2026-03-21", "how": "by letter", "code": "AAAA-AAAA"}
    answer = ask("POST", sheet(shop, demo) + "/yes", sent)
    assert answer.status_code == 422
    assert "changed since that page was opened" in answer.text
    assert drum(shop, demo).kept("approval").number == 0
    sent["code"] = chosen(shop, demo).code
    assert ask("POST", sheet(shop, demo) + "/yes", sent).status_code == 303
    # A yes holds the scheme fast: the kit's choice passes it by no more.
    assert drum(shop, demo).kept("choice").table["scheme"] == sent["code"]
    assert "Yes, given by Nell on 21 March 2026" in ask("GET", sheet(shop, demo)).text


def undo(shop, job, ask):
    """Press the undo that the page offers; tells whether it offered one."""
    text = ask("GET", sheet(shop, job)).text
    form = re.search(r'<form[^>]*schemes/undo".*?</form>', text, re.DOTALL)
    if form is None:
        return False
    sent = dict(re.findall(r'name="(number|based_on)" value="(\d+)"', form[0]))
    assert ask("POST", sheet(shop, job) + "/undo", sent).status_code == 303
    return True


def test_undo_upon_undo_goes_back_to_nothing_taken_and_stays_there(shop, demo, ask):
    """As one presses: first A is taken, then B; two steps back is nothing taken, and no further."""
    codes = [
        s.code for s in plan_for(shop, kept_job(shop, demo)).plan.drum("small tom").ranked.shown
    ]
    first, second = codes[:2]
    for number, code in enumerate((first, second)):
        sent = {"scheme": code, "based_on": str(number)}
        assert ask("POST", sheet(shop, demo) + "/take", sent).status_code == 303
    after = []
    while len(after) < 5 and undo(shop, demo, ask):
        after.append(drum(shop, demo).kept("choice").table.get("scheme"))
    assert after == [first, None]


def test_what_was_typed_for_a_yes_comes_back_when_another_was_faster(shop, demo, ask, monkeypatch):
    """Another bench writes its yes between the reading and the writing of this one."""
    from counterhoop.bench.folders.decide import Yes, approve
    from counterhoop.web import yes_given

    def overtaken(shop, job, drum, **given):
        other = Yes(who="Ida", when="2026-03-20", how="by telephone")
        approve(shop, job, drum, **{**given, "yes": other})
        return approve(shop, job, drum, **given)

    monkeypatch.setattr(yes_given, "approve", overtaken)
    sent = {
        "who": "Nell",
        "when": "2026-03-21",
        "how": "by letter",
        "code": chosen(shop, demo).code,
    }
    answer = ask("POST", sheet(shop, demo) + "/yes", sent)
    assert answer.status_code == 409
    assert "another yes for this drum at the same time" in answer.text
    for typed in ("Nell", "2026-03-21", "by letter"):
        assert f'value="{typed}"' in answer.text


def test_a_printer_that_cannot_be_read_is_said_and_papers_are_listed_all_the_same(shop, demo, ask):
    change = Change(kind="printer", value={"paper": "A4", "measured": "about right"}, based_on=0)
    write_down(shop, None, change, by="b")
    for address in (f"/jobs/{demo}/papers", sheet(shop, demo).replace("/schemes", "/bench")):
        answer = ask("GET", address)
        assert answer.status_code == 200
        assert "two readings are wanted" in answer.text
        assert "/workshop/printer" in answer.text
        assert "papers/file?" in answer.text


def test_what_is_put_away_stands_among_the_sheets_of_the_workshop(ask):
    text = ask("GET", "/workshop/put-away").text
    assert 'href="/workshop/fittings"' in text
    assert 'href="/workshop/safe"' in text
