"""What is no number, nothing, or no drum's is refused in a sentence, and never reckoned with.

Truth: the rule itself.
"""

from __future__ import annotations

import math

import pytest

from counterhoop.errors import BadInput
from counterhoop.heads.air import air_at
from counterhoop.heads.beside import tension_beside
from counterhoop.heads.conversion import conversion
from counterhoop.heads.head import film_head, weighed_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.hoop import hoop_beam, passed_share
from counterhoop.heads.ideal import ideal_hz
from counterhoop.heads.modes import lowest, modes
from counterhoop.heads.oval import oval_doublet
from counterhoop.heads.rank import hearing
from counterhoop.heads.rim_load import load_of_rods
from counterhoop.heads.rods import rod_force, rod_torque, tension_of_rods
from counterhoop.heads.shell_ring import ring_hz
from counterhoop.heads.temperature import drift_cents_per_k
from counterhoop.heads.tension import print_tension, rim_hz, tension_from_pitch
from counterhoop.heads.turns import calibrate_turns, in_turns, turn_bound, turns_between
from counterhoop.heads.uneven import doublet
from counterhoop.quantities.print_pitch import cents, moved_hz
from counterhoop.standards.threads import find_thread

TEN, TWELVE = film_head(254e-6), find_thread("12-24")
TOM = {"radius_m": 0.1524, "depth_m": 0.2032, "head": TEN}
SHELL = {"radius_m": 0.1524, "depth_m": 0.2032, "batter": TEN, "batter_n_per_m": 2000.0}
SIX = [0, 60, 120, 180, 240, 300]
BOUND = turn_bound(TEN, radius_m=0.15, thread=TWELVE)

ABOVE_NOTHING = {
    "film": film_head,
    "weight": lambda x: weighed_head(mass_kg=x, diameter_m=0.3),
    "across": lambda x: weighed_head(mass_kg=0.03, diameter_m=x),
    "thickness": lambda x: weighed_head(mass_kg=0.03, diameter_m=0.3, film_m=x),
    "pressure": lambda x: air_at(20.0, pressure_pa=x),
    "radius": lambda x: HeadedShell(**{**SHELL, "radius_m": x}),
    "depth": lambda x: HeadedShell(**{**SHELL, "depth_m": x}),
    "tension": lambda x: HeadedShell(**{**SHELL, "batter_n_per_m": x}),
    "other tension": lambda x: HeadedShell(**SHELL, resonant=TEN, resonant_n_per_m=x),
    "pitch": lambda x: tension_from_pitch(x, **TOM),
    "rim_hz": lambda x: rim_hz(x, **TOM),
    "beside": lambda x: tension_beside(
        x, head=TEN, other=TEN, cents=0.0, radius_m=0.15, depth_m=0.2
    ),
    "conversion": lambda x: conversion(**{**SHELL, "batter_n_per_m": x}, resonant=TEN),
    "a4": lambda x: conversion(**SHELL, resonant=TEN, a4_hz=x),
    "rod radius": lambda x: rod_force(2500.0, radius_m=x, rods=6),
    "limit": lambda x: tension_of_rods(x, radius_m=0.15, rods=6),
    "bound": lambda x: turn_bound(TEN, radius_m=x, thread=TWELVE),
    "to": lambda x: calibrate_turns(190.0, x, turns=0.1, thread=TWELVE, **TOM),
    "hoop": lambda x: passed_share(2, hoop=hoop_beam("cast"), head=TEN, radius_m=x),
    "ideal": lambda x: ideal_hz(0, 1, radius_m=0.1, tension_n_per_m=x, mass_kg_per_m2=0.3),
    "oval": lambda x: oval_doublet(220.0, difference_m=0.001, diameter_m=x),
    "even_hz": lambda x: doublet(x, lean=0.1, tight_deg=0.0),
    "rods": lambda x: load_of_rods([x] * 6, along_deg=SIX, radius_m=0.15),
    "drift": lambda x: drift_cents_per_k(TEN, tension_n_per_m=x, shell_per_k=5e-6),
    "ring": lambda x: ring_hz(
        2, radius_m=x, wall_m=0.006, modulus_n_per_m2=1e10, density_kg_per_m3=650
    ),
    "cents": lambda x: cents(110.0, above_hz=x),
}
FINITE = {
    "air": air_at,
    "vent": lambda x: HeadedShell(**SHELL, vent_m=x),
    "wall": lambda x: HeadedShell(**SHELL, wall_m=x),
    "up to": lambda x: modes(HeadedShell(**SHELL), up_to_hz=x),
    "doubt": lambda x: tension_from_pitch(220.0, **TOM, doubt_cents=x),
    "printed": print_tension,
    "cents beside": lambda x: tension_beside(
        2000.0, head=TEN, other=TEN, cents=x, radius_m=0.15, depth_m=0.2
    ),
    "pull": lambda x: rod_force(x, radius_m=0.15, rods=6),
    "torque": lambda x: rod_torque(x, thread=TWELVE),
    "friction": lambda x: rod_force(2500.0, radius_m=0.15, rods=6, edge_friction=x),
    "collar": lambda x: turn_bound(TEN, radius_m=0.15, thread=TWELVE, collar_m=x),
    "turns": lambda x: calibrate_turns(190.0, 205.0, turns=x, thread=TWELVE, **TOM),
    "from": lambda x: turns_between(x, 2000.0, gain=BOUND),
    "turned": in_turns,
    "lean": lambda x: doublet(220.0, lean=x, tight_deg=0.0),
    "moved": lambda x: moved_hz(110.0, cents=x),
    "places": lambda x: hearing([0, 120, x]),
}


@pytest.mark.parametrize("name", ABOVE_NOTHING)
@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf, -math.inf])
def test_what_must_be_above_nothing(name, value):
    with pytest.raises(BadInput):
        ABOVE_NOTHING[name](value)


@pytest.mark.parametrize("name", FINITE)
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_must_be_a_number(name, value):
    with pytest.raises(BadInput):
        FINITE[name](value)


def test_too_few_rods_and_nodal_lines():
    for rods in ([], [0], [0, 180]):
        with pytest.raises(BadInput, match="three rods"):
            hearing(rods)
    with pytest.raises(BadInput, match="nodal"):
        lowest(HeadedShell(**SHELL), -1)
    with pytest.raises(BadInput, match="no drum has that"):
        film_head()
