"""Every code is listed, raised by one layout and not by its neighbour."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from counterhoop.errors import Grade
from counterhoop.scheme.findings import catalogue, look_over
from counterhoop.survey.crosscheck import readings_held
from counterhoop.survey.drum_survey import survey_drum

SRC = Path(__file__).parents[3] / "src" / "counterhoop"
LISTED = {entry.code: entry for entry in catalogue()}


def looked_over(made, rules):
    """Return all that is said of a layout, and of what was read of its drum.

    A list holds what was said already, of what is no layout.
    """
    if isinstance(made, list):
        return made
    layout, others = made if isinstance(made, tuple) else (made, ())
    said = look_over(layout, rules=rules, others=others).findings
    return (*said, *readings_held(layout.drum, survey_drum(layout.drum), rules=rules))


def test_codes_are_written_alike_and_listed_once():
    codes = [entry.code for entry in catalogue()]
    assert len(codes) == len(set(codes))
    assert [code for code in codes if not re.fullmatch(r"[a-z]+(-[a-z]+)*", code)] == []


def test_every_listed_code_has_its_two_layouts(codes):
    assert set(codes.CODES) == set(LISTED)


@pytest.mark.parametrize("code", LISTED)
def test_a_code_is_raised_and_its_sentence_is_one(code, codes, rules):
    found = [f for f in looked_over(codes.CODES[code][0](), rules) if f.code == code]
    assert found
    for finding in found:
        assert finding.grade in LISTED[code].grades
        assert finding.says.endswith(".")
        assert finding.says[0] == finding.says[0].upper()
        assert len(finding.says) > 30
        assert not re.search(r"\d\.\d\d", finding.says)
        assert finding.where


@pytest.mark.parametrize("code", LISTED)
def test_a_code_stays_silent_next_door(code, codes, rules):
    found = looked_over(codes.CODES[code][1](), rules)
    assert [f.says for f in found if f.code == code] == []


def test_no_layout_of_the_tests_raises_a_code_that_is_not_listed(codes, rules):
    for makers in codes.CODES.values():
        for make in makers:
            for finding in looked_over(make(), rules):
                assert finding.code in LISTED, finding
                assert finding.grade in LISTED[finding.code].grades, finding


def test_every_code_in_the_source_is_listed():
    written = set()
    for file in (*SRC.glob("scheme/findings/*.py"), *SRC.glob("survey/*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                written.add(node.value)
    built = {f"hole-near-{k}" for k in ("ring-joint", "ply-seam", "crack", "lifted-ply")}
    built |= {"shadow-shows", "imprint-shows"}
    assert set(LISTED) - built <= written


def test_findings_come_gravest_first(layouts, rules):
    made = layouts.second_head(edges=(layouts.t.surveyed_end(surveyed=False),))
    grades = [f.grade for f in look_over(made, rules=rules).findings]
    assert grades == sorted(grades, reverse=True)
    assert Grade.STOP in grades
    assert Grade.NOTE in grades or Grade.TAKE_CARE in grades
