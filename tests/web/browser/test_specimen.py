"""Every piece of a page, on one page: by WCAG as axe-core reads it, by eye, by keyboard, on paper.

Contrast is reckoned here as well, by the formula of WCAG 2.2, from the style sheet alone.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated

import pytest
from fastapi import APIRouter, Form
from jinja2 import ChoiceLoader, FileSystemLoader
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse

from counterhoop.errors import BadInput, Finding, Grade
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.jinja import templates
from counterhoop.web.look.static_files import FOLDER
from counterhoop.web.render import known_everywhere

SPECIMEN = Path(__file__).parents[1] / "specimen"
FOUND = [
    Finding(
        code="web-thin",
        grade=Grade.STOP,
        says="Holes 7 and 8 would leave 1.5 mm of wood between them, 3 mm are wanted.",
        where="holes 7 and 8",
        measured=1.5,
        limit=3.0,
        rule="least web",
        remedy="Plug hole 7 first.",
        holes=(7, 8),
        too_close=True,
    ),
    Finding(code="a", grade=Grade.TAKE_CARE, says="The seam lies under lug 3.", holes=(3,)),
    Finding(code="b", grade=Grade.NOTE, says="A stamp inside is kept."),
]


@pytest.fixture
def specimen(app_on):
    pages = APIRouter(route_class=PageRoute)
    ours = templates()
    own = ours.overlay(loader=ChoiceLoader([FileSystemLoader(SPECIMEN), ours.loader]))

    @pages.get("/specimen")
    def look(request: Request):
        data = {"found": FOUND, "place_of": lambda f: "hole-7" if 7 in f.holes else ""}
        text = own.get_template("specimen.html").render(known_everywhere(request) | data)
        return HTMLResponse(text)

    @pages.post("/specimen")
    def press(pen: GivenPen):
        return RedirectResponse("/specimen", status_code=303)

    @pages.post("/specimen/depth")
    def depth(pen: GivenPen, depth: Annotated[str, Form()]):
        if not depth.endswith("mm"):
            raise BadInput("no unit", where="depth", given=depth, wanted='such as "203 mm"')
        return HTMLResponse(own.from_string("{{ p.saved('14:03', 'window bench') }}").render())

    app = make_app(None)
    app.include_router(pages)
    return app_on(app)


def test_all_pieces_keep_to_wcag_and_fit(specimen, open_page, axe, look):
    page = open_page(specimen)
    page.goto("/specimen")
    axe(page)
    look(page, "specimen")


def test_the_pieces_fit_a_phone_that_is_touched(specimen, open_page, axe, fits):
    page = open_page(specimen, size={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    page.goto("/specimen")
    axe(page)
    fits(page)


def test_letters_twice_as_large_still_fit(specimen, open_page):
    """WCAG 1.4.4: a page 720 px wide at 200 % has the room and the letters of 360 px and 36 px."""
    page = open_page(specimen, size={"width": 720, "height": 900})
    page.goto("/specimen")
    page.evaluate("document.documentElement.style.fontSize = '225%'")
    assert page.evaluate("document.documentElement.scrollWidth") <= 720


def test_the_first_tab_skips_to_the_sheets(specimen, open_page):
    page = open_page(specimen)
    page.goto("/specimen")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the sheets"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "sheets"


def test_everything_that_can_be_pressed_is_reached_by_the_keyboard(specimen, open_page):
    page = open_page(specimen)
    page.goto("/specimen")
    wanted = page.evaluate("""() => {
        const all = [...document.querySelectorAll(
          'a[href], button, summary, select, textarea, input:not([type=hidden])')];
        all.forEach((one, place) => one.dataset.place = place);
        return all.length;
    }""")
    reached = set()
    for _ in range(wanted + 20):
        page.keyboard.press("Tab")
        place, ring = page.evaluate("""() => {
            const one = document.activeElement;
            return [one.dataset.place ?? '', one === document.body ? 'solid' :
                getComputedStyle(one).outlineStyle];
        }""")
        assert ring == "solid", f"no ring around number {place}"
        reached.add(place)
    assert {str(place) for place in range(wanted)} <= reached


def test_on_paper_nothing_is_left_that_would_be_pressed(specimen, open_page, pictures):
    page = open_page(specimen)
    page.goto("/specimen")
    page.emulate_media(media="print")
    assert page.locator("button:visible, nav:visible, input:visible").count() == 0
    assert page.locator("h2:visible").count() >= 4
    (pictures / "specimen.pdf").write_bytes(page.pdf(format="A4", print_background=True))


def test_the_switch_at_the_foot_turns_night_on_and_inches_first(specimen, open_page):
    page = open_page(specimen)
    page.goto("/specimen")
    day = page.evaluate("getComputedStyle(document.querySelector('main')).backgroundColor")
    for name in ("night", "inches"):
        with page.expect_navigation():
            page.get_by_role("button", name=name).click()
    assert page.url.endswith("/specimen")
    assert page.evaluate("getComputedStyle(document.querySelector('main')).backgroundColor") != day
    assert "8 in (203 mm)" in page.locator(".facts").inner_text()
    assert page.get_by_role("button", name="night").get_attribute("aria-pressed") == "true"


def test_without_scripts_the_page_reads_and_its_forms_send(specimen, open_page):
    page = open_page(specimen, java_script_enabled=False)
    page.goto("/specimen")
    with page.expect_navigation():
        page.get_by_role("button", name="Write it down").click()
    assert page.get_by_role("heading", level=1).inner_text() == "12 Hallmere"


def test_a_live_field_is_told_at_once_and_said_aloud(specimen, open_page):
    page = open_page(specimen)
    page.watch.allow("422")
    page.goto("/specimen")
    field = page.get_by_label("Depth", exact=True)
    said = page.locator("#depth-said")
    field.fill("203")
    field.blur()
    assert "Depth: no unit." in said.get_by_role("alert").inner_text()
    field.fill("203 mm")
    field.blur()
    assert said.get_by_role("status").inner_text() == "Saved 14:03 by window bench."
    assert said.get_by_role("alert").count() == 0
    assert page.evaluate("htmx.config.includeIndicatorCSS") is False


# --- the rig itself can fail -------------------------------------------------------------------


def test_a_page_that_breaks_every_rule_is_found(app_on, open_page, axe, fits):
    pages = APIRouter(route_class=PageRoute)
    planted = (
        "<!doctype html><title>x</title><div class='far'></div><button>x</button><img src='x.png'>"
        "<script>1</script><img alt='' src='http://elsewhere.example/x.png'>"
        "<table width='3000'><tr><td>x</table>"
    )
    pages.get("/planted")(lambda: HTMLResponse(planted))
    app = make_app(None)
    app.include_router(pages)
    page = open_page(app_on(app))
    page.goto("/planted")
    with pytest.raises(AssertionError, match="html-has-lang"):
        axe(page)
    with pytest.raises(AssertionError):
        fits(page)
    said = "\n".join(page.watch.complaints())
    assert "asked elsewhere: http://elsewhere.example/x.png" in said
    assert "Content Security Policy" in said
    page.watch.allow("")


# --- colours, by reckoning ---------------------------------------------------------------------


def colours(block):
    return dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6});", block))


def lights():
    """Return the colours of day, and of night as each of its two blocks has them."""
    text = (FOLDER / "paper.css").read_text("utf-8")
    day = colours(re.search(r":root \{(.*?)\}", text, re.S)[1])
    machine = colours(re.search(r':root\[data-light="machine"\] \{(.*?)\}', text, re.S)[1])
    night = colours(re.search(r':root\[data-light="night"\] \{(.*?)\}', text, re.S)[1])
    return day, machine, night


def luminance(colour):
    """WCAG 2.2, definition of relative luminance (from memory)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_published():
    """Black on white is 21; #767676 is the lightest grey that passes on white (WCAG, 4.54)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("light", [0, 1, 2])
@pytest.mark.parametrize("ground", ["paper", "folder", "wash"])
def test_every_colour_reads_on_every_ground(light, ground):
    of = lights()[light]
    for name in ("ink", "quiet", "blue", "brick"):
        assert contrast(of[name], of[ground]) >= 4.5, (name, ground)
    assert contrast(of["moss"], of[ground]) >= 3.0
    assert contrast(of["faint"], of["paper"]) >= 3.0


def test_both_nights_are_the_same_night():
    _, machine, night = lights()
    assert machine == night
    assert len(night) >= 9
