"""The tuning sheet says what the plan says, and where to write what was heard."""

from __future__ import annotations

import io
import re

import pypdfium2 as pdfium
import pytest
from documents import pages, words
from example_jobs import job_of
from example_tuning import EIGHTS, drums, kit
from pypdf import PdfReader
from test_labels import texts_that_overlap

from counterhoop.heads.turns import in_turns, turn_order
from counterhoop.papers.drawing.records import Text
from counterhoop.papers.order_strip import draw_order, ordinal
from counterhoop.papers.tuning_sheet import order_strips, tuning_sheet_pdf
from counterhoop.quantities.pitch import parse_pitch
from counterhoop.quantities.print_pitch import cents, print_note


@pytest.fixture(scope="module")
def pdf() -> bytes:
    return tuning_sheet_pdf(job_of(), drums(), says=kit().says)


def without_spaces(text: str) -> str:
    return re.sub(r"[\s\u00a0\u2060]+", "", text)


def test_every_figure_of_the_plan_is_on_the_sheet(pdf: bytes) -> None:
    """Computed values, read back from the text of the PDF by another reader than it was set by."""
    raw = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    said = without_spaces(raw)  # that reader sets a space after a fraction's bar
    wanted = list(kit().says)
    for drum in kit().drums:
        wanted.append(print_note(drum.middle_hz))
        for head in drum.heads:
            force, torque, start = head.force, head.torque, head.start
            wanted += [print_note(head.rim_hz), f"{round(force.n / 10.0) * 10} N"]
            wanted.append(f"{round(force.most_n / 10.0) * 10} N in turning")
            if torque is not None:
                low = round(torque.force_low_n / 10.0) * 10
                wanted += [f"{torque.nm:.1f} N m", f"pulls {low} to "]
            if start is not None:
                wanted.append(in_turns(start.turns))
    wanted += ["No plan. Calf: by ear.", "Your limit: 700 N on a rod."]
    assert [one for one in wanted if without_spaces(one) not in said] == []
    assert without_spaces("Your limit: 710 N on a rod.") not in said


def test_printed_notes_are_the_plans_pitches_to_what_the_ear_tells(pdf: bytes) -> None:
    """Exact law: a note read back is within half its printed step of what was planned."""
    said = words(pdf)
    found = re.findall(r"\b[A-G][#b]?[0-9](?: [+-][0-9]{1,2} cents)?", said)
    heard = [parse_pitch(note).hz for note in found]
    for drum in kit().drums:
        for hz in (drum.middle_hz, *(head.rim_hz for head in drum.heads)):
            assert min(abs(cents(hz, above_hz=other)) for other in heard) <= 2.5 + 1e-6


def test_a_head_without_a_thread_is_tuned_by_ear(pdf: bytes) -> None:
    (open_tom,) = (drum for drum in kit().drums if drum.name == "open tom")
    assert open_tom.batter.start is None
    assert open_tom.batter.torque is None
    assert "by ear" in words(pdf)


def test_how_far_each_figure_was_checked_is_said(pdf: bytes) -> None:
    said = words(pdf)
    assert "Open tom: computed, no published check." in said
    assert "Small tom: computed, checked against a published value." in said


def test_what_was_assumed_is_said_once_with_its_drums(pdf: bytes) -> None:
    said = words(pdf)
    assert said.count("The edge is taken as it is drawn (open tom).") == 1
    assert "one ply of 10 mil film, assumed" in said


def test_each_head_has_a_box_for_what_was_heard() -> None:
    """Boxes are drawn as empty frames: the plainest way to count them is to look."""
    both = tuning_sheet_pdf(job_of(), drums()[:2])
    one = tuning_sheet_pdf(job_of(), drums()[:1])

    def boxes(pdf: bytes) -> int:
        count = 0
        for page in pdfium.PdfDocument(pdf):
            for found in page.get_objects(filter=[pdfium.raw.FPDF_PAGEOBJ_PATH]):
                left, bottom, right, top = found.get_bounds()
                wide, high = ((right - left) / 72.0 * 25.4, (top - bottom) / 72.0 * 25.4)
                count += abs(wide - 20.3) < 0.5 and abs(high - 7.3) < 0.5
        return count

    # One for the drum, one for each head.
    assert boxes(one) == 2
    assert boxes(both) == 2 + 3


def test_rods_of_both_heads_stand_on_strips_of_their_own_where_they_differ() -> None:
    strips = order_strips(drums(), wide_mm=186.0)
    assert [len(strip) for strip in strips] == [1, 2, 0]


@pytest.mark.parametrize("rods", [EIGHTS, tuple((n + 1, 7.0 + n * 36.0) for n in range(10))])
def test_the_order_stands_under_its_rods(rods: tuple[tuple[int, float], ...]) -> None:
    order = turn_order(len(rods))
    drawing = draw_order(rods, order)
    texts = [s for s in drawing.strokes if isinstance(s, Text)]
    for place, rod in enumerate(order, 1):
        (number,) = (s for s in texts if s.ident == f"order-rod-{rod}")
        (turn,) = (s for s in texts if s.text == ordinal(place))
        assert turn.x_mm == number.x_mm
        assert turn.y_mm > number.y_mm
    assert texts_that_overlap(drawing) == []
    assert ", ".join(str(rod) for rod in order) in drawing.says


def test_a_kit_of_two_takes_one_sheet_and_nothing_runs_over_its_margins(pdf: bytes) -> None:
    assert len(pages(pdf)) == 1
    for page in pdfium.PdfDocument(pdf):
        grey = page.render(scale=1.0).to_numpy()[:, :, 0]
        ink = (grey < 200).nonzero()
        assert min(ink[1]) >= 11.0 / 25.4 * 72.0
        assert max(ink[1]) <= grey.shape[1] - 11.0 / 25.4 * 72.0


def test_on_letter_it_is_as_wide_as_letter() -> None:
    first = pdfium.PdfDocument(tuning_sheet_pdf(job_of(), drums(), paper="Letter"))[0]
    assert first.get_size() == pytest.approx((612.0, 792.0), abs=0.2)
