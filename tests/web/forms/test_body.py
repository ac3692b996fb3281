"""A thing is taken from its document and put back, and nothing else moves.

Truth: exact laws (what is put in comes out; everything else stays) over the demonstration, and
hand-worked cases.
"""

from __future__ import annotations

import copy
import json

import pytest
from written_things import documents

from counterhoop.web.forms import THINGS, item_at, make_form, spots_in, with_item, without_item


def every_spot():
    for kind, bodies in documents().items():
        for body in bodies if kind != "book" else bodies[:1]:
            for thing, at in spots_in(kind, body):
                yield body, thing, at


def listed(body):
    """Return a body whose one wish, which may stand without its list, stands in one."""
    if isinstance(body, dict) and isinstance(body.get("wish"), dict):
        return {**body, "wish": [body["wish"]]}
    return body


def test_put_back_unchanged_the_document_is_the_same() -> None:
    tried = set()
    for body, thing, at in every_spot():
        before = json.dumps(body, sort_keys=True)
        assert listed(with_item(thing, body, item_at(thing, body, at), at)) == listed(body)
        assert json.dumps(body, sort_keys=True) == before
        tried.add(thing)
    assert len(tried) > 20


def test_what_is_put_in_comes_out_and_the_rest_stays() -> None:
    for body, thing, at in every_spot():
        if THINGS[thing].lies == "fields":
            continue
        new = with_item(thing, body, {"says": "new"}, at)
        assert item_at(thing, new, at) == {"says": "new"}
        others = [spot for spot in spots_in(THINGS[thing].document, body) if spot != (thing, at)]
        assert all(item_at(t, new, a) == item_at(t, body, a) for t, a in others if t != "job")


def test_all_things_together_are_the_whole_document() -> None:
    for kind, bodies in documents().items():
        for body in bodies:
            built: object = [] if kind == "approval" else {}
            for thing, at in spots_in(kind, body):
                built = with_item(thing, built, item_at(thing, body, at), at)
            whole = listed(body)
            if kind == "job":
                whole = {k: v for k, v in whole.items() if k not in ("format", "approval")}
            assert built == whole


def test_one_more_is_added_at_the_end_and_nothing_when_it_is_empty() -> None:
    body = {"holes": [{"dia": "6 mm"}]}
    assert with_item("hole", body, {"dia": "8 mm"}, 1)["holes"][1] == {"dia": "8 mm"}
    assert with_item("hole", body, {}, 1) == body


def test_a_hole_that_is_cleared_stays_until_it_is_taken_out() -> None:
    body = {"holes": [{"dia": "6 mm"}, {"dia": "8 mm"}]}
    assert with_item("hole", body, {}, 0)["holes"] == [{}, {"dia": "8 mm"}]
    assert without_item("hole", body, 0) == {"holes": [{"dia": "8 mm"}]}


def test_a_table_that_is_cleared_is_gone() -> None:
    assert with_item("finish", {"wall": "5 mm", "finish": {"kind": "wrap"}}, {}) == {"wall": "5 mm"}
    both = {"edges": {"batter": {"there": True}, "resonant": {"there": False}}}
    assert without_item("edge", both, "batter") == {"edges": {"resonant": {"there": False}}}


def test_the_shell_is_written_without_touching_what_stands_on_it() -> None:
    body = {"wall": "5 mm", "plies": 3, "rows": [{"lugs": 6}], "strange": "x"}
    assert item_at("shell", body) == {"wall": "5 mm", "plies": 3, "strange": "x"}
    assert with_item("shell", body, {"wall": "6 mm"}) == {"wall": "6 mm", "rows": [{"lugs": 6}]}


def test_the_eight_numbers_leave_the_rest_of_the_first_row_alone() -> None:
    row = {"lugs": 6, "origin": "factory", "near": ["38 mm"]}
    body = {"wall": "5 mm", "wood": "beech", "rows": [row, {"lugs": 8}]}
    assert item_at("eight numbers", body) == {
        "wall": "5 mm",
        "rows": [{"lugs": 6, "near": ["38 mm"]}],
    }
    new = with_item("eight numbers", body, {"wall": "6 mm", "rows": [{"lugs": 7}]})
    assert new == {
        "wall": "6 mm",
        "wood": "beech",
        "rows": [{"lugs": 7, "origin": "factory"}, {"lugs": 8}],
    }
    made = with_item("eight numbers", {}, {"wall": "6 mm", "rows": [{"lugs": 7}]})
    assert made == {"wall": "6 mm", "rows": [{"lugs": 7}]}


@pytest.mark.parametrize("body", [None, [], "x", {"holes": 3, "edges": [], "wish": "x"}])
def test_a_document_that_is_none_does_no_harm(body: object) -> None:
    kept = copy.deepcopy(body)
    for thing in THINGS.values():
        at = {"list": 0, "ends": "batter", "named": "x"}.get(thing.lies)
        item = item_at(thing.name, body, at)
        make_form(thing.name, item)
        with_item(thing.name, body, {"says": "x"}, at)
        without_item(thing.name, body, at)
    assert body == kept
