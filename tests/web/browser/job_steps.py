"""What a person does with a job on its pages, on a laptop or on a phone, as words for tests."""

from __future__ import annotations

import io
import re
from importlib.resources import files

import pypdf
from PIL import Image
from playwright.sync_api import expect

from counterhoop.bench.folders.survey_file import take_in
from counterhoop.quantities.money import parse_money

SNARE = files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml").read_text("utf-8")
MONEY = re.compile(r"\d+\.\d\d GBP")
PHONE = {
    "size": {"width": 360, "height": 740},
    "has_touch": True, "is_mobile": True, "device_scale_factor": 2,
}  # fmt: skip
WORKED_OUT_MS = 60_000


def take_snare_in(shop, *, number="26-034", client="Tobin Ashgrove"):
    """Take the school snare in under a number and a client's name; return its job."""
    survey = SNARE.replace("26-034", number).replace("Tobin Ashgrove", client)
    return take_in(
        shop, survey.encode(), name="survey.toml", book_of=lambda _name: b"", by="window bench"
    )


def photograph():
    """Return a small photograph as a phone sends it."""
    out = io.BytesIO()
    Image.new("RGB", (60, 30), "white").save(out, "JPEG")
    return {"name": "bench.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}


class JobPages:
    """The pages of a job of one drum, in one browser."""

    def __init__(self, page, job, *, touch=False):
        self.page, self.touch = page, touch
        self.folder, self.drum = f"/jobs/{job}", ""
        # The first schemes of a program that has just been started take their time.
        page.set_default_timeout(WORKED_OUT_MS)

    # --- ways ----------------------------------------------------------------------------------

    def go_to(self, address):
        """Open a page, and wait until what is worked out for it is there."""
        self.page.goto(address)
        return self.worked_out()

    def go(self, end):
        """Open a page of the job."""
        return self.go_to(f"{self.folder}/{end}")

    def go_drum(self, end):
        """Open a page of the job's drum."""
        if not self.drum:
            self.page.goto(self.folder)
            way = self.page.locator("a[href*='/drums/']").first.get_attribute("href")
            self.drum = re.search(r"drums/\w{16}", way)[0]
        return self.go(f"{self.drum}/{end}")

    def worked_out(self):
        expect(self.page.locator("[data-work]")).to_have_count(0, timeout=WORKED_OUT_MS)
        return self

    # --- hands ---------------------------------------------------------------------------------

    def press(self, what):
        """Press something, with a finger where there is no mouse."""
        if self.touch:
            what.tap()
        else:
            what.click()

    def unfold(self, summary):
        """Open what is folded beneath a line."""
        self.press(self.page.locator("summary").filter(has_text=summary))

    def write(self, form, button, **values):
        """Fill fields of a form by their labels, and send it."""
        for label, value in values.items():
            form.get_by_label(label.replace("_", " ")).fill(value)
        self.press(form.get_by_role("button", name=button))
        return self.worked_out()

    # --- eyes ----------------------------------------------------------------------------------

    def sheet(self, ident):
        return self.page.locator(f"section#{ident}")

    def form(self, called):
        return self.page.get_by_role("form", name=called)

    def money_on(self, sheet):
        """Return the sum that stands large on a sheet."""
        face = self.sheet(sheet).locator(".face").first
        expect(face).to_contain_text(MONEY)
        return parse_money(MONEY.search(face.inner_text())[0])

    def paper(self, link):
        """Have a paper by its link, and return what it says."""
        with self.page.expect_download(timeout=WORKED_OUT_MS) as got:
            self.press(self.page.get_by_role("link", name=link).first)
        paper = pypdf.PdfReader(io.BytesIO(got.value.path().read_bytes()))
        return " ".join(" ".join(sheet.extract_text() for sheet in paper.pages).split())

    # --- what both the desk and the bench do ------------------------------------------------------

    def agree(self):
        """Hand the price out, write its yes down, then the yes to what is cut for good."""
        self.go("price")
        price = self.money_on("price")
        self.write(self.form("Hand this price out"), "Hand it out", To_whom="Tobin Ashgrove")
        self.unfold("Write down a yes to offer 1")
        self.write(self.form("A yes to offer 1"), "Write the yes down", How="by letter")
        expect(self.sheet("offers")).to_contain_text("Everything stands as it was agreed.")
        agreed = self.sheet("agreed")
        expect(agreed).to_contain_text("DRAFT. Nobody has said yes yet")
        self.unfold("Write down the client's yes")
        self.write(
            self.form("A yes to the permanent changes"), "Write the yes down",
            Who_said_yes="Tobin Ashgrove", How="signed on the sheet",
        )  # fmt: skip
        expect(agreed).to_contain_text("signed on the sheet. It covers the code")
        expect(agreed).not_to_contain_text("DRAFT. ")
        return price

    def bill(self, price):
        """Give the invoice out; return what its paper says."""
        self.go("handed-over/bills")
        expect(self.sheet("due")).to_contain_text(f"{price} to bill.")
        self.press(self.page.get_by_role("button", name="Give the invoice out"))
        expect(self.sheet("due")).to_contain_text(f"{price} is due on invoice 1.")
        invoice = self.paper("Print invoice 1")
        assert invoice.startswith("Invoice 1 ")
        assert f"to be paid {price}" in invoice
        return invoice
