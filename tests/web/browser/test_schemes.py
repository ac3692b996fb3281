"""Schemes compared, taken, moved, signed for in a browser; long work stopped and begun again."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from playwright.sync_api import expect
from slow_works import SlowWorks

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.plans import plan_for
from planned_once import PLANNED

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)


@pytest.fixture
def bench(shop, app_on):
    """The pages of a workshop of this test's own."""
    return app_on(make_app(shop))


@pytest.fixture
def demo(shop):
    """The demonstration, planned: the first plan of all loads the planner, which takes its time."""
    job = take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")
    assert plan_for(shop, kept_job(shop, job)).plan is not None
    return job


def drum(shop, job, name):
    return next(one for one in kept_job(shop, job).drums if one.name == name)


def address(shop, job, name):
    return f"/jobs/{job}/drums/{drum(shop, job, name).id}/schemes"


@pytest.mark.parametrize("name", ["small tom", "marching snare"])
def test_how_it_looks(shop, bench, demo, open_page, look, axe, name):
    page = open_page(bench)
    page.goto(address(shop, demo, name))
    axe(page)
    look(page, f"schemes-{name.replace(' ', '-')}")
    page.goto(address(shop, demo, name) + "/sign")
    axe(page)
    look(page, f"sign-{name.replace(' ', '-')}")


# --- a row is moved -----------------------------------------------------------------------------

STOPPED = re.compile(r"1 stop; .*bracket")
CLEAR = re.compile("Nothing stops it")


class SchemeSheet:
    """The schemes of a drum in a browser."""

    def __init__(self, page, address):
        self.page = page
        page.goto(address)
        self.short = page.locator("#taken-short")
        self.findings = page.locator("#taken-findings")
        self.stops = page.locator("#taken-findings .finding.stop")

    def lug(self, number):
        """Where a lug of the row is on the screen, and how many pixels a millimetre has there."""
        part = self.page.locator(f"#taken-picture .lugs.movable path >> nth={number - 1}")
        part.scroll_into_view_if_needed()
        box = part.bounding_box()
        scale = self.page.evaluate("document.querySelector('#taken-picture svg').getScreenCTM().a")
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, scale

    def row_button(self):
        self.page.get_by_text("Move the resonant row by hand").click()
        button = self.page.get_by_role("button", name="Move the resonant row")
        button.focus()
        return button

    def settled(self, revision):
        """Wait until the server has written so many versions of the choice."""
        place = self.page.locator("[name=based_on][id^=taken-based-on]")
        expect(place).to_have_value(str(revision))


def choice(shop, job, name="small tom"):
    return drum(shop, job, name).kept("choice")


def test_a_drag_makes_a_finding_and_clears_it(shop, bench, demo, open_page):
    """The row stands 9.4 mm clear of what is wanted between lug and bracket: 12 mm up is too far.

    Hand-worked from the margin that the scheme says of itself.
    """
    sheet = SchemeSheet(open_page(bench), address(shop, demo, "small tom"))
    page = sheet.page
    expect(sheet.short).to_have_text(CLEAR)
    expect(page.locator("#taken-margin-is")).to_contain_text("9.5 mm")
    x, y, scale = sheet.lug(2)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - 12 * scale, steps=5)
    # Not let go: worked out, said and priced, and nothing written.
    expect(sheet.short).to_have_text(STOPPED)
    expect(sheet.stops).to_have_count(1)
    expect(page.locator("#taken-margin-is")).to_contain_text("Passed by")
    assert choice(shop, demo).number == 0
    page.mouse.move(x + 4 * scale, y - 4 * scale, steps=5)
    expect(sheet.short).to_have_text(CLEAR)
    expect(sheet.stops).to_have_count(0)
    page.mouse.up()
    sheet.settled(1)
    kept = choice(shop, demo).table
    (moved,) = kept["moved"]
    assert moved["row"] == "resonant"
    right, down = (float(moved[way].removesuffix(" mm")) for way in ("right", "down"))
    assert (right, down) == (pytest.approx(4, abs=1), pytest.approx(-4, abs=1))
    expect(page.locator("#what-says")).to_contain_text("moved by hand")
    # What was dragged is what is planned: a reload shows the same.
    short = sheet.short.inner_text()
    page.reload()
    expect(sheet.short).to_have_text(short)
    expect(page.locator("#taken .sheet-aside")).to_have_text("taken by hand, moved from scheme 2")
    page.get_by_role("button", name="Put it back where it was worked out").click()
    expect(page.locator("#taken .sheet-aside")).to_have_text("taken by hand")
    assert "moved" not in choice(shop, demo).table


def test_the_same_by_a_finger(shop, bench, demo, open_page):
    page = open_page(
        bench, size={"width": 360, "height": 740}, has_touch=True, is_mobile=True,
        device_scale_factor=2, reduced_motion="reduce",
    )  # fmt: skip
    sheet = SchemeSheet(page, address(shop, demo, "small tom"))
    touch = page.context.new_cdp_session(page)

    def send(kind, *points):
        said = [{"x": px, "y": py} for px, py in points]
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": said})

    x, y, scale = sheet.lug(2)
    send("touchStart", (x, y))
    for step in range(1, 7):
        send("touchMove", (x, y - step * 2 * scale))
    expect(sheet.short).to_have_text(STOPPED)
    for step in range(1, 5):
        send("touchMove", (x, y - (12 - step * 2) * scale))
    expect(sheet.short).to_have_text(CLEAR)
    send("touchEnd")
    sheet.settled(1)
    assert choice(shop, demo).table["moved"][0]["row"] == "resonant"


def test_the_same_by_arrow_keys_and_undone(shop, bench, demo, open_page):
    sheet = SchemeSheet(open_page(bench), address(shop, demo, "small tom"))
    page = sheet.page
    sheet.row_button()
    page.keyboard.press("Shift+ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(sheet.short).to_have_text(STOPPED)
    sheet.settled(1)
    assert page.evaluate("document.activeElement.hasAttribute('data-row-handle')")
    for _ in range(4):
        page.keyboard.press("ArrowDown")
    expect(sheet.short).to_have_text(CLEAR)
    sheet.settled(2)
    assert choice(shop, demo).table["moved"] == [
        {"row": "resonant", "right": "0 mm", "down": "-7 mm"}
    ]
    # Undo goes back to where it stopped, undo again to where nothing was taken by hand.
    page.get_by_role("button", name="Undo the last step").click()
    expect(sheet.short).to_have_text(STOPPED)
    assert choice(shop, demo).table["moved"][0]["down"] == "-11 mm"
    expect(page.locator("#yes")).to_contain_text("nothing to sign yet")


def test_another_one_is_taken_right_after_a_row_was_moved(shop, bench, demo, open_page):
    sheet = SchemeSheet(open_page(bench), address(shop, demo, "small tom"))
    sheet.row_button()
    sheet.page.keyboard.press("ArrowUp")
    sheet.settled(1)
    sheet.page.get_by_role("button", name="Take this one").first.click()
    expect(sheet.page.locator("#what")).to_contain_text("Taken by hand")
    assert choice(shop, demo).number == 2
    assert not choice(shop, demo).table.get("moved")


def test_another_bench_took_another_one_meanwhile(shop, bench, demo, open_page):
    sheet = SchemeSheet(open_page(bench), address(shop, demo, "small tom"))
    page = sheet.page
    page.watch.allow("409")
    other = open_page(bench)
    other.goto(address(shop, demo, "small tom"))
    other.get_by_role("button", name="Take this one").first.click()
    expect(other.locator("#what-says")).to_contain_text("Taken by hand")
    sheet.row_button()
    page.keyboard.press("ArrowUp")
    expect(page.locator("#taken [data-shell-says]")).to_contain_text("Somebody changed")
    assert choice(shop, demo).number == 1


# --- taken, said yes to -------------------------------------------------------------------------


def test_taken_and_said_yes_to_and_then_changed(shop, bench, demo, open_page, axe):
    sheet = SchemeSheet(open_page(bench), address(shop, demo, "small tom"))
    page = sheet.page
    page.locator("#scheme-3").get_by_role("button", name="Take this one").click()
    expect(page.locator("#what-says")).to_contain_text("Taken by hand")
    yes = page.locator("#yes")
    expect(yes).to_contain_text("Holes 19 to 24 drilled: 6.0 dia, for long lugs 1 to 6.")
    expect(yes).to_contain_text("Never drill from a paper that says DRAFT")
    # Half filled in: said at the field, and what was typed is still there.
    page.watch.allow("422")
    page.get_by_label("Who said yes").fill("Nell Quennick")
    page.get_by_role("button", name="Write the yes down").click()
    expect(page.locator("#yes-how-fault")).to_be_visible()
    expect(page.get_by_label("Who said yes")).to_have_value("Nell Quennick")
    axe(page)
    page.get_by_label("How").fill("signed on the sheet")
    page.get_by_role("button", name="Write the yes down").click()
    expect(yes).to_contain_text("Yes, given by Nell Quennick on")
    # Moved by a millimetre it is another scheme, and the yes is not for it.
    page.get_by_text("Move the row of long lugs by hand").click()
    page.get_by_role("button", name="Move the row of long lugs").focus()
    page.keyboard.press("ArrowRight")
    expect(yes).to_contain_text("the one above is not covered")
    page.reload()
    expect(yes).to_contain_text("the one above is not covered")
    page.get_by_role("button", name="Undo the last step").click()
    expect(yes).to_contain_text("Yes, given by Nell Quennick on")
    page.get_by_role("button", name="Leave it to the kit's own choice").click()
    expect(page.locator("#what-says")).to_contain_text("Taken for the kit")


def test_a_finding_shows_its_place_on_its_own_drawing(shop, bench, demo, open_page):
    sheet = SchemeSheet(open_page(bench), address(shop, demo, "small tom"))
    sheet.findings.get_by_role("link", name="Show hole 18 on the drawing").first.click()
    expect(sheet.page.locator("#taken-picture .place.shown")).to_have_count(1)
    expect(sheet.page.locator(".place.shown")).to_have_count(1)


def test_without_scripts_a_row_is_moved_by_typing(shop, bench, demo, open_page):
    page = open_page(bench, java_script_enabled=False)
    page.goto(address(shop, demo, "small tom"))
    page.get_by_text("Move the resonant row by hand").click()
    page.get_by_label("To the right").fill("3/32 in")
    page.get_by_role("button", name="Move it there").click()
    expect(page.locator("#taken-short")).to_have_text(CLEAR)
    (moved,) = choice(shop, demo).table["moved"]
    assert float(moved["right"].removesuffix(" mm")) == pytest.approx(2.381, abs=0.001)


def test_the_sheet_that_is_signed_prints_without_numbers_on_the_drawing(
    shop, bench, demo, open_page, pictures
):
    page = open_page(bench)
    page.goto(address(shop, demo, "small tom") + "/sign?scheme=3")
    drawn = page.locator("#after-laid svg text").all_text_contents()
    assert drawn
    assert not [words for words in drawn if any(sign.isdigit() for sign in words)]
    page.emulate_media(media="print")
    expect(page.get_by_text("Back to the schemes")).to_be_hidden()
    expect(page.locator(".foot")).to_be_hidden()
    expect(page.get_by_text("Signature")).to_be_visible()
    expect(page.locator("#agreement")).to_contain_text("RVEM-RM8H")
    expect(page.locator("#costs")).to_contain_text("Not in this price")
    page.pdf(path=pictures / "sign.pdf", format="A4", prefer_css_page_size=False)


# --- long work ----------------------------------------------------------------------------------


def test_long_work_is_stopped_and_begun_again(tmp_path, app_on, open_page, look, axe):
    slow = SlowWorks(PLANNED)
    with open_store(address_of(data=tmp_path / "data")) as store:
        shop = Workshop(store=store, works=slow)
        job = take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")
        page = open_page(app_on(make_app(shop)))
        page.goto(address(shop, job, "small tom"))
        expect(page.locator(".working")).to_contain_text("Schemes for the small tom 25 %")
        axe(page)
        look(page, "schemes-working")
        slow.says, slow.share = "schemes for the large tom", 0.5
        expect(page.locator(".working")).to_contain_text("Schemes for the large tom 50 %")
        page.get_by_role("button", name="Stop").click()
        expect(page.locator("#what")).to_contain_text("Stopped before it was done")
        page.reload()
        expect(page.locator("#what")).to_contain_text("Stopped before it was done")
        assert slow.began == 1
        page.get_by_role("button", name="Try again").click()
        expect(page.locator(".working")).to_contain_text("50 %")
        page.reload()
        expect(page.locator(".working")).to_contain_text("50 %")
        assert slow.began == 2
        slow.finish()
        # The page loads itself again.
        expect(page.locator("#taken-short")).to_have_text(CLEAR)
