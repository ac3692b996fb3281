"""Laws that the best use of old holes obeys whatever the shell."""

from __future__ import annotations

from dataclasses import replace
from types import ModuleType
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.scheme.reuse import (
    Barred,
    Limits,
    NoRoom,
    OldHole,
    Reuse,
    WantedFitting,
    WantedGroup,
    WantedHole,
    Window,
    reuse_at,
)

SEEDS = st.integers(0, 10_000_000)


def worth(found: Reuse | NoRoom) -> tuple[int, ...]:
    if isinstance(found, NoRoom):
        return (-1,)
    return (found.value, found.kept, found.enlarged, found.slotted)


def same(one: Reuse | NoRoom, other: Reuse | NoRoom) -> None:
    if isinstance(one, NoRoom) or isinstance(other, NoRoom):
        assert isinstance(one, NoRoom)
        assert isinstance(other, NoRoom)
        return
    assert one.value == other.value
    assert one.from_ideal_mm == pytest.approx(other.from_ideal_mm, abs=1e-6)


def value(found: Reuse | NoRoom) -> int:
    return -1 if isinstance(found, NoRoom) else found.value


def fitted(shell: Any) -> Any:
    """The same shell with its row given fitting by fitting (a group, once round)."""
    return WantedGroup(fittings=shell.wanted.fittings, girth_mm=shell.wanted.girth_mm)


@given(seed=SEEDS, by=st.floats(-500, 500))
def test_turning_the_shell_turns_the_answer(
    random_shells: ModuleType, seed: int, by: float
) -> None:
    shell = random_shells.random_shell(seed)
    w = shell.window
    turned = replace(
        shell,
        old=tuple(replace(o, along_mm=o.along_mm + by) for o in shell.old),
        window=replace(w, turn_min_mm=w.turn_min_mm + by, turn_max_mm=w.turn_max_mm + by),
        ideal=(shell.ideal[0] + by, shell.ideal[1]),
        barred=tuple(moved(bar, by) for bar in shell.barred),
        barred_drill=tuple(replace(d, along_mm=d.along_mm + by) for d in shell.barred_drill),
    )
    same(shell.solve(), turned.solve())


def moved(bar: Barred, by: float, *, sign: int = 1) -> Barred:
    rings = [tuple((sign * x + by, y) for x, y in ring) for ring in (bar.points, *bar.holes)]
    return replace(bar, points=rings[0], holes=tuple(rings[1:]))


def mirrored(shell: Any) -> Any:
    def hole(want: WantedHole) -> WantedHole:
        return replace(want, right_mm=-want.right_mm)

    def flipped(fitting: WantedFitting) -> WantedFitting:
        return WantedFitting(
            along_mm=-fitting.along_mm,
            holes=tuple(hole(h) for h in fitting.holes),
            base=tuple((-x, y) for x, y in fitting.base),
        )

    w = shell.window
    named = any(bar.lug is not None for bar in (*shell.barred, *shell.barred_drill))
    wanted = shell.wanted
    if hasattr(wanted, "count") and not named:
        flip = replace(
            wanted,
            holes=tuple(hole(h) for h in wanted.holes),
            base=tuple((-x, y) for x, y in wanted.base),
        )
    else:
        flip = WantedGroup(
            fittings=tuple(flipped(f) for f in wanted.fittings), girth_mm=wanted.girth_mm
        )
    return replace(
        shell,
        wanted=flip,
        old=tuple(replace(o, along_mm=-o.along_mm) for o in shell.old),
        window=Window(
            turn_min_mm=-w.turn_max_mm,
            turn_max_mm=-w.turn_min_mm,
            down_min_mm=w.down_min_mm,
            down_max_mm=w.down_max_mm,
        ),
        ideal=(-shell.ideal[0], shell.ideal[1]),
        barred=tuple(moved(bar, 0.0, sign=-1) for bar in shell.barred),
        barred_drill=tuple(replace(d, along_mm=-d.along_mm) for d in shell.barred_drill),
    )


@given(seed=SEEDS)
def test_a_mirrored_shell_is_worth_as_much(random_shells: ModuleType, seed: int) -> None:
    shell = random_shells.random_shell(seed)
    same(shell.solve(), mirrored(shell).solve())


def test_the_mirror_is_no_idle_check(random_shells: ModuleType) -> None:
    """Old holes mirrored without the bars and bases change some answer."""
    changed = 0
    for seed in range(60):
        shell = random_shells.random_shell(seed)
        half = replace(mirrored(shell), barred=shell.barred, barred_drill=shell.barred_drill)
        changed += value(shell.solve()) != value(half.solve())
    assert changed > 0


@given(seed=SEEDS)
def test_a_row_is_a_group_of_like_fittings(random_shells: ModuleType, seed: int) -> None:
    shell = random_shells.random_shell(seed)
    assert value(shell.solve()) == value(replace(shell, wanted=fitted(shell)).solve())


@given(seed=SEEDS, wider=st.floats(0, 3))
def test_more_freedom_never_costs(random_shells: ModuleType, seed: int, wider: float) -> None:
    shell = random_shells.random_shell(seed)
    before, w = value(shell.solve()), shell.window
    wide = replace(w, down_min_mm=w.down_min_mm - wider, down_max_mm=w.down_max_mm + wider)
    assert value(replace(shell, window=wide).solve()) >= before
    assert value(replace(shell, barred=()).solve()) >= before
    assert value(replace(shell, barred_drill=()).solve()) >= before
    limits = shell.limits
    looser = Limits(
        keep_mm=limits.keep_mm + wider,
        enlarge_mm=limits.enlarge_mm + wider,
        slot_mm=limits.slot_mm + wider,
        lengthways=limits.lengthways,
        bush=True,
    )
    assert value(replace(shell, limits=looser).solve()) >= before
    more = OldHole(number=99, along_mm=1.0, down_mm=0.5, diameter_mm=6.0)
    assert value(replace(shell, old=(*shell.old, more)).solve()) >= before


@given(seed=SEEDS, across=st.floats(0, 1), downward=st.floats(0, 1))
def test_no_pose_is_better(
    random_shells: ModuleType, seed: int, across: float, downward: float
) -> None:
    shell = random_shells.random_shell(seed)
    found, w = shell.solve(), shell.window
    poses = [
        (
            w.turn_min_mm + across * (w.turn_max_mm - w.turn_min_mm),
            w.down_min_mm + downward * (w.down_max_mm - w.down_min_mm),
        )
    ]
    if isinstance(found, Reuse):
        poses.append((found.turn_mm, found.down_mm))
    for turn, down in poses:
        there = reuse_at(
            shell.wanted,
            shell.old,
            turn_mm=turn,
            down_mm=down,
            limits=shell.limits,
            barred=shell.barred,
            barred_drill=shell.barred_drill,
            weights=shell.weights,
        )
        if there.free:
            assert there.value <= value(found)
    if isinstance(found, Reuse):
        assert there.free
        assert worth(there) == worth(found)
        assert there.misfit_mm2 == pytest.approx(found.misfit_mm2, abs=1e-9)


@given(seed=SEEDS)
def test_the_order_of_old_holes_does_not_matter(random_shells: ModuleType, seed: int) -> None:
    shell = random_shells.random_shell(seed)
    found, back = shell.solve(), replace(shell, old=shell.old[::-1]).solve()
    same(found, back)
    if isinstance(found, Reuse) and isinstance(back, Reuse):
        assert found.misfit_mm2 == pytest.approx(back.misfit_mm2, abs=1e-6)
