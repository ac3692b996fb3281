"""Forms typed into a real browser: by keyboard, on a phone, without scripts; nothing typed is lost.

Truth: WCAG 2.2 as axe-core reads it; what a person sees and types, step by step.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

import pytest
from fastapi import APIRouter
from jinja2 import ChoiceLoader, FileSystemLoader
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse

from counterhoop.fittings.read_book import packaged_book
from counterhoop.web.app import make_app
from counterhoop.web.forms import MOST_FIELDS, faults_in, make_form, offers_of, read_form
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.jinja import templates
from counterhoop.web.look.mine import mine_of
from counterhoop.web.render import known_everywhere

SPECIMEN = Path(__file__).parents[1] / "specimen"
ROW = {
    "head": "batter",
    "lugs": 6,
    "fitting": "Corvane round lug",
    "first": "30 deg",
    "near": ["37.5 mm", "79.5"],
    "hole": ["6 mm", "7 mm"],
    "pinned": "gates over the beds",
    "exceptions": [{"lug": 5, "right": "1.5 mm", "says": "drilled off its line when new"}],
}


@dataclass
class Shown:
    """The server with the form of any thing at /form/THING, and what was written into it."""

    served: object = None
    items: dict = field(default_factory=dict)
    saves: bool = False


@pytest.fixture
def shown(app_on):
    here = Shown()
    pages = APIRouter(route_class=PageRoute)
    ours = templates()
    own = ours.overlay(loader=ChoiceLoader([FileSystemLoader(SPECIMEN), ours.loader]))
    offers = offers_of(packaged_book())

    @pages.get("/form/{thing}")
    def look(request: Request, thing: str):
        item = here.items.get(thing, {})
        faults = faults_in(thing, item) if item else ()
        units = mine_of(request).units
        form = make_form(thing, item, units=units, faults=faults, offers=offers)
        data = {"form": form, "saves": here.saves, "note": ""}
        html = own.get_template("form.html").render(known_everywhere(request) | data)
        return HTMLResponse(html)

    @pages.post("/form/{thing}")
    async def write(pen: GivenPen, request: Request, thing: str):
        here.items[thing] = read_form(thing, await request.form(max_fields=MOST_FIELDS))
        return RedirectResponse(f"/form/{thing}", status_code=303)

    @pages.post("/saved/{thing}")
    async def save(pen: GivenPen, request: Request, thing: str):
        here.items[thing] = read_form(thing, await request.form(max_fields=MOST_FIELDS))
        return HTMLResponse("Saved.")

    app = make_app(None)
    app.include_router(pages)
    here.served = app_on(app)
    return here


@pytest.mark.parametrize(
    ("thing", "item"),
    [
        ("eight numbers", {}),
        ("row", ROW),
        ("shell", {"wall": "5", "depth": {"30 deg": "203 mm"}, "wal": "6 mm"}),
        ("mark", {"kind": "shadow", "outline": {"shape": "polygon", "points": [["1", "2 mm"]]}}),
        ("job", {"number": "26-014", "story": "Two toms\nfrom a loft."}),
        ("stock", {"Corvane round lug": "nine"}),
        ("wish", {"want": "take out", "fittings": ["bracket"]}),
        ("book entry", {"kind": "long lug", "name": "mine"}),
    ],
)
def test_forms_keep_to_wcag_and_fit(shown, open_page, axe, look, thing, item):
    shown.items[thing] = item
    page = open_page(shown.served)
    page.goto(f"/form/{thing}")
    for summary in page.locator("summary").all():
        if summary.is_visible() and not summary.evaluate("s => s.parentElement.open"):
            summary.click()
    axe(page)
    look(page, f"form-{thing.replace(' ', '-')}")


def test_a_drum_is_typed_by_keyboard_alone(shown, open_page):
    page = open_page(shown.served)
    page.goto("/form/eight numbers")
    page.get_by_label("Circumference").focus()
    numbers = ("43 3/4 in", "5 1/2 in", "7/32 in", "8", "22.5 deg", "1 1/2 in", "3 1/8 in", "6 mm")
    for typed in numbers:
        page.keyboard.type(typed)
        page.keyboard.press("Tab")
    # What else is known of it lies beneath the eight numbers.
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    for typed in ("Corvane round lug", "2", "b", "s", "14 in dia x 5 1/2 in deep"):
        page.keyboard.type(typed)
        page.keyboard.press("Tab")
    with page.expect_navigation():
        page.keyboard.press("Enter")
    assert shown.items["eight numbers"] == {
        "kind": "snare",
        "heads": 2,
        "size": "14 in dia x 5 1/2 in deep",
        "circumference": "43 3/4 in",
        "wall": "7/32 in",
        "depth": "5 1/2 in",
        "rows": [
            {
                "head": "batter",
                "lugs": 8,
                "fitting": "Corvane round lug",
                "first": "22.5 deg",
                "near": ["1 1/2 in", "3 1/8 in"],
                "hole": "6 mm",
            }
        ],
    }
    assert page.get_by_role("alert").count() == 0


def test_it_works_without_scripts_and_what_is_wrong_is_said_at_its_field(shown, open_page):
    page = open_page(shown.served, java_script_enabled=False)
    page.goto("/form/ring")
    page.get_by_label("How far down it goes").fill("25")
    page.get_by_role("button", name="Write it down").click()
    wide = page.get_by_label("How far down it goes")
    assert wide.input_value() == "25"
    assert wide.get_attribute("aria-invalid") == "true"
    said = page.locator(f"#{wide.get_attribute('aria-describedby').split()[-1]}")
    assert said.inner_text() == "25 what: mm or in?"


def test_one_more_line_comes_with_each_writing(shown, open_page):
    page = open_page(shown.served, java_script_enabled=False)
    page.goto("/form/fitting")
    for number in range(3):
        page.locator(f"[name='holes.{number}.dia']").fill(f"{number + 5} mm")
        page.get_by_role("button", name="Write it down").click()
    assert [hole["dia"] for hole in shown.items["fitting"]["holes"]] == ["5 mm", "6 mm", "7 mm"]


def test_what_is_typed_is_saved_without_pressing_anything(shown, open_page):
    shown.saves = True
    page = open_page(shown.served)
    page.goto("/form/row")
    page.get_by_label("Which head").select_option("resonant")
    page.get_by_label("How many lugs").fill("10")
    page.keyboard.press("Tab")
    page.locator("#note", has_text="Saved.").wait_for()
    page.wait_for_function("document.querySelector('#note').textContent === 'Saved.'")
    assert shown.items["row"] == {"head": "resonant", "lugs": 10}
    # The one who types is not disturbed by it.
    assert page.evaluate("document.activeElement.name") == "fitting"


def test_opening_what_is_rare_shows_it(shown, open_page):
    page = open_page(shown.served)
    page.goto("/form/hole")
    assert not page.get_by_label("Its number").is_visible()
    page.get_by_text("More", exact=True).click()
    assert page.get_by_label("Its number").is_visible()


def test_inches_are_asked_for_in_inches(shown, open_page):
    page = open_page(shown.served)
    page.goto("/form/ring")
    assert page.get_by_text("such as 5 mm").count() == 1
    page.get_by_role("button", name="inches", exact=True).click()
    page.wait_for_function("document.documentElement.dataset.units === 'in'")
    page.goto("/form/ring")
    assert page.get_by_text("such as 3/16 in").count() == 1


def test_a_label_that_names_nothing_would_be_seen(shown, open_page, axe):
    page = open_page(shown.served)
    page.goto("/form/ring")
    page.evaluate("document.querySelector('.thing label').remove()")
    with pytest.raises(AssertionError, match="label"):
        axe(page)
