"""The operations book, row by row: common practice, no source; only its sense can be checked."""

from __future__ import annotations

import math
import re

import pytest
from scipy import stats

from counterhoop.errors import BadInput
from counterhoop.shell.operations import Operation, default_figures, operations, operations_of
from counterhoop.shell.shop_rules import ShopFigures

PER = {
    *("hole", "edge", "drum", "row", "patch", "lug", "hoop", "rod", "head", "fitting", "end"),
    *("wrap", "bed", "ring", "seam"),
}
SENTENCE = re.compile(r"[A-Z][^.]+\.")


def of(name: str) -> Operation:
    return next(one for one in operations() if one.name == name)


@pytest.mark.parametrize("one", operations(), ids=lambda o: o.name)
def test_every_row_makes_sense(one: Operation) -> None:
    assert one.per in PER
    assert 0.0 < one.quick_minutes <= one.minutes <= one.slow_minutes
    assert 0.05 <= one.spread <= 1.2
    assert one.air in ("", "dust", "wet")
    assert 0 <= one.clamps <= 20
    assert 0 <= one.drying <= 1
    assert all(SENTENCE.fullmatch(said) and len(said.split()) >= 4 for said in one.cautions)
    assert all(word == word.strip() and "." not in word for word in one.materials)
    # What is wet, clamped or dries on the shelf is left alone afterwards.
    assert one.cure_hours or not (one.air == "wet" or one.clamps or one.drying)
    if one.warmth is not None:
        assert one.cure_hours
        assert 5.0 <= one.warmth.least_c < one.warmth.at_c <= 25.0
        assert one.warmth.twice_for_k > 0.0


@pytest.mark.parametrize("said", ["no capital.", "No stop at the end", "Two. Sentences."])
def test_what_is_no_single_sentence_would_be_seen(said: str) -> None:
    assert not SENTENCE.fullmatch(said)


def test_work_that_can_hurt_or_that_cannot_be_undone_has_a_caution() -> None:
    for name in ("strip a drum", "drill a hole", "cut an end off", "take a wrap off", "lacquer"):
        assert of(name).cautions
    assert any("leave it on if you can" in said for said in of("strip a drum").cautions)
    glued = [one for one in operations() if {"wood glue", "wrap glue"} & set(one.materials)]
    assert glued
    assert all(one.cure_hours and one.warmth for one in glued)


def test_the_spread_is_that_of_a_lognormal_with_these_tenths() -> None:
    # Independent: scipy.stats.lognorm, its 10th and 90th percentile about the usual figure.
    drill = of("drill a hole")
    law = stats.lognorm(s=drill.spread, scale=math.sqrt(drill.quick_minutes * drill.slow_minutes))
    assert law.ppf(0.1) == pytest.approx(drill.quick_minutes, rel=1e-9)
    assert law.ppf(0.9) == pytest.approx(drill.slow_minutes, rel=1e-9)


def test_the_workshops_own_figures_go_before_the_books() -> None:
    figures = ShopFigures(
        minutes=(("drill a hole", 9.0), ("plug a hole", 12.0), ("survey a drum", 0.0)),
        cure_hours=(("plug a hole", 24.0), ("tune a drum", 0.5)),
    )
    own = {one.name: one for one in operations_of(figures)}
    drill = own["drill a hole"]
    assert (drill.quick_minutes, drill.minutes, drill.slow_minutes) == (6.0, 9.0, 15.0)
    assert drill.own
    assert drill.spread == pytest.approx(of("drill a hole").spread)
    assert (own["plug a hole"].cure_hours, own["plug a hole"].own) == (24.0, False)
    assert own["tune a drum"].cure_hours == 0.5
    assert (own["survey a drum"].minutes, own["survey a drum"].spread) == (0.0, 0.0)
    assert own["true an edge"] == of("true an edge")


@pytest.mark.parametrize(
    ("figures", "says"),
    [
        (ShopFigures(minutes=(("drill a hoel", 9.0),)), "no such work in the operations book"),
        (ShopFigures(minutes=(("drill a hole", -1.0),)), "less than no time"),
        (ShopFigures(cure_hours=(("plug a hole", math.inf),)), "less than no time"),
    ],
)
def test_figures_that_no_work_can_have_are_refused(figures: ShopFigures, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        operations_of(figures)


def test_default_figures_change_nothing() -> None:
    assert operations_of(default_figures()) == operations()
