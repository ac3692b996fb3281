"""Every code of a finding before posting is listed, can be raised, and stays silent next door.

Facts of the trade: common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from counterhoop.errors import Finding
from counterhoop.job.trade.abroad import Goods, before_posting
from counterhoop.job.trade.parcel import Limits, Parcel
from counterhoop.job.trade.posting_codes import posting_codes

LISTED = {one.code: one for one in posting_codes()}
CLEAN = Goods(timbers=("maple",), nitrate="no", finished=True)
BOX = Parcel(sides_mm=(500.0, 500.0, 300.0), weight_kg=6.0)
ROOM = Limits(carrier="post", longest_mm=600.0, length_and_girth_mm=2500.0, weight_kg=10.0)
RAISED: dict[str, tuple[Goods, Parcel | None, Limits]] = {
    "abroad-nitrate": (replace(CLEAN, nitrate="maybe"), BOX, ROOM),
    "abroad-timber": (replace(CLEAN, timbers=("mahogany",)), BOX, ROOM),
    "abroad-timber-unknown": (replace(CLEAN, timbers=("zebrano",)), BOX, ROOM),
    "abroad-timber-unsaid": (replace(CLEAN, timbers=()), BOX, ROOM),
    "abroad-not-finished": (replace(CLEAN, finished=False), BOX, ROOM),
    "abroad-ornament": (replace(CLEAN, ornaments=("ivory",)), BOX, ROOM),
    "abroad-ornament-unknown": (replace(CLEAN, ornaments=("amber",)), BOX, ROOM),
    "abroad-skin": (replace(CLEAN, skins=("python",)), BOX, ROOM),
    "abroad-skin-unknown": (replace(CLEAN, skins=("yak",)), BOX, ROOM),
    "parcel-longest": (CLEAN, BOX, replace(ROOM, longest_mm=400.0)),
    "parcel-girth": (CLEAN, BOX, replace(ROOM, length_and_girth_mm=2000.0)),
    "parcel-weight": (CLEAN, BOX, replace(ROOM, weight_kg=5.0)),
    "parcel-limits-untyped": (CLEAN, BOX, Limits(carrier="")),
    "parcel-not-measured": (CLEAN, None, ROOM),
}
ALWAYS = "abroad-papers"


def found(goods: Goods, parcel: Parcel | None, limits: Limits) -> tuple[Finding, ...]:
    return before_posting(goods, parcel=parcel, limits=limits)


def test_every_listed_code_can_be_raised_and_no_other_is() -> None:
    assert set(RAISED) | {ALWAYS} == set(LISTED)
    for case in RAISED.values():
        for one in found(*case):
            assert one.code in LISTED, one
            assert one.grade in LISTED[one.code].grades, one


@pytest.mark.parametrize("code", RAISED)
def test_a_code_is_raised_alone(code: str) -> None:
    assert {one.code for one in found(*RAISED[code])} == {code, ALWAYS}


def test_a_clean_drum_in_a_small_box_is_only_told_what_customs_ask() -> None:
    assert [one.code for one in found(CLEAN, BOX, ROOM)] == [ALWAYS]


def test_codes_are_written_alike_and_what_they_mean_is_a_sentence() -> None:
    for one in posting_codes():
        assert re.fullmatch(r"[a-z]+(-[a-z]+)+", one.code)
        assert one.says.endswith(".")
    assert len(LISTED) == len(posting_codes())
