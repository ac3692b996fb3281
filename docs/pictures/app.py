"""Walk the browser tutorials on the real program, and take their pictures.

``.venv/bin/python docs/pictures/app.py`` writes ``app-*.png`` beside this script and prints how
long a person takes. Chromium must be there (``apt-get install chromium``). Each step of
``docs/tutorial/first-drum-in-the-browser.md`` is a function here that does, through the pages, what
that page tells a person to do; those of the other tutorial stand in ``app_invoice.py``. A test
walks the same steps without taking pictures and looks in each for what the tutorial says stands
there.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from pathlib import Path

from app_invoice import OWN as OWN
from app_invoice import ROUND as ROUND
from app_invoice import walk_steps as walk_steps
from app_served import chromium_path as chromium_path
from app_served import keep, laptop, served
from app_walk import NARROW, TALL, WIDE, Step, Took, Walk
from playwright.sync_api import Locator, Page, expect

HERE = Path(__file__).parent

PATIENCE_MS = 120_000


# --- the steps, in the order of the tutorial ----------------------------------------------------


def come_in(w: Walk, link: str) -> None:
    """The printed link lets the browser in."""
    w.page.goto(link)
    w.press("Let this browser in")
    w.read("#begin")
    w.picture("begin", "body", tall=620)


def eight_numbers(w: Walk) -> None:
    """What tape, rule and drill shank say."""
    w.press("Draw my own drum", role="link")
    w.page.wait_for_url("**/drums/new")
    w.read("#eight-numbers")
    w.type("Circumference", "1028 mm", measured=True)
    w.type("Depth", "229 mm", measured=True)
    w.type("Wall", "6 mm", measured=True)
    w.type("How many lugs", "6")
    w.type("Datum to lug 1", "50 mm", measured=True)
    w.type("Hole 1", "38 mm", measured=True)
    w.type("Hole 2", "68 mm", measured=True)
    w.type("Diameter of the holes", "5.5 mm", measured=True)
    w.page.keyboard.press("Tab")
    expect(w.page.locator("#flat-picture [data-hole]")).to_have_count(12)
    w.picture("eight-numbers", "body", tall=1000)


def recognised(w: Walk) -> None:
    """The drum is drawn and told back."""
    expect(w.page.locator("#recognised")).to_contain_text("12 holes so far")
    w.read("#recognised")
    w.picture("recognised", "#recognised", tall=780, above=560)


def into_the_folder(w: Walk) -> None:
    """What it is called, and whose it is."""
    w.read("#eight-known")
    w.type("The lug", "Quennick square lug")
    w.press("one head", role="radio")
    expect(w.page.locator("#recognised")).to_contain_text("A tom with one head")
    w.type("What the drum is called", "concert tom")
    w.type("Job number", "31")
    w.type("Client", "Ida Marlow")
    w.picture("folder", "#recognised", tall=1100, above=500)
    w.press("Put it into the folder")
    w.page.wait_for_url("**/shell*")


def write_a_hole(w: Walk, hole: int, along: str, near: str, dia: str, was: str) -> None:
    """Fill in the empty form of a hole and write it down."""
    form = "#hole-new-form"
    w.type("Along, its middle", along, within=form, measured=True)
    w.type("Edge to its near side", near, within=form, measured=True)
    w.type("Diameter", dia, within=form, measured=True)
    w.type("What it was for", was, within=form)
    w.press("Write it down", within=form)
    expect(w.page.locator("#flat-picture [data-hole]")).to_have_count(hole)
    expect(w.page.locator(f"{form} [name=along]")).to_have_value("")


def odd_hole(w: Walk) -> None:
    """The damper that is gone."""
    w.read("#hole-new-form")
    write_a_hole(w, 13, "lug 3 + 11 mm", "66 mm", "8 mm", "damper")
    w.picture("odd-hole", "#hole-0", tall=TALL)


def the_vent(w: Walk) -> None:
    """The vent."""
    write_a_hole(w, 14, "136 mm", "108 mm", "12.5 mm", "vent")


def what_does_not_add_up(w: Walk) -> None:
    """Two holes stand too near; the hoop was not named."""
    w.page.evaluate("window.scrollTo(0, 0)")
    w.read("#adds-up")
    w.picture("adds-up", "#adds-up", tall=TALL)
    w.pace.spent_s += 2 * w.pace.measure_s
    w.press("Hoops", role="line")
    w.type("Batter hoop", "flanged hoop 13 in, 6 ears", within="#hoops")
    w.press("Write it down", within="#hoops")
    expect(w.page.locator("#adds-up-body")).not_to_contain_text("which hoop")


def as_found(w: Walk) -> None:
    """The open end has no edge; then the survey is done."""
    w.press("Resonant edge", role="line")
    w.type("Is there an edge at all?", "no", within="#edge-resonant")
    w.type("More of it", "sawn square", within="#edge-resonant")
    w.press("Write it down", within="#edge-resonant")
    expect(w.page.locator("#edge-resonant > summary")).to_contain_text("sawn square")
    w.read("#as-found")
    w.picture("as-found", "#as-found", tall=TALL, above=160)
    w.press("The survey is done: this is how it was found")
    expect(w.page.locator("#as-found")).to_contain_text("Whatever is changed now is a correction")


def what_is_wanted(w: Walk) -> None:
    """A second head."""
    w.press("What is wanted", role="line", within="#wanted")
    w.type("What is wanted", "second head", within="#wish-new-form")
    w.press("Write it down", within="#wish-new-form")
    expect(w.page.locator("#wish-0 > summary")).to_contain_text("second head")
    w.picture("wanted", "#wanted", tall=760)
    w.press("Schemes: every way to get there", role="link")


def schemes(w: Walk) -> None:
    """Every way to get there."""
    w.see()
    w.page.locator("#yes").wait_for(timeout=PATIENCE_MS)
    w.read("#what")
    w.read(".scheme-figures")
    w.picture("two-schemes", ".scheme-taken", tall=1240)


def move_a_row(w: Walk) -> None:
    """A row is moved by hand and put back."""
    w.press("Move the resonant row by hand", role="line")
    for up in (1, 2):
        w.press("Up", within=".shell-mover")
        expect(w.page.locator("[data-shell-says]").first).to_contain_text(f"{up} mm up")
        expect(w.page.locator("#what-says")).to_contain_text(f"by hand {up} mm")
    w.read(".scheme-short")
    w.picture("moved", ".scheme-taken", tall=760)
    w.press("Put it back where it was worked out")
    w.page.locator("#yes").wait_for(timeout=PATIENCE_MS)


def take_one(w: Walk) -> None:
    """The client likes the other better."""
    w.press("Take this one")
    expect(w.page.locator("#what-says")).to_contain_text("half a lug spacing")
    w.page.locator("#yes").wait_for(timeout=PATIENCE_MS)
    w.picture("taken", "body", tall=620)


def the_yes(w: Walk) -> None:
    """Who said yes, when and how."""
    w.type("Who said yes", "Ida Marlow", within="#yes")
    w.type("How", "signed on the sheet at the bench", within="#yes")
    w.picture("yes", "#yes", tall=960)
    w.press("Write the yes down")
    expect(w.page.locator("#yes")).to_contain_text("Yes, given by Ida Marlow")
    w.see()


def the_printer(w: Walk) -> None:
    """Two bars of the check sheet."""
    w.press("The workshop", role="link", within="header")
    w.press("Printer", role="link", within="main")
    w.read("main")
    w.type("Bar along the short side", "179.5 mm", measured=True)
    w.type("Bar along the long side", "249.5 mm", measured=True)
    w.press("Write it down")
    expect(w.page.locator("main")).to_contain_text("Your printer draws too short")
    w.picture("printer", "body", tall=TALL)


def the_template(w: Walk) -> None:
    """The papers, and the template looked at."""
    w.press("My jobs", role="link", within="header")
    w.press("31, Ida Marlow", role="link")
    w.press("concert tom: On the bench", role="link")
    w.page.locator("#papers").wait_for(timeout=PATIENCE_MS)
    w.picture("papers", "#papers", tall=TALL)
    paper(w, "Template A4").get_by_role("link", name="Look at all pages").click()
    w.pace.press()
    w.page.get_by_role("link", name="Download it").wait_for(timeout=PATIENCE_MS)
    w.see()


def paper(w: Walk, name: str) -> Locator:
    """Return where a paper lies on its shelf."""
    heading = w.page.locator("#papers").get_by_role("heading", name=name, exact=True)
    return heading.locator("xpath=ancestor::li[1]")


def round_the_shell(w: Walk) -> None:
    """The first sheet of the template."""
    sheet = w.page.locator("main img").nth(1)
    sheet.scroll_into_view_if_needed()
    expect(sheet).to_have_js_property("complete", value=True, timeout=PATIENCE_MS)
    w.page.wait_for_function(
        "() => document.querySelectorAll('main img')[1].naturalWidth > 100", timeout=PATIENCE_MS
    )
    w.picture("template", sheet, tall=TALL)
    w.press("Back to the papers", role="link")


def tick_the_holes(w: Walk) -> None:
    """Two holes are done."""
    for hole in (13, 15):
        w.press(f"Hole {hole} done")
        done = w.page.get_by_role("button", name=f"Hole {hole} done")
        expect(done).to_have_attribute("aria-pressed", "true")
    w.picture("ticked", "#flat-line-13", tall=TALL, above=170)


def hand_over(w: Walk) -> None:
    """The drum goes home."""
    w.press("Handed over", role="link", within="nav.index")
    w.type("What was done", "second row of lugs, edge cut, old damper hole plugged")
    w.type("Who took it", "Ida Marlow")
    w.type("The day", "2026-12-04")
    w.press("Write it down")
    expect(w.page.locator("#handover-says")).to_contain_text("4 December 2026")
    w.picture("handed-over", "body", tall=TALL)


STEPS: tuple[Callable[[Walk], None], ...] = (
    eight_numbers, recognised, into_the_folder, odd_hole, the_vent, what_does_not_add_up,
    as_found, what_is_wanted,
    schemes, move_a_row, take_one, the_yes, the_printer, the_template, round_the_shell,
    tick_the_holes, hand_over,
)  # fmt: skip


def walk_all(page: Page, link: str, *, took: Took | None = None) -> Walk:
    """Walk the whole tutorial, from the printed link to the hand-over."""
    walk = Walk(page=page, took=took)
    for step in (come_in, *STEPS):
        walk.steps.append(Step(name=step.__name__))
        walk.see()
        if step is come_in:
            come_in(walk, link)
        else:
            step(walk)
        walk.see()
        walk.steps[-1].until_s = walk.pace.spent_s
    return walk


# --- the pictures outside the tutorial ----------------------------------------------------------


def worked_job(page: Page, took: Took) -> None:
    """Take the README's picture: the schemes of a drum of the worked job."""
    walk = Walk(page=page, took=took, steps=[Step(name="worked job")])
    page.goto("/")
    walk.press("Put seven invented jobs on my bench")
    page.locator(".job-name").get_by_role("link", name=re.compile("Lantern Lane")).click()
    walk.press("small tom: Schemes", role="link")
    page.locator("#yes").wait_for(timeout=PATIENCE_MS)
    walk.picture("schemes", ".scheme-taken", tall=1000)


def on_a_phone(page: Page, sheet: str, took: Took) -> None:
    """Take the shell sheet as a phone at the drum shows it."""
    page.set_viewport_size(NARROW)
    page.goto(sheet)
    walk = Walk(page=page, took=took, steps=[Step(name="phone")])
    walk.picture("phone", "#flat-laid", tall=NARROW["height"])
    page.set_viewport_size({"width": WIDE, "height": TALL})


def main() -> None:
    """Walk, take the pictures, and say when a person would be how far."""
    with tempfile.TemporaryDirectory() as data, served(Path(data)) as link, laptop(link) as page:
        walk = walk_all(page, link, took=keep)
        page.goto("/")
        page.get_by_role("link", name="31, Ida Marlow").click()
        page.get_by_role("link", name="concert tom: Shell").click()
        on_a_phone(page, page.url, keep)
        later = Walk(page=page, took=keep)
        walk_steps(later, OWN)
        worked_job(page, keep)
        walk_steps(later, ROUND)
    for step in [*walk.steps, *later.steps]:
        print(f"{step.until_s // 60:3.0f}:{step.until_s % 60:02.0f}  {step.name}")


if __name__ == "__main__":
    main()
