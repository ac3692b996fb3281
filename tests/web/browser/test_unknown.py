"""What is this? on a phone: three measurements, and the part lies on the shelf.

Truth: what a person sees, taps and types, step by step; WCAG 2.2 as axe-core reads it. The figures
are those of an entry of the packaged book, a little off as a caliper is.
"""

from __future__ import annotations

import pytest

NOTHING_FITS = (
    "/shelf/unknown?kind=lug&measured.0.what=holes+apart&measured.0.written=47.5"
    "&measured.1.what=base+high&measured.1.written=71+mm"
    "&measured.2.what=stands+out&measured.2.written=9"
)


def measure(page, what, written):
    if what:
        page.get_by_label("What is measured").select_option(what)
    page.get_by_label("As read").fill(written)
    page.get_by_label("As read").press("Enter")


def test_a_part_is_known_by_three_measurements_and_put_on_the_shelf(phone, axe, fits, pictures):
    # With the first page that is asked for, the rest of the program is loaded.
    phone.goto("/shelf/unknown", timeout=60_000)
    phone.get_by_label("It looks like a").select_option("lug")
    measure(phone, "holes apart", "42.1")
    answer = phone.get_by_role("status").first
    answer.get_by_text("It could be Corvane round lug").wait_for()
    axe(phone)
    fits(phone)
    # The press that tells most brings its line; only the reading is left to type.
    phone.get_by_role("link", name="Measure base high").tap()
    phone.wait_for_function("document.activeElement.id === 'written-1'")
    measure(phone, "", "61.8 mm")
    answer.get_by_text("It is almost surely Corvane round bass lug.").wait_for()
    measure(phone, "mass", "1o0 g")
    phone.get_by_role("alert").wait_for()
    assert phone.get_by_label("As read").input_value() == "1o0 g"
    measure(phone, "", "100 g")
    phone.get_by_label("What was measured").get_by_text("100 g").wait_for()
    address = phone.url
    phone.reload()
    assert phone.url == address
    assert phone.get_by_label("What was measured").get_by_role("listitem").count() == 3
    if pictures:
        phone.screenshot(path=pictures / "unknown-360.png", full_page=True)
    number = phone.get_by_label("Number on its bag").input_value()
    chosen = phone.get_by_label("It is", exact=True)
    assert chosen.input_value() == "Corvane round bass lug"
    phone.get_by_label("Bin").fill("B3")
    with phone.expect_navigation(url="**/shelf/pieces/*"):
        phone.get_by_role("button", name="Put it on the shelf").tap()
    words = phone.locator("main").inner_text()
    assert "Corvane round bass lug" in words
    for said in (number, "42.1 mm", "61.8 mm", "100 g", "B3"):
        assert said in phone.locator("body").inner_text()
    phone.watch.allow("422")


@pytest.mark.parametrize("path", ["/shelf/unknown", NOTHING_FITS])
def test_the_page_keeps_to_wcag_and_fits(page, axe, fits, path):
    page.goto(path)
    for details in page.locator("details").all():
        details.evaluate("one => { one.open = true; }")
    axe(page)
    fits(page)


def test_a_piece_on_the_shelf_is_given_its_name_by_keyboard_alone(page):
    page.goto(NOTHING_FITS.replace("47.5", "42.1").replace("71", "57").replace("=9", "=20"))
    page.get_by_label("It is", exact=True).select_option("")
    page.get_by_label("In your words").fill("from the green box")
    page.get_by_label("In your words").press("Enter")
    page.wait_for_url("**/shelf/pieces/*")
    card = page.url
    page.get_by_role("link", name="What is this?").last.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/shelf/unknown?piece=*")
    assert page.get_by_label("What was measured").get_by_role("listitem").count() == 3
    # Held against the rest of the shelf and the book: it is no answer to itself.
    assert "from the green box" not in page.get_by_role("status").first.inner_text()
    press = page.get_by_role("button", name="It is Corvane round lug")
    press.focus()
    page.keyboard.press("Enter")
    page.wait_for_url(card)
    assert "Corvane round lug" in page.locator("main").inner_text()
