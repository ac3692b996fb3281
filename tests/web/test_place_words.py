"""Places of documents in the words of their forms."""

from __future__ import annotations

import pytest

from counterhoop.store.pointer import NOTHING
from counterhoop.web.place_words import place_words, value_words


@pytest.mark.parametrize(
    ("kind", "pointer", "words"),
    [
        ("survey", "/wall", "wall"),
        ("survey", "/rows/0/near/1", "row 1, edge to the near side of each hole 2"),
        ("survey", "/holes/3/near", "4th other hole, edge to its near side"),
        ("survey", "/fittings/1/holes/2/dia", "fitting 2, its holes, hole 3, diameter"),
        ("survey", "/edges/batter/gaps", "batter edge, feelers under the edge"),
        ("survey", "/circumference/batter", "circumference, batter"),
        ("survey", "/holes", "all of the holes"),
        ("wish", "/finish_plan/kind", "finish plan, what happens to the outside"),
        ("job", "/job/client", "job, client"),
        ("job", "/wraps/green ripple/length", "green ripple wrap, length of a new sheet"),
        ("survey", "/nonsense/3", "nonsense, 4"),
        ("nowhere", "/some_thing", "some thing"),
        ("survey", "", "the survey"),
    ],
)
def test_a_place_is_called_as_on_its_form(kind, pointer, words):
    """The labels are those of web/forms/tables/words.toml."""
    assert place_words(kind, pointer) == words


def test_every_difference_of_the_worked_job_has_words():
    """No place of a whole survey may come out as a pointer."""
    import tomllib
    from importlib.resources import files

    text = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_text("utf-8")
    for drum in tomllib.loads(text)["drums"].values():
        survey = {k: v for k, v in drum.items() if k not in ("wish", "finish_plan", "chosen")}
        for pointer in every_place(survey):
            said = place_words("survey", pointer)
            assert said
            assert "/" not in said
            assert "_" not in said


def every_place(body, way=""):
    """Return the pointer of every value in a body, however deep."""
    pairs = body.items() if isinstance(body, dict) else enumerate(body)
    for name, value in pairs:
        here = f"{way}/{name}"
        yield here
        if isinstance(value, dict | list):
            yield from every_place(value, here)


def test_values_are_shown_as_typed():
    assert value_words("5 1/2 in") == "5 1/2 in"
    assert value_words(NOTHING) == "nothing"
    assert value_words([{"near": "3 mm"}, {"near": "4 mm"}]) == "near: 3 mm · near: 4 mm"
    assert value_words("x" * 500).endswith("…")
