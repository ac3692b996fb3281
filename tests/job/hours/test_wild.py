"""A time out of all proportion is asked about; common practice, no source, for the factor three."""

from __future__ import annotations

from dataclasses import replace

import pytest
from workings import of, workings

from counterhoop.job.hours.belief import believed
from counterhoop.job.hours.wild import Wild, asked_about

DRILL = of("drill a hole")


def asked(minutes: float, *, count: int = 1, name: str = "drill a hole") -> Wild | None:
    operation = of(name)
    (one,) = workings(operation, [minutes])
    belief = believed(operation, ())
    return asked_about(replace(one, count=count), operation=operation, belief=belief)


@pytest.mark.parametrize(
    ("minutes", "count", "name", "asks"),
    [
        (20.0, 1, "drill a hole",
         "20 min for one hole, where 6 min is usual: was that one hole or three?"),
        (90.0, 2, "drill a hole",
         "1 h 30 min for two holes, where 12 min is usual: was that two holes or 15?"),
        (6.0, 9, "drill a hole",
         "6 min for nine holes, where 54 min is usual: was that nine holes or one?"),
        (0.7, 1, "drill a hole",
         "less than a minute for one hole, where 6 min is usual: was it picked up late?"),
        (3.0, 4, "drill a hole",
         "3 min for four holes, where 24 min is usual: were all of them done?"),
        (250.0, 3, "glue a lifted ply",
         "4 h 10 min for three patches, where 1 h 15 min is usual: was that three patches or ten?"),
        (100.0, 1, "tune a drum",
         "1 h 40 min for one drum, where 25 min is usual: was that one drum or four?"),
    ],
)  # fmt: skip
def test_the_question_names_what_may_have_been_meant(
    minutes: float, count: int, name: str, asks: str
) -> None:
    found = asked(minutes, count=count, name=name)
    assert found is not None
    assert found.asks == asks


@pytest.mark.parametrize("minutes", [2.01, 6.0, 17.99])
def test_up_to_three_times_too_long_or_short_nothing_is_asked(minutes: float) -> None:
    assert asked(minutes) is None


@pytest.mark.parametrize("minutes", [1.99, 18.01])
def test_beyond_it_something_is(minutes: float) -> None:
    assert asked(minutes) is not None


def test_what_is_usual_is_what_the_log_has_taught() -> None:
    slow = believed(DRILL, workings(DRILL, [15.0] * 20))
    (one,) = workings(DRILL, [20.0])
    assert asked_about(one, operation=DRILL, belief=slow) is None
    assert asked(20.0) is not None


def test_an_answer_ends_the_asking() -> None:
    (one,) = workings(DRILL, [60.0], answered=True)
    assert asked_about(one, operation=DRILL, belief=believed(DRILL, ())) is None


def test_what_was_finished_within_moments_is_asked_how_long_it_was() -> None:
    """Less than a tenth of 6 minutes: a yes is no answer to it."""
    found = asked(0.5)
    assert found is not None
    assert found.how_long
    assert found.asks == "less than a minute for one hole, where 6 min is usual: how long was it?"
    slower = asked(1.0)
    assert slower is not None
    assert not slower.how_long


def test_work_set_to_nothing_is_never_asked_about() -> None:
    none = replace(DRILL, quick_minutes=0.0, minutes=0.0, slow_minutes=0.0, own=True)
    (one,) = workings(none, [60.0])
    assert asked_about(one, operation=none, belief=believed(none, ())) is None
