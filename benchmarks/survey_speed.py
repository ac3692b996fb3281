"""Speed of all that the readings of one drum come to: 64 stations, both edges, both ends."""

from __future__ import annotations

import math
import random
from dataclasses import replace

from _timing import Table, timed

from counterhoop.development.surface import Skin
from counterhoop.shell.drum import Circumference, Drum
from counterhoop.shell.readings import EndReadings, Readings, RimReadings
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import Flatten
from counterhoop.survey.crosscheck import readings_held
from counterhoop.survey.drum_survey import survey_drum, truing_of

STATIONS, ACROSS_MM, DEPTH_MM = 64, 356.0, 200.0


def drum(chance: random.Random) -> Drum:
    """Return a drum read at 64 stations: an oval with lobes, edges with a saddle and a lean."""

    def rim(size: float, *, step: float, turn: float = 360.0, add: float = 0.0) -> RimReadings:
        count = STATIONS if turn == 360.0 else STATIONS // 2
        along = [turn * k / count for k in range(count)]
        high = chance.uniform(0.0, 360.0)
        values = [
            add
            + size * math.cos(math.radians(2.0 * (a - high)))
            + (0.3 * size * math.cos(math.radians(3.0 * a)) if turn == 360.0 else 0.0)
            + chance.gauss(0.0, step)
            for a in along
        ]
        return RimReadings(
            along_deg=tuple(along),
            value_mm=tuple(values),
            instrument="made for the benchmark",
            resolution_mm=step,
        )

    def end(name: str) -> EndReadings:
        return EndReadings(
            end=name,  # type: ignore[arg-type]
            across=rim(1.0, step=0.1, turn=180.0, add=ACROSS_MM),
            radii=rim(0.5, step=0.01, add=ACROSS_MM / 2.0),
            edge=rim(0.2, step=0.05),
        )

    along = [45.0 * k for k in range(8)]
    return Drum(
        key="benchmark",
        circumference=Circumference(skin=Skin.OLD, mean_mm=math.pi * ACROSS_MM),
        wall_mm=5.0,
        depth_mm=DEPTH_MM,
        depth_cos_mm=0.8,
        depth_readings_mm=tuple((f"{a} deg", DEPTH_MM) for a in along),
        depth_along_deg=tuple(along),
        readings=Readings(batter=end("batter"), resonant=end("resonant")),
    )


def evaluate(found: Drum, flatten: Flatten) -> None:
    """Do everything that a survey sheet and a truing sheet rest on."""
    survey = survey_drum(found)
    for end in (survey.batter, survey.resonant):
        assert end.roundness is not None
        assert end.roundness.inscribed is not None
    readings_held(found, survey, rules=default_rules())
    truing_of(found, flatten)


def main() -> None:
    """Print the table."""
    chance = random.Random(7)
    drums = iter([drum(chance) for _ in range(400)])
    both = Flatten(ends=("batter", "resonant"))
    table = Table(f"All readings of one drum: {STATIONS} stations, both ends, both edges")
    evaluate(next(drums), both)
    for what, flatten in (
        ("evaluated, held against each other, trued", both),
        ("the same, least wood in all", replace(both, least="total")),
        ("the same, edges parallel", replace(both, parallel=True)),
        ("the same, least wood in all, parallel", replace(both, parallel=True, least="total")),
    ):
        table.row(what, timed(lambda f=flatten: evaluate(next(drums), f), times=50), limit_s=0.02)
    table.close()


if __name__ == "__main__":
    main()
