"""A drum's evidence brought together: spans, later parts, two readings, what to look at next."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.evidence.dated import Dated, dated
from counterhoop.evidence.ground import ground_of
from counterhoop.evidence.originality import Origin, PartOrigin
from counterhoop.evidence.read_reference import packaged_reference
from counterhoop.evidence.reference import UNLISTED
from counterhoop.evidence.seen import Seen
from counterhoop.evidence.span import span_of, spans_of
from counterhoop.evidence.words import dated_words, origin_words

LAID = ground_of(packaged_reference(), family="Corvane", looked_at=2026, diameter_mm=355.6)


def drum(serial: str = "", sure: float = 0.95, **seen: str) -> Dated:
    looks = [
        Seen(feature=name.replace("_", " "), value=value, sure=sure) for name, value in seen.items()
    ]
    return dated(looks, LAID, serial=serial)


OLD = {
    "badge": "round, nailed",
    "inside_of_the_shell": "clear lacquer",
    "lug": "round",
    "damper": "round knob, red felt",
}


@given(
    st.lists(st.floats(0.0, 1.0), min_size=3, max_size=9).filter(lambda odds: sum(odds) > 0.1),
    st.floats(0.05, 0.99),
)
def test_a_span_is_the_shortest_run(odds: list[float], share: float) -> None:
    """Brute force over every run."""
    p, years = np.array(odds) / sum(odds), np.arange(1950.0, 1950 + len(odds))
    runs = [
        (last - first, -p[first : last + 1].sum(), first)
        for first in range(len(p))
        for last in range(first, len(p))
        if p[first : last + 1].sum() >= share - 1e-12
    ]
    wide, held, _ = min(runs)
    found = span_of(years, p, odds=share)
    assert (found.wide - 1, found.odds) == (wide, pytest.approx(-held))


@given(st.lists(st.floats(0.0, 1.0), min_size=3, max_size=30).filter(lambda odds: sum(odds) > 0.1))
def test_a_surer_span_holds_the_narrower_one(odds: list[float]) -> None:
    """Exact law; two heaps of odds would otherwise tear them apart."""
    spans = spans_of(np.arange(1950.0, 1950 + len(odds)), np.array(odds) / sum(odds))
    assert spans[0.95].first <= spans[0.8].first <= spans[0.5].first
    assert spans[0.5].last <= spans[0.8].last <= spans[0.95].last
    assert all(span.odds >= share - 1e-9 for share, span in spans.items())


def test_a_strainer_of_later_years_is_named_and_hardly_moves_the_date() -> None:
    whole, mixed = drum(**OLD), drum(sure=0.99, strainer="drop lever, modern copy", **OLD)
    assert [one.part for one in mixed.later_parts] == ["strainer and butt"]
    assert mixed.later_parts[0].later > 0.95
    assert abs(mixed.spans[0.8].first - whole.spans[0.8].first) <= 1
    assert any(
        line.startswith("The strainer and butt: almost surely later") for line in dated_words(mixed)
    )


def test_two_parts_of_one_taken_together_count_once() -> None:
    """Exact law: what is changed together is one loss, not two that happened to agree."""
    one = drum(**OLD, strainer="drop lever")
    both = drum(**OLD, strainer="drop lever", butt="two crosshead screws")
    assert both.spans[0.8].first - one.spans[0.8].first <= 1
    assert len(both.origins) == len(one.origins)


def test_two_readings_are_named_each_with_its_years() -> None:
    found = drum(sure=0.99, badge="square", lug="tube and post", lug_insert="brass, coil spring")
    assert found.conflict is not None
    late, early, *_ = found.conflict.readings
    assert (late.part, late.is_, early.part, early.is_) == ("badge", "later", "lugs", "earlier")
    assert late.span.last < early.span.first
    assert late.odds >= early.odds
    assert sum("hardly go together" in line for line in dated_words(found)) == 1


@pytest.mark.parametrize(
    "seen",
    [
        {"badge": "square", "lug": "tube and post", "lug_insert": "brass, coil spring"},
        {"hoop": "brass, flanged three times", "lug_insert": "steel, leaf spring"},
        {"badge": "square", "lug": "tube and post", "damper": "flat knob, grey felt"},
    ],
)
def test_the_readings_of_a_conflict_make_up_the_years(seen: dict[str, str]) -> None:
    """Exact law (total probability): weighed by their odds, their years are the drum's."""
    found = drum(sure=0.99, **seen)
    assert found.conflict is not None
    readings = found.conflict.readings
    assert sum(one.odds for one in readings) == pytest.approx(1.0)
    together = sum(one.odds * one.p for one in readings)
    np.testing.assert_allclose(together, found.odds.p, atol=1e-12)
    for one in readings:
        held = one.p[(found.odds.years >= one.span.first) & (found.odds.years <= one.span.last)]
        assert held.sum() >= 0.9 - 1e-9
    lines = found.conflict.says[1:]
    pairs = zip(found.conflict.named, lines, strict=True)
    assert all(one.says in line for one, line in pairs)
    assert all(str(one.span) in one.says for one in readings)


def test_parts_of_one_time_are_no_conflict() -> None:
    found = drum(**OLD)
    assert found.conflict is None
    assert {one.word for one in found.origins} == {"original"}


def test_origins_are_odds() -> None:
    """Exact law: they sum to one."""
    for one in drum(**OLD, strainer="drop lever", hoop="steel, flanged three times").origins:
        assert one.original + one.of_the_period + one.later + one.earlier == pytest.approx(1.0)


def test_what_a_part_is_is_said_once_and_what_it_hardly_is_not_at_all() -> None:
    """By hand."""

    def part(word: Origin, *odds: float) -> PartOrigin:
        own, period, later, earlier = odds
        return PartOrigin(
            part="badge", features=("badge",), word=word, original=own, of_the_period=period,
            later=later, earlier=earlier,
        )  # fmt: skip

    assert origin_words(part("original", 0.77, 0.01, 0.219, 0.001)) == (
        "original 77 %, later 22 %, of the period 1 %"
    )
    assert origin_words(part("can't tell", 0.49, 0.0, 0.02, 0.49)) == (
        "can't tell (original 49 %, off an older drum 49 %, later 2 %)"
    )


def test_a_number_narrows_and_is_never_a_bare_year() -> None:
    plain, numbered = drum(**OLD), drum(serial="9 800", **OLD)
    assert numbered.spans[0.8].wide < plain.spans[0.8].wide
    assert numbered.spans[0.8].wide >= 2
    assert any("By the number alone" in line for line in dated_words(numbered))
    assert any("against the order" in line for line in dated_words(numbered))


def test_what_it_rests_on_is_what_would_be_missed_most() -> None:
    """Brute force: the drum dated without each part."""
    found = drum(**OLD)
    bits = [one.bits for one in found.carries]
    assert bits == sorted(bits, reverse=True)
    for one in found.carries:
        rest = {
            name: value for name, value in OLD.items() if name.replace("_", " ") not in one.features
        }
        p, without = found.odds.p, drum(**rest).odds.p
        assert one.bits == pytest.approx(float((p * np.log2(p / without)).sum()))


def test_nothing_seen_is_said_to_be_nothing() -> None:
    says = dated_words(drum())
    assert says[0].startswith("This does not date it")
    assert any(line.startswith("Next, the badge") for line in says)


def test_what_is_in_no_row_is_said() -> None:
    found = dated([Seen(feature="strainer", value=UNLISTED)], LAID)
    assert found.unlisted == ("strainer",)
    assert any("In no row" in line for line in dated_words(found))
