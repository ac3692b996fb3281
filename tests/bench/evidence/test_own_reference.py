"""The workshop's own dated features: rows over the packaged ones, written, put away, as a file."""

from __future__ import annotations

from typing import Any

import pytest

from counterhoop.bench.evidence.own_reference import own_reference, own_rows, reference_of
from counterhoop.bench.evidence.reference_file import look_at_file, reference_text
from counterhoop.bench.evidence.write_reference import (
    put_row_away,
    take_row_out,
    write_row,
    write_rows,
)
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.evidence.read_reference import packaged_reference
from counterhoop.evidence.reference import Value
from counterhoop.store.save import Conflict, Saved

BILL = "two bills, seen"
SHIELD = {
    "family": "Corvane", "feature": "badge", "name": "shield", "from": 1970, "source": BILL,
}  # fmt: skip
ROUND = {
    "family": "Corvane", "feature": "badge", "name": "round, nailed", "from": 1947, "to": 1961,
    "source": BILL,
}  # fmt: skip


def form(shop: Workshop, name: str) -> Value:
    return next(
        one for one in reference_of(shop).values
        if (one.family, one.feature, one.name) == ("Corvane", "badge", name)
    )  # fmt: skip


def written(shop: Workshop, row: dict[str, Any], at: int | None = None) -> None:
    number = own_reference(shop).kept.number
    assert isinstance(write_row(shop, "value", at, row, based_on=number, by="bench"), Saved)


def test_nothing_of_ones_own_is_the_packaged_one(shop: Workshop) -> None:
    assert reference_of(shop) == packaged_reference()
    assert own_reference(shop).many == 0


def test_an_own_row_takes_the_place_of_a_packaged_one_and_what_follows_begins_after(
    shop: Workshop,
) -> None:
    """By hand: the packaged oval badge took over from the round one, which here ends in 1961."""
    written(shop, ROUND)
    assert form(shop, "round, nailed").source == BILL
    begins = form(shop, "oval, on a grommet").begins
    assert begins is not None
    assert begins.year == 1962.0
    assert len(reference_of(shop).values) == len(packaged_reference().values)


def test_an_own_form_may_follow_a_packaged_one(shop: Workshop) -> None:
    written(shop, {k: v for k, v in SHIELD.items() if k != "from"} | {"follows": "round, nailed"})
    begins = form(shop, "shield").begins
    assert begins is not None
    assert begins.year == 1959.0


def test_a_row_is_put_away_and_comes_back(shop: Workshop) -> None:
    written(shop, ROUND)
    written(shop, SHIELD)
    number = own_reference(shop).kept.number
    assert isinstance(put_row_away(shop, "value", 0, based_on=number, by="bench"), Saved)
    assert [row["name"] for row in own_rows(shop)["value"]] == ["shield"]
    assert form(shop, "round, nailed").source != BILL
    number = own_reference(shop).kept.number
    take_row_out(shop, 0, based_on=number, by="bench")
    assert form(shop, "round, nailed").source == BILL
    assert own_reference(shop).away == []


def test_what_does_not_go_is_refused_and_nothing_is_written(shop: Workshop) -> None:
    wrong: tuple[tuple[dict[str, Any], str], ...] = (
        ({"source": ""}, "source"),
        ({"family": "Corvain"}, 'Did you mean "Corvane"?'),
        ({"feature": "bagde"}, 'Did you mean "badge"?'),
        ({"to": 1960}, "ends before it begins"),
        ({"lines": ["Standart"]}, 'Did you mean "Standard"?'),
        ({"diameters": ["14"]}, "unit"),
    )
    for change, says in wrong:
        with pytest.raises(BadInput) as refused:
            write_row(shop, "value", None, SHIELD | change, based_on=0, by="bench")
        assert says in str(refused.value)
    assert own_reference(shop).kept.number == 0


def test_a_row_that_another_one_names_is_not_put_away(shop: Workshop) -> None:
    line = {"family": "Dunmarrow", "name": "Dunmarrow", "from": 1931, "source": BILL}
    badge = {**SHIELD, "family": "Dunmarrow"}
    write_rows(shop, {"line": [line], "value": [badge]}, based_on=0, by="bench")
    with pytest.raises(BadInput, match="no such family"):
        put_row_away(shop, "line", 0, based_on=1, by="bench")
    assert reference_of(shop).families[-1] == "Dunmarrow"


def test_two_who_write_the_same_row_are_told(shop: Workshop) -> None:
    written(shop, SHIELD)
    first = write_row(shop, "value", 0, {**SHIELD, "from": 1971}, based_on=1, by="one")
    second = write_row(shop, "value", 0, {**SHIELD, "from": 1972}, based_on=1, by="other")
    assert isinstance(first, Saved)
    assert isinstance(second, Conflict)
    # Another row goes in beside it, and one that is sent twice is there once.
    for _ in range(2):
        done = write_row(shop, "value", None, ROUND, based_on=1, by="other")
        assert isinstance(done, Saved)
    assert [row["name"] for row in own_rows(shop)["value"]] == ["shield", "round, nailed"]


def test_a_file_handed_out_and_looked_at_changes_nothing(shop: Workshop) -> None:
    """Exact law."""
    written(shop, {**SHIELD, "diameters": ["14 in"], "lines": ["Standard"]})
    written(shop, ROUND)
    looked = look_at_file(shop, reference_text(shop), name="mine.toml")
    assert (looked.new, looked.changed, looked.gone, looked.same) == ((), (), (), 2)
    assert looked.rows["value"] == own_rows(shop)["value"]


def test_a_file_is_looked_at_before_it_takes_the_place_of_all(shop: Workshop) -> None:
    written(shop, SHIELD)
    written(shop, ROUND)
    text = reference_text(shop).replace("1961", "1962").replace("shield", "star")
    looked = look_at_file(shop, text, name="mine.toml")
    assert looked.new == ("Corvane badge, star",)
    assert looked.changed == ("Corvane badge, round, nailed",)
    assert looked.gone == ("Corvane badge, shield",)
    assert form(shop, "shield")
    with pytest.raises(BadInput, match=r"mine\.toml: value star"):
        look_at_file(shop, text.replace('family = "Corvane"', "family = 3"), name="mine.toml")


def test_rows_that_no_longer_go_together_leave_the_packaged_ones(shop: Workshop) -> None:
    """As after a new program whose packaged rows lack a family that own rows name."""
    from counterhoop.bench.folders.kinds import REFERENCE
    from counterhoop.bench.folders.write_down import Change, write_down

    away = [{"sort": "value"}, 3, {"row": SHIELD}, {"sort": "value", "row": SHIELD}]
    body = {
        "value": [{**SHIELD, "family": "Gone"}], "serial": "none", "line": [7], "away": away
    }  # fmt: skip
    write_down(shop, None, Change(kind=REFERENCE, value=body, based_on=0), by="bench")
    assert "no such family" in str(own_reference(shop).fault)
    assert reference_of(shop) == packaged_reference()
    assert own_reference(shop).away == away[3:]
