"""One job from its price to its receipt, on a phone and on a laptop, on the program itself.

Truth: what a person reads on the page that comes next, and the papers as another library reads
them.
"""

from __future__ import annotations

import datetime as dt
import re

import pytest
from job_steps import PHONE, JobPages, photograph, take_snare_in
from playwright.sync_api import expect

from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store

TODAY = dt.datetime.now(dt.UTC).date().isoformat()


@pytest.fixture
def both(start_served, open_page, tmp_path):
    """The snare's job, taken in before the program was started: on a laptop, on a phone."""
    data = tmp_path / "data"
    data.mkdir()
    with open_store(address_of(data=data)) as store:
        job = take_snare_in(Workshop(store=store, works=WorksAtOnce()))
    served = start_served(data=data)
    return (
        JobPages(open_page(served), job),
        JobPages(open_page(served, **PHONE), job, touch=True),
    )


def test_from_the_price_to_the_receipt(both, axe, look):
    laptop, phone = both

    # Price and cuts are agreed at the desk.
    laptop.go("price")
    axe(laptop.page)
    look(laptop.page, "price")
    price = laptop.agree()
    assert str(price).partition(" ")[0] in laptop.paper("Print offer 1")

    # The day is told by telephone.
    phone.go("price")
    assert phone.money_on("price") == price
    phone.write(phone.form("Promise a day"), "Write the promise down")
    expect(phone.sheet("promised")).to_contain_text(re.compile(r"It holds: \d+ in 100"))

    # The day's work.
    phone.go_to("/today")
    phone.press(phone.sheet("next").get_by_role("button", name="Pick up"))
    expect(phone.sheet("in-hand")).to_contain_text("Strip a drum")
    phone.worked_out()
    axe(phone.page)
    look(phone.page, "today")
    phone.unfold("Photograph it")
    phone.page.get_by_label("Photograph of the work").set_input_files(photograph())
    phone.press(phone.page.get_by_role("button", name="Keep the photograph"))
    expect(phone.page.locator("#said")).to_contain_text("photograph")
    phone.press(phone.page.get_by_role("button", name="Put down"))
    expect(phone.sheet("done")).to_contain_text("goes on another time")
    laptop.go_to("/today")
    laptop.press(laptop.sheet("next").get_by_role("button", name="Pick up"))
    laptop.press(laptop.page.get_by_role("button", name="Finished"))
    expect(laptop.sheet("done")).to_contain_text("done")
    expect(laptop.sheet("next")).not_to_contain_text("Strip a drum")

    # One hole each; then nothing is left to do.
    for bench, hole in ((phone, 37), (laptop, 38)):
        bench.go_drum("bench")
        tick = bench.page.locator(f"#tick-{hole}")
        bench.press(tick)
        expect(tick).to_have_attribute("aria-pressed", "true")
    expect(laptop.page.locator("#how-far")).to_contain_text("Every hole is done.")

    # It is billed at the desk, and paid as it is fetched.
    laptop.bill(price)
    axe(laptop.page)
    look(laptop.page, "bills")
    phone.go("handed-over/bills")
    phone.write(phone.form("Write a receipt"), "Write the receipt", How_it_was_paid="cash")
    expect(phone.sheet("due")).to_contain_text("Everything is paid.")
    receipt = phone.paper("Print receipt 1")
    assert receipt.startswith("Receipt 1 ")
    assert str(price) in receipt

    # Handed over, with its record.
    laptop.go("handed-over")
    laptop.page.get_by_label("Who took it").fill("Tobin Ashgrove")
    laptop.page.get_by_label("The day").fill(TODAY)
    laptop.press(laptop.sheet("handed-over").get_by_role("button", name="Write it down"))
    expect(laptop.sheet("handed-over").locator(".face")).to_contain_text("Handed over on")
    axe(laptop.page)
    look(laptop.page, "handed-over")
    record = laptop.paper("Handover record")
    assert "school snare" in record
    assert "2 old holes closed with wood" in record
    phone.go("price")
    expect(phone.sheet("date")).to_contain_text("there is nothing left to promise")
    phone.go_to("/today")
    expect(phone.page.locator("main")).not_to_contain_text("Soak and clean")
