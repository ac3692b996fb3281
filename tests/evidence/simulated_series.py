"""Series of serial numbers whose truth is known, and how often the spans hold the year."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterhoop.evidence.reference import SerialExample
from counterhoop.evidence.serial import serial_year

PACES = ("steady", "by fits and starts")


def example(number: int, year: float, *, give: float = 1.0, prefix: str = "") -> SerialExample:
    return SerialExample(
        family="Corvane", prefix=prefix, number=number, year=year, give=give, part="shell",
        written=f"{prefix}{number}", source="made up",
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesLevel:
    """Spans for four times out of five."""

    stated: float
    held: float
    count: int

    @property
    def off(self) -> float:
        return self.held - self.stated


def series_level(*, pace: str, count: int, seed: int) -> SeriesLevel:
    """Take numbers of series of twenty years, each by fifteen dated drums, and count.

    Numbers follow the day of making, steadily or by fits and starts (gamma law); drums left the
    maker out of order by a normal law; dates are told to the year.
    """
    rng = np.random.default_rng(seed)
    stated, held = [], []
    for _ in range(count):
        made = np.ones(20) if pace == "steady" else rng.gamma(2.0, size=20)
        built = np.concatenate([[0.0], np.cumsum(made)]) * 1000.0
        scatter = rng.uniform(0.4, 2.0)
        when = rng.uniform(1951, 1969, size=16)
        numbers = np.interp(when, np.arange(1950, 1971), built).astype(int) + 1
        years = when + scatter * rng.standard_normal(16)
        rows = [
            example(int(number), float(round(year + 0.3 * rng.standard_normal())), give=0.3)
            for number, year in zip(numbers[1:], years[1:], strict=True)
        ]
        span = serial_year(str(numbers[0]), rows).spans[0.8]
        held.append(span.first <= round(years[0]) <= span.last)
        stated.append(span.odds)
    return SeriesLevel(stated=float(np.mean(stated)), held=float(np.mean(held)), count=count)
