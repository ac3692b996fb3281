"""The shelf in a real browser: a label is scanned, its piece set aside for a drum; pages that fit.

Truth: what a person sees, taps and types, step by step; the code on the rendered paper by a reader
of its own (ISO/IEC 18004, from memory); WCAG 2.2 as axe-core reads it.
"""

from __future__ import annotations

import httpx
import numpy as np
import pypdfium2 as pdfium
import pytest
from qr_reader import modules_of, read_modules

from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.shelf.cards import write_piece
from counterhoop.bench.workshop import open_workshop
from counterhoop.papers.label_sheet import plain_sheet
from counterhoop.parts.dimension import Dimension, read_measured
from counterhoop.web.app import make_app

PIXELS_A_MM = 8.0
NARROW = {"width": 360, "height": 740}


@pytest.fixture
def shelf(tmp_path, app_on):
    """A served workshop with two jobs and a few pieces; returns the server and the first piece."""
    with open_workshop(data=tmp_path / "data", works=WorksAtOnce()) as shop:
        for number, client, drum in (("214", "A. Hale", "small tom"), ("215", "B. Rowe", "snare")):
            job = open_folder(shop, job={"number": number, "client": client}, by="x")
            add_drum(shop, job, name=drum, survey={}, by="x")
        holes = read_measured(Dimension.HOLES_APART, "42.1 mm")
        pieces = [
            write_piece(shop, None, fields, based_on=0, by="window bench")
            for fields in (
                {"number": "0041", "says": "single-ended lug, two holes", "count": 8, "bin": "B 7",
                 "measured": (holes,), "condition": ("pitted under the rim",), "kind": "lug"},
                {"number": "0042", "says": "hoop, eight ears", "count": 2, "owner": "A. Hale",
                 "bin": "loft, the long rail by the north wall"},
            )
        ]  # fmt: skip
        yield app_on(make_app(shop)), pieces[0].piece.id


def scanned(served, piece):
    """Print the label of a piece, and read the code off the paper."""
    pdf = httpx.get(
        f"{served.address}/shelf/labels/file?piece={piece}",
        cookies={served.cookie["name"]: served.cookie["value"]}, timeout=60,
    )  # fmt: skip
    shown = pdfium.PdfDocument(pdf.content)[0].render(scale=PIXELS_A_MM * 25.4 / 72).to_numpy()
    ((_, left, top),) = plain_sheet().corners(1)
    first, upper = int((left + 0.6) * PIXELS_A_MM), int((top + 0.6) * PIXELS_A_MM)
    wide = int(30.5 * PIXELS_A_MM)
    ink = shown[upper : upper + wide, first : first + wide, 0] < 128
    return read_modules(modules_of(np.asarray(ink)))


def test_a_label_is_scanned_and_its_piece_set_aside_for_a_drum(shelf, open_page, axe, fits):
    served, piece = shelf
    phone = open_page(served, size=NARROW, has_touch=True, is_mobile=True, device_scale_factor=2)
    phone.goto(scanned(served, piece))
    phone.get_by_role("heading", name="Single-ended lug, two holes").wait_for()
    assert phone.get_by_text("8 on the shelf.", exact=True).is_visible()
    axe(phone)
    fits(phone)
    phone.get_by_label("For", exact=True).select_option("job 214, small tom")
    phone.get_by_role("textbox", name="How many").first.fill("2")
    with phone.expect_navigation():
        phone.get_by_role("button", name="Set aside").tap()
    face = phone.get_by_text("8 on the shelf, 2 of them set aside for job 214, small tom.")
    assert face.is_visible()
    axe(phone)
    fits(phone)
    with phone.expect_navigation():
        phone.get_by_role("button", name="Put back").tap()
    assert phone.get_by_text("8 on the shelf.", exact=True).is_visible()


def test_a_piece_is_written_down_by_keyboard_and_found(shelf, open_page):
    served, _ = shelf
    page = open_page(served)
    page.watch.allow("422")
    page.goto("/shelf/new")
    page.get_by_label("What it is").fill("roller strainer")
    first = page.get_by_role("group", name="Measurement 1")
    first.get_by_label("What").select_option("holes apart")
    first.get_by_label("Reads").fill("5l mm")
    with page.expect_navigation():
        first.get_by_label("Reads").press("Enter")
    page.get_by_role("alert").first.wait_for()
    again = page.get_by_role("group", name="Measurement 1").get_by_label("Reads")
    assert again.input_value() == "5l mm"
    again.fill("51")
    with page.expect_navigation(url="**/shelf/pieces/*"):
        again.press("Enter")
    page.goto("/shelf")
    page.get_by_label("What you look for").fill("strainer, holes 51 +- 0.5")
    with page.expect_navigation():
        page.get_by_label("What you look for").press("Enter")
    assert page.get_by_text("1 free · holes apart 51 mm").is_visible()


def test_the_shelfs_sheets_keep_to_wcag_and_fit(shelf, open_page, axe, look):
    served, piece = shelf
    page = open_page(served)
    for name, path in {
        "shelf": "/shelf",
        "found": "/shelf?find=lug,+holes+42+%2B-+0.5,+17+mm",
        "card": f"/shelf/pieces/{piece}",
        "form": f"/shelf/pieces/{piece}/change",
        "labels": f"/shelf/labels?piece={piece}&bin=B+7",
    }.items():
        page.goto(path)
        axe(page)
        look(page, f"shelf-{name}")
