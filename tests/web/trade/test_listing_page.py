"""A drum that is offered, as a page. Truth: the listing called beside; what was typed."""

from __future__ import annotations

import re
from html import unescape

from handed_job import take_first, tick
from priced_job import OnTheBench, text_of
from starlette.testclient import TestClient

from counterhoop.bench.folders.kinds import LISTING
from counterhoop.bench.trade.drum_told import facts_told
from counterhoop.job.trade.listing import listing

PART = {"HX-Request": "true"}


def at(tom: OnTheBench) -> str:
    return f"/jobs/{tom.id}/drums/{tom.drum.id}/listing"


def shown(page: str) -> str:
    """Return the text in the field that is copied."""
    found = re.search(r'<textarea id="listing-words".*?>(.*?)</textarea>', page, flags=re.S)
    assert found
    return unescape(found[1])


def test_the_text_is_the_listing_on_the_page_and_as_a_file(
    tom: OnTheBench, ask: TestClient
) -> None:
    before = unescape(ask.get(at(tom)).text)
    for said in (
        "may be celluloid", "Never test it with flame", "Nobody wrote down what the shell is made",
        "check what applies", "not packed yet",
    ):  # fmt: skip
        assert said in before, said
    code, holes = take_first(tom)
    tick(tom, code, holes)
    text = listing(facts_told(tom.shop, tom.job, tom.drum, tom.plan())).text
    page = ask.get(at(tom)).text
    assert shown(page) == text
    assert "made by us" in text
    assert f'href="{at(tom)}/sheet.pdf"' in page
    tom.write(LISTING, "/asked", "450 GBP")
    sheet = ask.get(f"{at(tom)}/sheet.pdf")
    assert sheet.headers["content-type"] == "application/pdf"
    printed = text_of(sheet.content)
    assert "asked for it 450 GBP" in printed
    for line in text.split("\n"):
        assert line.removeprefix("- ").removesuffix(":") in printed
    file = ask.get(f"{at(tom)}/text")
    assert file.text == text + "\n"
    assert file.headers["content-disposition"].startswith("attachment")
    assert "For sale" in page
    assert ask.get(f"/jobs/{tom.id}/drums/nobody/listing").status_code == 404


def test_what_is_typed_besides_is_told_while_one_types(tom: OnTheBench, ask: TestClient) -> None:
    sent = {"faults": "A dent & a <b>", "comes_with": "", "not_known": "", "based_on": "0"}
    answer = ask.post(f"{at(tom)}/besides", data=sent, headers=PART)
    assert answer.status_code == 200
    assert "- A dent & a <b>" in shown(answer.text)
    assert 'hx-target="#parcel-based-on"' in answer.text
    parcel = {
        "timbers": "Brazilian rosewood", "nitrate": "no", "parcel": "52 x 52", "based_on": "1",
    }  # fmt: skip
    said = ask.post(f"{at(tom)}/parcel", data=parcel, headers=PART)
    assert "Appendix I since 1992" in said.text
    kept = tom.drum.kept(LISTING)
    assert kept.table == {
        "faults": "A dent & a <b>", "timbers": "Brazilian rosewood", "nitrate": "no",
        "parcel": "52 x 52",
    }  # fmt: skip
    page = ask.get(at(tom)).text
    assert re.search(r'id="parcel-parcel-fault" role="alert">a box has three sides', page, re.I)
    ask.post(f"{at(tom)}/parcel/undo", data={"number": "1", "based_on": str(kept.number)})
    assert tom.drum.kept(LISTING).table == {"faults": "A dent & a <b>"}
    first = {"faults": "A scratch", "based_on": str(kept.number), "sent_once": "b"}
    other = ask.post(f"{at(tom)}/besides", data=first)
    assert other.status_code == 303
    both = ask.post(f"{at(tom)}/besides", data=first | {"faults": "A crack", "sent_once": "c"})
    assert both.status_code == 409
    assert "Wrong with it, besides" in both.text
