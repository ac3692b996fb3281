"""A strip-down on a phone: ticked with a thumb, two screws missing, one set aside from the shelf.

Truth: what a person sees and taps, step by step; counted by hand on the worked small tom; WCAG 2.2
as axe-core reads it.
"""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from worked_drums import PLANNED, WorkedJob

from counterhoop.bench.shelf.cards import card_of, write_piece
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app

TOM, SCREW = "small tom", "screw 10-24 x 5/8 in"
PHONE = {
    "size": {"width": 360, "height": 740},
    "has_touch": True, "is_mobile": True, "device_scale_factor": 2,
}  # fmt: skip


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)


def test_from_the_bucket_to_the_shelf(shop, app_on, open_page, axe, fits, look):
    job = WorkedJob(shop, TOM)
    fields = {"number": "0042", "fitting": SCREW, "kind": "screw", "count": 1, "bin": "B3"}
    kept = write_piece(shop, None, fields, based_on=0, by="bench")
    served = app_on(make_app(shop))
    phone = open_page(served, **PHONE)
    phone.goto(f"/jobs/{job.id}/drums/{job.drum(TOM).id}", timeout=60_000)
    phone.get_by_role("navigation").get_by_role("link", name="Parts", exact=True).tap()
    face = phone.locator("#came-off .face")
    expect(face).to_have_text("Nothing is counted yet: 61 pieces should come off.")
    phone.get_by_role("button", name="batter lugs 1 to 6: All 6 there").tap()
    expect(face).to_have_text("25 of 61 pieces not counted yet.")
    lug_3 = phone.get_by_role("link", name="Count it piece by piece: batter lug 3")
    expect(lug_3).to_be_hidden()  # all there, so the row is folded
    phone.get_by_text("One by one: batter lugs 1 to 6").tap()
    lug_3.tap()
    screws = phone.get_by_role("group", name=SCREW)
    screws.get_by_label("found").fill("x")
    phone.get_by_role("button", name="Write the count down").tap()
    expect(phone.get_by_role("alert")).to_contain_text("a whole number")
    phone.watch.allow("422")
    screws.get_by_label("found").fill("0")
    axe(phone)
    fits(phone)
    phone.get_by_role("button", name="Write the count down").tap()
    expect(face).to_have_text("2 screws missing; 25 of 61 pieces not counted yet.")
    # A second bench looked at the page before and ticks something else: both stay.
    other = open_page(served)
    other.goto(phone.url)
    phone.get_by_role("button", name="badge: All there").tap()
    other.get_by_role("button", name="bracket: All there").click()
    phone.reload()
    expect(face).to_have_text("2 screws missing; 14 of 61 pieces not counted yet.")
    phone.get_by_role("link", name="What the shelf has of it").tap()
    wanted = phone.get_by_role("listitem").filter(
        has=phone.get_by_role("heading", name=f"2 {SCREW}", exact=True)
    )
    expect(wanted).to_contain_text("Number 0042, bin B3: 1 free.")
    wanted.get_by_role("button", name="Set 1 aside for the small tom").tap()
    expect(wanted).to_contain_text("1 set aside and 1 to find or buy.")
    stock = card_of(shop, kept.piece.id).stock
    assert stock.set_aside == {key_of(job.id, job.drum(TOM).id): 1}
    axe(phone)
    fits(phone)
    phone.get_by_role("button", name="Put back").tap()
    expect(wanted).to_contain_text("1 on the shelf and 1 to find or buy.")
    look(other, "parts-of-a-drum")
    other.goto(f"/jobs/{job.id}/parts")
    for details in other.locator("details").all():
        details.evaluate("one => { one.open = true; }")
    axe(other)
    look(other, "parts-of-a-job")
