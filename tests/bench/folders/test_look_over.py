"""A drum looked over while it is entered."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.look_over import LookedOver, look_over
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.plan_job import noticed_in
from counterhoop.bench.workshop import Workshop
from counterhoop.scheme.findings.gathered import gathered

ROW = {
    "head": "batter", "lugs": 6, "fitting": "Corvane round lug", "first": "30 deg",
    "near": ["37.5 mm", "79.5 mm"], "hole": "6 mm",
}  # fmt: skip
TOM: dict[str, Any] = {
    "heads": 1, "circumference": "952 mm", "wall": "5 mm", "depth": "200 mm", "rows": [ROW],
}  # fmt: skip


def looked(shop: Workshop, **more: Any) -> LookedOver:
    job = open_folder(shop, job={"number": "7"}, by="bench")
    body = copy.deepcopy(TOM) | more
    drum = add_drum(shop, job, name="small tom", survey=body, by="bench")
    kept = kept_job(shop, job)
    return look_over(kept, kept.drum(drum), shop=drawer(shop))


def test_a_whole_drum_has_no_faults(shop: Workshop) -> None:
    found = looked(shop)
    assert found.faults == ()
    assert found.surveyed is not None
    assert len(found.surveyed.drum.holes) == 12


@pytest.mark.parametrize("fitting", ["Old Dunmarrow lug", "", None])
def test_a_lug_of_no_book_is_drawn_about_its_holes_and_the_fault_stands(
    shop: Workshop, fitting: str | None
) -> None:
    row = {**ROW, "fitting": fitting} if fitting is not None else dict(ROW)
    if fitting is None:
        del row["fitting"]
    found = looked(shop, rows=[row])
    assert found.surveyed is not None
    assert len(found.surveyed.drum.holes) == 12
    assert [fault.where for fault in found.faults] == ["rows[1].fitting"]
    (lug, *_) = found.surveyed.drum.rows[0].lugs
    assert lug.fitting == (fitting or "lug of the small tom")


def test_two_rows_of_the_same_unknown_lug_make_one_stand_in(shop: Workshop) -> None:
    rows = [{**ROW, "fitting": "nix"}, {**ROW, "fitting": "nix", "head": "resonant",
                                        "from_edge": "resonant"}]  # fmt: skip
    found = looked(shop, rows=rows)
    assert found.surveyed is not None
    assert len(found.surveyed.drum.holes) == 24


def test_what_was_typed_wrongly_is_not_said_to_be_missing_too(shop: Workshop) -> None:
    found = looked(
        shop, depth="200", holes=[{"along": "lug 2 + 4 mm", "near": "40 mm", "dia": "8"}]
    )
    assert [fault.where for fault in found.faults] == ["depth", "holes[1].dia"]
    assert found.surveyed is None


def test_nothing_at_all_is_no_fault_of_the_program(shop: Workshop) -> None:
    job = open_folder(shop, job={}, by="bench")
    drum = add_drum(shop, job, name="x", survey={}, by="bench")
    kept = kept_job(shop, job)
    assert look_over(kept, kept.drum(drum), shop=drawer(shop)).surveyed is None


def test_what_stands_too_near_is_said_as_the_command_says_it(shop: Workshop) -> None:
    # By hand: hole 6 is 9 mm along and 2 mm down from the damper's hole, 9.2 mm apart; half of
    # 6 mm and half of 8 mm off it leaves 2.2 mm outside and less inside, the rule is 6 mm.
    found = looked(shop, holes=[{"along": "lug 3 + 9 mm", "near": "80.5 mm", "dia": "8 mm"}])
    (web,) = (one for one in found.findings if set(one.holes) == {6, 13})
    assert web.measured is not None
    assert 1.5 < web.measured < 2.2
    assert found.so_far.opened is not None
    assert found.surveyed is not None
    (said,) = noticed_in(found.so_far.opened, [found.surveyed]).values()
    assert found.findings == gathered(said)
