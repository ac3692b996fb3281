"""Walk the tutorial from the first call to the invoice.

Each step of ``docs/tutorial/from-first-call-to-invoice.md`` is a function here, in its order:
first round the invented workshop, then with one drum of the reader's own.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from app_walk import NARROW, Step, Walk
from playwright.sync_api import expect

PATIENCE_MS = 240_000
NUMBER, CLIENT, DRUM = "26-041", "Wilf Harrow", "rack tom"


# --- round the invented workshop ----------------------------------------------------------------


def seven_jobs(w: Walk) -> None:
    """The first page: what waits, what is late, what is promised."""
    w.page.goto("/")
    invented = w.page.get_by_role("button", name="Put seven invented jobs on my bench")
    if invented.count():  # ``./run demo`` has put them there already
        invented.click()
    w.page.get_by_role("button", name="Put the invented jobs away").wait_for(timeout=PATIENCE_MS)
    w.page.get_by_role("heading", name="Late, or likely to be").wait_for(timeout=PATIENCE_MS)
    w.see()
    w.read("#waits")


def a_price(w: Walk) -> None:
    """One price, other ways beside it, what is for good."""
    w.page.locator(".job-name").get_by_role("link", name="26-033, Alder Wynn").click()
    w.press("Price and date", role="link", within="nav.index")
    w.page.locator("#ways").wait_for(timeout=PATIENCE_MS)
    for sheet in ("#price", "#ways", "#agreed", "#offers"):
        w.read(sheet)


def the_weeks(w: Walk) -> None:
    """All work on the bench as a picture."""
    w.press("My jobs", role="link", within="header")
    w.press("The weeks", role="link", within="#waits")
    expect(w.page.locator("main")).to_contain_text("Job by job", timeout=PATIENCE_MS)
    w.read("main")
    w.picture("weeks", "body", tall=1000)


def went_home(w: Walk) -> None:
    """The record of the job that was handed over."""
    w.press("My jobs", role="link", within="header")
    w.page.locator(".job-name").get_by_role("link", name="26-029, Hester Quayle").click()
    w.press("Handed over", role="link", within="nav.index")
    expect(w.page.locator("#record")).to_contain_text("Batter edge", timeout=PATIENCE_MS)
    w.read("#record")
    w.picture("record", "#goes-with-it", tall=1000)
    w.press("My jobs", role="link", within="header")
    w.press("Put the invented jobs away")
    w.page.get_by_role("button", name="Put seven invented jobs on my bench").wait_for()


# --- one drum of the reader's own ---------------------------------------------------------------


def the_first_call(w: Walk) -> None:
    """A folder with a number on it."""
    w.page.goto("/")
    w.press("Book a job in", role="link")
    w.read("#label")
    w.type("Job number", NUMBER)
    w.type("Client", CLIENT)
    w.press("Open the folder")
    w.page.get_by_role("link", name="Put a drum into the folder").wait_for()


def as_it_came(w: Walk) -> None:
    """What is asked for, what came, what it is worth."""
    w.type("What is asked for", "the clamp off, and its hole gone")
    w.type("What", "the tom with its head, hoop and rods")
    w.type("Declared value", "300 GBP")
    w.press("Write it down")
    expect(w.page.locator("main")).to_contain_text("Change what was booked in")


def eight_numbers(w: Walk) -> None:
    """The drum is drawn, told back, and put into the folder."""
    w.press("Put a drum into the folder", role="link")
    w.page.wait_for_url("**/drums/new")
    w.read("#eight-numbers")
    for label, words in (
        ("Circumference", "953 mm"), ("Depth", "201 mm"), ("Wall", "5.5 mm"),
        ("How many lugs", "6"), ("Datum to lug 1", "40 mm"), ("Hole 1", "38 mm"),
        ("Hole 2", "80 mm"), ("Diameter of the holes", "6 mm"),
    ):  # fmt: skip
        w.type(label, words, measured=label != "How many lugs")
    w.page.keyboard.press("Tab")
    expect(w.page.locator("#recognised")).to_contain_text("12 holes so far")
    w.read("#recognised")
    w.type("The lug", "Corvane round lug")
    w.press("one head", role="radio")
    expect(w.page.locator("#recognised")).to_contain_text("A tom with one head")
    w.type("What the drum is called", DRUM)
    w.press("Put it into the folder")
    w.page.wait_for_url("**/shell*")


def the_hole_and_the_wish(w: Walk) -> None:
    """The clamp's hole, made by somebody; back to how it left the factory."""
    form = "#hole-new-form"
    w.type("Along, its middle", "lug 2 + 40 mm", within=form, measured=True)
    w.type("Edge to its near side", "96 mm", within=form, measured=True)
    w.type("Diameter", "10 mm", within=form, measured=True)
    w.type("What it was for", "clamp", within=form)
    w.press("More", role="line", within=form)
    # Nobody presses as fast as a script: what was typed is kept before it is written down.
    with w.page.expect_response(lambda said: "origin=extra" in (said.request.post_data or "")):
        w.type("Made at the factory?", "extra", within=form)
    w.press("Write it down", within=form)
    expect(w.page.locator("#flat-picture [data-hole]")).to_have_count(13)
    expect(w.page.locator(f"{form} [name=along]")).to_have_value("")
    w.press("What is wanted", role="line", within="#wanted")
    w.type("What is wanted", "back to factory", within="#wish-new-form")
    w.press("Write it down", within="#wish-new-form")
    expect(w.page.locator("#wish-0 > summary")).to_contain_text("back to factory")


def the_schemes(w: Walk) -> None:
    """What that asks of the shell; take it."""
    w.press("Schemes: every way to get there", role="link")
    w.page.locator("#yes").wait_for(timeout=PATIENCE_MS)
    w.read("#what")
    w.press("Price and date", role="link", within="#what")
    w.page.locator("#price").wait_for()


def the_price(w: Walk) -> None:
    """One price and what it does not pass; where it comes from."""
    w.page.locator("#lines").wait_for(timeout=PATIENCE_MS)
    w.read("#price")
    w.read("#lines")
    w.picture("price", "#price", tall=1100)


def the_offer(w: Walk) -> None:
    """The price is handed out."""
    w.read("#offer")
    w.press("Hand it out", within="#offer")
    expect(w.page.locator("#offers")).to_contain_text("Print offer 1 as it was handed out")


def the_yes(w: Walk) -> None:
    """A yes to the price, and a yes to what is for good."""
    w.press("Write down a yes to offer 1", role="line", within="#offers")
    w.type("How", "by telephone", within="#offer-1")
    w.press("Write the yes down", within="#offer-1")
    expect(w.page.locator("#offers")).to_contain_text("Everything stands as it was agreed.")
    w.press("Write down the client's yes", role="line", within="#agreed")
    w.read("#agreed")
    w.type("Who said yes", CLIENT, within="#agreed")
    w.type("How", "signed on the sheet at the bench", within="#agreed")
    w.press("Write the yes down", within="#agreed")
    expect(w.page.locator("#agreed")).to_contain_text("It covers the code")


def the_day(w: Walk) -> None:
    """A day is told, and promised."""
    w.page.locator("#promise-form").wait_for(timeout=PATIENCE_MS)
    expect(w.page.locator("#date")).to_contain_text("Ready by", timeout=PATIENCE_MS)
    w.read("#date")
    w.press("Write the promise down")
    expect(w.page.locator("#promised")).to_contain_text("Take the promise back")


def today(w: Walk) -> None:
    """Work is picked up."""
    w.press("Today", role="link", within="header")
    w.page.locator("#next").get_by_role("button", name="Pick up").wait_for(timeout=PATIENCE_MS)
    w.read("#next")
    size = w.page.viewport_size
    w.page.set_viewport_size(NARROW)
    w.picture("today", "body", tall=NARROW["height"])
    w.page.set_viewport_size(size or NARROW)
    w.press("Pick up", within="#next")
    w.page.locator("#in-hand").wait_for()


def found_something(w: Walk) -> None:
    """A lug is cracked."""
    w.press("Found something?", role="link", within="#in-hand")
    w.press("A part that is cracked", role="link")
    w.type("Where", "lug 4", within="#one-more")
    w.type("How large", "through its foot", within="#one-more")
    w.type(
        "What it means", "that lug cannot go back on; one like it can be had", within="#one-more"
    )
    w.press("Write it down", within="#one-more")
    w.press("What it costs on top", role="line", within="#found-1")
    w.type("How much", "14", within="#found-1")
    w.type("For what", "one lug casting", within="#found-1")
    w.type("That is", "a part", within="#found-1")
    w.press("Write it down", within="#found-1")
    w.page.get_by_role("link", name="Print the change note").wait_for(timeout=PATIENCE_MS)
    w.read("#changes")
    w.type("The client says", "yes, go on so", within="#answers")
    w.type("Who said so", CLIENT, within="#answers")
    w.type("How", "by telephone", within="#answers")
    w.press("Write the answer down", within="#answers")
    expect(w.page.locator("#found")).to_contain_text("Everything that was found is answered.")


def done(w: Walk) -> None:
    """What was in hand is finished, how long it took put right; the hole is ticked."""
    w.press("Today", role="link", within="header")
    w.page.locator("#in-hand").wait_for()
    w.press("Finished", within="#in-hand")
    expect(w.page.locator("#done")).to_contain_text("Put right")
    w.read("#asked")
    w.press("Write how it was", role="link", within="#asked")
    w.type("Or how long it took", "40 min")
    w.press("Put it right", within="#right")
    expect(w.page.locator("#done")).to_contain_text("40 min")
    w.page.locator("#next").get_by_role("link", name="Rack tom").wait_for(timeout=PATIENCE_MS)
    w.press("Rack tom", role="link", within="#next")
    w.press("Hole 13 done")
    pressed = w.page.get_by_role("button", name="Hole 13 done")
    expect(pressed).to_have_attribute("aria-pressed", "true")


def the_record(w: Walk) -> None:
    """Found, done, kept; who fetched it."""
    w.press("Handed over", role="link", within="nav.index")
    w.type("What was done", "clamp off, its hole plugged and toned in, one lug casting new")
    w.type("Who took it", CLIENT)
    w.page.locator("main").get_by_label("The day", exact=True).fill(dt.date.today().isoformat())
    w.pace.type("2026-11-28", measured=False)
    w.press("Write it down", within="#handed-over")
    expect(w.page.locator("#handover-says")).to_contain_text("Who took it")
    w.read("#record")


def the_invoice(w: Walk) -> None:
    """The invoice, and what was paid."""
    w.press("Invoice, receipts, what is due", role="link")
    w.read("#next")
    w.press("Give the invoice out")
    expect(w.page.locator("#given")).to_contain_text("Invoice")
    w.type("How it was paid", "cash", within="#money")
    w.press("Write the receipt", within="#money")
    expect(w.page.locator("#given")).to_contain_text("Receipt")


ROUND: tuple[Callable[[Walk], None], ...] = (seven_jobs, a_price, the_weeks, went_home)
OWN: tuple[Callable[[Walk], None], ...] = (
    the_first_call, as_it_came, eight_numbers, the_hole_and_the_wish, the_schemes,
    the_price, the_offer, the_yes, the_day, today, found_something, done, the_record, the_invoice,
)  # fmt: skip


def walk_steps(walk: Walk, steps: tuple[Callable[[Walk], None], ...]) -> list[Step]:
    """Walk some of the steps, and return what was noted."""
    for step in steps:
        walk.steps.append(Step(name=step.__name__))
        walk.see()
        step(walk)
        walk.see()
        walk.steps[-1].until_s = walk.pace.spent_s
    return walk.steps[-len(steps) :]
