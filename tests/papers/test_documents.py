"""Hole list, bench sheet, scheme sheet and kit sheet as PDF: what they say, and that they hold."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pypdfium2 as pdfium
import pytest
from documents import DRILLS, PAPERS, made, pages, words
from example_jobs import full_scheme, job_of, kit_of_three, many_holes
from readable_pdf import need_readable

from counterhoop.development.shape import Round
from counterhoop.errors import Grade
from counterhoop.papers.bench_sheet import bench_sheet_pdf, put_right
from counterhoop.papers.client_words import can_be_undone
from counterhoop.papers.hole_list import count_line, hole_list_pdf, hole_rows
from counterhoop.papers.kit_sheet import kit_sheet_pdf
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Material
from counterhoop.shell.hole import Hole

YES = "by A. Player on 5 March 2026, signed at the bench"
HOSTILE = '#import "x.typ": * $a^2$ \\ #panic("no") <l> @ref "q" \'s\' [open *b* _i_ `c` // /*'
STRANGE = "Łódź 鼓 \U0001f941 \x07 \u200d ß"


@pytest.mark.parametrize("name", PAPERS)
def test_papers_are_tagged_titled_and_print_at_actual_size(name: str) -> None:
    need_readable(made(name))
    assert "17" in words(made(name))


@pytest.mark.parametrize("name", PAPERS)
def test_the_same_input_gives_the_same_bytes(name: str) -> None:
    first = made(name)
    assert first == PAPERS[name](job_of(), full_scheme())
    assert first != PAPERS[name](job_of(client="Somebody Else"), full_scheme())


@pytest.mark.parametrize("name", PAPERS)
def test_only_papers_that_tell_to_drill_say_draft_and_only_until_approved(name: str) -> None:
    drafted, approved = made(name), made(name, YES)
    assert ("DRAFT: not approved. Do not drill by this paper." in words(drafted)) is (
        name in DRILLS
    )
    assert "DRAFT" not in words(approved)
    # The mark behind the page is an artifact that no reader speaks: seen as grey on every sheet.
    for pdf, there in ((drafted, name in DRILLS), (approved, False)):
        for page in pdfium.PdfDocument(pdf):
            grey = page.render(scale=0.5).to_numpy()[:, :, 0]
            shares = np.bincount(grey.ravel(), minlength=256)[150:250] / grey.size
            assert bool(shares.max() > 0.025) is there
    if name in DRILLS:
        assert "by A. Player on 5 March 2026, signed at the bench" in words(approved)


@pytest.mark.parametrize("text", [HOSTILE, STRANGE], ids=["source", "signs without a picture"])
@pytest.mark.parametrize("name", PAPERS)
def test_texts_that_people_typed_are_data(name: str, text: str) -> None:
    job = job_of(client=text, measured_by=text)
    scheme = full_scheme(key=text)
    scheme = replace(scheme, drum=text, title=text)
    pdf = PAPERS[name](job, scheme)
    said = words(pdf)
    if text == HOSTILE:
        assert '#panic("no")' in said
        assert "*b* _i_ `c`" in said
    else:
        assert "Łódź □ □" in said
        assert "ß" in said


def test_the_hole_list_has_every_hole_with_its_verdict() -> None:
    scheme = full_scheme()
    said = words(hole_list_pdf(job_of(), scheme))
    rows = hole_rows(job_of(), scheme)
    assert sorted(row["number"] for row in rows) == list(range(1, 32))
    for row in rows:
        line = f"{row['number']} {row['deg']} {row['along'][0]} {row['batter'][0]} "
        assert line in said, line
        assert row["verdict"] in said
    assert count_line(scheme) in said
    assert count_line(scheme) == (
        "31 holes: 4 keep, 1 enlarge, 1 slot, 13 plug, 5 drill, 5 plug and drill, 1 leave open"
        " and 1 plugged already."
    )


def test_a_vent_that_stays_is_no_former_vent() -> None:
    scheme = full_scheme()
    vent = next(p for p in scheme.layout.holes if p.verdict is Verdict.LEAVE_OPEN)
    hole = Hole(number=vent.number, place=vent.place, shape=Round(12.7), purpose="vent")
    for verdict, word in ((Verdict.LEAVE_OPEN, "vent"), (Verdict.PLUG, "was vent")):
        plan = replace(vent, verdict=verdict, serves="")
        drum = replace(scheme.layout.drum, holes=(hole,))
        rows = hole_rows(
            job_of(), replace(scheme, layout=replace(scheme.layout, drum=drum, holes=(plan,)))
        )
        assert [row["serves"] for row in rows] == [word]


def test_the_hole_list_goes_along_and_then_down() -> None:
    rows = hole_rows(job_of(), full_scheme())
    places = [(float(row["deg"]), float(row["batter"][0])) for row in rows]
    assert places == sorted(places)
    # Lug 1 at 2 degrees is one group of four; the bracket's two pairs are two more.
    assert [row["number"] for row in rows if row["group"]][:3] == [1, 21, 23]


def test_heights_from_both_edges_add_up_to_the_depth() -> None:
    """By the definition of down; a tape shows both to 0.5 mm, so their sum to 0.5 mm."""
    for row in hole_rows(job_of(), full_scheme()):
        assert float(row["batter"][0]) + float(row["resonant"][0]) == pytest.approx(178.0, abs=0.5)


def test_places_are_never_finer_than_a_tape_and_sizes_than_a_caliper() -> None:
    """Common practice, no source: a tape is read to 0.5 mm, a caliper on a drum to 0.1."""
    for row in hole_rows(job_of(), full_scheme()):
        for name in ("along", "batter", "resonant"):
            assert float(row[name][0]) * 2 == int(float(row[name][0]) * 2)
        assert re.fullmatch(r"(–|closed|[^.]*\d+\.\d\b[^.]*(\d+\.\d\b[^.]*)?)", row["now"][0])


def test_inches_stand_beside_millimetres_only_where_the_person_reads_inches() -> None:
    """Exact: 1 in = 25.4 mm (ISO 31-1, from memory); 38 mm is 1 1/2 in to the nearest 32nd."""
    rows = hole_rows(job_of(units="in"), full_scheme())
    assert rows[0]["batter"] == ("38", "1 1/2 in")
    assert rows[0]["now"] == ("6.0 dia", "15/64 in")
    assert not re.search(r"\d in\b", words(made("hole list")))
    assert "1 1/2 in" in words(hole_list_pdf(job_of(units="in"), full_scheme()))


def test_a_wider_plug_a_washer_and_a_shift_stand_in_the_notes() -> None:
    scheme = full_scheme()
    holes = list(scheme.layout.holes)
    place = holes[2].place
    moved = replace(place, down_mm=place.down_mm - 2.0)
    holes[2] = replace(holes[2], plug_mm=16.0, plug_place=moved, covered=True)
    holes[25] = replace(holes[25], backing_washer_mm=18.0)
    scheme = replace(scheme, layout=replace(scheme.layout, holes=tuple(holes)))
    rows = {row["number"]: row for row in hole_rows(job_of(), scheme)}
    notes = {number: row["notes"] for number, row in rows.items()}
    assert notes[3] == ["plug wider than the hole", "plug's middle 2.0 mm up"]
    assert rows[3]["after"] == ("plug 16.0 dia", "")
    assert notes[26] == ["washer inside, 18.0 dia or more"]
    assert notes[27] == ["opening's middle 1.5 mm to the right of the old one's"]
    assert notes[2] == ["first plug hole 3"]
    assert notes[1] == ["bare plug"]


@pytest.mark.parametrize("paper", ["A4", "Letter", "roll"])
def test_a_long_list_runs_over_sheets_with_its_header_on_each(paper: str) -> None:
    pdf = hole_list_pdf(job_of(), many_holes(68), paper=paper)
    sheets = pages(pdf)
    assert 4 <= len(sheets) <= 6
    for number, sheet in enumerate(sheets, 1):
        assert "from batter" in re.sub(r"\s+", " ", sheet)
        assert f"sheet {number} of {len(sheets)}" in sheet
    said = words(pdf)
    assert all(f" {number} " in said for number in range(1, 69))
    wide = {"A4": 297.0, "Letter": 279.4, "roll": 297.0}[paper]  # ISO 216; 8.5 x 11 in
    assert pdfium.PdfDocument(pdf)[0].get_width() * 25.4 / 72 == pytest.approx(wide, abs=0.1)


@pytest.mark.parametrize("count", range(36, 52, 3))
def test_no_list_ends_with_a_line_or_two_on_a_sheet(count: int) -> None:
    sheets = pages(hole_list_pdf(job_of(), many_holes(count)))
    lines = re.findall(r"^\d+ +\d+\.\d ", sheets[-1], flags=re.MULTILINE)
    assert len(lines) >= 4, (len(sheets), len(lines))


def test_codes_are_set_as_words_and_not_in_columns() -> None:
    """The hyphen of a code is as wide as in running words (Inter's tabular one is as a figure)."""
    scheme = replace(full_scheme(), code="PXWM-P4QB")
    page = pdfium.PdfDocument(bench_sheet_pdf(job_of(), scheme))[0]
    text = page.get_textpage()
    at = text.get_text_range().index("PXWM")
    (_, _, left, _), (right, bottom, _, top) = (text.get_charbox(at + i) for i in (3, 5))
    gap = (right - left) / (top - bottom)
    assert 0.4 < gap < 0.85, gap  # 0.64 em would be 0.95 of a capital's height


def test_nothing_is_set_outside_the_margins() -> None:
    """Ordinary printers leave 5 mm or more free (common practice, no source)."""
    job = job_of(units="in", client="A client with a name that is as long as names may well be")
    for name, make in PAPERS.items():
        for page in pdfium.PdfDocument(make(job, full_scheme(approved=YES))):
            ink = page.render(scale=1.0).to_numpy()[:, :, 0] < 128
            margin = int(8.0 * 72 / 25.4)
            assert not ink[:, :margin].any(), name
            assert not ink[:, -margin:].any(), name
            assert not ink[:margin].any(), name
            assert not ink[-margin:].any(), name


def test_the_bench_sheet_lists_findings_in_full_the_gravest_first() -> None:
    scheme = full_scheme()
    said = words(bench_sheet_pdf(job_of(), scheme))
    at = []
    for finding in sorted(scheme.findings, key=lambda f: -f.grade):
        assert finding.says in said
        assert finding.remedy in said
        at.append(said.index(finding.says))
    assert at == sorted(at)
    assert "STOP" in said
    # What it means is said once above the list, however many of them there are.
    assert said.count("the limit lies within the doubt of the reading") == 1
    assert "Too close to call." in said
    assert "What has not been checked" in said


def test_what_was_noticed_before_is_not_said_twice() -> None:
    scheme = full_scheme()
    extra = replace(scheme.findings[0], code="girth-spread", says="The girths differ by 2.0 mm.")
    said = words(bench_sheet_pdf(job_of(), scheme, noticed=(scheme.findings[0], extra)))
    assert said.count(scheme.findings[0].says) == 1
    assert said.count(extra.says) == 1


def test_what_a_scheme_clears_is_said_to_be_put_right() -> None:
    scheme = full_scheme()
    now = scheme.findings[0]
    gone = replace(now, code="open-hole-shows", says="Hole 98 stays open.", where="hole 98")
    pdf = bench_sheet_pdf(job_of(), scheme, before=(now, gone))
    said = words(pdf)
    assert "As found, and put right by this scheme • Hole 98 stays open." in said
    assert said.count(now.says) == 1  # still there: a finding, and not put right
    assert "put right by" not in words(made("bench sheet"))


def test_what_is_still_so_at_two_places_is_not_put_right() -> None:
    scheme = full_scheme()
    one, two = (
        replace(
            scheme.findings[0], code="rod-length-unknown", where=f"{head} rods", holes=(),
            says=f"The length of the {head} rods cannot be worked out.",
        )
        for head in ("batter", "resonant")
    )  # fmt: skip
    assert put_right((one, two), replace(scheme, findings=(one, two))) == []
    assert put_right((one, two), replace(scheme, findings=(one,))) == [two.says]


def test_rods_parts_and_truing_stand_on_the_bench_sheet() -> None:
    said = words(made("bench sheet"))
    assert "58 mm to 66 mm Rod 60" in said
    assert "68 mm to 66 mm: no length does both" in said
    assert "Long tube 5 2 3 18.50 GBP" in said
    assert "Hoop 12, 5 ears 1 0 1 not known" in said
    # 0.8 + hypot(0.3, 0.1) = 1.12 and 0.8 - 0.32 = 0.48, at atan2(0.1, 0.3) = 18.4 degrees
    assert "Off the batter end: 1.1 mm at 18.4 degrees along, falling evenly to 0.5 mm" in said
    assert "Off the resonant end: 0.5 mm all round." in said


@pytest.mark.parametrize("material", [Material.METAL, Material.ACRYLIC, Material.FIBREGLASS])
def test_advice_for_wood_is_left_out_on_other_shells(material: Material) -> None:
    said = words(bench_sheet_pdf(job_of(), full_scheme(material=material)))
    assert f"This shell is {material}: advice on plugs, edges and glue is for wood" in said
    for wood in ("Face-grain", "Hardwood dust", "cut the profile", "match the grain", "clamp"):
        assert wood not in said
    assert "Plug 6.0 dia: holes 1, 3" in said
    assert "Face-grain" in words(made("bench sheet"))


def test_the_kit_sheet_says_the_choice_the_shopping_and_the_next_best() -> None:
    choice = kit_of_three()
    said = words(kit_sheet_pdf(job_of(), choice))
    listed = [sentence for sentence in choice.says if " wanted, " in sentence]
    assert listed  # the shopping list says them
    for sentence in choice.says:
        assert (sentence in said) is (sentence not in listed)
    for part in choice.chosen.parts:
        assert f"{part.name} {part.wanted} {part.in_stock}" in said
    for scheme in choice.schemes:
        assert scheme.code in said
    assert "The next best" in said
    assert choice.runner_up is not None


def test_grades_print_as_words() -> None:
    said = words(made("bench sheet"))
    assert all(word in said for word in ("take care", "note"))
    assert Grade.STOP.words == "stop"


def test_parts_that_only_move_are_not_said_to_stay_in_a_bag() -> None:
    scheme = full_scheme()
    fittings = tuple(
        replace(f, status="goes", label=f"old tube {n}") if f.label.startswith("batter") else f
        for n, f in enumerate(scheme.layout.fittings)
    )
    long = next(f for f in fittings if f.status == "new").fitting
    moved = tuple(replace(f, fitting=long) if f.status == "goes" else f for f in fittings)
    one_more = (*moved, replace(moved[1], label="old tube 99"))
    for all_of_them, said in ((fittings, "5 old tubes"), (moved, ""), (one_more, "1 x Long tube")):
        layout = replace(scheme.layout, fittings=all_of_them)
        sentences = can_be_undone(replace(scheme, layout=layout))
        bag = [s for s in sentences if "in a bag" in s]
        assert len(bag) == bool(said)
        assert not said or bag[0].endswith(f"in a bag: {said}.")
