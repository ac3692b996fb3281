"""Exact laws of slanting edges: measured from the trued planes, or turned end for end."""

from __future__ import annotations

import math
import random
from collections import Counter
from dataclasses import replace

import pytest

from counterhoop.development.flat import Ring
from counterhoop.development.place import Place
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.scheme.draft import draft_of
from counterhoop.scheme.ground import ground_of
from counterhoop.scheme.schemes import schemes_for
from counterhoop.scheme.wishes.other_lugs import other_lugs
from counterhoop.shell.drum import PlacedFitting, Row
from counterhoop.shell.wish import FinishPlan, KitSnare, Move, OtherLugs, PutOn, Shorten

FINISH = FinishPlan()
FROM_BEFORE = ("hole-near-edge", "edge-through-hole", "ring-sanded-away")
"""Findings that say what truing did to a hole or a ring, and so know both states."""
SEEDS = [*range(20), *(pytest.param(n, marks=pytest.mark.full) for n in range(20, 300))]


def slants(dice):
    def one():
        lean, at = dice.uniform(0.0, 1.2), dice.uniform(0.0, 2.0 * math.pi)
        return Removal(dice.uniform(1.2, 3.0), lean * math.cos(at), lean * math.sin(at))

    return Truing(batter=one(), resonant=one())


def measured_from_the_trued_planes(wanted):
    """The same drum surveyed after the sanding: every height from the new batter edge."""
    truing, drum = wanted.finish.truing, wanted.drum
    moved = truing.moved

    def fitting(plan):
        return replace(plan, place=moved(plan.place))

    def line(one):
        off = truing.batter.at_mm(one.along_deg)
        return replace(one, from_mm=one.from_mm - off, to_mm=one.to_mm - off)

    def ring(one):
        off = truing.batter if one.end == "batter" else truing.resonant
        return Ring(
            end=one.end,
            wide_mm=one.wide_mm - off.mean_mm,
            thick_mm=one.thick_mm,
            wide_cos_mm=one.wide_cos_mm - off.cos_mm,
            wide_sin_mm=one.wide_sin_mm - off.sin_mm,
        )

    ends = (truing.batter, truing.resonant)
    after = replace(
        drum,
        depth_mm=drum.depth_mm - sum(e.mean_mm for e in ends),
        depth_cos_mm=drum.depth_cos_mm - sum(e.cos_mm for e in ends),
        depth_sin_mm=drum.depth_sin_mm - sum(e.sin_mm for e in ends),
        holes=tuple(replace(h, place=moved(h.place)) for h in drum.holes),
        rows=tuple(replace(row, lugs=tuple(map(fitting, row.lugs))) for row in drum.rows),
        fittings=tuple(map(fitting, drum.fittings)),
        marks=tuple(replace(m, place=moved(m.place)) for m in drum.marks),
        lines=tuple(map(line, drum.lines)),
        rings=tuple(map(ring, drum.rings)),
        inside=tuple(replace(thing, place=moved(thing.place)) for thing in drum.inside),
    )
    wishes = tuple(
        replace(wish, near=moved(wish.near))
        if isinstance(wish, PutOn | Move) and wish.near is not None
        else wish
        for wish in wanted.wishes
    )
    return replace(
        wanted, drum=after, wishes=wishes, finish=replace(wanted.finish, truing=Truing())
    )


def told(wanted, shop):
    """Every scheme with every hole where it lies, and every finding that is not of both states."""
    lines = []
    for scheme in schemes_for(wanted, shop=shop).every:
        findings = Counter(f.code for f in scheme.findings if f.code not in FROM_BEFORE)
        holes = [
            (
                p.number,
                str(p.verdict),
                p.of,
                *at(p.place),
                *at(p.new_place or p.place),
                None if p.new is None else tuple(round(s, 4) for s in p.new.size_mm),
            )
            for p in scheme.layout.holes
        ]
        lines.append(repr((scheme.title, scheme.centred, sorted(findings.items()), holes)))
    return sorted(lines)


def at(place):
    return round(place.along_deg + 1e-7, 4) % 360.0, round(place.down_mm + 1e-7, 4)


def slanting(seed, drums, bench):
    wanted = drums.random_wanted(seed, bench=bench)
    dice = random.Random(seed)
    drum = replace(
        wanted.drum, depth_cos_mm=dice.uniform(-1.0, 1.0), depth_sin_mm=dice.uniform(-1.0, 1.0)
    )
    finish = replace(wanted.finish, truing=slants(dice))
    cut = [wish.end for wish in wanted.wishes if isinstance(wish, Shorten | KitSnare)]
    if cut:  # the saw takes the place of truing at its end: nothing to measure from there
        finish = replace(finish, truing=replace(finish.truing, **{cut[0]: Removal()}))
    return replace(wanted, drum=drum, finish=finish)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_drum_may_be_measured_before_or_after_it_is_trued(seed, drums, bench, shop):
    wanted = slanting(seed, drums, bench)
    after = measured_from_the_trued_planes(wanted)
    try:
        before = told(wanted, shop)
    except BadInput:
        with pytest.raises(BadInput):
            told(after, shop)
        return
    assert told(after, shop) == before


def test_a_batter_edge_trued_by_its_mean_alone_would_be_seen(drums, bench, shop):
    """The comparison can fail: the mean taken off for the slant."""
    for seed in range(20):
        wanted = slanting(seed, drums, bench)
        mean = Removal(wanted.finish.truing.batter.mean_mm)
        truing = replace(wanted.finish.truing, batter=mean)
        slip = replace(wanted, finish=replace(wanted.finish, truing=truing))
        try:
            before = told(wanted, shop)
        except BadInput:
            continue
        assert told(measured_from_the_trued_planes(slip), shop) != before
        return
    raise AssertionError("no drum could be planned")


def end_for_end(drum):
    """The shell stood on its other end: heights from the other edge, along the other way round."""

    def place(old):
        return Place(-old.along_deg, drum.depth_at_mm(old.along_deg) - old.down_mm)

    def fitting(plan: PlacedFitting):
        turned = (plan.turned_deg + 180.0) % 360.0
        return replace(plan, place=place(plan.place), turned_deg=turned)

    def row(old: Row):
        head = "batter" if old.head == "resonant" else "resonant"
        lugs = tuple(map(fitting, reversed(old.lugs)))
        named = tuple(replace(lug, label=f"{head} lug {n}") for n, lug in enumerate(lugs, 1))
        return replace(old, head=head, lugs=named)

    return replace(
        drum,
        depth_sin_mm=-drum.depth_sin_mm,
        holes=tuple(replace(h, place=place(h.place)) for h in drum.holes),
        rows=tuple(map(row, drum.rows)),
        fittings=tuple(map(fitting, drum.fittings)),
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_a_row_follows_either_edge_alike(seed, drums, bench, rules):
    """The best use of old holes by a resonant row is that of a batter row on the shell turned over.

    Independent of how heights from a slanting edge are counted: on the batter side they are
    plain ones.
    """
    dice = random.Random(seed)
    drum = bench.bare(heads=2)
    lug, new = dice.choice(drums.LUGS), dice.choice(drums.LUGS)
    count = dice.choice([4, 6, 8])
    drum = bench.with_row(drum, lug, count=count, down_mm=55.0)
    drum = bench.with_row(drum, lug, count=count, down_mm=203.0 - 55.0, head="resonant")
    for _ in range(12):
        along = dice.choice(range(count)) * 360.0 / count + dice.gauss(0.0, 0.4)
        drum = bench.with_hole(
            drum, along, 203.0 - dice.uniform(30.0, 85.0), dice.choice([5.0, 6.0, 6.5])
        )
    drum = replace(drum, depth_cos_mm=dice.uniform(-1.5, 1.5), depth_sin_mm=dice.uniform(-1.5, 1.5))
    there = best(drum, new, "resonant", bench, rules)
    turned = best(end_for_end(drum), new, "batter", bench, rules)
    assert turned == there


def best(drum, lug, head, bench, rules):
    """How the old holes serve, and how far the new row is from where the eye expects it."""
    draft = draft_of(ground_of(drum, finish=FINISH, book=bench.book))
    wish = OtherLugs(lug=lug, heads=(head,))
    found = other_lugs(draft, wish, book=bench.book, rules=rules)
    return [
        (
            proof.kept,
            proof.enlarged,
            proof.slotted,
            proof.wanted,
            round(abs(proof.off_middle_mm) + 1e-7, 3),
        )
        for made in found
        for proof in (row.proof for row in made.rows)
    ]
