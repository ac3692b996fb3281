"""What is typed into a form is kept as it was typed. Truth: hand-worked, from the file's format."""

from __future__ import annotations

from starlette.datastructures import FormData

from counterhoop.web.forms import read_form, read_name


def test_lines_of_a_list_come_in_their_order_however_they_are_sent() -> None:
    sent = FormData([("near.1", "79.5 mm"), ("near.0", "37.5 mm"), ("near.10", "9 mm")])
    assert read_form("row", sent) == {"near": ["37.5 mm", "79.5 mm", "9 mm"]}


def test_a_lug_that_was_not_read_leaves_its_place_open() -> None:
    """Lug 3's place must not become lug 2's."""
    sent = {"along.0": "30 deg", "along.1": " ", "along.2": "150 deg", "along.3": ""}
    assert read_form("row", sent) == {"along": ["30 deg", "", "150 deg"]}


def test_a_name_that_is_cleared_goes_from_its_list() -> None:
    sent = {"want": "take out", "fittings.0": "", "fittings.1": "bracket"}
    assert read_form("wish", sent) == {"want": "take out", "fittings": ["bracket"]}


def test_counts_are_numbers_and_their_words_stay_words() -> None:
    assert read_form("row", {"lugs": " 8 "}) == {"lugs": 8}
    assert read_form("row", {"lugs": "8 lugs"}) == {"lugs": "8 lugs"}
    assert read_form("row", {"lugs": "eight"}) == {"lugs": "eight"}


def test_lengths_are_never_numbers() -> None:
    assert read_form("shell", {"wall": "5"}) == {"wall": "5"}


def test_rules_may_be_numbers() -> None:
    sent = {"at.0": "web", "is.0": "7 mm", "at.1": "plug_factor", "is.1": "2.5"}
    assert read_form("rules", sent) == {"web": "7 mm", "plug_factor": 2.5}


def test_one_reading_several_or_one_at_each_place() -> None:
    assert read_form("shell", {"depth": "203 mm"}) == {"depth": "203 mm"}
    assert read_form("row", {"hole.0": "6 mm", "hole.1": "7 mm"}) == {"hole": ["6 mm", "7 mm"]}
    placed = {"depth.at.0": "30 deg", "depth.is.0": "203 mm", "depth.at.1": "", "depth.is.1": ""}
    assert read_form("shell", placed) == {"depth": {"30 deg": "203 mm"}}
    ends = {"circumference": "", "circumference.batter": "952 mm"}
    assert read_form("shell", ends) == {"circumference": {"batter": "952 mm"}}


def test_what_is_typed_in_two_ways_is_kept_in_full() -> None:
    sent = {"depth": "203 mm", "depth.at.0": "30 deg", "depth.is.0": "204 mm"}
    assert read_form("shell", sent) == {"depth": {"30 deg": "204 mm", "": "203 mm"}}
    assert read_form("row", {"hole": "6 mm", "hole.1": "7 mm"}) == {"hole": ["6 mm", "7 mm"]}


def test_two_readings_at_one_place_are_both_kept() -> None:
    sent = {"depth.at.0": "30 deg", "depth.is.0": "203 mm", "depth.at.1": "30 deg"}
    read = read_form("shell", sent | {"depth.is.1": "204 mm"})
    assert sorted(read["depth"].values()) == ["203 mm", "204 mm"]


def test_yes_and_no_are_said_or_left_out() -> None:
    assert read_form("edge", {"there": "no", "surveyed": ""}) == {"there": False}


def test_names_of_the_page_are_passed_over() -> None:
    sent = {"based_on": "7", "reason": "x", "rows.0.lugs": "6", "end": "batter", "?": "", "": "x"}
    assert read_form("ring", sent) == {"end": "batter"}


def test_a_form_writes_no_field_of_another_form() -> None:
    assert read_form("shell", {"wall": "5 mm", "rows.0.lugs": "6"}) == {"wall": "5 mm"}


def test_the_lines_of_a_story_come_as_they_were_typed() -> None:
    assert read_form("job", {"story": "one\r\n\r\ntwo \r\n"}) == {"story": "one\n\ntwo"}


def test_files_and_endless_paths_do_no_harm() -> None:
    deep = ".".join(["near"] * 5000)
    assert read_form("row", [(deep, "1"), ("fitting", object()), ("near.99999999", "3 mm")]) == {
        "near": ["3 mm"]
    }


def test_a_name_has_single_spaces() -> None:
    assert read_name({"_name": "  green   ripple "}) == "green ripple"
    assert read_name({}) == ""
