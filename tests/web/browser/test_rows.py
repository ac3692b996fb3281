"""A spreadsheet put on the shelf in a real browser: its columns, what would change, and found.

Truth: what a person sees and presses, step by step; WCAG 2.2 as axe-core reads it.
"""

from __future__ import annotations

import openpyxl

ROWS = (
    ("Sticker", "What", "Notes", "Holes ctrs (mm)", "Qty", "Drawer"),
    ("R-1", "lug", "round, single-ended", 42.5, 6, "drawer 3"),
    ("R-2", "claw", "cast, nickel", None, 16, "drawer 4"),
    ("R-3", "lug", "long", 61, "a few", "drawer 3"),
)


def test_a_spreadsheet_goes_onto_the_shelf(phone, axe, look, tmp_path):
    book = openpyxl.Workbook()
    for row in ROWS:
        book.active.append(row)
    book.save(tmp_path / "drawers.xlsx")
    phone.set_default_timeout(60_000)
    phone.goto("/shelf/rows", timeout=60_000)
    axe(phone)
    look(phone, "rows-front")
    phone.get_by_label("The file", exact=True).set_input_files(tmp_path / "drawers.xlsx")
    phone.get_by_role("button", name="Put it in").click()
    phone.get_by_role("heading", name="drawers.xlsx: its columns").wait_for()
    # An odd header: nobody guesses that it is the number on the bag.
    sticker = phone.get_by_role("group", name="Sticker").get_by_label("Is", exact=True)
    assert sticker.input_value() == ""
    apart = phone.get_by_role("group", name="Holes ctrs (mm)")
    assert apart.get_by_label("Is", exact=True).input_value() == "holes apart"
    assert apart.get_by_label("In", exact=True).input_value() == "mm"
    phone.watch.allow("422")
    phone.get_by_role("button", name="See what would change").click()
    phone.get_by_role("alert").get_by_text('Which column is the "number"?').wait_for()
    axe(phone)
    look(phone, "rows-columns")
    phone.get_by_role("group", name="Sticker").get_by_label("Is", exact=True).select_option(
        "number"
    )
    phone.get_by_role("button", name="See what would change").click()
    phone.get_by_text("2 new, 0 changed, 0 left as they are, 1 refused.").wait_for(timeout=60_000)
    refused = phone.locator("#refused").get_by_role("listitem")
    assert refused.count() == 1
    assert refused.first.inner_text().startswith("row 4")
    assert 'Column E "Qty": not a count' in refused.first.inner_text()
    axe(phone)
    look(phone, "rows-tried")
    phone.get_by_role("button", name="Put these 2 rows on the shelf").click()
    phone.get_by_text("2 new pieces are on the shelf").wait_for(timeout=60_000)
    look(phone, "rows-taken")
    phone.get_by_role("link", name="To the shelf").click()
    phone.get_by_label("What you look for").fill("holes 42.5")
    phone.get_by_role("button", name="Find").click()
    phone.get_by_text("R-1").first.wait_for()
