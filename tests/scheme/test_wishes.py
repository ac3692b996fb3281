"""Each wish on drums built by hand; figures worked by hand from the inputs beside them."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from counterhoop.development.place import Place
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.scheme.draft import draft_of
from counterhoop.scheme.ground import ground_of
from counterhoop.scheme.settle import settle
from counterhoop.scheme.verdict import Verdict
from counterhoop.scheme.wishes.back_to_factory import back_to_factory
from counterhoop.scheme.wishes.put_on import move, put_on
from counterhoop.scheme.wishes.second_head import second_head
from counterhoop.scheme.wishes.shorten import depths_for
from counterhoop.scheme.wishes.take_out import take_out
from counterhoop.shell.hole import Origin
from counterhoop.shell.wish import FinishPlan, Move, Pattern, PutOn, SecondHead, TakeOut


def draft(bench, drum, *, off_resonant_mm=0.0):
    finish = FinishPlan(truing=Truing(resonant=Removal(off_resonant_mm)))
    return draft_of(ground_of(drum, finish=finish, book=bench.book))


def verdicts(made, rules):
    return Counter(hole.verdict for hole in settle(made, rules=rules).holes)


def test_case_a_second_row_in_line_after_truing(bench, rules):
    # Common practice, no source: case A. 200 deep after truing; 159 and 117 from the batter edge.
    wish = SecondHead(patterns=(Pattern.IN_LINE,))
    (made,) = second_head(
        draft(bench, bench.case_a(), off_resonant_mm=3.0), wish, book=bench.book, rules=rules
    )
    layout = settle(made, rules=rules)
    assert layout.flat.depth_mm == pytest.approx(200.0)
    new = [hole for hole in layout.holes if hole.verdict is Verdict.DRILL]
    assert len(new) == 12
    assert sorted({round(hole.place.down_mm, 6) for hole in new}) == [117.0, 159.0]
    assert {round(hole.place.along_deg, 6) % 60 for hole in new} == {0.0}
    before = second_head(draft(bench, bench.case_a()), wish, book=bench.book, rules=rules)[0]
    trap = {round(h.place.down_mm, 6) for h in settle(before, rules=rules).holes[17:]}
    assert trap == {120.0, 162.0}  # heights from before truing put the row 3 too low


def test_half_a_spacing_along_clears_a_bracket_on_the_row_line(bench, rules):
    # Common practice, no source: case B. The bracket block stands on the line at 60 degrees.
    drum = bench.with_row(
        bench.bare(diameter_mm=327.4, depth_mm=228.6),
        "Corvane single lug 42",
        count=6,
        down_mm=62.0,
    )
    drum = bench.fitted(drum, "Hallmere bracket block", 60.0, 160.0, label="bracket")
    wish = SecondHead(patterns=(Pattern.IN_LINE, Pattern.HALF_ALONG))
    made = second_head(draft(bench, drum), wish, book=bench.book, rules=rules)
    half = [d for d in made if d.pattern == Pattern.HALF_ALONG]
    angles = {round(f.place.along_deg, 6) for f in half[0].standing if f.row == "resonant"}
    assert angles == {30.0, 90.0, 150.0, 210.0, 270.0, 330.0}


def test_turned_is_tried_only_where_line_and_half_are_blocked(bench, rules):
    drum = bench.with_row(
        bench.bare(diameter_mm=327.4, depth_mm=228.6),
        "Corvane single lug 42",
        count=6,
        down_mm=62.0,
    )
    plain = second_head(draft(bench, drum), SecondHead(), book=bench.book, rules=rules)
    assert Pattern.TURNED not in {d.pattern for d in plain}
    # Each bars 25.4 + 12 + 15 = 52.4 mm either way: one the line, both together half along.
    drum = bench.fitted(drum, "Corvane bracket block", 3.5, 160.0, label="bracket")
    drum = bench.fitted(drum, "Corvane bracket block", 81.0, 160.0, label="other bracket")
    made = second_head(draft(bench, drum), SecondHead(), book=bench.book, rules=rules)
    turned = [d for d in made if d.pattern == Pattern.TURNED]
    assert turned
    for d in turned:
        lug = next(f for f in d.standing if f.row == "resonant")
        off = abs((lug.place.along_deg % 60.0) - 30.0)
        assert 5.0 - 1e-6 <= off <= 25.0 + 1e-6
        assert not d.centred


def test_case_d_strainer_moves(bench, rules):
    # Common practice, no source: case D. 14.65 up (48.5 and 93.0) or down (77.8 and 122.3),
    # 11.06 sideways; keeping the upper hole puts the lower 6.3 - 5.5 = 0.8 from the old one.
    wish = PutOn(fitting="Varlow new strainer", replaces="strainer")
    made = put_on(draft(bench, bench.case_d()), wish, book=bench.book, rules=rules)
    layouts = [settle(d, rules=rules) for d in made]
    drilled = [
        sorted(round(h.place.down_mm, 2) for h in layout.holes if h.verdict.drills)
        for layout in layouts
    ]
    assert [48.5, 93.0] in drilled
    assert [77.8, 122.3] in drilled
    best = layouts[0]
    assert [h.verdict for h in best.holes] == [
        Verdict.KEEP,
        Verdict.PLUG,
        Verdict.PLUG_AND_DRILL,
    ]
    surface = best.flat.surface
    aside = [
        abs(surface.apart_mm(0.0, f.place.along_deg))
        for d in made
        for f in d.standing
        if f.label == "strainer" and f.place.along_deg > 0.0
    ]
    assert aside == pytest.approx([11.06, 11.06], abs=0.005)


def test_no_old_hole_within_reach_means_a_move_of_nothing(bench, rules):
    drum = bench.bare(diameter_mm=354.0, depth_mm=139.7, heads=2)
    wish = PutOn(fitting="Varlow new strainer", near=Place(90.0, 70.0))
    made = put_on(draft(bench, drum), wish, book=bench.book, rules=rules)
    strainers = [f for d in made for f in d.standing]
    assert {(f.place.along_deg, f.place.down_mm) for f in strainers} == {(90.0, 70.0)}


def test_a_fitting_can_be_moved(bench, rules):
    wish = Move(label="strainer", near=Place(30.0, 70.0))
    made = move(draft(bench, bench.case_d()), wish, rules=rules)
    assert made[0].standing[0].place.along_deg == pytest.approx(30.0)
    assert verdicts(made[0], rules)[Verdict.PLUG] == 2


def test_a_plate_covers_the_holes_and_leaves_them_open(bench, rules):
    plates = [e.name for e in bench.book if e.kind == "cover plate"]
    wide = max(plates, key=lambda n: bench.book.find(n).base.bounds_mm[2])
    wish = TakeOut(labels=("bracket",), plate=wide)
    plated, plugged = take_out(draft(bench, bench.case_a()), wish, book=bench.book, rules=rules)
    layout = settle(plated, rules=rules)
    old = [h for h in layout.holes if 13 <= h.number <= 16]
    assert all(h.covered for h in old)
    assert Verdict.PLUG not in {h.verdict for h in old}
    assert verdicts(plugged, rules)[Verdict.PLUG] == 4


def test_a_label_that_is_not_there_is_refused_by_name(bench, rules):
    with pytest.raises(BadInput, match=r"brackett.*bracket"):
        take_out(
            draft(bench, bench.case_a()),
            TakeOut(labels=("brackett",)),
            book=bench.book,
            rules=rules,
        )


def test_back_to_factory_plugs_extras_and_leaves_what_nobody_is_sure_of(bench, rules):
    drum = bench.with_row(bench.bare(heads=2), "Corvane single lug 42", count=6, down_mm=62.0)
    drum = bench.fitted(
        drum, "Corvane bracket block", 90.0, 130.0, label="bracket", origin=Origin.EXTRA
    )
    drum = bench.with_hole(drum, 200.0, 100.0, 5.0, origin=Origin.NOT_SURE)
    drum = bench.with_hole(drum, 220.0, 100.0, 5.0, origin=Origin.EXTRA)
    (made,) = back_to_factory(draft(bench, drum))
    layout = settle(made, rules=rules)
    by_number = {hole.number: hole.verdict for hole in layout.holes}
    assert {by_number[n] for n in (13, 14, 15, 16, 18)} == {Verdict.PLUG}
    assert by_number[17] is Verdict.LEAVE_OPEN
    assert any("17" in sentence for sentence in made.spoken)


def test_a_missing_original_goes_back_on_its_own_holes(bench, rules):
    drum = bench.bare(heads=2)
    drum = bench.fitted(
        drum,
        "Varlow old strainer",
        0.0,
        85.4,
        label="strainer",
        origin=Origin.FACTORY,
        missing=True,
    )
    (made,) = back_to_factory(draft(bench, drum))
    assert [f.label for f in made.standing] == ["strainer"]
    assert verdicts(made, rules) == {Verdict.KEEP: 2}


@pytest.mark.parametrize("wished", [120.0, 127.5, 140.0, 150.0, 160.0])
def test_depths_spare_every_hole_and_no_nearer_one_does(bench, rules, wished):
    # Brute force over every half millimetre.
    drum = bench.bare(depth_mm=250.0, heads=2)
    doubt = 0.5 + 0.5  # of the hole's height and of the depth
    for along, down in ((0.0, 41.0), (0.0, 83.0), (60.0, 125.0), (60.0, 167.0), (90.0, 150.0)):
        drum = bench.with_hole(drum, along, down, 6.0)

    def spares(depth):
        return all(
            h.place.down_mm - 3.0 - doubt >= depth or h.place.down_mm + 3.0 + rules.edge_mm <= depth
            for h in drum.holes
        )

    steps = [wished + 0.5 * k for k in range(-80, 81)]
    fit = [d for d in steps if spares(d)]
    found = depths_for(drum, wished_mm=wished, free_mm=40.0, end="resonant", rules=rules)
    assert found[0].depth_mm == min(d for d in fit if d >= wished)
    if len(found) > 1:
        assert found[1].depth_mm == max(d for d in fit if d < wished)
    else:
        assert spares(wished) or not any(d < wished for d in fit)


def test_a_shell_cannot_be_made_longer(bench, rules):
    with pytest.raises(BadInput, match="shorter"):
        depths_for(bench.bare(), wished_mm=300.0, free_mm=10.0, end="batter", rules=rules)


def test_one_lug_that_is_off_does_not_move_the_row(bench):
    from counterhoop.scheme.row import row_turn_deg

    drum = bench.with_row(
        bench.bare(), "Corvane single lug 42", count=6, down_mm=62.0, first_deg=10.0
    )
    lugs = [f for f in draft(bench, drum).standing if f.row == "batter"]
    assert row_turn_deg(lugs) == pytest.approx(10.0)
    lugs[3] = replace(lugs[3], place=Place(lugs[3].place.along_deg + 0.6, 62.0))
    assert row_turn_deg(lugs) == pytest.approx(10.0)
