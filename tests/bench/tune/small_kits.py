"""Small jobs with drums to tune."""

from __future__ import annotations

from counterhoop.bench.demo import no_book
from counterhoop.bench.open_job import opened
from counterhoop.bench.plan_job import JobPlan, plan_job
from counterhoop.bench.tune.drum_to_tune import DrumToTune, drum_to_tune

DRUM = """
[drums."{name}"]
kind = "{kind}"
heads = {heads}
circumference = "{girth} mm"
wall = "5 mm"
depth = "{depth} mm"
{more}
[[drums."{name}".rows]]
head = "batter"
lugs = {lugs}
fitting = "Corvane round lug"
first = "30 deg"
near = ["37.5 mm", "79.5 mm"]
hole = "6 mm"
"""
RESONANT = """
[[drums."{name}".rows]]
head = "resonant"
lugs = {lugs}
fitting = "Corvane round lug"
first = "30 deg"
near = ["37.5 mm", "79.5 mm"]
from_edge = "resonant"
hole = "6 mm"
"""


def drum(
    name: str, *, girth: float, depth: float, lugs: int = 6, heads: int = 2, kind: str = "tom",
    more: str = "", tuning: str = "",
) -> str:  # fmt: skip
    """Return a drum as a survey file has it, lacquered, its lugs every so many degrees."""
    text = DRUM.format(
        name=name, girth=girth, depth=depth, lugs=lugs, heads=heads, kind=kind, more=more
    )
    if heads > 1:
        text += RESONANT.format(name=name, lugs=lugs)
    return text + (f'\n[drums."{name}".tuning]\n{tuning}\n' if tuning else "")


def planned(*drums: str, kit: str = "") -> JobPlan:
    """Return a planned job of these drums."""
    text = f'format = 1\n[job]\nnumber = "1"\n{kit}\n' + "\n".join(drums)
    return plan_job(opened(text.encode(), name="kit.toml", book_of=no_book))


def tune(*drums: str) -> DrumToTune:
    """Return the first of these drums as tuning asks for it."""
    return drum_to_tune(planned(*drums).drums[0])


SMALL = drum("small tom", girth=955, depth=203)
LARGE = drum("large tom", girth=1035, depth=229)
FLOOR = drum("floor tom", girth=1280, depth=406, lugs=8, kind="floor tom")
