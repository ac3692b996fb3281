"""The shell laid flat in a browser: tap, drag, keys, findings, both sizes, a lost connection.

Distances on the screen are turned to millimetres by the drawing's own matrix (SVG 2, 8.10,
getScreenCTM, from memory), which the script under test uses as well; that matrix is held against
the drawn datum and edges in `test_the_matrix_is_true`.
"""

from __future__ import annotations

import time
from dataclasses import replace

import pytest
from example_shells import LONG, scheme_of, small_tom
from shell_pages import lose_first
from shell_specimen import ROW, Bench, shell_app

PHONE = {
    "size": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True,
    "device_scale_factor": 2,
}  # fmt: skip
MATRIX = """() => {
  const m = document.querySelector('svg.shell-flat').getScreenCTM();
  return [m.a, m.e, m.f];
}"""


def bench_of_tom() -> Bench:
    """The invented tom, whose new holes know the long lugs that they are for."""
    layout = small_tom()
    lugs = [f for f in layout.fittings if f.fitting is LONG]

    def of(hole):
        near = (
            f.label
            for f in lugs
            if abs((f.place.along_deg - hole.place.along_deg + 180) % 360 - 180) < 0.1
        )
        return next(near, "") if hole.verdict.drills else ""

    holes = tuple(replace(hole, of=of(hole)) for hole in layout.holes)
    return Bench(scheme=scheme_of(replace(layout, holes=holes)))


@pytest.fixture
def bench():
    return bench_of_tom()


@pytest.fixture
def shown(bench, app_on, open_page):
    """Open a page of the specimen, which jumps where it would glide: a spot is then where it is."""

    def start(path="/scheme", *, units="mm", **settings):
        page = open_page(app_on(shell_app(bench, units=units)), reduced_motion="reduce", **settings)
        page.goto(path)
        return page

    return start


def spot(page, along_mm, down_mm):
    """Return where a place on the shell is on the screen, scrolled into view first."""
    page.evaluate(
        """([x, y]) => {
          const svg = document.querySelector('svg.shell-flat');
          const frame = svg.closest('.picture-frame');
          svg.scrollIntoView({block: 'center'});
          const m = svg.getScreenCTM(), box = frame.getBoundingClientRect();
          frame.scrollLeft += m.a * x + m.e - box.left - box.width / 2;
          frame.scrollTop += m.a * y + m.f - box.top - box.height / 2;
        }""",
        [along_mm, down_mm],
    )
    scale, left, top = page.evaluate(MATRIX)
    return left + scale * along_mm, top + scale * down_mm


def says(page):
    return page.locator("[data-shell-says]").inner_text()


def until(page, true, *, seconds=15):
    """Wait for an expression: the page's policy lets nothing be evaluated from within."""
    end = time.monotonic() + seconds
    while not page.evaluate(true):
        assert time.monotonic() < end, f"never came true: {true}"
        page.wait_for_timeout(30)


def revision(page, wanted):
    until(page, f"document.querySelector('[name=based_on]').value === '{wanted}'")


def lug_at(page):
    """Where the first base of the row is drawn, in mm along and down."""
    return page.evaluate(
        """() => {
          const box = document.querySelector('.lugs path').getBBox();
          return [box.x, box.y];
        }"""
    )


def test_the_matrix_is_true(shown):
    page = shown()
    scale, left, top = page.evaluate(MATRIX)
    hole = page.locator("[data-hole='21'] circle").first
    box = hole.bounding_box()
    x = 791.0 * 37.0 / 360.0 - 19.0
    assert left + scale * x == pytest.approx(box["x"] + box["width"] / 2, abs=1.0)
    assert top + scale * (89 + 23 - 12) == pytest.approx(box["y"] + box["height"] / 2, abs=1.0)


def test_wcag_and_both_sizes(shown, axe, look):
    page = shown()
    axe(page)
    look(page, "shell-scheme")
    page.get_by_role("button", name="Close").click()
    whole = page.locator(".picture-frame").evaluate("f => [f.scrollWidth, f.clientWidth]")
    assert whole[0] == pytest.approx(1904, abs=2)
    page.get_by_role("button", name="Whole drum").click()
    wide, room = page.locator(".picture-frame").evaluate("f => [f.scrollWidth, f.clientWidth]")
    assert wide <= room


def test_a_drum_as_found_on_a_phone(shown, axe, look):
    page = shown("/survey", **PHONE)
    axe(page)
    look(page, "shell-found")
    page.set_viewport_size({"width": 360, "height": 740})
    frame = page.locator(".picture-frame")
    wide, room = frame.evaluate("f => [f.scrollWidth, f.clientWidth]")
    assert wide > 2 * room, "close by default, so that letters can be read"
    letters = page.locator("svg .t.b").first.evaluate(
        "t => t.getScreenCTM().a * parseFloat(t.getAttribute('font-size'))"
    )
    assert letters >= 13


@pytest.mark.parametrize("settings", [{}, PHONE], ids=["mouse", "touch"])
def test_a_tap_writes_a_place_into_the_form(shown, settings):
    page = shown("/survey", **settings)
    at = spot(page, 420.0, 60.0)
    if settings:
        page.touchscreen.tap(*at)
    else:
        page.mouse.click(*at)
    along = page.input_value("[name=along]")
    near = page.input_value("[name=near]")
    assert abs(float(along.removesuffix(" mm")) - 420.0) <= 1.0
    assert abs(float(near.removesuffix(" mm")) - 57.0) <= 1.0, "less half of 6 mm"
    assert float(along.removesuffix(" mm")) * 2 % 1 == 0
    assert says(page).startswith("Written down: ")
    assert page.locator("svg .cross").count() == 1


def test_a_place_is_typed_in_inches_and_from_the_other_edge(shown):
    page = shown("/survey", units="in")
    page.select_option("[name=from_edge]", "resonant")
    page.fill("[name=dia]", "1/4 in")
    page.get_by_role("button", name="Place a hole by arrow keys").focus()
    page.keyboard.press("ArrowDown")
    first = says(page)
    page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    # 178 mm deep: the middle, 89 mm, is 112 thirty-seconds of an inch, and 9 more down is 3 25/32;
    # 178 less that, less an eighth, is 3 3/32 and a little.
    assert "3 1/2 in down" in first
    assert "3 25/32 in down" in says(page)
    assert page.input_value("[name=near]") == "3 3/32 in"
    assert page.input_value("[name=along]").endswith(" in")


def test_a_cross_moves_by_keys_across_the_datum_and_is_taken_away(shown):
    page = shown("/survey")
    page.mouse.click(*spot(page, 12.0, 150.0))
    page.get_by_role("button", name="Place a hole by arrow keys").focus()
    before = says(page)
    for _ in range(2):
        page.keyboard.press("Shift+ArrowLeft")
    page.keyboard.press("ArrowUp")
    assert says(page) != before
    along = float(says(page).split(" mm")[0])
    assert 780.0 < along < 791.0, "12 less 20 is 8 to the left of the datum"
    page.keyboard.press("Enter")
    assert float(page.input_value("[name=along]").removesuffix(" mm")) == along
    page.keyboard.press("Escape")
    assert page.locator("svg .cross").count() == 0


def test_a_hole_is_chosen_by_tap_and_by_keys(shown):
    page = shown()
    page.locator("[data-hole='21'] .hit").click()
    assert says(page).startswith("hole 21, 6.0 mm dia, keep")
    assert "picked" in page.locator("#t1-line-21").get_attribute("class")
    page.locator("[data-hole][tabindex='0']").focus()
    order = []
    for _ in range(4):
        order.append(
            page.evaluate("Number(document.activeElement.querySelector('.hit').getAttribute('cx'))")
        )
        page.keyboard.press("ArrowRight")
    assert order == sorted(order)
    page.keyboard.press("Enter")
    assert page.locator("svg .hole.picked").count() >= 1


def test_a_finding_shows_its_place_with_and_without_scripts(shown):
    page = shown(**PHONE)
    page.get_by_role("link", name="Show holes 3 and 4").click()
    ring = page.locator("#t1-place-1")
    assert ring.evaluate("n => getComputedStyle(n).opacity") == "1"
    assert ring.locator("circle").count() == 2
    assert says(page) == "Holes 3, 4 are ringed on the drawing."
    page.get_by_role("link", name="Show the seam").click()
    assert page.locator(".place.shown").count() == 1
    box = page.locator("#t1-place-2").bounding_box()
    assert 0 <= box["x"] <= 360
    plain = shown(java_script_enabled=False, **PHONE)
    plain.get_by_role("link", name="Show the seam").click()
    ring = plain.locator("#t1-place-2")
    assert ring.evaluate("n => getComputedStyle(n).opacity") == "1"
    box = ring.bounding_box()
    assert 0 <= box["x"] <= 360
    assert 0 <= box["y"] <= 740


def drag(page, from_, to, *, steps=6, drop=True):
    page.mouse.move(*from_)
    page.mouse.down()
    page.mouse.move(*to, steps=steps)
    if drop:
        page.mouse.up()


def test_a_row_is_dragged_with_the_mouse(shown, bench):
    page = shown()
    base = lug_at(page)
    x, y = spot(page, 791.0 * 74 / 360, 80.0)
    scale = page.evaluate(MATRIX)[0]
    drag(page, (x, y), (x + 20 * scale, y - 6 * scale), drop=False)
    assert page.locator("svg.shell-flat .ghost").count() <= 1
    page.mouse.up()
    until(page, "document.querySelector('#found').dataset.answers > 1")
    until(page, "!document.querySelector('svg.shell-flat .ghost')")
    until(page, "!!document.querySelector('svg .hole text')")
    assert bench.kept == pytest.approx((20.0, -6.0), abs=1.0)
    assert [v * 2 % 1 for v in bench.kept] == [0, 0], "no finer than a rule"
    moved = lug_at(page)
    assert moved[1] - base[1] == pytest.approx(bench.kept[1], abs=0.1)
    assert bench.moves[-1].settled
    assert not any(move.settled for move in bench.moves[:-1])
    assert page.input_value("[name=right_mm]") == f"{bench.kept[0]:g} mm"
    assert page.input_value("[name=based_on]") == str(bench.revision)
    assert "to the right" in says(page)


def test_a_row_is_dragged_by_a_finger(shown, bench):
    """Touches are sent as the debugging line of Chromium sends them: no mouse takes part."""
    page = shown(**PHONE)
    x, y = spot(page, 791.0 * 74 / 360, 80.0)
    scale = page.evaluate(MATRIX)[0]
    touch = page.context.new_cdp_session(page)

    def send(kind, *points):
        touch.send(
            "Input.dispatchTouchEvent",
            {"type": kind, "touchPoints": [{"x": px, "y": py} for px, py in points]},
        )

    send("touchStart", (x, y))
    for step in range(1, 9):
        send("touchMove", (x + step * scale * 2, y))
        page.wait_for_timeout(40)
    send("touchEnd")
    until(page, "!document.querySelector('svg.shell-flat .ghost')")
    until(page, "!!document.querySelector('svg .hole text')")
    assert bench.kept == pytest.approx((16.0, 0.0), abs=1.0)
    assert len(bench.moves) >= 2, "planned again while it was moved"


def test_one_question_at_a_time_and_the_last_place_wins(shown, bench):
    page = shown()
    waiting, most = [], [0]

    def slowly(route):
        waiting.append(route)
        most[0] = max(most[0], len(waiting))
        page.wait_for_timeout(60)
        waiting.remove(route)
        route.continue_()

    page.route("**/move", slowly)
    handle = page.get_by_role("button", name="Move the row of long lugs")
    handle.focus()
    for _ in range(8):
        page.keyboard.press("ArrowRight")
    revision(page, 2)
    page.unroute("**/move")
    assert bench.kept == (8.0, 0.0)
    assert most[0] == 1
    assert len(bench.moves) < 9, "places that were passed by are not asked for"
    assert page.evaluate("document.activeElement.hasAttribute('data-row-handle')")


def test_escape_takes_a_drag_and_nudges_back(shown, bench):
    page = shown()
    x, y = spot(page, 791.0 * 74 / 360, 80.0)
    drag(page, (x, y), (x + 50, y), drop=False)
    page.keyboard.press("Escape")
    page.mouse.up()
    until(page, "!document.querySelector('svg.shell-flat .ghost')")
    assert bench.kept == (0.0, 0.0)
    assert says(page).startswith("Taken back")
    page.get_by_role("button", name="Move the row of long lugs").focus()
    page.keyboard.press("Shift+ArrowDown")
    revision(page, 2)
    assert bench.kept == (0.0, 10.0)
    page.keyboard.press("Escape")
    revision(page, 3)
    assert bench.kept == (0.0, 0.0)


def test_a_lost_connection_is_said_and_made_good(shown, bench):
    page = shown()
    page.watch.allow("ERR_INTERNET_DISCONNECTED")
    page.context.set_offline(True)
    page.get_by_role("button", name="Right", exact=True).click()
    until(page, "document.querySelector('.shell-says').textContent.includes('lost')")
    page.get_by_role("button", name="Right", exact=True).click()
    assert page.locator("svg.shell-flat .ghost").count() == 1, "it is drawn where it was left"
    assert bench.moves == []
    page.context.set_offline(False)
    revision(page, 2)
    assert bench.kept == (2.0, 0.0)


def test_a_move_whose_answer_was_lost_goes_again_as_it_was_before_the_next(shown, bench):
    page = shown()
    lost = lose_first(page, "**/move", saying="settled=yes")
    page.get_by_role("button", name="Move the row of long lugs").focus()
    page.keyboard.press("ArrowRight")
    until(page, "document.querySelector('.shell-says').textContent.includes('lost')")
    assert bench.kept == (1.0, 0.0), "it was written, and nobody heard of it"
    page.keyboard.press("ArrowDown")
    revision(page, 3)
    assert lost == [200]
    assert bench.kept == (1.0, 1.0)
    assert [(one.right_mm, one.down_mm) for one in bench.moves if one.settled] == [(1, 0), (1, 1)]


def test_a_move_that_is_refused_is_said_in_the_servers_words(shown, bench):
    page = shown()
    page.watch.allow("422")
    bench.refuse = "this row stays as found"
    page.get_by_role("button", name="Down", exact=True).click()
    until(page, "document.querySelector('.shell-says').textContent.includes('stays as')")
    assert page.locator("svg.shell-flat .ghost").count() == 0
    assert page.input_value("[name=down_mm]") == "0 mm"


def test_without_scripts_the_form_moves_the_row(shown, bench):
    page = shown(java_script_enabled=False)
    assert page.get_by_role("button", name="Whole drum").count() == 0
    page.fill("[name=right_mm]", "1/2 in")
    page.fill("[name=down_mm]", "-2 mm")
    page.get_by_role("button", name="Move it there").click()
    assert bench.kept == (12.7, -2.0)
    assert bench.moves[0].row == ROW
    assert page.input_value("[name=right_mm]") == "12.5 mm", "no finer than a rule"
