"""A job from its first call to the day it goes home: what is asked when, and days in words."""

import re

from counterhoop.bench.folders.folder import kept_job
from counterhoop.quantities.day import MONTHS


def test_a_folder_needs_a_number_and_what_was_typed_stays(ask):
    refused = ask.post("/jobs", data={"client": "Nell Ashby"})
    assert refused.status_code == 422
    assert "Nell Ashby" in refused.text
    made = ask.post("/jobs", data={"number": "30-002", "client": "Nell Ashby"})
    assert re.fullmatch(r"/jobs/\w+", made.headers["location"])


def test_a_first_call_asks_what_a_caller_can_say_and_the_survey_is_asked_with_the_drum(ask, shop):
    asked = ask.get("/jobs/new").text
    assert "How to reach them" in asked
    assert 'name="date"' not in asked
    said = {"number": "30-003", "client": "Nell Ashby", "reached": "0131 555", "wanted": "a tom"}
    where = ask.post("/jobs", data=said).headers["location"]
    kept = kept_job(shop, where.removeprefix("/jobs/"))
    assert kept.kept("arrival").table == {"reached": "0131 555", "wanted": "a tom"}
    first = ask.get(f"{where}/drums/new").text
    assert re.search(r'name="date" value="\d{4}-\d\d-\d\d"', first)
    assert 'name="measured_by"' in first
    assert "surveyed, with what is wanted of it" in ask.get(f"{where}/price").text


def test_a_day_in_words_is_read_and_one_to_come_is_refused_beside_its_field(ask, shop, job):
    at = f"/jobs/{job}/handed-over"
    today = shop.now().date()
    spoken = f"{today.day} {MONTHS[today.month - 1][:3]}"
    assert ask.post(at, data={"based_on": "0", "handed_over": spoken}).status_code == 303
    assert kept_job(shop, job).kept("handover").table == {"handed_over": today.isoformat()}
    ask.post(at, data={"based_on": "1", "handed_over": "4 Dec 2099"})
    text = ask.get(at).text
    assert "Not handed over yet: “4 Dec 2099” is no day that has been." in text
    assert 'id="handover-handed_over-fault"' in text
    assert '<details class="more no-print" open>' in text
