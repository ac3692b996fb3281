"""The booking-in sheet: what came, what is missing, what was agreed, with its photographs."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from documents import pages, words
from example_records import VIEWS, booking_of
from PIL import Image

from counterhoop.errors import BadInput
from counterhoop.papers.booking_in import DrumIn, Item, booking_in_pdf
from counterhoop.papers.photograph import Photograph, jpeg_size, photograph_svg


def test_what_the_sheet_says() -> None:
    said = words(booking_in_pdf(booking_of()))
    for line in (
        "Booked in: job 17",
        "Millrace Drum Workshop",
        "A. Player: 9 Ferry Lane, Hallmere, 0100 000 000",
        "owner the Hallmere Silver Band",
        "declared value 1450.00 GBP",
        "insured here by the workshop",
        "insured on the road by to be agreed",
        "2 flanged hoop the client's rusted, one bent",
        "1 roller strainer the client's brother as it came",
        "1 lever strainer the client's the workshop looks",
        "woodworm: none seen",
        "smell: not looked at",
        "stamp inside",
        "Drums that are not fetched: After three months' notice the workshop may ask for storage."
        " Local law applies.",
    ):
        assert line in said, line
    for view in VIEWS:
        assert said.count(view) == 2, view  # of both drums
    assert said.count("to be taken") == 1 + len(VIEWS)


def test_what_is_of_no_one_drum_stands_once() -> None:
    """Truth: of three drums one line of pests, and none of them is said to have come alone."""
    together = DrumIn(drum="with all of them", came=(Item(what="a bag of rods"),))
    apart = [replace(one, apart=None, came=()) for one in booking_of().drums]
    booking = replace(
        booking_of(), drums=tuple(apart), together=together, fetched_by="by the end of May",
        notes=("Paper label by the vent.",), uncollected="We write first",
    )  # fmt: skip
    said = words(booking_in_pdf(booking))
    assert said.count("woodworm: not looked at") == 1
    assert "nothing came with it" not in said
    for line in ("a bag of rods", "To be fetched: by the end of May", "Paper label by the vent."):
        assert line in said
    assert "We write first. Local law applies." in said


def test_what_was_not_agreed_is_not_made_up() -> None:
    said = words(booking_in_pdf(replace(booking_of(), uncollected="", value=None, owner="")))
    assert "not fetched" not in said
    assert "declared value to be agreed" in said
    assert "owner" not in said.partition("old snare,")[0]


def test_photographs_go_in_as_they_are() -> None:
    """The compressed part of each JPEG is found in the document, byte for byte."""
    booking = booking_of()
    made = booking_in_pdf(booking)
    there = [one for one in booking.drums[0].photographs.values() if one is not None]
    assert len(there) == len(VIEWS)  # one edge is missing, a stamp comes on top
    for photograph in there:
        assert photograph.jpeg[-200:-2] in made


def test_sixty_things_go_on_more_sheets_that_repeat_the_heads() -> None:
    things = tuple(Item(what=f"thing {n}", says="whole") for n in range(60))
    one = DrumIn(drum="bass drum", came=things)
    sheets = pages(booking_in_pdf(replace(booking_of(), drums=(one,)), paper="Letter"))
    assert all("state, as it came" in sheet for sheet in sheets[:2])
    assert "the client" in sheets[-1]


@pytest.mark.parametrize("progressive", [False, True])
@pytest.mark.parametrize("size", [(1, 1), (640, 7), (300, 401)])
def test_the_size_of_a_jpeg(size: tuple[int, int], *, progressive: bool) -> None:
    """Written by an independent library, at sizes that were asked of it."""
    out = io.BytesIO()
    Image.new("RGB", size, "tan").save(
        out, "JPEG", progressive=progressive, exif=b"Exif\0\0MM\0*\0\0\0\x08\0\0", comment=b"x"
    )
    assert jpeg_size(out.getvalue()) == size


@pytest.mark.parametrize("data", [b"", b"\xff\xd8", b"<svg/>", b"\xff\xd8\xff\xe0\0\x04ab" * 9])
def test_what_is_no_jpeg_is_refused(data: bytes) -> None:
    with pytest.raises(BadInput, match="not a photograph that can be printed"):
        photograph_svg(Photograph(jpeg=data, shows="nothing"))
