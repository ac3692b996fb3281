"""A row moved by hand: held against schemes planned at that place, and against plain geometry.

Laws are exact: nothing moved changes nothing, a way there and back is none, the order of moves
does not matter. What a fitting pinned at a place comes to is asked of the planner by a wish that
leaves it no freedom. Distances are worked out anew from centres and diameters alone.
"""

from __future__ import annotations

import math
from dataclasses import fields, replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from counterhoop.bench.demo import open_demo
from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.errors import BadInput, Grade
from counterhoop.scheme.movable import movable_rows
from counterhoop.scheme.moved import in_hand, moved
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.rank import rank
from counterhoop.scheme.schemes import Shop, as_found, schemes_for
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.choice import RowMoved
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.wish import FinishPlan, PutOn

SAID_ANEW = {"reuse", "title", "why", "near_misses", "moved", "moved_from", "centred", "made_from"}
"""What is said of how a scheme came about; all else is what it is."""


@pytest.fixture(scope="module")
def demo() -> list[tuple[Scheme, Shop, tuple]]:
    """Every scheme of the demonstration that puts something on, with the job's other drums."""
    opened = open_demo()
    found = {w.drum.key: as_found(w.drum, shop=opened.shop) for w in opened.job.drums}
    made = []
    for wanted in opened.job.drums:
        others = tuple(lay for key, lay in found.items() if key != wanted.drum.key)
        ranked = schemes_for(wanted, shop=opened.shop, others=others)
        made += [(s, opened.shop, others) for s in ranked.every if movable_rows(s)]
    assert len(made) >= 8
    return made


def one_of(demo, *, drum: str, title: str) -> tuple[Scheme, Shop, tuple]:
    return next(m for m in demo if m[0].drum == drum and title in m[0].title)


def by(name: str, right_mm: float = 0.0, down_mm: float = 0.0) -> RowMoved:
    return RowMoved(row=name, right_mm=right_mm, down_mm=down_mm)


def differing(one: Scheme, other: Scheme) -> list[str]:
    names = (f.name for f in fields(Scheme) if f.name not in SAID_ANEW)
    return [name for name in names if getattr(one, name) != getattr(other, name)]


def test_nothing_moved_is_the_scheme_as_it_was(demo):
    for scheme, shop, others in demo:
        nothing = [by(row.name) for row in movable_rows(scheme)]
        for moves in ((), nothing):
            assert moved(scheme, moves, shop=shop, others=others) == scheme


def test_a_row_put_down_where_it_was_gets_all_its_verdicts_again(demo):
    for scheme, shop, others in demo:
        for row in movable_rows(scheme):
            again = in_hand(scheme, row.name, shop=shop, others=others)
            back = again.at(right_mm=0.0, down_mm=0.0)
            assert differing(back, scheme) == [], (scheme.title, row.name)
            assert back.centred == scheme.centred


def test_there_and_back_is_the_scheme_as_it_was(demo):
    for scheme, shop, others in demo:
        row = movable_rows(scheme)[0].name
        there = moved(scheme, [by(row, 7.0, 3.0)], shop=shop, others=others)
        assert there.code != scheme.code
        assert (there.moved, there.moved_from) == ((by(row, 7.0, 3.0),), scheme.number)
        back = moved(there, [by(row)], shop=shop, others=others)
        assert back == replace(scheme, why="")
        assert moved(there, [by(row, 7.0, 3.0)], shop=shop, others=others) == there


def test_the_order_of_moves_does_not_matter(demo):
    scheme, shop, others = one_of(demo, drum="marching snare", title="182.5")
    moves = [by("resonant", 3.0, -2.0), by("batter", -4.0), by("butt", 0.0, 5.0)]
    first = moved(scheme, moves, shop=shop, others=others)
    other = moved(scheme, moves[::-1], shop=shop, others=others)
    assert differing(first, other) == []
    assert first.title == other.title
    assert first.layout != scheme.layout


def test_every_fitting_of_the_row_moves_by_just_that_and_nothing_else_does(demo):
    right_mm, down_mm = 6.3, 2.4
    for scheme, shop, others in demo:
        for row in movable_rows(scheme):
            made = moved(scheme, [by(row.name, right_mm, down_mm)], shop=shop, others=others)
            flat = scheme.layout.flat
            turn = right_mm * 360.0 / flat.surface.circumference_mm
            after = {(f.label, f.status): f for f in made.layout.fittings}
            was = [f for f in scheme.layout.fittings if f.status == "new"]
            mine = [f for f in was if f.label in row.labels]
            now = [after[f.label, "new"] for f in mine]
            share = {"resonant": 1.0, "both": 0.5}.get(mine[0].row, 0.0)
            for old in mine:
                along = old.place.along_deg + turn
                # A row follows its own edge where the shell is deeper on one side.
                swing = flat.swing_mm(along) - flat.swing_mm(old.place.along_deg)
                down = old.place.down_mm + down_mm + share * swing
                assert any(
                    math.remainder(f.place.along_deg - along, 360.0) == pytest.approx(0, abs=1e-9)
                    and f.place.down_mm == pytest.approx(down, abs=1e-9)
                    for f in now
                )
            for f in scheme.layout.fittings:
                if f not in mine:
                    # New holes are numbered as one meets them along, so numbers may change.
                    assert replace(after[f.label, f.status], holes=f.holes) == f


def test_moved_back_to_the_middle_it_is_the_scheme_on_the_middle(demo):
    off, shop, others = one_of(demo, drum="small tom", title="toward the batter edge")
    (middle,) = (
        s for s, _, _ in demo if s.drum == off.drum and off.title.startswith(f"{s.title}, ")
    )
    assert not off.centred
    made = moved(off, [by("both", 0.0, -off.reuse[0].off_middle_mm)], shop=shop, others=others)
    assert made.code == middle.code
    assert made.centred
    assert made.criteria == middle.criteria
    verdicts = [[(h.number, h.verdict) for h in s.layout.holes] for s in (made, middle)]
    assert verdicts[0] == verdicts[1]
    assert [f.code for f in made.findings] == [f.code for f in middle.findings]


def test_a_row_off_its_height_or_at_an_odd_angle_is_said_to_be(demo):
    scheme, shop, others = one_of(demo, drum="small tom", title="half a lug spacing along")
    rule_mm = shop.rules.off_middle_mm
    within = moved(scheme, [by("resonant", 0.0, rule_mm)], shop=shop, others=others)
    beyond = moved(scheme, [by("resonant", 0.0, -rule_mm - 0.5)], shop=shop, others=others)
    assert (scheme.centred, within.centred, beyond.centred) == (True, True, False)
    assert "further off its proper height" in beyond.why


@pytest.mark.parametrize(
    ("right_mm", "down_mm", "says"),
    [
        # To the nearest half millimetre, halves away from nothing.
        (2.3, 0.0, "moved by hand 2.5 mm to the right"),
        (-2.74, 1.2, "moved by hand 2.5 mm to the left and 1 mm toward the resonant edge"),
        (0.1, -3.25, "moved by hand 3.5 mm toward the batter edge"),
        (0.1, -0.2, "moved by hand by less than half a millimetre"),
    ],
)
def test_the_heading_says_what_was_moved_and_how_far(right_mm, down_mm, says, demo):
    scheme, shop, others = one_of(demo, drum="small tom", title="Second row in line")
    made = moved(scheme, [by("Resonant ", right_mm, down_mm)], shop=shop, others=others)
    assert made.title == f"{scheme.title}; the resonant row {says}"
    assert made.why.startswith(f"Moved by hand from scheme {scheme.number}. ")
    assert made.pattern == scheme.pattern


def test_what_was_true_of_the_old_place_alone_is_said_no_more(bench, shop):
    wish = PutOn(fitting="Varlow new strainer", replaces="strainer")
    wanted = DrumWanted(drum=bench.case_d(), wishes=(wish,), finish=FinishPlan())
    every = schemes_for(wanted, shop=shop).every
    clear = next(s for s in every if "clear of the old holes" in s.title)
    made = moved(clear, [by("strainer", 4.0)], shop=shop)
    assert "clear of the old holes" not in made.title
    assert "put on the strainer" in made.title.casefold()


@pytest.mark.parametrize(
    ("moves", "says"),
    [
        ([by("batter", 2.0)], "stays on the holes it has"),
        ([by("batter lug 2", 2.0)], "stays on the holes it has"),
        ([by("no such", 2.0)], "puts nothing of that name on"),
        ([by("resonant", 2.0), by("Resonant", 3.0)], "moved twice"),
        ([by("resonant", 0.0, 90.0)], "off the shell"),
        ([by("resonant", 0.0, math.nan)], "off the shell"),
        ([by("resonant", 600.0)], "half round the shell"),
    ],
)
def test_what_cannot_be_moved_is_one_clear_complaint(moves, says, demo):
    scheme, shop, others = one_of(demo, drum="small tom", title="Second row in line")
    with pytest.raises(BadInput, match=says) as caught:
        moved(scheme, moves, shop=shop, others=others)
    assert "\n" not in str(caught.value)


def test_a_drum_that_gets_nothing_new_has_no_row_to_move(shop):
    opened = open_demo()
    wanted = next(w for w in opened.job.drums if w.drum.key == "old snare")
    (scheme,) = schemes_for(wanted, shop=opened.shop).shown
    assert movable_rows(scheme) == ()
    with pytest.raises(BadInput, match="stays on the holes it has"):
        moved(scheme, [by("batter", 1.0)], shop=opened.shop)


def test_at_the_ends_of_its_reach_every_hole_is_still_on_the_shell(demo):
    for scheme, shop, others in demo:
        for row in movable_rows(scheme):
            for down_mm in row.down_mm_range:
                for right_mm in (-row.aside_mm, 0.0, row.aside_mm):
                    made = moved(
                        scheme, [by(row.name, right_mm, down_mm)], shop=shop, others=others
                    )
                    flat = made.layout.flat
                    for hole in made.layout.holes:
                        if hole.verdict.drills and hole.of.startswith(tuple(row.labels)):
                            depth = flat.depth_at_mm(hole.place.along_deg)
                            half = max(hole.new.size_mm) / 2
                            assert hole.place.down_mm - half >= -1e-9
                            assert hole.place.down_mm + half <= depth + 1e-9


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    along_mm=st.floats(-15.0, 15.0),
    down_mm=st.floats(-15.0, 15.0),
    right_mm=st.floats(-12.0, 12.0),
    fall_mm=st.floats(-12.0, 12.0),
)
def test_a_fitting_put_there_by_hand_is_the_fitting_wished_there(
    along_mm, down_mm, right_mm, fall_mm, bench, shop
):
    """The planner asked for the new place itself, with no freedom, gives the same scheme."""
    drum = bench.case_d()
    per_mm = 360.0 / drum.circumference.mean_mm

    def wished(along: float, down: float) -> list[Scheme]:
        wish = PutOn(
            fitting="Varlow new strainer",
            replaces="strainer",
            near=Place(along * per_mm, 85.4 + down),
            free_down_mm=0.0,
        )
        wanted = DrumWanted(drum=drum, wishes=(wish,), finish=FinishPlan())
        there = [s for s in schemes_for(wanted, shop=shop).every if "clear" not in s.title]
        assert len({s.code for s in there}) == 1
        return there

    start, *_ = wished(along_mm, down_mm)
    made = moved(start, [by("strainer", right_mm, fall_mm)], shop=shop)
    planned, *_ = wished(along_mm + right_mm, down_mm + fall_mm)
    assert made.code == planned.code
    assert [(h.number, h.verdict) for h in made.layout.holes] == [
        (h.number, h.verdict) for h in planned.layout.holes
    ]
    assert [(f.code, f.grade) for f in made.findings] == [
        (f.code, f.grade) for f in planned.findings
    ]
    assert made.criteria.cut == planned.criteria.cut
    assert made.criteria.margin_mm == pytest.approx(planned.criteria.margin_mm, abs=1e-6)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(right_mm=st.floats(-20.0, 20.0), down_mm=st.floats(-15.0, 15.0))
def test_webs_and_uses_at_any_place_by_plain_arithmetic(right_mm, down_mm, demo):
    """Centres and diameters alone: which webs are thin, and no old hole used beyond a limit."""
    scheme, shop, others = one_of(demo, drum="small tom", title="Long lugs")
    made = moved(scheme, [by("both", right_mm, down_mm)], shop=shop, others=others)
    layout, rules = made.layout, shop.rules
    radius = layout.flat.surface.circumference_mm / (2 * math.pi)
    open_ = [
        (h, h.new_place or h.place, h.new.diameter_mm)
        for h in layout.holes
        if isinstance(h.new, Round)
    ]
    thin = set()
    for i, (h, a, wide) in enumerate(open_):
        for g, b, high in open_[i + 1 :]:
            turn = math.radians(math.remainder(a.along_deg - b.along_deg, 360.0))
            bore = turn * (radius - layout.flat.wall_mm)
            web_mm = math.hypot(bore, a.down_mm - b.down_mm) - (wide + high) / 2
            cut = h.verdict.cuts or g.verdict.cuts
            if cut and web_mm < rules.web_needed_mm(wide, high) - 0.2:
                thin.add(frozenset((h.number, g.number)))
    said = {frozenset(f.holes) for f in made.findings if f.code == "web-thin"}
    assert thin <= said
    if thin:
        grades = {f.grade for f in made.findings if f.code == "web-thin"}
        assert grades <= {Grade.STOP, Grade.TAKE_CARE}
    limit = {
        Verdict.KEEP: rules.keep_mm,
        Verdict.ENLARGE: rules.enlarge_mm,
        Verdict.SLOT: rules.slot_mm,
    }
    numbers = [h.number for h in layout.holes]
    assert len(set(numbers)) == len(numbers)
    assert {h.number for h in layout.drum.holes} <= set(numbers)
    for hole in layout.holes:
        if hole.of.startswith("long lug") and hole.old is not None:
            assert hole.off_mm <= limit[hole.verdict] + 1e-6


def test_a_moved_scheme_stands_beside_the_others_and_changes_nothing_of_them(demo):
    mine = [m for m in demo if m[0].drum == "small tom"]
    shop = mine[0][1]
    ranked = rank([s for s, _, _ in mine], rules=shop.rules)
    made = moved(ranked.shown[0], [by(movable_rows(ranked.shown[0])[0].name, 3.0)], shop=shop)
    beside = ranked.beside(replace(made, number=len(ranked.every) + 1))
    assert beside.shown[:-1] == ranked.shown
    assert beside.set_aside == ranked.set_aside
    assert beside.shown[-1].moved
