"""Papers of heads and tuning in the set: there where something is to show, with what was kept."""

from __future__ import annotations

import datetime as dt
import json
import math
from dataclasses import replace

import pypdfium2 as pdfium
import pytest
from small_kits import drum, planned

from counterhoop.bench.paper_list import listed_papers
from counterhoop.bench.paper_set import paper_set
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.tune.heard import Heard, StrokeHeard
from counterhoop.bench.tune.kept_reading import to_json
from counterhoop.bench.tune.kit_pitches import kit_pitches
from counterhoop.bench.tune.rods_at import RodAt
from counterhoop.listen.round_rim import RimReading, TapReading
from counterhoop.quantities.print_pitch import print_note
from counterhoop.shell.tuning import ReadingKept, Stage, Tuning

TUNING, TUNED = "tuning sheet.pdf", "1 tom/tuned sheet.pdf"


@pytest.fixture(scope="module")
def plan() -> JobPlan:
    return planned(drum("tom", girth=960.0, depth=200.0))


def heard(split: float) -> Heard:
    rods = tuple(RodAt(number=at + 1, along_deg=30.0 + 60.0 * at) for at in range(6))
    rim = RimReading(
        mean_hz=220.0, split_cents=split, split_doubt_cents=1.0, axis_deg=30.0, quality="good",
        axis_doubt_deg=2.0,
        taps=tuple(
            TapReading(
                rod=rod.number, along_deg=rod.along_deg, hz=220.0,
                cents=split / 2.0 * math.cos(2.0 * math.radians(rod.along_deg - 30.0)),
            )
            for rod in rods
        ),
    )  # fmt: skip
    strokes = tuple(
        StrokeHeard(number=n, starts_s=2.0 * n, ends_s=2.0 * n + 1.5, rod=n, hz=220.0)
        for n in range(1, 7)
    )
    return Heard(
        kind="round the rim", seconds=14.0, rate_hz=44_100, rods=rods, strokes=strokes, rim=rim
    )


def kept(number: int, stage: Stage, result: object) -> ReadingKept:
    return ReadingKept(
        number=str(number), when=dt.datetime(2026, 5, number, 10, 0), head="batter", stage=stage,
        muted=True, result_json=json.dumps(result),
    )  # fmt: skip


def with_readings(plan: JobPlan, *readings: ReadingKept) -> JobPlan:
    first = plan.drums[0]
    wanted = replace(first.wanted, tuning=Tuning(readings=readings))
    return replace(plan, drums=(replace(first, wanted=wanted), *plan.drums[1:]))


def words(pdf: bytes) -> str:
    text = " ".join(page.get_textpage().get_text_range() for page in pdfium.PdfDocument(pdf))
    return " ".join(text.replace("\ufffe", "-").split())


def test_the_tuned_sheet_is_there_only_once_a_reading_is_kept(plan: JobPlan) -> None:
    names = {one.name for one in listed_papers(plan)}
    assert TUNING in names
    assert TUNED not in names
    more = with_readings(plan, kept(2, "before", to_json(heard(30.0))))
    assert {one.name for one in listed_papers(more)} == names | {TUNED}


def test_the_tuning_sheet_has_the_pitches_of_the_plan(plan: JobPlan) -> None:
    said = words(paper_set(plan).made_one(TUNING))
    (one,) = kit_pitches(plan).drums
    assert one.planned is not None
    assert print_note(one.planned.middle_hz) in said
    for head in one.planned.heads:
        assert print_note(head.rim_hz) in said


def test_the_tuned_sheet_takes_the_last_reading_of_each_stage(plan: JobPlan) -> None:
    more = with_readings(
        plan,
        kept(4, "after", to_json(heard(5.0))),
        kept(2, "before", to_json(heard(30.0))),
        kept(3, "before", to_json(heard(26.0))),
    )
    said = words(paper_set(more).made_one(TUNED))
    assert "Before, 3 May 2026: A3 (220 Hz), round the rim 26 cents apart; 6 of 6" in said
    assert "After, 4 May 2026: A3 (220 Hz), round the rim 5 cents apart" in said
    assert "30 cents apart" not in said


def test_a_reading_that_somebody_broke_by_hand_keeps_no_other_off_the_sheet(plan: JobPlan) -> None:
    more = with_readings(
        plan,
        kept(2, "before", {"version": 99}),
        kept(3, "after", to_json(heard(5.0))),
    )
    said = words(paper_set(more).made_one(TUNED))
    assert "Before, 2 May 2026: nothing was read." in said
    assert "After, 3 May 2026: A3 (220 Hz)" in said
