"""A quote follows its scheme, and what a person wrote on it is never lost in silence."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.job.price.line import Kind, Origin, QuoteLine, Said, typed_line
from counterhoop.job.price.renew import news_of, renewed
from counterhoop.quantities.money import Money


def gbp(minor: int) -> Money:
    return Money(minor=minor, currency="GBP")


def made(key: str, minor: int | None, count: int = 1) -> QuoteLine:
    amount = None if minor is None else gbp(minor)
    said = Said(says=key, amount=amount, count=count)
    return QuoteLine(key=key, origin=Origin.SCHEME, kind=Kind.WORK, stands=said)


def test_an_untouched_line_follows_and_goes() -> None:
    assert renewed([made("plug", 900), made("bed", 500)], [made("plug", 1100)]) == (
        made("plug", 1100),
    )


def test_an_edited_line_keeps_what_it_stood_on_and_shows_what_is_now() -> None:
    mine = made("plug", 6300, 7).edited(amount=gbp(5000), says="plug, matched in grain")
    (line,) = renewed([mine], [made("plug", 8100, 9)])
    assert line.amount == gbp(5000)
    assert line.edited_from == gbp(6300)
    assert line.now == made("plug", 8100, 9).stands
    assert news_of([line]) == (
        "plug, matched in grain: 50.00 GBP was set when it came to 63.00 GBP for 7;"
        " now it comes to 81.00 GBP for 9",
    )
    assert line.as_it_came() == made("plug", 8100, 9)
    kept = line.kept_over()
    assert (kept.amount, kept.edited_from, news_of([kept])) == (gbp(5000), gbp(8100), ())
    # The scheme goes back to what the change stood on: there is nothing left to say.
    assert renewed([line], [made("plug", 6300, 7)]) == (mine,)


def test_a_second_edit_stands_on_the_same() -> None:
    once = made("plug", 900).edited(amount=gbp(800))
    assert once.edited(amount=gbp(700)).edited_from == gbp(900)


@pytest.mark.parametrize(
    ("touch", "says"),
    [
        (lambda line: line.edited(amount=gbp(800)), "8.00 GBP still stands"),
        (lambda line: line.strike(), "left out"),
    ],
)
def test_a_touched_line_that_nothing_asks_for_stays_and_says_so(touch, says: str) -> None:
    (line,) = renewed([touch(made("plug", 900))], [])
    assert line.gone
    (said,) = news_of([line])
    assert said == f"plug: nothing asks for it any more; {says}"
    (back,) = renewed([line], [made("plug", 900)])
    assert back == touch(made("plug", 900))


def test_a_typed_line_stays_and_is_no_news() -> None:
    typed = typed_line("thanks", "for waiting", amount=gbp(-500))
    lines = renewed([typed], [made("plug", 900)])
    assert lines == (made("plug", 900), typed)
    assert news_of(lines) == ()
    assert typed.edited(amount=gbp(-600)).edited_from is None


def test_a_price_that_nobody_knows_is_asked_for() -> None:
    line = made("a lug", None, 4)
    assert news_of([line]) == ("a lug: no price is known; type one",)
    with pytest.raises(BadInput, match="no price is known"):
        _ = line.amount
    assert news_of([line.strike()]) == ()
    assert line.edited(amount=gbp(2000)).amount == gbp(2000)


def test_two_lines_of_one_key_are_refused() -> None:
    with pytest.raises(BadInput, match="one key"):
        renewed([], [made("plug", 1), made("plug", 2)])


keys = st.sampled_from(["plug", "bed", "drill", "true", "polish"])
fresh_lines = st.dictionaries(keys, st.tuples(st.integers(0, 9999), st.integers(1, 9))).map(
    lambda found: tuple(made(key, minor, count) for key, (minor, count) in found.items())
)
touches = st.lists(
    st.tuples(keys, st.sampled_from(["edit", "strike", "put back", "as it came", "keep"])),
    max_size=8,
)


def touched(lines: tuple[QuoteLine, ...], what: list[tuple[str, str]]) -> tuple[QuoteLine, ...]:
    for key, touch in what:
        do = {
            "edit": lambda line: line.edited(amount=gbp(123)),
            "strike": QuoteLine.strike,
            "put back": QuoteLine.put_back,
            "as it came": QuoteLine.as_it_came,
            "keep": QuoteLine.kept_over,
        }[touch]
        lines = tuple(do(line) if line.key == key else line for line in lines)
    return lines


@given(fresh_lines, st.lists(st.tuples(touches, fresh_lines), max_size=4))
def test_whatever_happens_no_touched_line_is_lost(
    first: tuple[QuoteLine, ...],
    then: list[tuple[list[tuple[str, str]], tuple[QuoteLine, ...]]],
) -> None:
    """Exact laws of a renewal: nothing touched goes, no amount of a person's changes, what is
    asked for is there, whatever is other than its origin is said, and twice is once."""
    lines = first
    for what, fresh in then:
        before = touched(lines, what)
        lines = renewed(before, fresh)
        after, asked = {line.key: line for line in lines}, {line.key: line for line in fresh}
        assert set(after) == set(asked) | {line.key for line in before if line.touched}
        for old in before:
            if old.touched:
                assert after[old.key].struck == old.struck
            if old.stood_on is not None:
                assert after[old.key].stands == old.stands
                assert after[old.key].stood_on == old.stood_on
        said = news_of(lines)
        for line in lines:
            differs = line.key not in asked or (
                line.stood_on is not None and asked[line.key].stands != line.stood_on
            )
            assert differs == any(news.startswith(f"{line.key}: ") for news in said)
            if not line.touched:
                assert line == asked[line.key]
            assert line.gone == (line.key not in asked)
        assert renewed(lines, fresh) == lines
