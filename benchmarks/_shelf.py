"""A shelf of as many pieces as one likes: invented families, measured as a workshop would.

The same every time. Most of what can be measured on a piece has been; how common a kind, a size
and a word is falls off as it does on a real shelf (common practice, no source).
"""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator

from counterhoop.parts.dimension import Dimension, Measured
from counterhoop.parts.piece import Piece

FAMILIES = ("Corvane", "Dunmarrow", "Hallmere", "Quennick", "Astley", "Brandeth", "Pellmoor")
PLATING = ("chrome", "chrome", "chrome", "nickel", "nickel", "brass", "black", "gold")
FINISH = ("polished", "brushed", "dull", "lacquered", "")
FACTS = (
    "pitted under the base", "one ear bent", "thread cleaned", "plating worn", "rust at the screw",
    "scratched", "gasket gone", "spring gone", "hole drilled out",
)  # fmt: skip
INCH_MM = 25.4

D = Dimension
Sizes = tuple[tuple[Dimension, float, float, int], ...]
# How common, what it is, its names; each size with its least, its most and how many there are.
KINDS: tuple[tuple[int, str, tuple[str, ...], Sizes], ...] = (
    (30, "lug", ("single-ended lug", "double-ended lug", "tube lug", "long lug"),
     ((D.HOLES_APART, 25.4, 76.2, 24), (D.PITCH, 1.0583, 1.0583, 1), (D.BASE_WIDE, 16.0, 32.0, 17),
      (D.REACH, 18.0, 40.0, 12), (D.HOLE_COUNT, 2, 2, 1))),
    (25, "rod", ("tension rod", "square-headed rod", "slotted rod"),
     ((D.LENGTH, 38.1, 127.0, 15), (D.PITCH, 1.0583, 1.0583, 1), (D.MAJOR, 5.5, 5.6, 2))),
    (15, "screw", ("lug screw", "machine screw, round head", "strainer screw"),
     ((D.LENGTH, 6.35, 38.1, 11), (D.PITCH, 0.7938, 0.7938, 1), (D.MAJOR, 4.1, 4.2, 2))),
    (10, "washer", ("washer", "cup washer", "fibre washer"),
     ((D.HOLE, 4.2, 6.5, 5), (D.ACROSS, 9.0, 16.0, 8), (D.THICK, 0.8, 2.0, 4))),
    (8, "claw", ("bass drum claw", "claw with a clip"),
     ((D.HOLE, 6.5, 7.5, 3), (D.MASS, 60, 130, 8))),
    (6, "hoop", ("flanged hoop", "cast hoop", "wood hoop"),
     ((D.INSIDE, 254.0, 610.0, 9), (D.EARS, 5, 10, 4), (D.THICK, 1.6, 2.3, 3))),
    (4, "strainer", ("side strainer", "parallel strainer"), ((D.HOLES_APART, 25.4, 63.5, 10),)),
    (2, "bracket", ("tom bracket", "leg bracket", "mount plate"),
     ((D.HOLES_APART, 31.75, 63.5, 8), (D.HOLES_APART_2, 25.4, 44.45, 6), (D.TAKES, 9.5, 22.2, 6))),
)  # fmt: skip


def many_pieces(count: int) -> Iterator[Piece]:
    """Yield so many pieces."""
    chance = random.Random(1_000_000)
    weights = [kind[0] for kind in KINDS]
    day = dt.date(2001, 1, 1)
    for place in range(count):
        _, kind, names, sizes = chance.choices(KINDS, weights)[0]
        family = FAMILIES[min(int(chance.expovariate(0.6)), len(FAMILIES) - 1)]
        yield Piece(
            id=f"{place:016x}",
            number=f"{place // 1000}-{place % 1000:03}",
            kind=kind,
            says=f"{chance.choice(names)}, {family}",
            measured=_measured(sizes, chance),
            plating=chance.choice(PLATING),
            finish=chance.choice(FINISH),
            condition=tuple(chance.sample(FACTS, k=chance.choice((0, 0, 1, 2)))),
            count=chance.choice((1, 1, 1, 2, 4, 8)),
            bin=f"{chance.choice('ABCDEFGH')} {chance.randrange(40)}",
            lot=f"lot {place // 400}",
            owner="" if place % 20 else f"Client {place % 300}",
            came_on=day + dt.timedelta(days=place % 9000),
        )


def _measured(sizes: Sizes, chance: random.Random) -> tuple[Measured, ...]:
    found = []
    for dimension, least, most, steps in sizes:
        if chance.random() < 0.3:
            continue
        # Small sizes are the common ones.
        step = min(int(chance.expovariate(3.0 / steps)), steps - 1)
        true = least + (most - least) * step / max(steps - 1, 1)
        counted = dimension.unit == "count"
        doubt = 0.0 if counted else chance.choice((0.05, 0.1, 0.1, 0.1, 0.5))
        value = (
            float(round(true)) if counted else round((true + chance.gauss(0, 0.1)) / 0.05) * 0.05
        )
        found.append(
            Measured(dimension=dimension, value=value, doubt=doubt, written=f"{value:.2f}")
        )
    return tuple(found)
