"""From an empty store to a template in the hand, by keyboard alone, on the program itself."""

from __future__ import annotations

import io
import re

import pypdf
import pytest
from playwright.sync_api import expect
from shell_pages import NewDrum, tab_to


@pytest.fixture
def bench(start_served, tmp_path, open_page):
    """A page of a program that was started on an empty folder."""
    (tmp_path / "data").mkdir()
    page = open_page(start_served(data=tmp_path / "data"))
    page.set_default_timeout(60_000)
    return page


def reach(page, wanted, *, most=300):
    """Press Tab until something is reached."""
    expect(wanted.first).to_be_attached()
    for _ in range(most):
        if wanted.first.evaluate("one => one === document.activeElement"):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"no way by Tab to {wanted}")


def press(page, label):
    """Reach what bears a label by Tab, and press Enter."""
    tab_to(page, label)
    page.keyboard.press("Enter")


def test_a_new_job_from_nothing_to_a_downloaded_template(bench):
    page = bench
    page.goto("/")
    press(page, "Draw my own drum")
    page.wait_for_url("**/drums/new")

    new = NewDrum(page, "")
    for label, words in (
        ("Circumference", "952 mm"), ("Depth", "200 mm"), ("Wall", "5 mm"), ("How many lugs", "6"),
        ("Datum to lug 1", "30 deg"), ("Hole 1", "37.5 mm"), ("Hole 2", "79.5 mm"),
        ("Diameter of the holes", "6 mm"),
    ):  # fmt: skip
        new.type(label, words)
    page.keyboard.press("Tab")
    expect(page.locator("#flat-picture [data-hole]")).to_have_count(12)
    expect(page.locator("#recognised")).to_contain_text("12 holes so far")
    for label, words in (
        ("The lug", "Corvane round lug"), ("What the drum is called", "small tom"),
        ("Job number", "30-001"),
    ):  # fmt: skip
        new.type(label, words)
        if label == "The lug":
            tab_to(page, "two heads")
            page.keyboard.press("ArrowDown")
    expect(page.locator("#recognised")).to_contain_text("with one head")
    expect(page.locator("#recognised")).to_contain_text("Corvane round lug")
    tab_to(page, "Put it into the folder")
    sheet = new.put_into_folder()
    expect(sheet.holes).to_have_count(12)
    shell = page.url.split("?")[0].split("#")[0]

    # What is wanted: a second head.
    page.goto(f"{shell}?open=wish-new")
    reach(page, page.locator('#wish-new-form [name="want"]'))
    page.keyboard.type("second head")
    reach(
        page,
        page.get_by_role("button", name="Write it down").and_(
            page.locator("#wish-new-form button")
        ),
    )
    page.keyboard.press("Enter")
    expect(sheet.line("wish-0")).to_contain_text("second head")

    press(page, "Schemes")
    page.wait_for_url("**/schemes")
    expect(page.locator("h2").first).to_contain_text("What is taken", timeout=90_000)
    press(page, "Take this one")
    expect(page.locator("main")).to_contain_text(re.compile("Taken", re.IGNORECASE))

    press(page, "On the bench")
    page.wait_for_url("**/bench")
    expect(page.locator("main")).to_contain_text("Do not drill by this drawing", timeout=60_000)
    reach(page, page.get_by_role("link", name=re.compile("Download the template.*A4")))
    with page.expect_download(timeout=60_000) as got:
        page.keyboard.press("Enter")
    paper = pypdf.PdfReader(io.BytesIO(got.value.path().read_bytes()))
    assert len(paper.pages) >= 4
    words = "".join(sheet.extract_text() for sheet in paper.pages)
    assert "DRAFT" in words
    assert "small tom" in words
