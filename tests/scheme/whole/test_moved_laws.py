"""Rows moved by hand on odd drums: exact laws, and one complaint or a scheme at any place."""

from __future__ import annotations

import random
from dataclasses import fields

import pytest

from counterhoop.errors import BadInput
from counterhoop.scheme.movable import movable_rows
from counterhoop.scheme.moved import in_hand, moved
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.schemes import schemes_for
from counterhoop.shell.choice import RowMoved

SAID_ANEW = {"reuse", "title", "why", "near_misses", "moved", "moved_from", "centred", "made_from"}
SEEDS = [*range(30), *(pytest.param(n, marks=pytest.mark.full) for n in range(30, 60))]


def schemes_of(seed, drums, bench, shop) -> tuple[Scheme, ...]:
    try:
        return schemes_for(drums.random_wanted(seed, bench=bench), shop=shop).every[:4]
    except BadInput:
        return ()


@pytest.mark.parametrize("seed", SEEDS)
def test_a_row_put_down_where_it_was_gets_all_its_verdicts_again(seed, drums, bench, shop):
    for scheme in schemes_of(seed, drums, bench, shop):
        for row in movable_rows(scheme):
            back = in_hand(scheme, row.name, shop=shop).at(right_mm=0.0, down_mm=0.0)
            names = (f.name for f in fields(Scheme) if f.name not in SAID_ANEW)
            differ = [name for name in names if getattr(back, name) != getattr(scheme, name)]
            # A row put on while a later one's old holes were still in use may find those free,
            # and then drills less.
            less = back.extra_holes < scheme.extra_holes and len(movable_rows(scheme)) > 1
            assert differ == [] or less, (scheme.title, row.name)


@pytest.mark.parametrize("seed", SEEDS)
def test_any_place_within_reach_is_a_whole_scheme(seed, drums, bench, shop):
    dice = random.Random(seed)
    for scheme in schemes_of(seed, drums, bench, shop):
        for row in movable_rows(scheme):
            move = RowMoved(
                row=row.name,
                right_mm=dice.uniform(-row.aside_mm, row.aside_mm),
                down_mm=dice.uniform(*row.down_mm_range),
            )
            made = moved(scheme, [move], shop=shop)
            numbers = [hole.number for hole in made.layout.holes]
            assert len(set(numbers)) == len(numbers)
            was = {hole.number for hole in scheme.layout.holes if hole.old is not None}
            assert {hole.number for hole in made.layout.holes if hole.old is not None} == was
            assert sorted(f.label for f in made.layout.standing) == sorted(
                f.label for f in scheme.layout.standing
            )
            assert moved(made, [RowMoved(row=row.name)], shop=shop).code == scheme.code
