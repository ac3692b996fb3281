"""Invented sales whose law is known: what a drum would bring, and by how much that strays."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

import numpy as np

from counterhoop.job.trade.features import Features
from counterhoop.job.trade.sale import Sale
from counterhoop.quantities.money import Money

TODAY = dt.date(2026, 3, 2)
LINES = ("Corvane Tarnbeck", "Corvane Student", "Dunmarrow", "Hallmere", "")
SIZES = ((12.0, 8.0), (13.0, 9.0), (14.0, 5.5), (14.0, 6.5), (14.0, 14.0), (16.0, 16.0))
FINISHES = ("white pearl wrap", "black wrap", "lacquer", "")
FAULTS = ("edge chipped", "wrap shrunk", "chrome pitted", "mould")
PARTS = ("strainer", "batter hoop", "rods", "badge")


@dataclass(frozen=True, slots=True, kw_only=True)
class Law:
    """How prices are made: ``strays`` names the law of what no feature explains."""

    strays: str = "normal"
    spread: float = 0.25
    a_year: float = 0.0


def drum(rng: np.random.Generator) -> Features:
    dia, deep = SIZES[int(rng.integers(len(SIZES)))]
    first = int(rng.integers(1952, 1975))
    return Features(
        dia_in=dia,
        deep_in=deep,
        kind="snare drum" if deep < 8.0 else "tom",
        line=LINES[int(rng.choice(5, p=[0.35, 0.25, 0.2, 0.15, 0.05]))],
        made=(first, first + int(rng.integers(1, 6))) if rng.random() < 0.8 else None,
        finish=FINISHES[int(rng.choice(4, p=[0.4, 0.3, 0.2, 0.1]))],
        condition=frozenset(fault for fault in FAULTS if rng.random() < 0.25),
        complete=float(rng.choice([1.0, 0.95, 0.9, 0.7])),
        extra_holes=int(rng.choice([0, 0, 1, 2, 6])) if rng.random() < 0.9 else None,
        changed=frozenset(part for part in PARTS if rng.random() < 0.15),
    )


def log_price(drum: Features, law: Law, *, years_ago: float, rng: np.random.Generator) -> float:
    """ln of a price in pennies: the invented truth plus what no feature explains."""
    line = {"Corvane Tarnbeck": 0.8, "Corvane Student": 0.0, "Dunmarrow": 0.5, "Hallmere": 0.3}
    mean = (
        math.log(22_000)
        + line.get(drum.line, 0.1)
        + (0.3 if drum.kind == "snare drum" else 0.02 * (drum.dia_in - 14.0))
        + (0.1 if drum.finish == "white pearl wrap" else 0.0)
        - 0.07 * len(drum.condition or ())
        - 0.06 * len(drum.changed or ())
        - 0.1 * math.log1p(drum.extra_holes or 0)
        - 0.8 * (1.0 - (drum.complete or 1.0))
        - law.a_year * years_ago
    )
    strays = {
        "normal": lambda: rng.normal(),
        "heavy": lambda: rng.standard_t(3) / math.sqrt(3.0),
        "one-sided": lambda: 1.0 - rng.exponential(),
        "even": lambda: rng.uniform(-math.sqrt(3.0), math.sqrt(3.0)),
    }[law.strays]
    return mean + law.spread * float(strays())


def sales(seed: int, *, count: int, law: Law) -> tuple[Sale, ...]:
    rng = np.random.default_rng(seed)
    made = []
    for number in range(count):
        features, ago = drum(rng), int(rng.integers(0, 5 * 365))
        price = math.exp(log_price(features, law, years_ago=ago / 365.0, rng=rng))
        made.append(
            sale(
                f"{number}",
                features,
                minor=round(price),
                days_ago=ago,
                days_on_shelf=int(rng.exponential(40.0)),
            )
        )
    return tuple(made)


def sale(
    key: str, features: Features, *, minor: int, days_ago: int = 0, days_on_shelf: int = 20
) -> Sale:
    return Sale(
        key=key,
        what=f"drum {key}",
        features=features,
        price=Money(minor=minor, currency="GBP"),
        sold_on=TODAY - dt.timedelta(days=days_ago),
        days_on_shelf=days_on_shelf,
        fees=Money(minor=minor // 10, currency="GBP"),
        postage=Money(minor=1500, currency="GBP"),
    )
