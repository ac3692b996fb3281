"""The first page tells of the bench in sentences, with what waits and for whom.

Truth: what was written down before, in the words of the rooms that keep it.
"""

from __future__ import annotations

from mid_work import DAY, InWork
from starlette.testclient import TestClient

from counterhoop.bench.folders.kinds import HANDOVER, PROMISE
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.promise.promises import write_promise

PART = {"HX-Request": "true"}


def test_the_first_page_is_there_at_once_and_fills(work: InWork, ask: TestClient) -> None:
    first = ask.get("/").text
    assert 'hx-get="/waits"' in first
    assert '<a class="to-place" href="/waits">' in first  # without a script
    assert "Tobin said yes" in first  # the jobs as they are known without any plan
    part = ask.get("/waits", headers=PART).text
    assert "<html" not in part
    assert "Tuesday 14 May 2030" in part
    whole = ask.get("/waits").text
    assert "<html" in whole
    assert "Tuesday 14 May 2030" in whole


def test_each_sentence_leads_to_its_job(work: InWork, ask: TestClient) -> None:
    write_promise(
        work.shop, work.job, day="2030-05-15", to="Tobin", share=None,
        based_on=work.job.kept(PROMISE).number, by="bench",
    )  # fmt: skip
    work.finds("crack", along="lug 3", from_="0 mm", to="60 mm")
    part = ask.get("/waits", headers=PART).text
    price = f'<a href="/jobs/{work.id}/price">{work.job.title}</a>'
    assert f"{price}: Something found on the school snare on 14 May 2030; the client" in part
    late = part[part.index("Late, or likely to be") :]
    assert price in late
    # What is late is not said again among what is promised.
    assert "15 May 2030" in late
    assert 'id="waits-promised"' not in part


def test_found_things_stand_on_the_first_page_before_any_plan(
    work: InWork, ask: TestClient
) -> None:
    work.finds("other", where="inside", means="dust")
    first = ask.get("/").text
    assert "Something found on the school snare on 14 May 2030 waits for an answer." in first


def test_a_bench_without_open_jobs_has_nothing_to_fill(work: InWork, ask: TestClient) -> None:
    gone = Change(kind=HANDOVER, value={"handed_over": DAY}, based_on=0)
    write_down(work.shop, work.id, gone, by="bench")
    assert 'hx-get="/waits"' not in ask.get("/").text
    assert "Nothing is in hand, nothing waits" in ask.get("/waits").text
