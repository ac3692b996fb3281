"""The blank survey sheet: the file's own names, room for a pencil, the right way round."""

from __future__ import annotations

import io
import itertools
import json
import re
import xml.etree.ElementTree as ET
from importlib.resources import files

import pypdfium2 as pdfium
import pytest
from documents import pages, words
from pdf_paths import page_paths
from pypdf import PdfReader
from test_labels import texts_that_overlap, words_on_lines

from counterhoop.development.cylinder import on_cylinder
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface
from counterhoop.papers.blank_survey import SHELL_DEEP_MM, STATIONS, blank_survey_pdf
from counterhoop.papers.drawing.blank_shell import LUG_COUNTS, draw_blank_shell
from counterhoop.papers.drawing.records import Layer, Text
from counterhoop.papers.drawing.stations_round import RADIUS_MM, draw_stations_round
from counterhoop.papers.svg import to_svg
from counterhoop.shell.readings import CUTS
from counterhoop.shell.survey_file.schema import json_schema

TEMPLATE = (files("counterhoop.papers.typst") / "templates" / "blank_survey.typ").read_text()
SVG = "{http://www.w3.org/2000/svg}"


def names_on_the_sheet() -> set[str]:
    """Every name that the template sets small and grey beside a heading."""
    asked = re.findall(r'(?:ask|column|named|section)\("[^"]*", "([^"]*)"', TEMPLATE)
    asked += re.findall(r'\(\[[^\]]*\], "([^"]*)"\)', TEMPLATE)
    words_of = " ".join(text.split(";")[0] for text in asked)
    return {word for word in re.findall(r"[a-z_]+", words_of) if word not in ("drums", "name")}


def names_in_the_file() -> set[str]:
    """Every name that the schema of the survey file knows, at any depth."""
    found: set[str] = set()

    def walk(node: object) -> None:
        if isinstance(node, dict):
            found.update(node.get("properties", {}))
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for value in node:
                walk(value)

    walk(json.loads(json.dumps(json_schema())))
    return found


def test_every_name_on_the_sheet_is_one_of_the_survey_file() -> None:
    assert len(names_on_the_sheet()) > 60
    assert names_on_the_sheet() - names_in_the_file() == set()


def test_what_a_drum_needs_is_asked_for() -> None:
    asked = names_on_the_sheet()
    for name in (
        "circumference", "depth", "wall", "lugs", "first", "near", "hole", "gaps", "dial", "zero",
        "across", "collar", "rim", "hoop", "cut", "apex", "outside", "over", "threads", "pitch",
        "flanks", "temperature", "humidity", "wood", "true_batter", "true_resonant", "flat",
    ):  # fmt: skip
        assert name in asked, name
    assert all(cut in words(blank_survey_pdf()) for cut in CUTS)


@pytest.mark.parametrize(("paper", "wide"), [("A4", 297.0), ("Letter", 279.4)])
def test_it_is_four_tagged_sheets_at_actual_size(paper: str, wide: float) -> None:
    """ISO 14289-1 (PDF/UA-1), ISO 32000-1 table 150, ISO 216."""
    pdf = blank_survey_pdf(paper=paper)
    reader = PdfReader(io.BytesIO(pdf))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert b"pdfuaid" in reader.trailer["/Root"]["/Metadata"].get_data()
    assert len(reader.pages) == 4
    assert float(reader.pages[0].mediabox.width) * 25.4 / 72 == pytest.approx(wide, abs=0.1)
    for page in pdfium.PdfDocument(pdf):
        ink = page.render(scale=1.0).to_numpy()[:, :, 0] < 128
        margin = int(8.0 * 72 / 25.4)
        assert not (ink[:, :margin].any())
        assert not (ink[:, -margin:].any())
        assert not (ink[:margin].any())
        assert not (ink[-margin:].any())


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_rows_have_room_for_a_pencil(paper: str) -> None:
    """Empty rows are 8 mm and more from rule to rule, boxes that hold a word 12 (common practice,
    no source). Read off the PDF, down a line that crosses every table of a sheet."""
    wanted = ((12.4, 9), (9.5, 2), (9.0, 13), (8.4, 10))  # height, how many of them
    document = pdfium.PdfDocument(blank_survey_pdf(paper=paper))
    for page, (high, count) in zip(document, wanted, strict=True):
        cross = page.get_width() * 25.4 / 72 * 0.6
        rules = {
            round(float(path.middle[1]), 2)
            for path in page_paths(page)
            if path.size[1] < 0.4 and path.box[0] < cross < path.box[2]
        }
        gaps = [round(b - a, 1) for a, b in itertools.pairwise(sorted(rules))]
        assert gaps.count(high) == count, gaps


def test_the_station_table_is_a_grid_for_a_pencil() -> None:
    said = pages(blank_survey_pdf())[3]
    numbers = re.search(r"station\s+((?:\d+\s+[\d.]+°\s*)+)", said)
    assert numbers is not None
    pairs = re.findall(r"(\d+)\s+([\d.]+)°", numbers[1])
    assert [int(n) for n, _ in pairs] == list(range(1, STATIONS + 1))
    assert [float(deg) for _, deg in pairs] == [360.0 * i / STATIONS for i in range(STATIONS)]


def test_stations_run_as_along_runs_on_the_drum() -> None:
    """The picture from above against the shell in space: x to the datum, along anticlockwise.

    The datum points down the paper, so that the drum's x is the paper's down and its y the
    paper's right; a picture turned over would put station 5 at the left.
    """
    svg = ET.fromstring(to_svg(draw_stations_round(STATIONS)))
    seen = {
        item.get("id", ""): (float(item.get("x", "")), float(item.get("y", "")))
        for item in svg.iter(f"{SVG}text")
    }
    skin = Surface(skin=Skin.BARE, circumference_mm=6.283185307 * RADIUS_MM)
    for number in range(1, STATIONS + 1):
        along = 360.0 * (number - 1) / STATIONS
        down, right, _ = on_cylinder(Place(along, 0.0), surface=skin, depth_mm=100.0, out_mm=4.4)
        x, y = seen[f"station-{number}"]
        assert (x, y) == (pytest.approx(right, abs=1e-3), pytest.approx(down, abs=1.4))
    assert seen["station-5"][0] > 0.0 > seen["station-13"][0]


def test_the_empty_shell_has_its_lugs_where_they_fall() -> None:
    """Lug 2 of 8 stands 45 degrees along, an eighth of the way from datum to datum."""
    drawing = draw_blank_shell(wide_mm=273.0, deep_mm=SHELL_DEEP_MM)
    texts = [s for s in drawing.strokes if isinstance(s, Text)]
    round_mm = next(s.x1_mm for s in drawing.strokes if getattr(s, "ident", "") == "datum-after")
    for count in LUG_COUNTS:
        head = next(s for s in texts if s.text == f"{count} lugs")
        row = sorted(
            (s for s in texts if s.y_mm == head.y_mm and s is not head), key=lambda s: s.x_mm
        )
        assert [s.text for s in row] == [str(n % count + 1) for n in range(count + 1)]
        assert [s.x_mm for s in row] == pytest.approx(
            [n * round_mm / count for n in range(count + 1)]
        )


def test_words_on_the_blank_pictures_stand_on_nothing() -> None:
    for picture in (
        draw_blank_shell(wide_mm=273.0, deep_mm=SHELL_DEEP_MM), draw_stations_round(STATIONS),
    ):  # fmt: skip
        assert texts_that_overlap(picture) == []
        assert words_on_lines(picture, layers={Layer.NUMBER, Layer.NOTE}) == []


def test_each_sheet_says_whose_it_is() -> None:
    document = pdfium.PdfDocument(blank_survey_pdf())
    for page in document:
        said = page.get_textpage().get_text_bounded()
        assert re.search(r"job _+ · drum _+", said)
