"""Documents: the same bytes again, actual size, tagged, data never read as source."""

from __future__ import annotations

import io

import pypdfium2 as pdfium
import pytest
from example_shells import scheme_of, small_tom
from pdf_paths import page_words
from pypdf import PdfReader

from counterhoop.errors import CannotDo
from counterhoop.papers.check_sheet import check_sheet_pdf
from counterhoop.papers.job_facts import JobFacts
from counterhoop.papers.template import template_pdf
from counterhoop.papers.typst.set import _told, _written_again, set_pdf

NASTY = '#import "x.typ": * $ \\ #panic("pasted") <a> @b "quoted" [open'


def pdf_of(**facts: str) -> bytes:
    return template_pdf(scheme_of(small_tom()), JobFacts(job="17", **facts))


@pytest.mark.parametrize("pdf", [pdf_of(), check_sheet_pdf()], ids=["template", "check sheet"])
def test_print_dialogues_leave_the_size_alone_and_tags_are_kept(pdf: bytes) -> None:
    """ISO 32000-1, table 150 (viewer preferences) and 14.8 (tagged PDF)."""
    reader = PdfReader(io.BytesIO(pdf))
    root = reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert root["/Lang"] == "en"
    assert b"pdfuaid" in root["/Metadata"].get_data()


def test_the_same_input_gives_the_same_bytes() -> None:
    assert pdf_of(drum="small tom") == pdf_of(drum="small tom")
    assert pdf_of(drum="small tom") != pdf_of(drum="large tom")


def test_no_font_of_the_machine_is_used() -> None:
    fonts = set()
    for page in PdfReader(io.BytesIO(pdf_of())).pages:
        for font in page["/Resources"].get("/Font", {}).values():
            fonts.add(str(font.get_object()["/BaseFont"]).split("+")[-1])
    assert fonts
    assert all(name.startswith("Inter") for name in fonts), fonts


def test_what_people_type_is_data() -> None:
    words = page_words(pdfium.PdfDocument(io.BytesIO(pdf_of(drum=NASTY)))[0])
    assert '$\\#panic("pasted")<a>@b"quoted"[open' in words


def test_a_template_that_does_not_exist_is_said_plainly() -> None:
    with pytest.raises(CannotDo, match="no_such_paper"):
        set_pdf("no_such_paper", {}, title="x")


def test_every_picture_has_words() -> None:
    reader = PdfReader(io.BytesIO(pdf_of()))
    found = []

    def walk(item: object) -> None:
        node = item.get_object() if hasattr(item, "get_object") else item
        if isinstance(node, list):
            for kid in node:
                walk(kid)
        elif isinstance(node, dict):
            if node.get("/S") == "/Figure":
                found.append(str(node.get("/Alt", "")))
            if "/K" in node:
                walk(node["/K"])

    walk(reader.trailer["/Root"]["/StructTreeRoot"])
    assert len(found) >= 6
    assert all(len(words) > 20 for words in found)


def test_the_print_dialogue_is_told_in_place_and_nothing_else_moves() -> None:
    """ISO 32000-1, 7.5.4, 7.5.5 and table 150: the catalogue grows, the table after it moves."""
    drum = "endstream /ViewerPreferences<</Direction/L2R>> trailer"
    made = pdf_of(drum=drum)
    assert made.count(b"/PrintScaling/None") == 1  # written in place, not over again
    reader, again = (
        PdfReader(io.BytesIO(pdf), strict=True) for pdf in (made, _written_again(made))
    )
    for one in (reader, again):
        preferences = one.trailer["/Root"]["/ViewerPreferences"]
        assert preferences["/PrintScaling"] == "/None"
        assert preferences["/DisplayDocTitle"]
        assert one.metadata is not None
        assert drum in str(one.metadata.title)
    texts = [[page.extract_text() for page in one.pages] for one in (reader, again)]
    assert texts[0] == texts[1]


@pytest.mark.parametrize("spoilt", [b"\nstartxref\n1", b"/Type/Katalog"])
def test_a_file_built_otherwise_is_not_told_in_place(spoilt: bytes) -> None:
    made = pdf_of().replace(b"/PrintScaling/None", b"")
    old = b"/Type/Catalog" if b"Katalog" in spoilt else b"\nstartxref\n"
    assert _told(made.replace(old, spoilt)) is None
