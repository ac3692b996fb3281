"""What happens while a job is on the bench: something is found, another job comes in.

Truth: what a person reads on the page that comes next, and the papers as another library reads
them. The clock stands still on a Tuesday morning, and the bench is planned in a hurry.
"""

from __future__ import annotations

import re

import pytest
from job_steps import MONEY, PHONE, JobPages, photograph, take_snare_in
from playwright.sync_api import expect
from small_shop import Clock
from two_snares import Counted

from counterhoop.bench.workshop import Workshop
from counterhoop.quantities.money import parse_money
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app

HOLE_LIST = "Download the hole list as PDF"
NELL = "31-001, Nell Ashby"


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=Counted(), now=Clock())


@pytest.fixture
def served_shop(shop, app_on):
    return app_on(make_app(shop))


# --- something is found -------------------------------------------------------------------------


def test_a_hole_that_was_not_on_the_list(shop, served_shop, open_page, axe, look):
    phone = JobPages(open_page(served_shop, **PHONE), take_snare_in(shop), touch=True)
    agreed = phone.agree()
    phone.write(phone.form("Promise a day"), "Write the promise down")
    phone.go_drum("bench")
    assert "DRAFT" not in phone.paper(HOLE_LIST)

    # Found with the drum in the hand: its place, its size, its photograph.
    phone.press(phone.page.get_by_role("link", name="Found something").first)
    phone.press(phone.page.get_by_role("link", name="A hole that is not on the list"))
    phone.page.get_by_label("A photograph").set_input_files(photograph())
    phone.page.get_by_label("Who made it").select_option("extra")
    phone.write(
        phone.page.locator("form.found-form"), "Write it down", Where_along="lug 3 + 20 mm",
        Its_near_side="60 mm", Its_diameter="7 mm",
    )  # fmt: skip
    expect(phone.sheet("found").locator("h3")).to_contain_text("not on the list at lug 3 + 20 mm")
    expect(phone.sheet("found").locator("img")).to_have_count(1)
    phone.go_drum("bench")
    expect(phone.page.locator("main")).to_contain_text("not answered yet")
    assert "DRAFT" in phone.paper(HOLE_LIST)

    # The scheme that was taken has another code now; then the client is asked.
    phone.go_drum("found")
    changes = phone.sheet("changes")
    phone.press(changes.get_by_role("button", name="Take Back to factory as it stands now"))
    phone.worked_out()
    expect(changes).to_contain_text("Hole 40: 7.0 dia, not known then; now it is to be closed.")
    expect(changes).to_contain_text("Ready by")
    _, before, after = (parse_money(one) for one in MONEY.findall(changes.inner_text())[:3])
    assert before == agreed < after
    axe(phone.page)
    look(phone.page, "found")
    note = phone.paper("Print the change note")
    assert "lug 3 + 20 mm" in note
    assert str(after) in note

    # The client says yes: the papers may be drilled by, and the bill has it.
    phone.page.get_by_label("The client says").select_option("yes")
    phone.write(
        phone.page.locator("form#answer"), "Write the answer down", Who_said_so="Tobin Ashgrove",
        How="by telephone",
    )  # fmt: skip
    expect(phone.sheet("found")).to_contain_text("Everything that was found is answered.")
    phone.go_drum("bench")
    assert "DRAFT" not in phone.paper(HOLE_LIST)
    invoice = phone.bill(after)
    assert "not on the list at lug 3 + 20 mm, 7 mm dia, near side 60 mm down, agreed on" in invoice


# --- another job comes in ----------------------------------------------------------------------


@pytest.fixture
def two(shop, served_shop, open_page):
    """Two jobs at the desk that wait for nobody: all that they need comes today."""
    page = open_page(served_shop)

    def come(number, client):
        bench = JobPages(page, take_snare_in(shop, number=number, client=client)).go("date")
        for one in bench.form("What comes when").locator("[name=what]").all():
            one.check()
        return bench.write(bench.form("What comes when"), "Write it down", Comes_on="2030-05-14")

    return come


def test_a_second_job_moves_the_first(two, axe, look):
    nell = two("31-001", "Nell Ashby")
    nell.write(nell.form("Promise a day"), "Write the promise down")
    wednesday = re.compile(
        r"Wednesday 15 May 2030, told to Nell Ashby on 14 May 2030: (8|9)\d in 100 as"
    )
    expect(nell.sheet("promised")).to_contain_text(wednesday)
    expect(nell.sheet("promised")).to_contain_text("It holds")

    odo = two("31-002", "Odo Fenwright")
    odo.press(odo.page.get_by_role("link", name="Who would wait for it?"))
    expect(odo.worked_out().sheet("if-today")).to_contain_text(
        re.compile(
            f"{NELL} is ready a day later, by Thursday 16 May 2030; promised for Wednesday"
            r" 15 May 2030: \d+ in 100 by then instead of \d+ in 100\."
        )
    )
    axe(odo.page)
    look(odo.page, "date")

    # It is promised all the same, for the same day, and matters more: sixteen hours into two days.
    odo.write(odo.form("Promise a day"), "Write the promise down", Promise_the_day="2030-05-15")
    odo.unfold("How much it matters")
    odo.page.get_by_label("A day late counts").select_option("5")
    odo.write(odo.form("How much it matters"), "Write it down")
    late = f"{NELL}, promised for Wednesday 15 May 2030: "
    expect(odo.sheet("promised")).to_contain_text(late)
    nell.go("date")
    expect(nell.sheet("promised")).to_contain_text("It does not hold as the bench stands")
    expect(nell.sheet("promised")).to_contain_text("Ring in time.")
    expect(nell.sheet("date").locator(".face")).not_to_contain_text("15 May")
    nell.go_to("/waits")
    expect(nell.page.locator("main")).to_contain_text(f"{late}likely by Friday 17 May 2030")
    axe(nell.page)
    look(nell.page, "waits")
    nell.go_to("/workshop/weeks")
    expect(nell.page.locator("main")).to_contain_text(f"Late as the bench stands: {NELL}.")
    axe(nell.page)
    look(nell.page, "weeks")


def test_the_sheets_of_the_workshop_and_of_selling(two, axe, look):
    bench = two("31-001", "Nell Ashby")
    for name in ("hours", "terms", "money", "sold"):
        bench.go_to(f"/workshop/{name}")
        axe(bench.page)
        look(bench.page, name)
    bench.go_to("/today/log")
    axe(bench.page)
    look(bench.page, "log")
    bench.go_drum("listing")
    axe(bench.page)
    look(bench.page, "listing")
