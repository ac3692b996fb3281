"""What a drum is: when it was made, the sheet that asks everything once, one look at a time.

Truth: the reckoning itself, called beside the page; by hand what stands in a form and is kept.
"""

from __future__ import annotations

import re
from html import unescape

import pytest

from counterhoop.bench.evidence.dating import dating_of
from counterhoop.bench.evidence.write_reference import write_row
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.kinds import FACTS
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.evidence.words import dated_words
from counterhoop.web.folder_index import drum_address

EARLIER = {"maker": {"says": "Corvane", "who": "its badge", "sure": "seen"},
           "badge": {"says": "oval, brass", "sure": "seen"},
           "vent": {"says": "1/2 in"}}  # fmt: skip


@pytest.fixture
def address(shop, job):
    kept = kept_job(shop, job)
    body = Change(kind=FACTS, name=kept.drums[0].id, value=EARLIER, based_on=0)
    write_down(shop, job, body, by="bench")
    return drum_address(kept, kept.drums[0])


def facts_in(shop, job) -> dict:
    return kept_job(shop, job).drums[0].kept(FACTS).table


def words(text: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", text)).split())


def sent_by(page: str) -> dict[str, str]:
    """Return what a browser sends of the sheet's form, unchanged."""
    form = re.search(r'<form class="thing" id="facts-form".*?</form>', page, flags=re.S)[0]
    sent = dict(re.findall(r'<input type="(?:text|hidden)"[^>]*? name="([^"]+)" value="([^"]*)"',
                           re.sub(r'(<input[^>]*?) id="[^"]*"', r"\1", form)))  # fmt: skip
    for name, choices in re.findall(r'<select[^>]* name="([^"]+)".*?>(.*?)</select>', form, re.S):
        chosen = re.search(r'<option value="([^"]*)" selected', choices)
        sent[name] = chosen[1] if chosen else ""
    return {name: unescape(value) for name, value in sent.items()}


def test_facts_of_earlier_versions_are_shown_dated_by_and_sent_again_unchanged(
    ask, shop, job, address
) -> None:
    page = ask.get(address).text
    assert "oval, brass (seen)" in words(page)
    assert "held against the dated features of Corvane" in words(page)
    sent = sent_by(page)
    assert (sent["badge.says"], sent["badge.value"]) == ("oval, brass", "")
    assert ask.post(f"{address}/facts", data=sent).status_code == 303
    assert facts_in(shop, job) == EARLIER


def test_everything_is_asked_once(ask, address) -> None:
    page = ask.get(address).text
    legends = re.findall(r"<legend>(.*?)</legend>", page)
    assert len(legends) == len(set(legends))
    assert {"Badge", "Plies and rings", "Strainer", "Lug insert", "Serial number"} <= set(legends)
    assert not {"Shell make-up", "Lug", "Stamp"} & set(legends)


def test_what_is_typed_is_answered_with_the_years(ask, shop, job, address) -> None:
    sent = sent_by(ask.get(address).text) | {
        "badge.value": "round, nailed", "serial.says": "9 800", "plies.value": "six plies",
        "plies.sure": "guessed",
    }  # fmt: skip
    answer = ask.post(f"{address}/facts", data=sent, headers={"HX-Request": "true"})
    assert answer.status_code == 200
    kept = kept_job(shop, job)
    first, *because, _ = dated_words(dating_of(shop, kept, kept.drums[0]).found)
    said = words(answer.text)
    assert first in said
    for line in because:
        assert line in said
    assert "By the number alone" in said


def test_the_next_look_is_answered_where_it_is_asked(ask, shop, job, address) -> None:
    page = ask.get(address).text
    form = re.search(r'<form class="next-look".*?</form>', page, flags=re.S)[0]
    sent = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', form))
    assert sent["feature"] == "badge"
    sent |= {"value": "square", "sure": "seen"}
    answer = ask.post(f"{address}/facts/look", data=sent)
    assert answer.headers["location"] == f"{address}#dating"
    assert facts_in(shop, job)["badge"] == EARLIER["badge"] | {"value": "square"}
    again = ask.post(f"{address}/facts/look", data=sent | {"value": "transfer", "once": ""})
    assert again.status_code == 409
    kept = ask.post(f"{address}/facts/look", data=sent | {"keep": "theirs", "once": ""})
    assert kept.status_code == 303
    assert facts_in(shop, job)["badge"]["value"] == "square"
    for wrong in ({"value": "star"}, {"feature": "history"}, {"feature": ""}):
        assert ask.post(f"{address}/facts/look", data=sent | wrong).status_code in (404, 422)


def test_an_answer_that_the_reference_lost_is_kept_and_said(ask, shop, job, address) -> None:
    body = EARLIER | {"badge": {"value": "star <b>"}, "serial": {"says": "none to be seen"}}
    kept = kept_job(shop, job)
    write_down(shop, job, Change(kind=FACTS, name=kept.drums[0].id, value=body, based_on=1), by="b")
    page = ask.get(address).text
    assert "The badge is left out: no “star <b>” of such a drum" in words(page)
    assert "The serial number is left out: not a serial number" in words(page)
    ask.post(f"{address}/facts", data=sent_by(page))
    assert facts_in(shop, job) == body


def test_no_answer_is_lost_whatever_is_no_longer_asked(ask, shop, job, address) -> None:
    """Exact law: the sheet as it stands, sent again, changes nothing."""
    body = {
        "maker": {"says": "Hallmere", "line": "Concert", "sure": "told"},
        "badge": {"value": "round, nailed", "photograph": "a7", "sure": "seen"},
        "damper": {"value": "none"},
    }
    kept = kept_job(shop, job)
    drum = kept.drums[0].id
    write_down(shop, job, Change(kind=FACTS, name=drum, value=body, based_on=1), by="b")
    ask.post(f"{address}/facts", data=sent_by(ask.get(address).text))
    assert facts_in(shop, job) == body
    sent = sent_by(ask.get(address).text) | {"maker.family": "Corvane"}
    ask.post(f"{address}/facts", data=sent)
    page = ask.get(address).text
    assert "/photographs/a7" in page
    assert sent_by(page)["damper.value"] == "none"


def test_nobody_said_whose_it_is(ask, shop, job) -> None:
    kept = kept_job(shop, job)
    page = words(ask.get(drum_address(kept, kept.drums[0])).text)
    assert "Say beneath under Maker whose it is, of the families" in page
    assert "Corvane, Quennick" in page


def test_a_slip_in_a_line_of_drums_shuts_nobody_out_of_the_sheet(ask, shop, job, address) -> None:
    late = {"family": "Dunmarrow", "name": "Dunmarrow", "source": "a slip", "from": 2098}
    for based_on, row in enumerate((late, late | {"from": 1501})):
        write_row(shop, "line", None if not based_on else 0, row, based_on=based_on, by="bench")
        kept = kept_job(shop, job).drums[0]
        facts = {**kept.kept(FACTS).table, "maker": {"family": "Dunmarrow", "says": f"{based_on}"}}
        body = Change(kind=FACTS, name=kept.id, value=facts, based_on=kept.kept(FACTS).number)
        write_down(shop, job, body, by="bench")
        answer = ask.get(address)
        assert answer.status_code == 200
        assert ("the year of looking does not go with the lines" in words(answer.text)) == (
            not based_on
        )
        assert "oval, brass (seen)" in words(answer.text)
