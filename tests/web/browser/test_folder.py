"""A folder from the first visit to the hand-over, in a real browser.

Truth: what a person sees and presses, step by step; WCAG 2.2 as axe-core reads it.
"""

from __future__ import annotations

import io
import re

import pytest

TOM = "small tom"
PUT_MS = 120_000
"""Seven jobs are written one after the other, four of them planned."""


@pytest.fixture(scope="module")
def own(start_served):
    """A store of this module's own: its first visit is a first one."""
    return start_served()


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """A JPEG, a HEIC, a text that is called a photograph, and 60 MB that begin like one."""
    import pillow_heif
    from PIL import Image

    folder = tmp_path_factory.mktemp("camera")
    picture = Image.radial_gradient("L").resize((1200, 900)).convert("RGB")
    picture.save(folder / "one.jpg")
    pillow_heif.from_pillow(picture).save(folder / "two.heic")
    (folder / "notes.jpg").write_text("Lug 4 is loose.\n" * 40)
    begins = io.BytesIO()
    picture.save(begins, "JPEG")
    (folder / "huge.jpg").write_bytes(begins.getvalue() + bytes(60_000_000))
    return folder


def folder_of(page, served):
    """Open the worked job's folder, put in by the first visit."""
    page.goto("/")
    page.locator(".job-name").get_by_role("link", name=re.compile("Lantern Lane")).click()
    page.get_by_role("heading", name="Booked in").wait_for()
    return page.url.removeprefix(served.address)


def test_the_first_visit_offers_an_invented_workshop_and_a_job_of_my_own(own, open_page, axe, look):
    page = open_page(own)
    page.goto("/")
    axe(page)
    look(page, "first-visit")
    page.get_by_role("button", name="Put seven invented jobs on my bench").click()
    # The page comes back by itself until all of them are there, and says so no more.
    page.get_by_role("button", name="Put the invented jobs away").wait_for(timeout=PUT_MS)
    assert page.locator(".job-name").count() == 7
    folder_of(page, own)
    page.get_by_role("heading", name="Drums", exact=True).wait_for()
    page.locator(".drum-picture svg").nth(6).wait_for()
    axe(page)
    look(page, "folder")
    page.goto("/")
    assert page.get_by_role("heading", name="On my bench").is_visible()
    assert page.get_by_text("The band's drummer said yes to the marching snare").is_visible()
    axe(page)
    look(page, "first")
    page.get_by_role("link", name="Book a job in").click()
    axe(page)
    look(page, "new-folder")
    page.get_by_label("Job number").fill("30-009")
    page.get_by_label("Client").fill("Nell Ashby")
    page.get_by_role("button", name="Open the folder").click()
    page.wait_for_url(re.compile(r"/jobs/(?!new)\w+$"))
    page.goto("/?find=ashby")
    assert page.locator(".jobs > li").count() == 1
    assert page.get_by_text("No drum is in the folder yet.").is_visible()


def test_what_is_booked_in_is_kept_while_it_is_typed(own, open_page):
    page = open_page(own)
    folder_of(page, own)
    page.get_by_text("Change what was booked in").click()
    page.get_by_label("Declared value").fill("2600")
    page.get_by_label("Who insures it here").fill("the band's own policy")
    page.get_by_label("Who insures it on the road").focus()
    page.locator("#arrival-answer").get_by_text("Kept").wait_for()
    # Without a currency it is in that of the job.
    page.locator("#arrival-says").get_by_text("2600.00 GBP").wait_for()
    last = page.get_by_role("group", name="Thing 5")
    last.get_by_label("What").fill("a drum key")
    last.get_by_label("Whose it is").focus()
    # An empty line comes as soon as the last one is written.
    page.get_by_role("group", name="Thing 6").wait_for()
    page.reload()
    said = page.locator("#arrival-says")
    assert said.get_by_text("2600.00 GBP").is_visible()
    assert said.get_by_text("a drum key").is_visible()
    page.get_by_role("button", name="Undo the last step").click()
    page.locator("#arrival-says").wait_for()
    assert page.locator("#arrival-says").get_by_text("a drum key").count() == 0


def test_photographs_are_kept_and_what_is_none_is_said(own, open_page, files, axe, look):
    page = open_page(own)
    address = folder_of(page, own)
    page.get_by_role("link", name="Put photographs in").click()
    axe(page)
    page.watch.allow("422")
    page.get_by_label("Which drum").select_option(label=TOM)
    names = ("one.jpg", "notes.jpg", "two.heic", "huge.jpg")
    page.get_by_label("Photographs that are there already").set_input_files(
        [files / name for name in names]
    )
    page.get_by_role("button", name="Put them in").click()
    told = page.get_by_role("alert")
    told.wait_for()
    assert "2 of 4 are in the folder" in told.inner_text()
    assert "notes.jpg: this is no photograph that can be read" in told.inner_text()
    assert "huge.jpg: too large to keep" in told.inner_text()
    own_sheet = page.get_by_role("region", name="Small tom")
    assert own_sheet.get_by_text("2 of 10 views").is_visible()
    assert own_sheet.get_by_text("Still missing: outside, half along").is_visible()
    sizes = "all => all.map(one => one.naturalWidth)"
    pictures = own_sheet.locator("img")
    for at in range(2):
        pictures.nth(at).scroll_into_view_if_needed()
    page.wait_for_function("() => [...document.images].every(one => one.naturalWidth)")
    assert pictures.evaluate_all(sizes) == [400, 400]
    axe(page)
    look(page, "photographs")
    pictures.nth(1).click()
    page.get_by_label("What it shows").select_option(label="batter edge")
    page.get_by_label("Caption").fill("loose ply inside")
    axe(page)
    look(page, "photograph")
    page.get_by_role("button", name="Write it down").click()
    page.wait_for_url(re.compile("/photographs#"))
    assert page.get_by_text("Loose ply inside").is_visible()
    # The same picture a second time is asked for, and not sent again.
    codes = []
    page.on("response", lambda answer: codes.append((answer.url[-9:], answer.status)))
    page.goto(f"{address}/photographs")
    page.reload()
    page.wait_for_load_state("networkidle")
    assert ("small.jpg", 304) in codes


def test_on_a_phone_it_is_taken_put_away_and_taken_out_again(own, open_page, files, axe, fits):
    phone = open_page(
        own, size={"width": 360, "height": 740}, has_touch=True, is_mobile=True,
        device_scale_factor=2,
    )  # fmt: skip
    address = folder_of(phone, own)
    fits(phone)
    phone.goto(f"{address}/photographs")
    camera = phone.get_by_label("Or take one now")
    assert camera.get_attribute("capture") == "environment"
    camera.set_input_files(files / "one.jpg")
    phone.get_by_label("Which drum").select_option(label="large tom")
    phone.get_by_label("What they show").select_option(label="a stamp or label")
    phone.get_by_role("button", name="Put them in").tap()
    phone.wait_for_url(re.compile("#drum-"))
    fits(phone)
    phone.get_by_role("region", name="Large tom").locator("img").tap()
    phone.get_by_role("button", name="Put it away").tap()
    phone.wait_for_url(re.compile("/photographs$"))
    assert phone.get_by_role("region", name="Large tom").locator("img").count() == 0
    phone.goto("/workshop/put-away")
    axe(phone)
    fits(phone)
    phone.get_by_role("button", name="Take one.jpg").tap()
    phone.wait_for_url(re.compile(r"/photographs/\w+$"))
    phone.goto(f"{address}/photographs")
    assert phone.get_by_role("region", name="Large tom").locator("img").count() == 1


def test_what_a_drum_is_and_what_it_is_called(own, open_page, axe, look):
    page = open_page(own)
    folder_of(page, own)
    page.get_by_role("heading", name="Small tom").get_by_role("link").click()
    page.locator(".drum-picture svg").wait_for()
    axe(page)
    look(page, "what-it-is")
    page.get_by_text("Change it").click()
    page.get_by_role("group", name="Serial number").get_by_label("As it is written").fill("0417")
    page.get_by_role("group", name="Serial number").get_by_label("How sure").select_option("seen")
    page.locator("#facts-says").get_by_text("0417 (seen)").wait_for()
    page.get_by_label("What the drum is called").fill("large tom")
    page.watch.allow("422")
    page.get_by_role("button", name="Call it so").click()
    page.get_by_text("another drum of this job is called so").wait_for()
    page.get_by_label("What the drum is called").fill("rack tom")
    page.get_by_role("button", name="Call it so").click()
    page.get_by_role("heading", name="Rack tom: what it is").wait_for()
    page.get_by_label("What the drum is called").fill(TOM)
    page.get_by_role("button", name="Call it so").click()
    page.get_by_role("heading", name="Small tom: what it is").wait_for()


def test_the_hand_over_is_a_record_that_prints(own, open_page, axe, look, pictures):
    page = open_page(own)
    address = folder_of(page, own)
    page.goto(f"{address}/handed-over")
    page.get_by_label("What was done", exact=True).fill("Second heads on both toms.")
    page.get_by_label("Spare screws").check()
    page.get_by_label("Who took it").fill("the band's drummer")
    page.get_by_label("The day").fill("2026-04-02")
    page.get_by_label("Who took it").focus()
    page.locator("#handover-says").get_by_text("Thu 2 April 2026").wait_for()
    page.reload()
    assert page.get_by_text("Handed over on 2 April 2026 to the band's drummer.").is_visible()
    axe(page)
    look(page, "handed-over")
    page.emulate_media(media="print")
    assert not page.get_by_role("button", name="Write it down").first.is_visible()
    assert page.get_by_text("Second heads on both toms.").first.is_visible()
    assert page.get_by_text("The band's drummer said yes on 21 March 2026").first.is_visible()
    paper = page.pdf(format="A4")
    (pictures / "handed-over.pdf").write_bytes(paper)
    page.emulate_media(media="screen")
    page.goto("/")
    assert page.get_by_role("heading", name="Handed over").is_visible()
    page.get_by_text("Handed over on 2 April 2026 to the band's drummer.").wait_for()


def test_a_reload_right_after_a_tick_keeps_it(own, open_page):
    page = open_page(own)
    address = folder_of(page, own)
    page.goto(f"{address}/handed-over")
    page.get_by_text("Change it").click()
    page.get_by_label("Washers").check()
    # Nothing was sent yet: the page waits whether one goes on typing.
    page.reload()
    page.locator("#handover-says").get_by_text("Washers").wait_for()
    assert page.get_by_label("Washers").is_checked()
