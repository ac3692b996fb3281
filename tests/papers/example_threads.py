"""Threads and rods of an invented drum: sure, not told, no rod, none that serves, not known."""

from __future__ import annotations

import math
from dataclasses import replace

from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.papers.thread_list import DrumThreads
from counterhoop.scheme.rod_states import RodStand, RodState
from counterhoop.shell.readings import ThreadRead
from counterhoop.survey.drum_survey import thread_found

SURE = ThreadRead(
    of="batter rods",
    head="batter",
    outside_mm=5.40,
    over_mm=10.58,
    flanks_deg=60.0,
    as_written=("outside 5.40 mm", "10 threads over 10.6 mm", "flanks 60 deg"),
)
NOT_TOLD = replace(SURE, outside_mm=5.46, flanks_deg=None, as_written=("outside 5.46 mm",))
BRITISH = replace(SURE, of="resonant rods", head="resonant", outside_mm=5.55, flanks_deg=55.0)
STRANGE = replace(SURE, of="old rods", over_mm=12.4, as_written=())
SLIPPED = replace(SURE, of="counted rods", over_mm=9.525)
SCREW = replace(SURE, of="strainer screw", head="", outside_mm=4.78, over_mm=7.94)
ROD = Fitting(name="Rod 42", kind=Kind.ROD, source="invented for the tests", rod_length_mm=42.0)
CHOSEN = RodState(
    head="batter",
    thread="12-24 UNC",
    count=6,
    before_mm=(41.0, 56.0),
    after_mm=(38.0, 53.0),
    rod=ROD,
    serves=True,
    rod_before=replace(ROD, name="Rod 48"),
    stand=RodStand(finger_mm=11.0, pitch_mm=14.0, room_mm=16.0),
    in_stock=4,
    also=(("Rod 50", 16),),
    splay_mm=-1.9,
    splay_deg=3.8,
)
SHORT = replace(
    CHOSEN,
    head="resonant",
    before_mm=None,
    after_mm=(58.0, math.inf),
    serves=False,
    rod_before=None,
    stand=RodStand(finger_mm=0.0, pitch_mm=0.0, room_mm=math.inf),
    in_stock=0,
    also=(),
    splay_mm=None,
    splay_deg=None,
)
UNKNOWN = RodState(head="resonant", thread="", count=8, unknown="which hoop it gets")


def drum_of(name: str = "small tom") -> DrumThreads:
    """One drum with one of each."""
    return DrumThreads(
        drum=name,
        threads=tuple(
            thread_found(read) for read in (SURE, NOT_TOLD, BRITISH, STRANGE, SLIPPED, SCREW)
        ),
        lugs=(("batter", ("12-24 UNC",)), ("resonant", ("12-24 UNC",))),
        rods=(CHOSEN, SHORT, UNKNOWN),
    )
