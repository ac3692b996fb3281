"""A survey that is half done: what can be read is drawn, what cannot is said at its place."""

from __future__ import annotations

import pytest

from counterhoop.bench.folders.folder import KeptDrum, drawer, kept_job
from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.read_so_far import SoFar, read_so_far, tables_to_plan
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop

SHELL = {"circumference": "951 mm", "depth": "203 mm", "wall": "5 mm"}
HOLE = {"along": "40 deg", "near": "2 in", "dia": "6 mm"}


def so_far(shop: Workshop, survey: dict, name: str = "tom 12.5") -> SoFar:
    job = open_folder(shop, job={}, by="bench")
    add_drum(shop, job, name=name, survey=survey, by="bench")
    kept = kept_job(shop, job)
    return read_so_far(kept, kept.drums[0], shop=drawer(shop))


def test_nothing_but_a_name_cannot_be_drawn_and_says_what_comes_first(shop: Workshop) -> None:
    read = so_far(shop, {})
    assert read.opened is None
    assert {fault.where for fault in read.faults} >= {"wall", "depth"}


def test_three_numbers_are_a_shell(shop: Workshop) -> None:
    read = so_far(shop, SHELL)
    assert read.whole
    assert read.opened is not None
    assert read.opened.job.drums[0].drum.key == "tom 12.5"


@pytest.mark.parametrize(
    ("broken", "where", "left_out"),
    [
        ({"holes": [HOLE, {**HOLE, "near": "5 1/2"}, HOLE]}, "holes[2].near", "holes[2]"),
        ({"holes": [HOLE, {"along": "10 deg", "near": "30 mm"}]}, "holes[2]", "holes[2]"),
        ({"seam": {"along": "somewhere", "overlap": "12 mm"}}, "seam", "seam"),
        ({"edges": {"batter": {"gaps": "0, 1"}}}, "edges.batter.gaps", "edges.batter.gaps"),
        ({"plies": "three"}, "plies", "plies"),
        ({"colour": "red"}, "colour", "colour"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_left_out_of_the_drawing(
    shop: Workshop, broken: dict, where: str, left_out: str
) -> None:
    read = so_far(shop, {**SHELL, **broken})
    assert read.opened is not None
    assert not read.whole
    assert where in {fault.where for fault in read.faults}
    assert left_out in read.left_out
    kept = len(broken.get("holes", ())) - left_out.startswith("holes[")
    assert len(read.opened.job.drums[0].drum.holes) == max(kept, 0)


def test_a_hole_off_the_shell_is_left_out_too(shop: Workshop) -> None:
    read = so_far(shop, {**SHELL, "holes": [HOLE, {**HOLE, "near": "260 mm"}]})
    assert read.opened is not None
    assert not read.whole
    assert len(read.opened.job.drums[0].drum.holes) == 1


def test_a_lug_that_no_book_has_is_said_where_it_stands(shop: Workshop) -> None:
    row = {"head": "batter", "lugs": 6, "fitting": "nobody's lug", "first": "30 deg"}
    read = so_far(shop, {**SHELL, "rows": [{**row, "near": ["38 mm"], "hole": "6 mm"}]})
    assert any("nobody's lug" in str(fault) for fault in read.faults)


def test_a_drum_with_a_fault_is_not_planned(shop: Workshop, demo: str) -> None:
    job = kept_job(shop, demo)
    tom: KeptDrum = job.drums[0]
    bad = Change(
        kind=SURVEY, name=tom.id, pointer="/holes/0/dia", value="8",
        based_on=tom.kept(SURVEY).number,
    )  # fmt: skip
    write_down(shop, demo, bad, by="bench")
    tables, faults = tables_to_plan(kept_job(shop, demo), shop=drawer(shop))
    assert set(faults) == {tom.id}
    assert tom.name not in tables["drums"]
    assert len(tables["drums"]) == len(job.drums) - 1
    # The two toms were to match each other: one that is not planned matches nothing.
    assert "match" not in tables
