"""Found on the way, page by page, without a script.

Truth: what the bench keeps of it (``tests/bench/change``), and the words that a person reads.
"""

from __future__ import annotations

import io
import re

import pytest
from mid_work import DAY, InWork
from PIL import Image
from priced_job import text_of
from starlette.testclient import TestClient

from counterhoop.bench.change.agreed import agreed_changes
from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.kinds import CHOICE, FOUND, PROMISE, SURVEY
from counterhoop.bench.promise.promise_of import job_promised
from counterhoop.bench.promise.promises import write_promise
from counterhoop.web import date_desk
from counterhoop.web.bench_planned import BenchPlanned

CRACK = {"sort": "crack", "along": "lug 3", "from": "0 mm", "to": "60 mm", "means": "to the hole"}
HOLE = {
    "sort": "hole", "along": "lug 3 + 20 mm", "near": "60 mm", "dia": "7 mm", "origin": "extra",
}  # fmt: skip
SAID = {"said": "yes", "who": "Tobin", "when": DAY, "how": "by telephone"}


def address(work: InWork) -> str:
    return f"/jobs/{work.id}/drums/{work.drum.id}/found"


def jpeg() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (60, 30), "white").save(out, "JPEG")
    return out.getvalue()


def seen(text: str) -> str:
    found = re.search(r'name="seen" value="([^"]+)"', text)
    assert found, text
    return found[1]


def read(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def test_each_sort_has_its_short_form(work: InWork, ask: TestClient) -> None:
    first = ask.get(address(work))
    assert "Nothing was found on the way." in first.text
    for sort, field in (("crack", "from"), ("hole", "dia"), ("thread", "where")):
        assert f"what={sort}" in first.text
        assert f'name="{field}"' in ask.get(address(work), params={"what": sort}).text
    assert 'name="along"' not in ask.get(address(work), params={"what": "nothing such"}).text


def test_a_crack_is_written_with_its_photograph(work: InWork, ask: TestClient) -> None:
    done = ask.post(
        address(work), data=CRACK, files=[("files", ("crack.jpg", jpeg(), "image/jpeg"))]
    )
    assert done.status_code == 303
    assert done.headers["location"].endswith("/found#found-1")
    text = ask.get(address(work)).text
    assert "One thing waits for an answer." in text
    assert "Crack in the shell at lug 3, 0 mm to 60 mm down: to the hole." in text
    assert "The price rises by 15.00 GBP, from 390.00 GBP to 405.00 GBP." in text
    (picture,) = photographs_of(work.shop, work.job)
    assert picture.id in text
    # The drum's other pages say so too.
    for sheet in ("bench", "shell", "schemes"):
        assert "not answered yet" in ask.get(address(work).replace("found", sheet)).text, sheet


def test_what_was_refused_stands_with_its_fault_and_its_photograph(
    work: InWork, ask: TestClient
) -> None:
    wrong = {**CRACK, "along": "lug 33"}
    picture = ("files", ("crack.jpg", jpeg(), "image/jpeg"))
    refused = ask.post(address(work), data=wrong, files=[picture])
    assert refused.status_code == 422
    assert "There is no batter lug 33" in refused.text
    assert 'value="lug 33"' in refused.text
    kept = re.search(r'name="kept" value="([^"]+)"', refused.text)
    assert kept
    ask.post(address(work), data={**CRACK, "kept": kept[1]})
    (thing,) = work.found.every
    assert thing.photographs == (kept[1],)
    no_picture = ask.post(
        address(work), data=CRACK, files=[("files", ("crack.txt", b"words", "text/plain"))]
    )
    assert no_picture.status_code == 422
    assert "crack.txt" in no_picture.text
    assert len(work.found.every) == 1


def test_a_number_without_its_unit_gets_it_by_one_press(work: InWork, ask: TestClient) -> None:
    """A nought lacks none."""
    refused = ask.post(address(work), data={**CRACK, "from": "0", "to": "60"})
    assert refused.status_code == 422
    assert re.findall(r'data-into="([^"]+)" data-writes="([^"]+)"', refused.text) == [
        ("found-to", "60 mm")
    ]
    assert ask.post(address(work), data={**CRACK, "from": "0"}).status_code == 303


def test_the_note_and_the_answer(work: InWork, ask: TestClient) -> None:
    ask.post(address(work), data=HOLE)
    text = ask.get(address(work)).text
    assert "DRAFT until there is a yes" in text
    note = ask.get(f"{address(work)}/note.pdf")
    assert note.headers["content-type"] == "application/pdf"
    said = text_of(note.content)
    assert "Hole that was not on the list at lug 3 + 20 mm" in said
    assert work.scheme.code in said
    nobody = ask.post(f"{address(work)}/answer", data={**SAID, "who": "", "seen": seen(text)})
    assert nobody.status_code == 422
    assert "few words" in nobody.text
    assert 'value="by telephone"' in nobody.text
    ask.post(address(work), data=CRACK)
    late = ask.post(f"{address(work)}/answer", data={**SAID, "seen": seen(text)})
    assert late.status_code == 422
    assert "has changed since that page was opened" in late.text
    now = seen(ask.get(address(work)).text)
    assert ask.post(f"{address(work)}/answer", data={**SAID, "seen": now}).status_code == 303
    after = ask.get(address(work)).text
    assert "Tobin said yes on 14 May 2030, by telephone" in after
    assert "Everything that was found is answered." in after
    assert not work.scheme.draft
    # The paper for the folder is there after the yes, with what it was about.
    again = text_of(ask.get(f"{address(work)}/note.pdf", params={"answer": 1}).content)
    assert "Tobin said yes on 14 May 2030, by telephone" in again
    # Two holes were to be plugged before.
    assert "1 lifted ply glued" in again
    assert "1 hole plugged" in again
    assert "Hole that was not on the list at lug 3 + 20 mm" in again
    assert work.scheme.code in again
    assert "signature" not in again
    assert ask.get(f"{address(work)}/note.pdf", params={"answer": 2}).status_code == 409
    assert len(agreed_changes(work.job)) == 1


def test_a_part_is_charged_on_top(work: InWork, ask: TestClient) -> None:
    ask.post(address(work), data={"sort": "part", "where": "lug 2", "means": "it is split"})
    wrong = ask.post(f"{address(work)}/1/price", data={"amount": "dear", "says": "a casting"})
    assert wrong.status_code == 422
    assert 'value="dear"' in wrong.text
    price = {"amount": "12", "says": "one lug casting", "sort": "part", "based_on": "2"}
    assert ask.post(f"{address(work)}/1/price", data=price).status_code == 303
    text = ask.get(address(work)).text
    assert "The price rises by 10.00 GBP" in text  # 390 to the next round figure of 402
    now = seen(text)
    ask.post(f"{address(work)}/answer", data={**SAID, "seen": now})
    assert sum(one.amount.minor for one in agreed_changes(work.job)) == 1000
    assert "&lt;" not in text


def test_two_prices_on_top_at_once_are_not_one_over_the_other(
    work: InWork, ask: TestClient
) -> None:
    ask.post(address(work), data={"sort": "part", "where": "lug 2", "means": "it is split"})
    based_on = re.search(r'name="based_on" value="(\d+)"', ask.get(address(work)).text)
    assert based_on
    price = {"says": "a casting", "sort": "part", "based_on": based_on[1]}
    first = ask.post(f"{address(work)}/1/price", data={**price, "amount": "12"})
    assert first.status_code == 303
    second = ask.post(f"{address(work)}/1/price", data={**price, "amount": "20"})
    assert second.status_code == 422
    assert "Somebody wrote what it costs on top at the same time" in second.text
    assert "a casting, 12.00 GBP" in read(second.text)
    assert 'value="20"' in second.text
    now = re.search(r'name="based_on" value="(\d+)"', second.text)
    assert now
    again = {**price, "amount": "20", "based_on": now[1]}
    assert ask.post(f"{address(work)}/1/price", data=again).status_code == 303


def test_taken_back_and_no_answer_wanted(work: InWork, ask: TestClient) -> None:
    ask.post(address(work), data=CRACK)
    assert ask.post(f"{address(work)}/1/back", data={"why": ""}).status_code == 422
    assert ask.post(f"{address(work)}/1/back", data={"why": "a scratch"}).status_code == 303
    assert "lines" not in work.drum.kept(SURVEY).table
    ask.post(address(work), data={"sort": "other", "where": "inside", "means": "dust"})
    assert ask.post(f"{address(work)}/2/settle", data={"because": "swept"}).status_code == 303
    text = ask.get(address(work)).text
    assert "Taken back: a scratch." in text
    assert "No answer wanted: swept." in text
    assert ask.post(f"{address(work)}/9/back", data={"why": "x"}).status_code == 422


def test_the_day_that_moves_is_promised_anew(work: InWork, ask: TestClient) -> None:
    write_promise(
        work.shop, work.job, day="2030-05-15", to="Tobin", share=None,
        based_on=work.job.kept(PROMISE).number, by="bench",
    )  # fmt: skip
    ask.post(address(work), data=CRACK)
    text = ask.get(address(work)).text
    moved = re.search(r"Ready by ([^<]+) instead of 15 May 2030", text)
    assert moved, text
    ask.post(f"{address(work)}/answer", data={**SAID, "seen": seen(text)})
    now = job_promised(work.job)
    assert now is not None
    assert moved[1] == f"{now.day} {now:%B} {now.year}"


def test_a_scheme_that_was_taken_is_taken_anew_with_the_new_hole(
    work: InWork, ask: TestClient
) -> None:
    """Until then the drum would go by whatever is worked out first."""
    before = work.scheme
    work.write(CHOICE, "", {"scheme": before.code, "title": before.title})
    ask.post(address(work), data=HOLE)
    text = ask.get(address(work)).text
    assert "Take its scheme anew." in text
    assert 'name="seen"' not in text
    code = re.search(r'name="code" value="([^"]+)"', text)
    assert code
    assert code[1] != before.code
    stale = ask.post(f"{address(work)}/take", data={"code": before.code, "based_on": "1"})
    assert stale.status_code == 409
    assert ask.post(f"{address(work)}/take", data={"code": code[1], "based_on": "1"}).is_redirect
    assert work.drum.kept(CHOICE).table["title"] == before.title
    assert work.changed().note.differs
    assert seen(ask.get(address(work)).text)


def test_its_history_is_read_and_not_gone_back_over(work: InWork, ask: TestClient) -> None:
    """The client has answered to it, and the survey has it too."""
    ask.post(address(work), data=CRACK)
    ask.post(address(work), data={"sort": "other", "means": "dust"})
    kept = work.drum.kept(FOUND)
    history = f"/jobs/{work.id}/history/{kept.document_id}"
    assert "Go back to version" not in ask.get(history).text
    back = ask.post(history, data={"number": "1", "based_on": str(kept.number)})
    assert back.status_code == 409
    assert len(work.found.every) == 2


@pytest.mark.parametrize("what", ["", "crack", "part"])
def test_before_a_price_nothing_is_asked_of_the_client(
    fresh: InWork, ask: TestClient, what: str
) -> None:
    if what:
        ask.post(address(fresh), data={**HOLE, **CRACK, "sort": what, "where": "lug 2"})
    text = ask.get(address(fresh)).text
    assert ("No price was agreed yet" in text) == bool(what)
    assert 'name="seen"' not in text
    assert ask.get(f"{address(fresh)}/note.pdf").status_code == 409


def test_after_the_yes_to_a_change_the_price_has_one_face(
    work: InWork, ask: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(date_desk, "bench_planned", lambda _shop: BenchPlanned())
    ask.post(address(work), data=CRACK)
    waits = read(ask.get(f"/jobs/{work.id}/price").text)
    assert "390.00 GBP Not above 490.00 GBP without a call" in waits
    assert "It would come to 405.00 GBP now, and nobody said yes to that" in waits
    form = {**SAID, "seen": seen(ask.get(address(work)).text)}
    assert ask.post(f"{address(work)}/answer", data=form).status_code == 303
    said = read(ask.get(f"/jobs/{work.id}/price").text)
    # What the bill will come to, and may come to.
    assert "405.00 GBP Not above 505.00 GBP without a call" in said
    assert "390.00 GBP was agreed with the offer, 15.00 GBP more on 14 May 2030: 405.00" in said
    assert "Everything stands as it was agreed." in said
    assert "405.00 GBP to bill." in ask.get(f"/jobs/{work.id}/handed-over/bills").text
