"""The survey sheet says what was read, no finer than it was read, and what nobody read."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace

import pypdfium2 as pdfium
import pytest
from documents import words
from example_jobs import FINDINGS, job_of
from example_surveys import edge_read, surveyed
from pypdf import PdfReader

from counterhoop.development.place import Place
from counterhoop.papers.facts import Lengths
from counterhoop.papers.survey_sheet import survey_sheet_pdf
from counterhoop.papers.survey_words import (
    FEW_RADII,
    LOBES_HIDE,
    Places,
    circle_rows,
    depth_words,
    flat_words,
    girth_words,
    profile_words,
    round_words,
    thread_words_read,
)
from counterhoop.shell.drum import Circumference, Drum, Edge, PlacedFitting, Row
from counterhoop.shell.readings import ProfileRead, ThreadRead
from counterhoop.survey.drum_survey import survey_drum

SAY = Lengths()
LONG = "The long-forgotten marching snare with the painted flag of the Hallmere Silver Band"
HOSTILE = '#panic("no") $a^2$ \\ [open *b* _i_ `c` // /*'


def sheet(drum: Drum, **more: object) -> bytes:
    job = more.pop("job", job_of())
    return survey_sheet_pdf(job, drum, survey_drum(drum), **more)


def with_edge(drum: Drum, heights: tuple[float, ...]) -> Drum:
    """The drum with these heights of its batter edge."""
    read = replace(edge_read(len(heights)), value_mm=heights)
    batter = replace(drum.readings.batter, edge=read)
    return replace(drum, readings=replace(drum.readings, batter=batter))


def test_round_worked_by_hand() -> None:
    """357.5 - 355.0 = 2.5; the doubt of a difference of two readings to 0.1 is 2 sqrt(2) 0.1 /
    sqrt(12) = 0.08 (JCGM 100:2008, F.2.2.1), printed as the caliper's 0.1."""
    drum = surveyed(radii=False, across=(355.0, 356.0, 357.5, 356.1))
    said = round_words(drum, survey_drum(drum).batter, say=SAY)
    assert said == [
        "Largest 357.5 mm across, at 90° and 270°; smallest 355.0 mm, at 0° and 180°: out of "
        "round by 2.5 mm, give or take 0.1 mm.",
        LOBES_HIDE,
    ]
    even = surveyed(radii=False, across=(355.0, 355.0, 355.0))
    assert round_words(even, survey_drum(even).batter, say=SAY)[0] == (
        "355.0 mm across, the same wherever it was read, to 0.1 mm."
    )


def test_radii_say_the_shape_and_what_a_caliper_does_not_see() -> None:
    """The example is made of an oval of 0.8 mm high at 30 degrees and three lobes of 0.2 mm; odd
    lobes alone reach 0.4 mm from peak to valley."""
    drum = surveyed(count=24)
    said = " ".join(round_words(drum, survey_drum(drum).batter, say=SAY))
    assert (
        "Shape: oval, 0.80 mm out at 30° and 210°; three-lobed, 0.20 mm out at 0°, 120° and 240°."
        in said
    )
    # A dial's 0.01 is of differences: a size across is never finer than a caliper's 0.1.
    assert re.search(r"Largest \d+\.\d mm across", said)
    hidden = re.search(r"Odd lobes, which no caliper shows: (\d\.\d\d) mm", said)
    assert hidden is not None
    assert float(hidden[1]) == pytest.approx(0.40, abs=0.02)
    assert LOBES_HIDE not in said


def test_flat_worked_by_hand() -> None:
    """Gaps 0, 0.3, 0.4, 0.3 twice round: 0.4 mm from high to low and none of it a lean; the mean
    is 0.25 under the two high places, half a turn apart."""
    heights = (0.0, -0.3, -0.4, -0.3) * 2
    drum = with_edge(surveyed(), heights)
    said = flat_words(drum, survey_drum(drum).batter)
    assert said[0] == "Within 0.4 mm of flat, give or take 0.05 mm."
    assert said[-1] == (
        "Stands above the plane fitted to it at station 1, 0°, by 0.25 mm; station 5, 180°, by "
        "0.25 mm."
    )
    assert not any("Leans" in line for line in said)


def test_a_place_that_prints_as_0_does_not_stand_high() -> None:
    """0.06 at one of eight to 0.05: less 1/8 for the mean and 2/8 for the lean leaves 0.0375, which
    prints as 0.05; 0.03 leaves 0.019, which would print as 0."""
    for height, stands in ((0.06, True), (0.03, False)):
        drum = with_edge(surveyed(), (height, *(0.0,) * 7))
        said = " ".join(flat_words(drum, survey_drum(drum).batter))
        assert ("Stands above" in said) is stands


def test_a_screw_is_printed_no_finer_than_it_was_read() -> None:
    by_rule = ThreadRead(of="wing", outside_mm=6.35, outside_doubt_mm=0.5)
    assert thread_words_read(by_rule) == "wing: 6.5 mm over the crests"


def test_few_radii_say_nothing_of_odd_lobes() -> None:
    drum = surveyed(count=6)
    said = round_words(drum, survey_drum(drum).batter, say=SAY)
    assert said[-1] == FEW_RADII
    assert not any("Odd lobes" in line for line in said)


def test_readings_in_inches_print_no_long_decimals() -> None:
    drum = surveyed(radii=False, across=(355.203125, 354.409375, 355.6, 355.0))
    across = replace(drum.readings.batter.across, resolution_mm=25.4 / 64)
    batter = replace(drum.readings.batter, across=across)
    drum = replace(drum, readings=replace(drum.readings, batter=batter))
    said = " ".join(round_words(drum, survey_drum(drum).batter, say=Lengths("in")))
    assert not re.search(r"\.[0-9]{2}", said)
    assert "out of round by 1 mm, give or take 0.5 mm" in said


def test_a_lean_is_said_from_side_to_side() -> None:
    """Exact: 0.5 cos(along - 45) is 1 mm from 45 to 225 degrees, and flat."""
    heights = tuple(0.5 * math.cos(math.radians(22.5 * i - 45.0)) for i in range(16))
    drum = with_edge(surveyed(), heights)
    said = flat_words(drum, survey_drum(drum).batter)
    assert said == [
        "Within 0 mm of flat, give or take 0.05 mm.",
        "Leans 1 mm from side to side, highest at 45°.",
    ]


def test_a_place_at_a_lug_is_said_to_be_there() -> None:
    lugs = tuple(
        PlacedFitting(label=f"batter lug {n}", fitting="", place=Place(60.0 * n - 30.0, 40.0))
        for n in range(1, 7)
    )
    below = (PlacedFitting(label="resonant lug 1", fitting="", place=Place(90.0, 160.0)),)
    drum = replace(
        surveyed(),
        rows=(
            Row(head="batter", fitting="", lugs=lugs),
            Row(head="resonant", fitting="", lugs=below),
        ),
    )
    at = Places(drum)
    assert at(92.0) == "92° (batter lug 2)"
    assert Places(drum, "resonant")(92.0) == "92° (resonant lug 1)"
    assert Places(replace(drum, rows=drum.rows[:1]), "resonant")(92.0) == "92° (batter lug 2)"
    assert at(112.5) == "112.5°"
    assert at(359.9) == "0°"
    assert at.both(271.0) == "91° (batter lug 2) and 271° (batter lug 5)"


def test_what_was_not_read_is_said() -> None:
    drum = surveyed(edges=False, radii=False)
    said = words(sheet(drum))
    assert "Not read, and so not drawn: batter edge, round the batter end, resonant edge" in said
    assert said.count("Not read. Its girth alone makes it") == 2
    assert "Nothing was read round the batter end." in said
    # 957 / pi = 304.62, to a tape's 0.5
    assert "304.5 mm across on average" in said
    assert "Reference circles" not in said
    sawn = replace(drum, edges=(Edge(end="resonant", there=False),))
    assert flat_words(sawn, survey_drum(sawn).resonant) == ["No edge was ever cut here."]


def test_a_depth_that_swings_says_where_it_is_deepest() -> None:
    """0.6 cos + 0.8 sin swings by 1.0 to each side, most at atan2(0.8, 0.6) = 53.13 degrees."""
    drum = replace(surveyed(edges=False), depth_cos_mm=0.6, depth_sin_mm=0.8)
    assert "Deepest at 53°, 2 mm more than opposite." in depth_words(drum, say=SAY)
    # With edges read, heights count between planes: that depth stands beside what the rule said.
    between = replace(surveyed(), depth_mm=203.6, depth_readings_mm=(("one reading", 203.0),))
    assert depth_words(between, say=SAY) == [
        "203 mm, give or take 0.5 mm.",
        "From plate to plate, as heights are counted: 203.5 mm.",
    ]
    read = replace(surveyed(), depth_cos_mm=0.6, depth_sin_mm=0.8)
    said = depth_words(read, say=SAY)
    assert said[0].startswith("203 mm, give or take")
    assert said[-1] == "So counted deepest at 53°, 2 mm more than opposite."
    assert not any("Deepest" in line for line in depth_words(surveyed(), say=SAY))


def test_screws_and_cuts_are_said_as_read() -> None:
    read = ThreadRead(of="batter rods", outside_mm=5.44, over_mm=10.6, flanks_deg=60.0)
    assert thread_words_read(read) == (
        "batter rods: 5.44 mm over the crests, 10 threads over 10.6 mm, flanks 60 degrees"
    )
    gauge = ThreadRead(of="rods", outside_mm=4.9, over_mm=0.8, threads=1, by_gauge=True)
    assert thread_words_read(gauge) == "rods: 4.90 mm over the crests, pitch 0.80 mm by gauge"
    assert profile_words(ProfileRead(cut="single 45", apex_mm=1.5, inner_deg=45.0)) == [
        "Single 45, apex 1.5 mm from the outside, inner cut 45 degrees."
    ]


def test_the_sheet_says_the_day_the_hand_the_instruments_and_the_findings() -> None:
    drum = surveyed(across=(304.1, 306.2, 305.0, 303.0))
    said = words(sheet(drum, findings=FINDINGS, says=("It came without heads.",)))
    for part in (
        "measured by B. Maker on 4 March 2026", "18 °C, 55 % humidity. Wood: hard maple.",
        "diameters: 4 readings, caliper, to 0.1 mm", "radii: 16 readings, dial gauge, to 0.01 mm",
        "edge: 16 readings, feeler gauges on a flat plate, to 0.05 mm", "before truing",
        "the new head: collar 306.2 mm inside", "Read: batter 957 mm, resonant 958 mm.",
        "It came without heads.", "job 17",
    ):  # fmt: skip
        assert part in said, part
    for finding in FINDINGS:
        assert finding.says in said


def test_what_the_tape_showed_stands_beside_the_skin_under_it() -> None:
    """By hand: a tape 0.2 mm thick reads pi times 0.2 mm too long, so 952 is 951.37."""
    drum = surveyed(across=(304.1, 306.2, 305.0, 303.0))
    read = Circumference(
        skin=drum.circumference.skin, mean_mm=951.37, readings_mm=(("one reading", 951.37),),
        as_written=("952 mm",),
    )  # fmt: skip
    beside = "952 mm on the tape, 951.5 mm at the skin: half the tape's thickness is off all round."
    assert girth_words(replace(drum, circumference=read), say=Lengths("mm"))[1:] == [beside]
    exact = replace(read, mean_mm=952.0, readings_mm=(("one reading", 952.0),))
    assert girth_words(replace(drum, circumference=exact), say=Lengths("mm"))[1:] == []


def test_reference_circles_are_those_of_the_survey() -> None:
    survey = survey_drum(surveyed())
    assert survey.batter.roundness is not None
    rows = {row[0]: row[1:] for row in circle_rows(survey)}
    zone = survey.batter.roundness.minimum_zone
    assert rows["narrowest pair of circles (minimum zone)"][:2] == [
        f"{2 * zone.radius_mm:.1f} mm", f"{zone.total_mm:.2f} mm",
    ]  # fmt: skip
    # By their definition: none is narrower than the minimum zone, none larger than the outer one.
    off = [float(row[1].split()[0]) for row in rows.values()]
    assert off[0] == min(off)
    sizes = {name: float(row[0].split()[0]) for name, row in rows.items()}
    assert max(sizes, key=lambda name: sizes[name]) == "smallest circle round it"
    assert min(sizes, key=lambda name: sizes[name]) == "largest circle inside it"


def test_nothing_is_finer_than_its_instrument() -> None:
    """A caliper is read to 0.1, a feeler to 0.05, a rule to 0.5 (common practice, no source)."""
    drum = surveyed(radii=False, across=(304.13, 306.21, 305.07, 303.02))
    drum = replace(drum, depth_mm=203.37, readings=replace(drum.readings, threads=()))
    said = words(sheet(drum))
    for figure in re.findall(r"(\d+\.\d+) mm", said):
        assert (float(figure) * 20) == pytest.approx(round(float(figure) * 20)), figure
    assert not re.search(r"20\d\.[1-46-9]", said)
    assert "306.2 mm" in said


@pytest.mark.parametrize(("paper", "wide"), [("A4", 297.0), ("A3", 420.0), ("Letter", 279.4)])
def test_the_sheet_is_tagged_and_prints_at_actual_size(paper: str, wide: float) -> None:
    """ISO 14289-1 (PDF/UA-1), ISO 32000-1 table 150, ISO 216."""
    pdf = sheet(surveyed(), paper=paper)
    reader = PdfReader(io.BytesIO(pdf))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert b"pdfuaid" in reader.trailer["/Root"]["/Metadata"].get_data()
    assert len(reader.pages) == {"A4": 3, "A3": 2, "Letter": 3}[paper]
    assert float(reader.pages[0].mediabox.width) * 25.4 / 72 == pytest.approx(wide, abs=0.1)
    assert pdf == sheet(surveyed(), paper=paper)


def test_pictures_speak_their_readings() -> None:
    pdf = sheet(surveyed(count=8))
    said = "".join(
        str(thing.get("/Alt", ""))
        for thing in (o.get_object() for o in _objects(pdf))
        if isinstance(thing, dict)
    )
    assert "Batter edge, heights, from the plate: 0 degrees" in said
    assert "Resonant end, radii, from the mean circle: 0 degrees" in said


def _objects(pdf: bytes) -> list[object]:
    reader = PdfReader(io.BytesIO(pdf))
    return [reader.get_object(n) for n in range(1, int(reader.trailer["/Size"]))]


@pytest.mark.parametrize("text", [HOSTILE, "Łódź 鼓 \U0001f941 \x07"], ids=["source", "strange"])
def test_what_people_typed_is_data(text: str) -> None:
    job = job_of(client=text, measured_by=text)
    said = words(sheet(replace(surveyed(count=8), key=text), job=job))
    assert ('#panic("no")' if text == HOSTILE else "Łódź □ □") in said


def test_nothing_is_set_outside_the_margins() -> None:
    """Ordinary printers leave 5 mm or more free (common practice, no source)."""
    job = job_of(units="in", client=LONG)
    for drum in (
        surveyed(count=64, around_mm=1757.0, depth_mm=356.0, key=LONG),
        surveyed(around_mm=1276.0, depth_mm=406.0, key="floor tom"),
        surveyed(edges=False, radii=False, key=LONG),
    ):
        pdf = sheet(drum, job=job, findings=FINDINGS)
        assert len(pdfium.PdfDocument(pdf)) <= 4
        for page in pdfium.PdfDocument(pdf):
            ink = page.render(scale=1.0).to_numpy()[:, :, 0] < 128
            margin = int(8.0 * 72 / 25.4)
            assert ink.any()
            assert not ink[:, :margin].any()
            assert not ink[:, -margin:].any()
            assert not ink[:margin].any()
            assert not ink[-margin:].any()
