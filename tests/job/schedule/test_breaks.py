"""The plan that someone looks over: every breach that one can make is seen.

Truth: hand-worked. Two drums over two days, open 9 to 12 and 13 to 17.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterhoop.job.schedule.breaks import breaks_of
from counterhoop.job.schedule.task import Placed, Plan, Shop, Task

SHOP = Shop(open=((540, 720), (780, 1020), (1980, 2160), (2220, 2460)), clamps=3, drying=1)
PLUG = Task(key="plug", job="1", drum="a", says="plug", minutes=60, cure_min=720, clamps=2)
EDGE = Task(key="edge", job="1", drum="a", says="true", minutes=90, after=("plug",), air="dust")
COAT = Task(key="coat", job="2", drum="b", says="coat", minutes=60, cure_min=600, drying=1,
            air="wet", unbroken=True)  # fmt: skip
TUNE = Task(key="tune", job="2", drum="b", says="tune", minutes=200, not_before=600)
WORK = (PLUG, EDGE, COAT, TUNE)


def at(key: str, *stretches: tuple[int, int], cure: int = 0) -> Placed:
    return Placed(key=key, stretches=stretches, cured=stretches[-1][1] + cure)


GOOD = (
    at("plug", (540, 600), cure=720),
    at("coat", (600, 660), cure=600),
    at("tune", (660, 720), (780, 920)),
    at("edge", (1980, 2070)),
)


def found(placed: tuple[Placed, ...], work: tuple[Task, ...] = WORK) -> tuple[str, ...]:
    return breaks_of(Plan(placed=placed, late=0.0), work, SHOP)


def test_a_plan_that_holds_has_no_breaks() -> None:
    assert found(GOOD) == ()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ((at("edge", (1990, 2070)),), "edge: is not worked for its 90 minutes"),
        ((at("edge", (2100, 2160), (2190, 2220)),), "edge: is worked while the shop is closed"),
        ((at("edge", (1980, 2040), (2070, 2100)),), "edge: is laid down while the shop is open"),
        ((at("edge", (2130, 2160), (2220, 2280)),), ""),
        ((at("edge", (2010, 2040), (1980, 2040)),), "edge: its stretches are not in order"),
        ((at("edge", (1000, 1020), (1980, 2050)),), "edge: begins before plug is cured"),
        ((at("plug", (540, 600), cure=700),), "plug: is not left alone for its 720 minutes"),
        ((at("coat", (700, 720), (780, 820), cure=600),), "coat: is laid down"),
        ((at("tune", (590, 720), (780, 850)),), "tune: begins before it can"),
        ((at("tune", (650, 720), (780, 910)),), "tune: begins before coat is finished"),
    ],
)
def test_each_breach_is_seen(change: tuple[Placed, ...], says: str) -> None:
    changed = {one.key: one for one in (*GOOD, *change)}
    placed = tuple(sorted(changed.values(), key=lambda one: one.begins))
    assert any(says in each for each in found(placed)) if says else found(placed) == ()


def test_work_left_out_or_twice_or_of_nobody_is_seen() -> None:
    assert found(GOOD[1:]) == ("plug: is not in the plan",)
    assert len(found((*GOOD, GOOD[0]))) == 1
    assert len(found((*GOOD, at("solder", (2220, 2230))))) == 1


def test_more_clamps_or_places_than_there_are_are_seen() -> None:
    clamped = (*WORK[:3], replace(TUNE, clamps=2))
    assert found(GOOD, clamped) == ("tune: 4 clamps are held as it begins",)
    dried = (replace(PLUG, drying=1), *WORK[1:])
    assert found(GOOD, dried) == ("coat: 2 places to dry are taken as it ends",)


def test_dust_on_wet_work_is_seen() -> None:
    dusty = (*WORK[:3], replace(TUNE, air="dust"))
    assert found(GOOD, dusty) == ("tune: makes dust before coat is cured",)
