"""On the bench in a browser: two benches tick at once, papers are looked at and had."""

from __future__ import annotations

import base64
import io
import re

import pypdf
import pytest
from playwright.sync_api import expect
from worked_drums import PLANNED, WorkedJob

from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app

SNARE, TOM = "marching snare", "floor tom"
PHONE = {
    "size": {"width": 360, "height": 740},
    "has_touch": True, "is_mobile": True, "device_scale_factor": 2,
}  # fmt: skip

DOT = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="
)
"""A picture of one dot."""


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=PLANNED)


@pytest.fixture
def job(shop):
    return WorkedJob(shop, SNARE, TOM)


@pytest.fixture
def bench(shop, app_on):
    return app_on(make_app(shop))


def tick(page, hole):
    return page.locator(f"#tick-{hole}")


def done_strokes(page):
    """How many holes have a stroke through them on the drawing."""
    path = page.locator("#flat-done .stroke")
    return path.get_attribute("d").count("M") if path.count() else 0


def test_ticks_on_a_phone_and_on_a_laptop(job, bench, open_page):
    laptop, phone = open_page(bench), open_page(bench, **PHONE)
    for page in (laptop, phone):
        page.goto(job.bench(SNARE))
        expect(page.locator("#how-far")).to_contain_text("49 holes to do")
    tick(laptop, 44).click()
    expect(tick(laptop, 44)).to_have_attribute("aria-pressed", "true")
    expect(laptop.locator("#how-far")).to_contain_text("48 of 49 holes left")
    expect(laptop.locator("#left-drill")).to_have_text("27 of 28 left")
    assert done_strokes(laptop) == 1
    # The phone's page is older than the laptop's tick: another hole goes through all the same.
    tick(phone, 45).tap()
    expect(phone.locator("#how-far")).to_contain_text("47 of 49 holes left")
    assert done_strokes(phone) == 2
    assert sorted(job.ticks(SNARE)["done"]) == ["44", "45"]
    # By keyboard: the button stays reached, and the next press takes it back.
    tick(laptop, 46).focus()
    laptop.keyboard.press("Space")
    expect(tick(laptop, 46)).to_have_attribute("aria-pressed", "true")
    expect(tick(laptop, 46)).to_be_focused()
    laptop.keyboard.press("Space")
    expect(tick(laptop, 46)).to_have_attribute("aria-pressed", "false")
    # The strokes lie over their holes: within the mark that a finger chooses the hole by.
    stroke = laptop.evaluate("""() => {
        const path = document.querySelector("#flat-done .stroke");
        const mid = path.getPointAtLength(path.getTotalLength() * 0.35)
            .matrixTransform(path.getScreenCTM());
        const hole = document.querySelector("#flat-hole-44 .hit").getBoundingClientRect();
        return mid.x > hole.left - 6 && mid.x < hole.right + 6
            && mid.y > hole.top - 6 && mid.y < hole.bottom + 6;
    }""")
    assert stroke


def test_two_disagree_about_one_hole(job, bench, open_page):
    laptop, phone = open_page(bench), open_page(bench, **PHONE)
    phone.watch.allow("409")
    laptop.goto(job.bench(SNARE))
    tick(laptop, 44).click()
    expect(tick(laptop, 44)).to_have_attribute("aria-pressed", "true")
    phone.goto(job.bench(SNARE))
    # The laptop takes its tick back and sets it again; the phone still shows the first one.
    mark = dict(job.ticks(SNARE)["done"]["44"])
    tick(laptop, 44).click()
    expect(tick(laptop, 44)).to_have_attribute("aria-pressed", "false")
    phone.evaluate("document.querySelector('#flat-line-44 [name=seen]').value = 'earlier shed'")
    tick(laptop, 44).click()
    expect(tick(laptop, 44)).to_have_attribute("aria-pressed", "true")
    tick(phone, 44).tap()
    expect(phone.get_by_role("heading", name="Two versions: choose one")).to_be_visible()
    assert job.ticks(SNARE)["done"]["44"]["by"] == mark["by"]
    phone.get_by_role("button", name="Keep theirs").tap()
    expect(tick(phone, 44)).to_have_attribute("aria-pressed", "true")


def test_two_ticks_at_once_are_both_kept_though_the_page_is_left(job, bench, open_page):
    """Truth: what was pressed; the machine has answered neither when the page goes."""
    page = open_page(bench)
    page.goto(job.bench(SNARE))
    page.evaluate("""() => {
        for (const hole of [44, 45]) document.querySelector(`#tick-${hole}`).click();
        setTimeout(() => { location.href = "/workshop/hours"; }, 0);
    }""")
    page.wait_for_url("**/workshop/hours")
    # Both are on their way when the page is opened again: looked at until they are there.
    page.goto(job.bench(SNARE))
    expect(page.locator("#how-far")).to_contain_text("holes left")
    page.wait_for_function("""async () => {
        const page = await (await fetch(location.href)).text();
        return page.includes("47 of 49 holes left");
    }""")
    assert sorted(job.ticks(SNARE)["done"]) == ["44", "45"]


def test_ticks_without_scripts(job, bench, open_page):
    page = open_page(bench, java_script_enabled=False)
    page.goto(job.bench(SNARE))
    tick(page, 44).click()
    expect(page).to_have_url(re.compile("#flat-line-44$"))
    expect(tick(page, 44)).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#how-far")).to_contain_text("48 of 49 holes left")


def test_a_template_is_had_and_its_picture_seen(job, bench, open_page):
    page = open_page(bench)
    page.goto(job.bench(TOM))
    picture = page.get_by_role("link", name="Look at the template A4").locator("img")
    before = picture.bounding_box()
    picture.scroll_into_view_if_needed()
    expect(picture).to_have_js_property("naturalWidth", 360, timeout=40_000)
    after = picture.bounding_box()
    assert (before["width"], before["height"]) == (after["width"], after["height"])
    with page.expect_download() as begun:
        page.get_by_role("link", name="Download the template A4 as PDF").click()
    assert begun.value.suggested_filename == "26-031 - floor tom - 4 template A4.pdf"
    pdf = pypdf.PdfReader(io.BytesIO(begun.value.path().read_bytes()))
    assert "DRAFT" in " ".join(sheet.extract_text() for sheet in pdf.pages)
    picture.click()
    expect(page.locator(".paper-page")).to_have_count(len(pdf.pages))


def test_the_hole_list_on_paper(job, bench, open_page):
    page = open_page(bench)
    page.goto(job.bench(SNARE))
    tick(page, 44).click()
    expect(tick(page, 44)).to_have_attribute("aria-pressed", "true")
    page.emulate_media(media="print")
    expect(tick(page, 45)).to_be_hidden()
    expect(page.locator(".tick-printed")).to_have_count(49)
    expect(page.locator(".tick-printed .check")).to_have_count(1)
    expect(page.locator(".index")).to_be_hidden()
    text = " ".join(sheet.extract_text() for sheet in pypdf.PdfReader(io.BytesIO(page.pdf())).pages)
    for hole in page.locator(".hole-line").all():
        number = hole.get_attribute("data-hole-line")
        assert re.search(rf"\b{number}\b", text)
    assert "Pilot of 2 to 3 mm" in " ".join(text.split())
    # What is folded away on a screen is there on paper: the cautions in full.
    assert "is never cut freehand" in text


def test_how_it_looks(job, bench, open_page, look, axe):
    page = open_page(bench)
    # Pictures of papers are tried above; here they only take their room.
    page.route(
        "**/papers/preview?*", lambda route: route.fulfill(body=DOT, content_type="image/png")
    )
    page.goto(job.bench(SNARE))
    tick(page, 44).click()
    expect(tick(page, 44)).to_have_attribute("aria-pressed", "true")
    axe(page)
    look(page, "bench-snare")
    page.goto(f"/jobs/{job.id}/wrap?write=green+ripple")
    axe(page)
    look(page, "wrap")
    page.goto(f"/jobs/{job.id}/papers")
    axe(page)
