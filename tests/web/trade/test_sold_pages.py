"""Own sales and their values as pages. Truth: what was typed; the reckoning called beside."""

from __future__ import annotations

import re
from html import unescape

from handed_job import hand_over
from priced_job import OnTheBench
from starlette.testclient import TestClient

from counterhoop.bench.trade.demo_sales import put_demo_sales
from counterhoop.bench.trade.features_typed import read_features
from counterhoop.bench.trade.own_sales import own_sales
from counterhoop.bench.trade.ways_reckoned import valued
from counterhoop.bench.workshop import Workshop
from counterhoop.job.trade.worth import Worth
from counterhoop.job.trade.worth_words import roughly

SOLD = "/workshop/sold"
TYPED = {
    "size": "14 dia x 6.5 deep", "kind": "snare drum", "price": "240", "sold_on": "2030-05-02",
    "days": "21", "based_on": "0",
}  # fmt: skip


def words(text: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", text)).split())


def fields(page: str) -> dict[str, str]:
    """Return what the form of a sale would send, unchanged."""
    form = page[page.index('id="sale-form"') :]
    form = form[: form.index("</form>")]
    pairs = re.findall(r'<input [^>]*?name="([^"]+)" value="([^"]*)"', form)
    return {name: unescape(value) for name, value in pairs}


def test_a_sale_is_written_put_right_and_struck(ask: TestClient, shop: Workshop) -> None:
    assert "None is written down yet" in ask.get(SOLD).text
    made = ask.post(f"{SOLD}/new", data=TYPED)
    assert (made.status_code, made.headers["location"]) == (303, f"{SOLD}#own")
    (one,) = own_sales(shop).rows
    assert "240.00 GBP on Thu 2 May 2030, after 21 days" in words(ask.get(SOLD).text)
    sent = fields(ask.get(f"{SOLD}/{one.key}").text)
    assert sent["price"] == "240.00 GBP"
    assert ask.post(f"{SOLD}/{one.key}", data=sent | {"price": "260"}).status_code == 303
    assert "260.00 GBP" in ask.get(SOLD).text
    number = str(own_sales(shop).kept.number)
    ask.post(f"{SOLD}/{one.key}/struck", data={"struck": "yes", "based_on": number})
    assert own_sales(shop).counted == ()
    assert "Left out of every value: 1" in ask.get(SOLD).text
    back = {"kind": "sales", "number": number, "based_on": str(own_sales(shop).kept.number)}
    assert ask.post("/workshop/undo", data=back).headers["location"] == SOLD
    assert len(own_sales(shop).counted) == 1
    sheet = ask.get(f"{SOLD}/rows").text
    sent = {"based_on": str(own_sales(shop).kept.number)}
    more = sheet + sheet.splitlines()[1].replace("260.00", "250.00")
    answer = ask.post(f"{SOLD}/rows", data=sent, files={"file": ("a.csv", more)})
    assert "1 sale taken in; 1 stood there already." in answer.text
    wrong = ask.post(f"{SOLD}/rows", data=sent, files={"file": ("a.csv", "size,price\n<b>,1\n")})
    assert wrong.status_code == 422
    assert "Line 2: size: " in wrong.text
    assert "<b>," not in wrong.text


def test_what_is_wrong_comes_back_beside_its_field_and_nothing_is_lost(
    ask: TestClient, shop: Workshop
) -> None:
    answer = ask.post(f"{SOLD}/new", data=TYPED | {"size": "14 <b>x</b> 6.5", "finish": "pearl"})
    assert answer.status_code == 422
    assert "14 &lt;b&gt;x&lt;/b&gt; 6.5" in answer.text
    assert re.search(r'id="f-size-fault" role="alert">[^<]+differs between countries', answer.text)
    assert fields(answer.text)["finish"] == "pearl"
    assert own_sales(shop).rows == ()


def test_two_who_put_one_sale_right_see_both(ask: TestClient, shop: Workshop) -> None:
    ask.post(f"{SOLD}/new", data=TYPED)
    (one,) = own_sales(shop).rows
    sent = fields(ask.get(f"{SOLD}/{one.key}").text)
    ask.post(f"{SOLD}/{one.key}", data=sent | {"price": "250", "sent_once": "a"})
    answer = ask.post(f"{SOLD}/{one.key}", data=sent | {"price": "230", "sent_once": "b"})
    assert answer.status_code == 409
    for said in ("The buyer paid", "250.00 GBP", "230.00 GBP"):
        assert said in answer.text, said
    kept = ask.post(f"{SOLD}/{one.key}", data=sent | {"keep": "theirs", "sent_once": "c"})
    assert kept.headers["location"] == SOLD
    assert ask.get(f"{SOLD}/nobody").status_code == 404


def test_a_value_stands_on_the_face_with_what_it_rests_on(ask: TestClient, shop: Workshop) -> None:
    put_demo_sales(shop, by="demonstration")
    drum = {"size": "12 dia x 8 deep", "kind": "tom", "line": "Corvane Tarnbeck"}
    wanted = read_features(drum).features
    assert wanted is not None
    found = valued(wanted, own_sales(shop), on=shop.now().date())
    assert isinstance(found, Worth)
    page = words(ask.get(f"{SOLD}/worth", params=drum).text)
    assert f"About {roughly(found.usual)}." in page
    assert f"between {roughly(found.low)} and {roughly(found.high)}." in page
    assert found.like[0].sale.what[1:] in page
    assert f"{100 * found.like[0].share:.0f} % of the weight" in page
    assert "GBP at most: then an hour still brings" in page
    assert "No part has a price" in page or "no part has a price" in page


def test_nothing_asked_is_nothing_answered_and_a_slip_stops_nothing(ask: TestClient) -> None:
    bare = words(ask.get(f"{SOLD}/worth").text)
    assert "Its worth, as it is" not in bare
    assert "What to pay, and which way" not in bare
    answer = ask.get(
        f"{SOLD}/worth",
        params={"size": "12 dia x 8 deep", "whole_price": "200", "whole_sells": "100 %",
                "whole_work": " ", "wage": "20", "weeks": "many"},
    )  # fmt: skip
    assert answer.status_code == 422
    assert "Not that many" in answer.text
    # All of the 200 and no work: 200 may be paid.
    assert "Pay 200 GBP at most" in answer.text


def test_a_drum_that_was_handed_over_is_taken_among_the_sales_once(
    tom: OnTheBench, ask: TestClient, shop: Workshop
) -> None:
    hand_over(tom)
    asked = {"job": tom.id, "drum": tom.drum.id}
    sent = fields(ask.get(f"{SOLD}/new", params=asked).text)
    assert (sent["sold_on"], sent["price"]) == ("2030-05-13", "")
    assert ask.post(f"{SOLD}/new", data=sent | {"price": "300"}).status_code == 303
    (one,) = own_sales(shop).rows
    again = ask.get(f"{SOLD}/new", params=asked)
    assert again.headers["location"] == f"{SOLD}/{one.key}"
    assert f"/jobs/{tom.id}/drums/{tom.drum.id}" in ask.get(f"{SOLD}/{one.key}").text
    worth = ask.get(f"{SOLD}/worth", params=asked).text
    assert "Its worth, as it is" in words(worth)
    scheme = tom.plan().drums[0].chosen
    assert scheme is not None
    drilled = sum(one.verdict.drills for one in scheme.layout.holes)
    for said in (f"{drilled} x drill a hole", "6 x Corvane round lug", "1 x tune a drum"):
        assert said in worth, said
    made_up = sent | {"price": "1", "came_from": "nowhere/nobody", "sent_once": "z"}
    assert ask.post(f"{SOLD}/new", data=made_up).status_code == 422
    assert len(own_sales(shop).rows) == 1
