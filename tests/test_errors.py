"""Complaints are one line that says what, where, given, wanted and the next step."""

from __future__ import annotations

import dataclasses
import pickle

import pytest

from counterhoop.errors import BadInput, CannotDo, CounterhoopError, Finding, Grade


def test_all_five_parts_in_one_line() -> None:
    fault = BadInput(
        "no unit", where="depth", given="200", wanted='"200 mm"', step="Look at\nthe rule."
    )
    assert str(fault) == "depth: no unit: found '200', wanted \"200 mm\". Look at the rule."


@pytest.mark.parametrize(
    ("parts", "line"),
    [
        ({}, "no unit"),
        ({"where": "depth"}, "depth: no unit"),
        ({"wanted": '"200 mm"'}, 'no unit: wanted "200 mm"'),
        ({"step": "Measure again."}, "no unit. Measure again."),
        ({"given": 0}, "no unit: found 0"),
        ({"given": ""}, "no unit: found ''"),
    ],
)
def test_parts_that_are_missing_leave_no_trace(parts: dict[str, str], line: str) -> None:
    assert str(BadInput("no unit", **parts)) == line


def test_long_text_is_shortened_and_line_ends_vanish() -> None:
    line = str(BadInput("too long", given="x\n" * 5000, where="notes"))
    assert len(line) < 120
    assert "\n" not in line
    assert "..." in line


def test_the_place_grows_outwards() -> None:
    fault = BadInput("no unit", where="depth", given="200", wanted="w", step="s").at("drums.tom")
    assert fault.where == "drums.tom.depth"
    assert (fault.what, fault.given, fault.wanted, fault.step) == ("no unit", "200", "w", "s")
    assert str(BadInput("no unit").at("drums")) == "drums: no unit"


def test_one_root_and_the_builtin_kind() -> None:
    assert issubclass(BadInput, CounterhoopError)
    assert issubclass(BadInput, ValueError)
    assert issubclass(CannotDo, CounterhoopError)
    assert issubclass(CannotDo, RuntimeError)


def test_a_complaint_survives_the_way_to_another_process() -> None:
    """CP-SAT runs in a process of its own; what it complains of must come back whole."""
    fault = BadInput("no unit", where="depth", given="200", wanted='"200 mm"', step="Measure.")
    back = pickle.loads(pickle.dumps(fault))
    assert str(back) == str(fault)
    assert back.where == "depth"


def test_grades_are_ordered_and_have_words() -> None:
    assert Grade.STOP > Grade.TAKE_CARE > Grade.NOTE
    assert [grade.words for grade in Grade] == ["note", "take care", "stop"]


def test_a_finding_is_frozen() -> None:
    finding = Finding(code="web-thin", grade=Grade.STOP, says="Holes 7 and 8 leave 0.8 mm.")
    with pytest.raises(dataclasses.FrozenInstanceError):
        finding.says = "nothing"
    assert finding.holes == ()
