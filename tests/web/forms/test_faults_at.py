"""A fault is said at the field where it can be put right, in its own words.

Truth: the file's own reader. A demonstration drum is spoilt in one place, read as a whole, and the
fault must come out at the field that was spoilt.
"""

from __future__ import annotations

import copy
from typing import Any

import pytest
from written_things import demonstration, written

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.faults import BadSurvey
from counterhoop.shell.survey_file.read import read_tables
from counterhoop.web.forms import (
    THINGS,
    Field,
    Form,
    faults_in,
    faults_under,
    item_at,
    make_form,
    spot_in_drum,
    spot_of,
)
from counterhoop.web.forms.fields import Group
from counterhoop.web.forms.read_form import read_form


def faults_of_whole(raw: dict[str, Any]) -> tuple[BadInput, ...]:
    try:
        read_tables(raw, name="kit.toml")
    except BadSurvey as bad:
        return tuple(without_file(fault) for fault in bad.faults)
    return ()


def without_file(fault: BadInput) -> BadInput:
    where = fault.where.removeprefix("kit.toml").removeprefix(", ")
    return BadInput(
        fault.what, where=where, given=fault.given, wanted=fault.wanted, step=fault.step
    )


def wrong_fields(form: Form) -> list[str]:
    return [field.name for field in form.fields if field.faults]


SPOILT = [
    (("holes", 0, "near"), "999 mm", "hole", 0, "near"),
    (("rows", 0, "near", 1), "5", "row", 0, "near.1"),
    (("rows", 0, "first"), "lug 9", "row", 0, "first"),
    (("fittings", 1, "holes", 2, "dia"), "no", "fitting", 1, "holes.2.dia"),
    (("marks", 0, "outline", "diameter"), "0 mm", "mark", 0, "outline.diameter"),
    (("edges", "batter", "gaps"), "0, 0.1", "edge", "batter", "gaps"),
    (("edges", "batter", "profile", "apex"), "40 mm", "edge", "batter", "profile.apex"),
    (("fit", "batter", "rim"), "200 mm", "fit", "batter", "rim"),
    (("depth", "150 deg"), "3 mm", "shell", None, "depth.is.1"),
    (("circumference", "middle"), "9 mm", "shell", None, "circumference.middle"),
    (("finish_plan", "wrap"), "pink", "finish plan", None, "wrap"),
    (("finish", "kind"), "wrapp", "finish", None, "kind"),
]


@pytest.mark.parametrize(("path", "wrong", "thing", "at", "field"), SPOILT)
def test_what_shows_on_the_whole_drum_is_said_at_its_field(
    path: tuple[Any, ...], wrong: str, thing: str, at: Any, field: str
) -> None:
    raw = demonstration()
    drum = raw["drums"]["small tom"]
    here = drum
    for step in path[:-1]:
        here = here[step]
    here[path[-1]] = wrong
    fault = next(one for one in faults_of_whole(raw) if one.where.startswith("drums.small tom"))
    spot = spot_of(fault.where, drum="small tom")
    assert spot is not None
    assert spot == spot_in_drum(fault.where.removeprefix("drums.small tom."))
    assert (spot.thing, spot.at) == (thing, at)
    there = BadInput(fault.what, where=spot.where, given=fault.given, wanted=fault.wanted)
    form = make_form(thing, item_at(thing, drum, at), faults=[there])
    assert wrong_fields(form) == [field]
    (said,) = next(one for one in form.fields if one.name == field).faults
    expected = "5 what: mm or in?" if fault.what == "no unit" else fault.what
    assert said[1:].startswith(expected[1:])


def test_a_drum_that_is_not_spoilt_has_no_fault() -> None:
    assert faults_of_whole(demonstration()) == ()


@pytest.mark.parametrize("thing", sorted({thing for thing, _ in written()}))
def test_nothing_of_the_demonstration_is_wrong(thing: str) -> None:
    for name, item in written():
        if name == thing:
            assert faults_in(thing, item) == ()


def test_words_of_a_fault_are_not_changed() -> None:
    (fault,) = faults_in("ring", {"end": "batter", "wide": "25 xx", "thick": "5 mm"})
    form = make_form("ring", {"wide": "25 xx"}, faults=[fault])
    (said,) = next(field for field in form.fields if field.name == "wide").faults
    assert f"wide: {said[0].lower()}{said[1:]}" == str(fault)


def test_a_half_written_row_says_what_it_lacks_at_each_field() -> None:
    form = make_form("row", {"lugs": 6}, faults=faults_in("row", {"lugs": 6}))
    assert wrong_fields(form) == ["head", "fitting", "hole"]


def test_a_new_drum_says_what_it_lacks() -> None:
    body = read_form("eight numbers", {"wall": "5", "rows.0.lugs": "6", "rows.0.near.0": "1"})
    form = make_form("eight numbers", body, faults=faults_in("eight numbers", body))
    assert {"wall", "depth", "rows.0.fitting", "rows.0.near.0"} <= set(wrong_fields(form))


def test_a_field_of_another_form_is_not_this_forms_fault() -> None:
    assert faults_in("shell", {"wall": "5 mm", "depth": "203 mm", "rows": [{}]}) == ()
    assert "drum" not in {fault.where for fault in faults_in("approval", {"who": "N"})}


def test_a_list_that_is_too_short_is_said_over_the_list() -> None:
    form = make_form("match", {"drums": ["a"]}, faults=faults_in("match", {"drums": ["a"]}))
    (group,) = [one for one in form.parts if isinstance(one, Group)]
    assert group.faults == ("Too few: found a list of 1, wanted at least 2",)
    assert form.wrong


def test_a_name_that_may_not_stand_there_gets_a_field_to_take_it_out() -> None:
    item = {"along": "90 deg", "diametre": "8 mm"}
    form = make_form("hole", item, faults=faults_in("hole", item))
    strange = next(field for field in form.fields if field.label == "diametre")
    assert strange.value == "8 mm"
    assert strange.faults
    assert read_form("hole", {strange.name: "", "along": "90 deg"}) == {"along": "90 deg"}
    shell = {"wall": "5 mm", "depth": "203 mm", "wal": "6 mm"}
    assert wrong_fields(make_form("shell", shell, faults=faults_in("shell", shell))) == ["?.wal"]


def test_a_fault_without_a_place_is_said_over_the_form() -> None:
    form = make_form("hole", {}, faults=[BadInput("nothing fits", where="nowhere[3].x")])
    assert form.faults == ("Nothing fits",)
    assert form.wrong
    assert not make_form("hole", {}).wrong


def test_a_fault_below_a_field_is_said_at_that_field() -> None:
    form = make_form("hole", {}, faults=[BadInput("odd", where="near.left[2]")])
    assert wrong_fields(form) == ["near"]


def test_every_place_of_the_file_has_its_form() -> None:
    """Truth: hand-worked."""
    for where, spot in {
        "drums.small tom.wish[2].fittings[1]": ("wish", 1, "fittings[1]"),
        "drums.small tom.air.humidity": ("air of the drum", None, "humidity"),
        "drums.small tom": ("shell", None, ""),
        "job.air.humidity": ("job", None, "air.humidity"),
        "match[1].drums[2]": ("match", 0, "drums[2]"),
        "wraps.a.b.length": ("wrap", "a.b", "length"),
        "stock.Corvane 1.5": ("stock", None, "Corvane 1.5"),
        "approval[2].when": ("approval", 1, "when"),
    }.items():
        found = spot_of(where, drum="small tom", names=["a", "a.b"])
        assert found is not None, where
        assert (found.thing, found.at, found.where) == spot
    assert spot_of("drums.large tom.wall", drum="small tom") is None
    assert spot_of("drums.small tom 2.wall", drum="small tom") is None


def test_a_part_with_dots_in_its_name_is_found_in_the_stock() -> None:
    item = {"grommet 12.7": "two"}
    form = make_form("stock", item, faults=faults_in("stock", item))
    assert wrong_fields(form) == ["is.0"]


def test_faults_under_a_place_lose_that_place_and_no_other_comes_along() -> None:
    faults = [BadInput("x", where=f"drums.a.holes[{n}].near") for n in (1, 12)]
    assert [fault.where for fault in faults_under(faults, "drums.a.holes[1]")] == ["near"]
    assert faults_under(faults, "drums.a.hole") == ()


def test_every_fault_of_an_entry_of_the_book_is_said() -> None:
    item = {"kind": "rod", "name": "a", "source": "b", "thread": "12-24", "length": "45"}
    form = make_form("book entry", item, faults=faults_in("book entry", item))
    assert set(wrong_fields(form)) == {"length", "thread_length", "shank"}


def test_an_entry_that_cannot_be_is_said_where_it_cannot() -> None:
    item = copy.deepcopy(dict(next(i for t, i in written() if t == "book entry")))
    item["holes"][1]["screw"] = "8 mm"
    (fault,) = faults_in("book entry", item)
    assert fault.what == "the screw does not go through its hole"
    assert wrong_fields(make_form("book entry", item, faults=[fault])) == ["holes.1.screw"]


def test_all_things_stand_in_a_document_that_is_kept() -> None:
    assert {thing.document for thing in THINGS.values()} == {
        *("survey", "wish", "tuning", "kit", "job", "approval", "book")
    }
    assert all(isinstance(field, Field) for field in make_form("hole", {}).fields)


def test_a_number_without_a_unit_is_asked_which() -> None:
    faults = faults_in("ring", {"end": "batter", "wide": "25", "thick": "5 mm"})
    form = make_form("ring", {"wide": "25"}, faults=faults)
    (wide,) = (field for field in form.fields if field.name == "wide")
    assert wide.faults == ("25 what: mm or in?",)
    assert wide.no_unit
