"""What the air says at the bench; sizes by hand from the Wood Handbook's eq. 4-5."""

from __future__ import annotations

import math
import re

from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.surface import Skin
from counterhoop.shell.drum import Circumference, Drum, Material
from counterhoop.shell.readings import WOODS, Air, EndReadings, HeadRead, Readings, RimReadings
from counterhoop.shell.shop_rules import default_rules
from counterhoop.survey.weather_words import weather_words
from counterhoop.survey.wood_movement import SPECIES

RULES = default_rules()
DAY = Air(temperature_c=20.0, humidity_percent=50.0)


def drum(*, air=DAY, wood="hard maple", plies=None, room_mm=0.4, material=Material.WOOD):
    across = RimReadings(
        along_deg=(0.0, 45.0, 90.0, 135.0),
        value_mm=(354.0,) * 4,
        instrument="caliper",
        resolution_mm=0.1,
    )
    batter = EndReadings(
        end="batter",
        across=across,
        head=None if room_mm is None else HeadRead(collar_mm=354.0 + room_mm),
    )
    return Drum(
        key="small tom",
        material=material,
        circumference=Circumference(skin=Skin.OLD, mean_mm=math.pi * 354.0),
        wall_mm=5.0,
        depth_mm=203.0,
        plies=plies,
        readings=Readings(batter=batter, air=air, wood=wood),
    )


def said(**made):
    return weather_words(drum(**made), rules=RULES)


def test_a_tight_head_on_a_ply_shell():
    # By hand: 30, 50, 70 per cent at 20 C settle at 6.188, 9.271, 13.129 of moisture; cross-ply
    # shrinks 0.6231 in 30 (0.27 in 13), so 354 mm move by 354 d / (3000/0.6231 - 30 + 9.271): by
    # 0.285 and 0.228.
    assert said() == (
        "In air of 20 C and 50 % the wood settles at about 9 % of moisture, which takes weeks.",
        "Across, the shell would be about 0.3 mm larger in air 20 % wetter and 0.2 mm smaller in "
        "air 20 % drier (figures for cross-ply; a solid shell, rings and plugs move otherwise).",
        "The batter head has 0.4 mm of room on the diameter: in wet air about 0.1 mm is left.",
    )


def test_a_head_that_may_bind_and_one_that_floats():
    assert said(room_mm=0.2)[-1].endswith(
        "in wet air it may bind. Try it again before it is needed, and do not force it."
    )
    assert said(room_mm=3.0) == said(room_mm=None) == said()[:1]


def test_a_solid_shell_keeps_its_diameter_and_not_its_depth():
    # By hand: along the grain 0.15 in 30: 0.07 mm; depth tangential 9.9: 203 x 3.858 / 282.3 is
    # 2.77.
    moves = said(plies=1)[1]
    assert moves.startswith("Across, the shell would be about 0.1 mm larger")
    assert "its depth moves by up to 2.8 mm" in moves
    assert "its depth moves much more" in said(plies=1, wood="")[1]


def test_what_to_note_down():
    [note] = said(air=None)
    assert note.startswith("Note down temperature and humidity of the day: a head")
    [both] = said(air=None, wood="")
    assert "and the wood of the shell, or how many plies it has" in both
    assert said(wood="", plies=6) == said()  # cross-ply moves alike, whatever the wood
    assert said(air=None, wood="", room_mm=None) == ()
    assert said(material=Material.METAL) == ()


def test_the_woods_of_the_file_are_those_with_figures():
    assert set(WOODS) == set(SPECIES)


@given(st.floats(0, 100), st.floats(-20, 60))
def test_any_weather_has_an_answer(humidity, warm):
    words = said(air=Air(temperature_c=warm, humidity_percent=humidity))
    assert len(words) == 3
    assert not re.search(r"\b0 % (wetter|drier)", words[1])
    assert " 0.0 mm" not in words[1]


def test_the_depth_of_a_solid_shell_moves_either_way():
    """Air that cannot grow wetter can still dry: 95 to 75 per cent at 20 C is 24.1 to 14.4 of
    moisture, so 203 mm of hard maple, 9.9 per cent across, shrink by 203 * 9.7 / (3000 / 9.9 - 30 +
    24.1), over 6 mm."""
    says = " ".join(said(plies=1, air=Air(temperature_c=20.0, humidity_percent=95.0)))
    depth = re.search(r"its depth moves by up to ([0-9.]+) mm", says)
    assert depth is not None
    assert 6.0 < float(depth[1]) < 7.5
