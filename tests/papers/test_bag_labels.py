"""Labels for bags and bins: what stands on them, that it fits, and that a phone opens the code."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import numpy as np
import pypdfium2 as pdfium
import pytest
from documents import pages, words
from pypdf import PdfReader
from qr_reader import Grid, modules_of, read_modules

from counterhoop.bench.demo import open_demo
from counterhoop.errors import BadInput
from counterhoop.papers.bag_labels import (
    Label,
    bag_labels,
    bin_label,
    labels_pdf,
    piece_label,
    spares_label,
)
from counterhoop.papers.label_sheet import LabelSheet, plain_sheet
from counterhoop.papers.sheets import sheet_of
from counterhoop.parts.dimension import Dimension, read_measured
from counterhoop.parts.piece import Piece
from counterhoop.parts.spares import spares_bag
from counterhoop.parts.strip_down import strip_down
from counterhoop.parts.ticked import Stage, Tick, count_off

OPENED = open_demo()
SNARE = strip_down(
    next(w.drum for w in OPENED.job.drums if w.drum.key == "old snare"), book=OPENED.shop.book
)
LINK = "https://bench.local:8443/shelf/{}"
LUG = Piece(
    id="1", number="L-0412", kind="lug", says="single-ended lug, two holes", finish="chrome",
    condition=("pitted under the rim",), bin="B 7", count=6,
    measured=(read_measured(Dimension.HOLES_APART, "42.1 mm"),),
)  # fmt: skip
HOSTILE = '#import "x.typ": * $a^2$ \\ #panic("no") <l> @ref [open *b* // /*'
LONG = "a name that somebody typed without a thought of the label that it has to go on to, " * 3
PIXELS_A_MM = 8.0


def ink_of(pdf: bytes, *, page: int = 0) -> Grid:
    shown = pdfium.PdfDocument(pdf)[page].render(scale=PIXELS_A_MM * 25.4 / 72)
    return np.asarray(shown.to_numpy()[:, :, 0] < 128, dtype=np.bool_)


def code_at(ink: Grid, left_mm: float, top_mm: float, *, wide_mm: float = 30.5) -> Grid:
    """Cut the left upper part of a label, the code alone, within its dashed line."""
    first, upper = int((left_mm + 0.6) * PIXELS_A_MM), int((top_mm + 0.6) * PIXELS_A_MM)
    wide = int(wide_mm * PIXELS_A_MM)
    return ink[upper : upper + wide, first : first + wide]


GUMMED = LabelSheet(
    paper=sheet_of("A4"), across=3, down=7, wide_mm=62.0, high_mm=38.0, left_mm=8.0, top_mm=14.0,
    step_across_mm=65.0, step_down_mm=38.5,
)  # fmt: skip


@pytest.mark.parametrize(
    ("sheet", "wide_mm"), [(plain_sheet(), 30.5), (plain_sheet("Letter"), 30.5), (GUMMED, 23.0)]
)
def test_every_code_opens_its_own_piece(sheet: LabelSheet, wide_mm: float) -> None:
    """Read off the rendered page by a reader of its own (ISO/IEC 18004, from memory)."""
    labels = [Label(head=f"piece {n}", count=n, link=LINK.format(n)) for n in range(1, 13)]
    ink = ink_of(labels_pdf(labels, sheet=sheet))
    for label, (_, left, top) in zip(labels, sheet.corners(12), strict=True):
        code = code_at(ink, left, top, wide_mm=wide_mm)
        assert read_modules(modules_of(code)) == label.link


def test_the_reader_notices_another_code() -> None:
    """The last module is the first bit, which with the next three says how the rest is written."""
    ink = ink_of(labels_pdf([Label(head="x", link=LINK.format(7))]))
    ((_, left, top),) = plain_sheet().corners(1)
    modules = modules_of(code_at(ink, left, top))
    modules[-1, -1] ^= True
    with pytest.raises(AssertionError, match="not in bytes"):
        read_modules(modules)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_sheets_are_tagged_titled_and_print_at_actual_size(paper: str) -> None:
    """ISO 14289-1 (PDF/UA-1) and ISO 32000-1, table 150: title shown, language, no scaling."""
    pdf = labels_pdf([piece_label(LUG, count=5, link=LINK.format(1))], sheet=plain_sheet(paper))
    root = PdfReader(io.BytesIO(pdf)).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/MarkInfo"]["/Marked"]
    assert b"pdfuaid" in root["/Metadata"].get_data()
    assert pdf == labels_pdf(
        [piece_label(LUG, count=5, link=LINK.format(1))], sheet=plain_sheet(paper)
    )


def test_a_bag_says_job_drum_place_piece_count_and_whose_it_is() -> None:
    made = bag_labels(SNARE, job="17", owner="A. Player")
    said = words(labels_pdf(made))
    for line in (
        "Corvane round short lug old snare batter lugs 1 to 8 and resonant lugs 1 to 8 16 pieces",
        "job 17 belongs to A. Player",
        "Quennick roller strainer old snare later strainer 1 piece ",
    ):
        assert line in said, line
    bags = {label.head: label.count for label in made}
    assert bags["screw 10-24 x 5/8 in"] == 34  # 36 less the two of the strainer that is lost
    assert "Corvane lever strainer" not in bags


def test_once_counted_a_bag_says_what_was_found() -> None:
    """Hand-worked: of 8 rods at each head one is not found; all 8 washers of one head are gone; of
    the strainer that the survey calls lost one turned up."""
    rod = next(line.sort.piece for line in SNARE.lines if line.sort.kind == "rod")
    found = {
        ("batter head", rod): 7, ("batter head", "rod washer"): 8,
        ("resonant head", "rod washer"): 0, ("strainer", "Corvane lever strainer"): 1,
    }  # fmt: skip
    ticks = [
        Tick(place=place, piece=piece, stage=Stage.FOUND, count=count)
        for (place, piece), count in found.items()
    ]
    bags = {
        label.head: label for label in bag_labels(SNARE, job="17", counted=count_off(SNARE, ticks))
    }
    assert bags[rod].count == 15
    assert (bags["rod washer"].count, bags["rod washer"].lines[1]) == (8, "batter head")
    assert bags["Corvane lever strainer"].count == 1
    none = [replace(tick, count=0) for tick in ticks if tick.piece == "rod washer"]
    heads = [label.head for label in bag_labels(SNARE, job="17", counted=count_off(SNARE, none))]
    assert "rod washer" not in heads


def test_shelf_bin_and_spares() -> None:
    spares = spares_label(spares_bag(SNARE), drum="old snare", job="17")
    said = words(labels_pdf([piece_label(LUG, count=5), bin_label("B 7", [LUG]), spares]))
    assert "single-ended lug, two holes holes apart 42.1 mm" in said
    assert "chrome, pitted under the rim bin B 7 5 pieces L-0412" in said
    assert "B 7 lug" in said
    assert "1 x rod 12-24 UNC; 2 x rod washer; 2 x screw 10-24" in said


def test_used_labels_are_left_out_and_sheets_go_on() -> None:
    labels = [Label(head=f"piece {n}", count=1) for n in range(1, 15)]
    said = pages(labels_pdf(labels, used=11))
    assert [len(re.findall(r"piece \d", page)) for page in said] == [1, 12, 1]
    with pytest.raises(BadInput, match="no label is left"):
        labels_pdf(labels, used=12)


@pytest.mark.parametrize("sheet", [plain_sheet(), plain_sheet("Letter"), GUMMED])
@pytest.mark.parametrize("text", ["short", LONG, HOSTILE])
def test_nothing_is_set_outside_its_label(sheet: LabelSheet, text: str) -> None:
    """Each label of one paper alone: ink lies within it, and half a millimetre off its sides."""
    number = "L-0412" if text == "short" else "2019/HALE/TOM-LUG-BATCH-0007/" * 4
    label = Label(
        head=text, count=1234, lines=(text, text), number=number, job="2026-117", owner=text,
        link=LINK.format(1),
    )  # fmt: skip
    for used in (0, sheet.count - 1):
        ink = ink_of(labels_pdf([label], sheet=sheet, used=used))
        ((_, left, top),) = sheet.corners(1, used=used)
        inside = np.zeros_like(ink)
        rows = slice(int((top - 0.3) * 8), int((top + sheet.high_mm + 0.3) * 8))
        inside[rows, int((left - 0.3) * 8) : int((left + sheet.wide_mm + 0.3) * 8)] = True
        assert not (ink & ~inside).any()
        if not sheet.cut:
            edge = int(0.5 * 8)
            upper, first = int(top * 8), int(left * 8)
            lower, last = int((top + sheet.high_mm) * 8), int((left + sheet.wide_mm) * 8)
            assert not ink[upper : upper + edge, first:last].any()
            assert not ink[lower - edge : lower, first:last].any()
            assert not ink[upper:lower, first : first + edge].any()
            assert not ink[upper:lower, last - edge : last].any()


def test_the_number_to_type_is_whole_when_it_takes_two_lines() -> None:
    number = "2019/HALE/TOM-LUG-BATCH-0007"
    said = words(labels_pdf([Label(head="lug", number=number, link=LINK.format(1))]))
    assert number in re.sub(r"\s|\u200b", "", said)


def test_texts_that_people_typed_are_data() -> None:
    assert '#panic("no")' in words(labels_pdf([Label(head=HOSTILE, lines=(HOSTILE,))]))


@pytest.mark.parametrize(("signs", "says"), [(400, "for its code"), (4000, "for any code")])
def test_a_link_too_long_for_a_phone_is_refused(signs: int, says: str) -> None:
    with pytest.raises(BadInput, match=f"too long {says}"):
        labels_pdf([Label(head="x", link=LINK.format("9" * signs))])


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"across": 0}, "no labels on it"),
        ({"wide_mm": 50.0}, "too narrow"),
        ({"high_mm": 20.0}, "too low"),
        ({"step_across_mm": 61.0}, "lie on each other"),
        ({"step_down_mm": 37.0}, "lie on each other"),
        ({"left_mm": -1.0}, "begin off the sheet"),
        ({"left_mm": 30.0}, "over the side"),
        ({"down": 8}, "over the foot"),
    ],
)
def test_a_sheet_that_cannot_be_is_refused(changes: dict[str, float], says: str) -> None:
    given = {name: getattr(GUMMED, name) for name in GUMMED.__dataclass_fields__}
    with pytest.raises(BadInput, match=says):
        LabelSheet(**{**given, **changes})
