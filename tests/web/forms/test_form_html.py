"""A form is built as browsers, readers of screens and thumbs need it.

Truth: the HTML standard (ids are unique; labels, descriptions and lists name what is there) and
WCAG 2.2 (1.3.1, 3.3.1, 3.3.2), both from memory; text from people never becomes markup.
"""

from __future__ import annotations

import pytest
from sent_by import Sent, html_of
from written_things import demonstration, written

from counterhoop.fittings.read_book import packaged_book
from counterhoop.web.forms import THINGS, faults_in, make_form, offers_of
from counterhoop.web.look.jinja import templates

EVERY = [*((thing, {}) for thing in THINGS), *(one for one in written() if one[0] != "book entry")]
OFFERS = offers_of(packaged_book(), survey=demonstration()["drums"]["small tom"])


@pytest.mark.parametrize("thing", THINGS)
def test_every_form_names_only_what_is_there(thing: str) -> None:
    for name, item in EVERY:
        if name == thing:
            form = make_form(thing, item, offers=OFFERS, faults=faults_in(thing, item))
            sent = Sent(html_of(form))
            assert len(sent.ids) == len(set(sent.ids))
            assert set(sent.labels) <= set(sent.ids)
            assert set(sent.about) <= set(sent.ids)
            assert set(sent.lists) <= set(sent.ids)
            asked = [one for one in sent.inputs if one.get("type") != "hidden"]
            assert [one["id"] for one in asked] == sent.labels
            assert len(asked) == len({one["name"] for one in asked}) == len(form.fields)


@pytest.mark.parametrize("thing", THINGS)
def test_inputs_suit_a_bench(thing: str) -> None:
    sent = Sent(html_of(make_form(thing, {})))
    for one in sent.inputs:
        if one["tag"] == "input" and one.get("type") != "hidden":
            assert one["type"] == "text"
            assert one["autocomplete"] == "off"
            assert one["enterkeyhint"] == "next"
            assert one["inputmode"] in ("text", "numeric")
        # Nothing blocks: a browser must let a half-done form go.
        assert not {"required", "pattern", "min", "max", "maxlength", "style"} & set(one)


def test_text_from_people_is_never_markup() -> None:
    evil = "\"><script>alert('1')</script>"
    item = {"says": evil, evil: evil, "along": evil, "exceptions": [{"lug": evil}]}
    for thing in ("hole", "row", "job", "stock"):
        html = html_of(make_form(thing, item, faults=faults_in(thing, item)))
        assert "<script" not in html
        assert "&lt;script" in html


def test_the_form_is_saved_as_one_types_only_when_asked() -> None:
    form = make_form("ring", {})
    assert 'hx-post="/saved"' in html_of(form)
    assert 'name="based_on" value="7"' in html_of(form)
    bare = templates().from_string(
        '{% import "forms/form.html" as forms %}{{ forms.form(form, "/there") }}'
    )
    plain = bare.render(form=form)
    assert "hx-" not in plain
    assert "based_on" not in plain
    assert ">Write it down</button>" in plain


def test_one_more_line_is_always_there() -> None:
    full = make_form("fitting", {"holes": [{"dia": "6 mm"}] * 4})
    assert any(field.name == "holes.4.dia" for field in full.fields)
    row = make_form("row", {"exceptions": [{"lug": 2}]})
    assert any(field.name == "exceptions.1.lug" for field in row.fields)


def test_as_many_lines_stand_ready_as_there_are_lugs() -> None:
    names = {field.name for field in make_form("row", {"lugs": 10}).fields}
    assert "along.9" in names
    assert "along.10" not in names


def test_names_to_choose_from_come_with_the_form() -> None:
    form = make_form("wish", {"want": "take out"}, offers=OFFERS)
    assert dict(form.offers)["labels"] == ("badge", "bracket")
    assert '<option value="bracket">' in html_of(form)


def test_what_stands_in_the_rare_fields_is_seen() -> None:
    assert "<details open" not in html_of(make_form("ring", {}))
    opened = html_of(make_form("hole", {"far": "12 mm"}))
    assert 'details class="more" open' in opened
    assert 'details class="more" open' not in html_of(make_form("hole", {"near": "12 mm"}))


def test_the_drawing_knows_what_a_tap_fills() -> None:
    html = html_of(make_form("hole", {}))
    assert 'data-place="along"' in html
    assert 'data-place="near" data-size-from="dia" data-edge-from="from_edge"' in html
    assert html_of(make_form("fitting", {})).count('data-place="along"') == 1


@pytest.mark.parametrize("thing", THINGS)
def test_no_form_of_the_demonstration_is_heavy(thing: str) -> None:
    """A page may weigh 300 KB in all."""
    for name, item in EVERY:
        if name == thing:
            assert len(html_of(make_form(thing, item, offers=OFFERS)).encode()) < 120_000
