"""What is said of snare beds: hand-worked figures; limits common practice, no source."""

from __future__ import annotations

import math
import sys
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import Grade
from counterhoop.scheme.findings import look_over
from counterhoop.shell.drum import Bed
from counterhoop.shell.readings import EndReadings, Readings, RimReadings
from counterhoop.shell.shop_rules import default_rules
from counterhoop.survey.snare_bed import wood_off_mm

snares = sys.modules["findings_layouts_snare"]


def found(layout, rules, code):
    return [f for f in look_over(layout, rules=rules).findings if f.code == code]


def test_a_steep_bed_is_told_how_wide_and_how_deep_it_may_be(rules):
    # 4 mm over 60 is 1 in 15; 4 mm at 1 in 20 asks for 60 + 2 x 80 = 220 wide; 180 allow 3 deep.
    steep = found(snares.beds(deep_mm=4.0), rules, "bed-steep")
    assert [f.says for f in steep] == [
        "The snare bed at 18 degrees goes 4.0 mm down over 60 mm, 1 in 15; your rule is 1 in 20 at"
        " most.",
        "The snare bed at 198 degrees goes 4.0 mm down over 60 mm, 1 in 15; your rule is 1 in 20"
        " at most.",
    ]
    assert steep[0].remedy == ("So deep it wants to be 220 mm wide; so wide it may be 3.0 mm deep.")


def test_a_slope_within_the_doubt_of_rule_and_eye_is_too_close_to_call(rules):
    # 3.2 deep over 60 is 1 in 18.75; the depth alone is doubtful by 8 in 100.
    close = found(snares.beds(deep_mm=3.2), rules, "bed-steep")
    assert all(f.too_close for f in close)
    assert len(close) == 2


def test_without_a_flat_the_slope_is_the_best_that_it_can_be(rules):
    layout = snares.beds()
    beds = tuple(replace(bed, flat_mm=0.0, deep_mm=6.0) for bed in layout.drum.beds)
    steep = found(replace(layout, drum=replace(layout.drum, beds=beds)), rules, "bed-steep")
    assert "6.0 mm down over 90 mm, at best 1 in 15" in steep[0].says


def test_truing_takes_from_a_bed_what_it_takes_from_the_edge_there(rules):
    shallower = found(snares.beds(off_mm=1.0), rules, "bed-shallower")
    assert [f.grade for f in shallower] == [Grade.NOTE, Grade.NOTE]
    assert shallower[0].says == (
        "The snare bed at 18 degrees is 3.0 mm deep; once 1.0 mm is off the edge there, it is"
        " 2.0 mm deep."
    )
    gone = found(snares.beds(off_mm=3.0), rules, "bed-shallower")
    assert [f.grade for f in gone] == [Grade.TAKE_CARE, Grade.TAKE_CARE]
    assert gone[0].says.endswith("nothing is left of it.")


def test_an_edge_that_lies_low_at_a_bed_loses_less_there():
    # By hand: the plane goes down 0.5 everywhere; at 45 degrees the edge lay 0.3 low, half way
    # between 0 (level) and 90 (0.6 low), so 0.2 comes off there; at 90 nothing.
    drum = snares.beds().drum
    edge = RimReadings(
        along_deg=(0.0, 90.0, 180.0, 270.0), value_mm=(0.0, -0.6, 0.0, 0.0),
        instrument="feeler", resolution_mm=0.05,
    )  # fmt: skip
    drum = replace(drum, readings=Readings(resonant=EndReadings(end="resonant", edge=edge)))
    truing = Truing(resonant=Removal(0.5))
    for along, off in ((0.0, 0.5), (45.0, 0.2), (90.0, 0.0), (315.0, 0.5)):
        assert wood_off_mm(drum, truing=truing, along_deg=along) == pytest.approx(off)
    # An edge that is left alone loses nothing, whatever its readings say.
    assert wood_off_mm(drum, truing=Truing(batter=Removal(1.0)), along_deg=0.0) == 0.0


def test_beds_that_go_with_an_offcut_are_work_and_no_finding(rules):
    sawn = snares.beds(off_mm=60.0, deep_mm=5.0, other_deg=205.0)
    said = {f.code for f in look_over(sawn, rules=rules).findings}
    assert not {code for code in said if code.startswith("bed")}
    trued = snares.beds(off_mm=2.0, deep_mm=5.0, other_deg=205.0)
    assert "bed-shallower" in {f.code for f in look_over(trued, rules=rules).findings}


def test_odd_lugs_are_told_what_is_possible_and_once_only(rules):
    # With a butt as well each is held against its own gap, and the finding there says it.
    without = found(snares.beds(count=5), rules, "odd-lugs")
    assert len(without) == 1
    assert "the butt on a lug's line; or both 18 degrees from a lug" in without[0].remedy
    both = snares.snare(butt_deg=216.0, count=5)
    assert found(both, rules, "odd-lugs") == []
    told = found(both, rules, "not-between-lugs")
    assert told
    assert "the butt on a lug's line" in told[0].remedy
    even = found(snares.snare(butt_deg=202.0), rules, "not-between-lugs")
    assert even[0].remedy == "Move it to the middle of the gap, or turn the row."


@given(st.floats(0.0, 359.9))
def test_beds_do_not_know_where_the_datum_lies(turn):
    """Exact law: turning beds, lugs and strainer together changes no verdict."""
    rules = default_rules()
    layout = snares.beds(deep_mm=4.0, other_deg=201.0, ring_mm=8.0, off_mm=0.5)
    drum = replace(
        layout.drum,
        beds=tuple(replace(b, along_deg=(b.along_deg + turn) % 360.0) for b in layout.drum.beds),
    )
    turned = replace(
        layout,
        drum=drum,
        fittings=tuple(
            replace(f, place=replace(f.place, along_deg=f.place.along_deg + turn))
            for f in layout.fittings
        ),
    )

    def verdicts(one):
        return sorted(
            (f.code, f.grade, round(f.measured or 0.0, 6))
            for f in look_over(one, rules=rules).findings
            if f.code.startswith("bed")
        )

    assert verdicts(turned) == verdicts(layout)
    assert len(verdicts(layout)) > 4


def test_a_bed_that_was_not_measured_is_only_held_to_its_place(rules):
    layout = snares.beds()
    bare = (Bed(along_deg=18.0), Bed(along_deg=198.0 + 360.0 * 10.0 / (math.pi * 353.4)))
    said = look_over(replace(layout, drum=replace(layout.drum, beds=bare)), rules=rules).findings
    assert {f.code for f in said if f.code.startswith("bed")} == {"beds-not-opposite"}


def test_a_bed_that_is_all_flat_has_a_step_for_a_ramp(rules):
    layout = snares.beds()
    beds = tuple(replace(bed, flat_mm=bed.wide_mm) for bed in layout.drum.beds)
    steep = found(replace(layout, drum=replace(layout.drum, beds=beds)), rules, "bed-steep")
    assert "3.0 mm down over 0 mm, 1 in 0" in steep[0].says
    assert not steep[0].too_close
