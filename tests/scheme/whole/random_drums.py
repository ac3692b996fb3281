"""Odd but possible drums, one wish or two, by seed; all figures invented."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

from counterhoop.development.flat import Ring
from counterhoop.development.outline import disc
from counterhoop.development.place import Place
from counterhoop.development.shape import Oval, Rectangle, Round, Slot
from counterhoop.development.truing import Removal, Truing
from counterhoop.fittings.entry import Kind
from counterhoop.shell.drum import Drum, Mark, OldFinish, PlySeam, Seam
from counterhoop.shell.hole import Condition, Origin
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import (
    BackToFactory,
    FinishPlan,
    KitSnare,
    Move,
    OtherLugs,
    PutOn,
    SecondHead,
    Shorten,
    TakeOut,
    Wish,
)

INCH_MM = 25.4
LUGS = (
    "Corvane round lug",
    "Corvane round short lug",
    "Quennick square lug",
    "Dunmarrow bullet lug",
    "Ossering plate lug",
)
FITTINGS = (
    ("Corvane block bracket", "bracket"),
    ("Dunmarrow leg bracket", "leg, left"),
    ("Corvane damper", "damper"),
    ("Corvane lever strainer", "strainer"),
    ("Corvane butt", "butt"),
    ("Corvane oval badge", "badge"),
)
"""One label has a comma in it: nothing may cut labels apart at commas."""
PLATE = "cover plate 76 x 64, four holes"


def random_wanted(seed: int, *, bench: Any) -> DrumWanted:
    """One drum with what is wanted of it."""
    dice = random.Random(seed)
    drum = random_drum(dice, bench=bench)
    wishes = [_wish(dice, drum)]
    if dice.random() < 0.35:
        wishes.append(_wish(dice, drum))
    return DrumWanted(drum=drum, wishes=tuple(wishes), finish=_finish(dice))


def random_drum(dice: random.Random, *, bench: Any) -> Drum:
    """Rows, fittings and stray holes, most of them where they are in the way of something."""
    inches = dice.choice([10, 12, 13, 14, 16, 22])
    depth = dice.uniform(130.0, 420.0)
    drum = bench.bare(
        diameter_mm=inches * INCH_MM * dice.uniform(0.98, 1.01),
        depth_mm=depth,
        heads=dice.choice([1, 2]),
    )
    count, first, lug = dice.choice([2, 3, 4, 5, 6, 8, 10]), dice.uniform(0, 360), dice.choice(LUGS)
    hoops = [
        entry.name
        for entry in bench.book.of_kind(Kind.HOOP)
        if abs((entry.nominal_mm or 0.0) - inches * INCH_MM) < 1 and entry.ears in (count, None)
    ]
    hoop = dice.choice(hoops) if hoops and dice.random() < 0.8 else ""
    row = {"count": count, "first_deg": first, "hoop": hoop}
    pinned = dice.random() < 0.3
    drum = bench.with_row(drum, lug, down_mm=dice.uniform(50, 64), pinned=pinned, **row)
    if drum.heads == 2:
        down = depth - dice.uniform(50, 64)
        drum = bench.with_row(drum, lug, down_mm=down, head="resonant", **row)
    for name, label in dice.sample(FITTINGS, dice.randint(0, 3)):
        drum = bench.fitted(
            drum,
            name,
            dice.uniform(0, 360),
            dice.uniform(55, depth - 55),
            label=label,
            origin=dice.choice(list(Origin)),
            missing=dice.random() < 0.2,
        )
    for _ in range(dice.randint(0, 8)):
        drum = _stray(dice, drum, count=count, first_deg=first, bench=bench)
    return _dressed(dice, drum)


def _stray(dice: random.Random, drum: Drum, *, count: int, first_deg: float, bench: Any) -> Drum:
    depth, spacing = drum.depth_mm, 360.0 / count
    near = first_deg + dice.choice([0.0, spacing / 2]) + dice.gauss(0, 1)
    along = dice.choice([dice.uniform(0, 360), near + spacing * dice.randint(0, count)])
    down = dice.choice([dice.uniform(15, depth - 15), depth / 2 + dice.gauss(0, 20)])
    return bench.with_hole(
        drum,
        along,
        min(max(down, 15.0), depth - 15.0),
        dice.choice(
            [
                Round(dice.uniform(3, 14)),
                Slot(6.0, dice.uniform(7, 12), dice.choice(["along", "down"])),
                Oval(6.0, 7.0, "down"),
                Rectangle(20.0, 9.0),
            ]
        ),
        purpose=dice.choice(["", "vent"]),
        origin=dice.choice(list(Origin)),
        condition=dice.choice(list(Condition)),
    )


def _dressed(dice: random.Random, drum: Drum) -> Drum:
    if dice.random() < 0.4:
        start = dice.uniform(0, 360)
        drum = replace(
            drum,
            seam=Seam(from_deg=start, to_deg=(start + 5) % 360),
            finish=OldFinish(kind="wrap", thickness_mm=0.5),
        )
    if dice.random() < 0.4:
        rings = (
            Ring(end="batter", wide_mm=25, thick_mm=5),
            Ring(end="resonant", wide_mm=25, thick_mm=5),
        )
        drum = replace(drum, rings=rings)
    if dice.random() < 0.4:
        mark = Mark(
            kind=dice.choice(["shadow", "imprint"]),
            place=Place(dice.uniform(0, 360), dice.uniform(40, 90)),
            outline=disc(22.0),
            of="what went before",
        )
        drum = replace(drum, marks=(mark,))
    if dice.random() < 0.3:
        seam = PlySeam(
            kind="ply seam", along_deg=dice.uniform(0, 360), from_mm=0, to_mm=drum.depth_mm
        )
        drum = replace(drum, lines=(seam,))
    return drum


def _wish(dice: random.Random, drum: Drum) -> Wish:
    depth = drum.depth_mm
    labels = [plan.label for plan in drum.fittings]
    wishes: list[Wish] = [
        OtherLugs(lug=dice.choice(LUGS)),
        OtherLugs(lug=dice.choice(LUGS), heads=("batter",)),
        BackToFactory(),
        PutOn(
            fitting="Quennick roller strainer",
            label="new strainer",
            near=Place(dice.uniform(0, 360), depth * dice.uniform(0.3, 0.7)),
            free_along_mm=dice.choice([0.0, 10.0]),
        ),
        Shorten(depth_mm=depth * 0.75, end=dice.choice(["batter", "resonant"]), free_mm=40.0),
        KitSnare(depth_mm=depth * 0.7, lug=dice.choice(["", *LUGS]), free_mm=60.0),
    ]
    if drum.heads == 1:
        wishes += [SecondHead()] * 3
    if labels:
        label = dice.choice(labels)
        wishes += [
            TakeOut(labels=(label,), plate=dice.choice(["", PLATE])),
            Move(label=label, near=Place(dice.uniform(0, 360), depth / 2)),
        ]
    return dice.choice(wishes)


def _finish(dice: random.Random) -> FinishPlan:
    kind = dice.choice(["stays", "stays", "stays", "clear lacquer", "paint", "new wrap"])
    return FinishPlan(
        kind=kind,
        thickness_mm=0.5 if kind == "new wrap" else None,
        truing=Truing(
            batter=Removal(dice.choice([0.0, 0.0, 1.5])),
            resonant=Removal(dice.choice([0.0, 0.0, 2.0])),
        ),
    )
