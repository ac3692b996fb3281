"""What was written comes back as it was written, through the form and through a browser's HTML.

Truth: an exact law. Whatever is shown and sent back unchanged is what was there before, but for
spaces at the ends of texts and for what says nothing. Bodies: everything that the demonstration
and the packaged book write, and random ones drawn from the published schemas, not from the shapes
that the forms are made of.
"""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sent_by import sent_by
from written_things import at_random, kept, written

from counterhoop.web.forms import THINGS, make_form, read_form


def back(thing: str, item: object) -> dict:
    """Show an item, send every field unchanged, and read it."""
    form = make_form(thing, item)
    return read_form(thing, [(field.name, field.value) for field in form.fields])


def test_the_demonstration_writes_nearly_every_thing() -> None:
    missing = set(THINGS) - {thing for thing, _ in written()}
    # The short form is the shell and its first row; the others have no use in that job.
    assert missing == {"eight numbers", "air of the drum", "inside", "cure"}


@pytest.mark.parametrize("thing", sorted({thing for thing, _ in written()}))
def test_all_that_the_demonstration_writes_comes_back(thing: str) -> None:
    for name, item in written():
        if name == thing:
            assert back(thing, item) == kept(item)


@pytest.mark.parametrize("thing", sorted({thing for thing, _ in written()}))
def test_it_comes_back_through_a_browser(thing: str) -> None:
    items = [item for name, item in written() if name == thing]
    for item in items[:12]:
        assert read_form(thing, sent_by(make_form(thing, item))) == kept(item)


@pytest.mark.parametrize("thing", [name for name in THINGS if name != "eight numbers"])
def test_anything_that_the_schema_allows_comes_back(thing: str) -> None:
    only = {name.split(".")[0] for name in THINGS[thing].only}

    @given(at_random(thing))
    @settings(max_examples=settings.default.max_examples // 2)
    def holds(item: object) -> None:
        mine = {k: v for k, v in item.items() if k in only} if only else item
        assert back(thing, mine) == kept(blanks_gone(mine))

    holds()


def blanks_gone(value: object) -> object:
    """Leave out blanks where they keep no place: in lists of names and of tables."""
    match value:
        case dict():
            return {name: blanks_gone(one) for name, one in value.items()}
        case list():
            inner = [blanks_gone(one) for one in value]
            return [one for one in inner if not (isinstance(one, dict) and not kept(one))]
    return value


@given(st.sampled_from(["row", "hole", "shell", "mark", "wish"]), st.data())
@settings(max_examples=20)
def test_random_things_come_back_through_a_browser(thing: str, data: st.DataObject) -> None:
    item = data.draw(at_random(thing))
    form = make_form(thing, item)
    assert read_form(thing, sent_by(form)) == back(thing, item)


@pytest.mark.parametrize(
    ("thing", "item"),
    [
        ("row", {"near": "37 mm", "lugs": "six", "exceptions": {"lug": 3}}),
        ("row", {"diametre": "6 mm", "near.0": "a", "head": "Batter", "lugs": 6.5}),
        ("finish", "lacquer"),
        ("shell", {"wall": 5, "depth": {"30 deg": {"mm": 3}}, "circumference": [1, None]}),
        ("mark", {"outline": {"shape": "star", "points": [["1 mm"], "x"]}}),
        ("wish", {"want": "fly", "lug": "x"}),
        ("stock", {"a": {"b": 1}, "": 3}),
        ("hole", None),
        ("fitting", []),
        ("book entry", {"kind": 7, "base": "round"}),
    ],
)
def test_what_is_wrong_is_shown_and_nothing_of_it_is_lost(thing: str, item: object) -> None:
    """Truth: by hand. Every text and number that stands there stands in some field."""
    form = make_form(thing, item)
    shown = " ".join(field.value for field in form.fields)
    for text in leaves(item):
        assert text in shown
    once = back(thing, item)
    assert back(thing, once) == once
    json.dumps(once)


def leaves(value: object) -> list[str]:
    match value:
        case dict():
            return [text for one in value.values() for text in leaves(one)]
        case list():
            return [text for one in value for text in leaves(one)]
        case str() | int() | float():
            return [str(value)]
    return []


def test_a_lost_field_would_be_seen() -> None:
    form = make_form("ring", {"end": "batter", "wide": "1 in", "thick": "5 mm"})
    some = [(field.name, field.value) for field in form.fields][:-1]
    assert read_form("ring", some) != {"end": "batter", "wide": "1 in", "thick": "5 mm"}
