"""Drums that are odd but possible: a scheme or one clear complaint, never anything else."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.scheme.schemes import as_found, schemes_for
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Material
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import (
    BackToFactory,
    FinishPlan,
    KitSnare,
    Move,
    OtherLugs,
    Pattern,
    PutOn,
    SecondHead,
    Shorten,
    TakeOut,
)

LUG = "Corvane round lug"
PLATE = "cover plate 76 x 64, four holes"
BRACKET = PutOn(fitting="Corvane block bracket", near=Place(80.0, 100.0))
WISHES = {
    "second head": SecondHead(),
    "other lugs": OtherLugs(lug="Quennick square lug"),
    "one lug": OtherLugs(lug=LUG, count=1),
    "three lugs": OtherLugs(lug=LUG, count=3),
    "back to factory": BackToFactory(),
    "put on": BRACKET,
    "put on a badge": PutOn(fitting="Hallmere round badge", near=Place(0.0, 100.0)),
    "put on nowhere to slide": PutOn(
        fitting="Corvane damper", near=Place(1.0, 90.0), free_along_mm=0.0, free_down_mm=0.0
    ),
    "put on a part without a base": PutOn(fitting="lug spring 8 x 28", near=Place(0.0, 90.0)),
    "shorten": Shorten(depth_mm=150.0),
    "shorten from the batter side": Shorten(depth_mm=150.0, end="batter"),
    "kit snare": KitSnare(depth_mm=150.0, lug=LUG, strainer="Corvane lever strainer"),
    "take out": TakeOut(labels=("bracket",)),
    "take out under a plate": TakeOut(labels=("bracket",), plate=PLATE),
    "move": Move(label="bracket", near=Place(200.0, 100.0)),
}


def bare(bench):
    return bench.bare()


def with_lugs(count):
    return lambda bench: bench.with_row(bench.bare(), LUG, count=count, down_mm=60.0)


def long_lugs(bench):
    return bench.with_row(bench.bare(heads=2), "Corvane round long lug 134", count=6, down_mm=101.5)


def lugs_missing(bench):
    drum = with_lugs(6)(bench)
    row = drum.rows[0]
    lugs = tuple(replace(lug, missing=n % 2 == 0) for n, lug in enumerate(row.lugs))
    return replace(drum, rows=(replace(row, lugs=lugs),))


def metal(bench):
    return replace(with_lugs(6)(bench), material=Material.METAL, wall_mm=1.2)


def bracketed(bench):
    return bench.fitted(with_lugs(6)(bench), "Corvane block bracket", 30.0, 120.0, label="bracket")


def bracket_missing(bench):
    return bench.fitted(
        with_lugs(6)(bench), "Corvane block bracket", 30.0, 120.0, label="bracket", missing=True
    )


def badge_without_holes(bench):
    drum = bracketed(bench)
    bracket = replace(drum.fittings[0], holes=())
    return replace(drum, fittings=(bracket,))


DRUMS = {
    "no row": bare,
    "one lug": with_lugs(1),
    "two lugs": with_lugs(2),
    "three lugs": with_lugs(3),
    "forty lugs": with_lugs(40),
    "long lugs": long_lugs,
    "lugs missing": lugs_missing,
    "metal": metal,
    "bracket": bracketed,
    "bracket missing": bracket_missing,
    "bracket without holes": badge_without_holes,
}


@pytest.mark.parametrize("wish", WISHES)
@pytest.mark.parametrize("drum", DRUMS)
def test_a_scheme_or_one_clear_complaint(drum, wish, bench, shop):
    made = DRUMS[drum](bench)
    wanted = DrumWanted(drum=made, wishes=(WISHES[wish],), finish=FinishPlan())
    try:
        ranked = schemes_for(wanted, shop=shop)
    except BadInput as complaint:
        said = str(complaint)
    else:
        assert ranked.shown
        assert all(math.isfinite(scheme.criteria.margin_mm) for scheme in ranked.shown)
        said = ranked.shown[0].why
    assert 20 < len(said) < 600
    assert "\n" not in said
    assert "None" not in said


@pytest.mark.parametrize("drum", DRUMS)
def test_every_drum_can_be_shown_as_found(drum, bench, shop):
    layout = as_found(DRUMS[drum](bench), shop=shop)
    cut = [plan for plan in layout.holes if plan.verdict.cuts or plan.verdict is Verdict.PLUG]
    assert not cut


def test_five_hundred_holes(bench, shop):
    drum = with_lugs(8)(bench)
    for n in range(496):
        drum = bench.with_hole(drum, n * 7.3, 25.0 + (n * 13.7) % 150.0, 4.0)
    wanted = DrumWanted(drum=drum, wishes=(SecondHead(),), finish=FinishPlan())
    assert schemes_for(wanted, shop=shop).shown


def test_rules_without_any_freedom_leave_a_row_where_the_eye_wants_it(bench, shop):
    still = default_rules().overridden(
        {"off_middle_mm": 0.0, "look_further_mm": 0.0, "half_spacing_mm": 0.0, "keep_mm": 0.0}
    )
    wanted = DrumWanted(drum=bracketed(bench), wishes=(SecondHead(),), finish=FinishPlan())
    ranked = schemes_for(wanted, shop=replace(shop, rules=still))
    assert all(scheme.centred for scheme in ranked.shown)


@pytest.mark.parametrize("first", [w for w in WISHES if w not in ("second head",)])
@pytest.mark.parametrize("second", ["take out", "move", "other lugs", "put on", "back to factory"])
def test_two_wishes_one_after_the_other(first, second, bench, shop):
    wishes = (WISHES[first], WISHES[second])
    wanted = DrumWanted(drum=bracketed(bench), wishes=wishes, finish=FinishPlan())
    ranked = schemes_for(wanted, shop=shop)
    for scheme in ranked.shown:
        labels = [plan.label for plan in scheme.layout.standing]
        assert len(set(labels)) == len(labels)


def test_what_the_first_wish_took_off_is_not_asked_for_again(bench, shop):
    # The cut goes through the bracket: taking it out is done, moving it puts it back elsewhere.
    cut = Shorten(depth_mm=120.0)
    moved = Move(label="bracket", near=Place(200.0, 60.0))
    for wish, stands in ((TakeOut(labels=("bracket",)), False), (moved, True)):
        wanted = DrumWanted(drum=bracketed(bench), wishes=(cut, wish), finish=FinishPlan())
        for scheme in schemes_for(wanted, shop=shop).shown:
            there = {plan.label for plan in scheme.layout.standing}
            assert ("bracket" in there) is stands


def test_the_only_row_goes_back_when_its_own_end_is_cut(bench, shop):
    wanted = DrumWanted(
        drum=with_lugs(6)(bench),
        wishes=(Shorten(depth_mm=140.0, end="batter"),),
        finish=FinishPlan(),
    )
    scheme = schemes_for(wanted, shop=shop).shown[0]
    lugs = scheme.layout.lugs("batter")
    assert [plan.place.down_mm for plan in lugs] == pytest.approx([60.0] * 6, abs=1.5)


def test_a_shell_is_cut_down_once(bench, shop):
    wishes = (Shorten(depth_mm=150.0), KitSnare(depth_mm=140.0))
    wanted = DrumWanted(drum=bare(bench), wishes=wishes, finish=FinishPlan())
    with pytest.raises(BadInput, match=r"cut down once.*150\.0 mm and 140\.0 mm"):
        schemes_for(wanted, shop=shop)


def test_a_fitting_that_a_second_wish_takes_off_again_leaves_nothing(bench, shop):
    wishes = (BRACKET, TakeOut(labels=("bracket",)))
    wanted = DrumWanted(drum=with_lugs(6)(bench), wishes=wishes, finish=FinishPlan())
    scheme = schemes_for(wanted, shop=shop).shown[0]
    assert scheme.criteria.cut == 0
    assert {plan.verdict for plan in scheme.layout.holes} == {Verdict.KEEP}


def test_a_pattern_that_no_part_of_the_book_allows_is_said(bench, shop):
    # No long lug of the book goes on a shell 400 deep.
    drum = bench.with_row(bench.bare(depth_mm=400.0), LUG, count=6, down_mm=60.0)
    wish = SecondHead(patterns=(Pattern.LONG_LUGS,))
    wanted = DrumWanted(drum=drum, wishes=(wish,), finish=FinishPlan())
    with pytest.raises(BadInput, match=r"400\.0 mm deep.*long lug"):
        schemes_for(wanted, shop=shop)
