"""Holds answers of the fast solver against the slow ones and against the definitions."""

from __future__ import annotations

import math
import sys
from typing import Any

import pytest

from counterhoop.scheme.reuse import NoRoom, Reuse, Tier

Shell = Any

solve_slowly = sys.modules["reuse_slow"].solve_slowly
best_tier = sys.modules["reuse_sweep"].best_tier
value_plainly = sys.modules["reuse_sweep"].value_plainly


def compare(shell: Shell, found: Reuse | NoRoom) -> bool:
    """Hold an answer against the slow solver; tell whether the slow one was sure of itself."""
    small, large = solve_slowly(shell, large=False), solve_slowly(shell, large=True)
    sure = small.value == large.value
    if isinstance(found, NoRoom):
        assert small.value is None, f"no room was found, but {small.value} is there"
        return sure
    assert large.value is not None, "a pose was found where none is free"
    assert found.value <= large.value, f"{found.value} claimed, at most {large.value} possible"
    assert small.value is None or found.value >= small.value, f"{small.value} beats {found.value}"
    if sure:
        assert large.from_ideal_mm - 1e-6 <= found.from_ideal_mm <= small.from_ideal_mm + 1e-6
    check_claims(shell, found)
    return sure


def check_claims(shell: Shell, found: Reuse) -> None:
    """Hold every word of an answer against the definitions."""
    w = shell.window
    assert w.turn_min_mm <= found.turn_mm <= w.turn_max_mm
    assert w.down_min_mm <= found.down_mm <= w.down_max_mm
    assert found.proven
    assert found.free
    pose = (found.turn_mm, found.down_mm)
    away = min(math.dist(pose, goal) for goal in shell.goals)
    assert found.from_ideal_mm == pytest.approx(away, abs=1e-9)
    numbers = [match.number for match in found.matches]
    assert len(set(numbers)) == len(numbers)
    assert len({(m.lug, m.hole) for m in found.matches}) == len(found.matches)
    worth = dict(zip(Tier, shell.weights.by_tier, strict=True))
    assert found.value == sum(worth[match.tier] for match in found.matches)
    old_of = {old.number: old for old in shell.old}
    want_of = {(lug, i): (hole, along) for lug, i, hole, along in shell.wants}
    for match in found.matches:
        old, (hole, along) = old_of[match.number], want_of[match.lug, match.hole]
        assert old.usable
        e = old.along_mm - along - found.turn_mm
        e -= round(e / shell.wanted.girth_mm) * shell.wanted.girth_mm
        f = old.down_mm - hole.down_mm - found.down_mm
        assert best_tier(hole, old, e, f, shell.limits, 2e-7) is not None
        assert abs(e - match.off_along_mm) <= (hole.slot_along_mm + old.longer_along_mm) / 2 + 1e-9
        assert abs(f - match.off_down_mm) <= (hole.slot_down_mm + old.longer_down_mm) / 2 + 1e-9
    if not any(fitting.base for fitting in shell.wanted.fittings):
        assert value_plainly(shell, pose, slack_mm=1.01e-7) == found.value
