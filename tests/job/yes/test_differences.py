"""What differs from a yes; exact law: something is said exactly where the code is another one."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.development.place import Place
from counterhoop.development.shape import Round, Slot
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.job.yes.changes import lines_of
from counterhoop.job.yes.differences import NOT_IN_LINES, NOT_ITS_LINES, Difference, differences
from counterhoop.job.yes.note import ChangeNote, DayMoved
from counterhoop.papers.facts import Lengths
from counterhoop.quantities.money import Money
from counterhoop.scheme.code import code_for
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.approval import Approval
from counterhoop.shell.hole import Hole

SAY = Lengths()
VERDICTS = st.sampled_from(list(Verdict))
SMALL_MM = st.sampled_from([0.0, 0.04, 0.1, 0.3, 1.0, 40.0, -0.1, -0.6, -25.0])


def yes_to(scheme: Scheme, **changes: object) -> Approval:
    lines = lines_of(scheme)
    yes = Approval(
        drum=scheme.drum, who="the owner", when=dt.date(2030, 5, 17), how="signed",
        covers=code_for(scheme.drum, lines), lines=lines,
    )  # fmt: skip
    return replace(yes, **changes)


def coded(scheme: Scheme, **changes: object) -> Scheme:
    """The same scheme with another layout, and the code that belongs to it."""
    other = replace(scheme, layout=replace(scheme.layout, **changes))
    return replace(other, code=code_for(other.drum, lines_of(other)))


def with_hole(scheme: Scheme, index: int, **changes: object) -> Scheme:
    holes = list(scheme.layout.holes)
    if not holes:
        return scheme
    at = index % len(holes)
    holes[at] = replace(holes[at], **changes)
    return coded(scheme, holes=tuple(holes))


@st.composite
def edited(draw: st.DrawFn, scheme: Scheme) -> Scheme:
    """A scheme after a few changes, of which some are undone and some move no line."""
    layout = scheme.layout
    for _ in range(draw(st.integers(0, 3))):
        index = draw(st.integers(0, 60))
        plan = layout.holes[index % len(layout.holes)] if layout.holes else None
        match draw(st.integers(0, 9)) if plan else 8:
            case 0:
                place = Place(plan.place.along_deg + draw(SMALL_MM), plan.place.down_mm)
                scheme = with_hole(scheme, index, place=place)
            case 1:
                place = Place(plan.place.along_deg, plan.place.down_mm + draw(SMALL_MM))
                scheme = with_hole(scheme, index, new_place=place)
            case 2:
                verdict = draw(VERDICTS)
                closed = verdict in (Verdict.PLUG, Verdict.PLUGGED_ALREADY)
                scheme = with_hole(
                    scheme, index, verdict=verdict, new=None if closed else Slot(6.0, 9.0)
                )
            case 3:
                scheme = with_hole(scheme, index, new=Round(6.0 + abs(draw(SMALL_MM))))
            case 4:
                scheme = with_hole(scheme, index, plug_mm=draw(st.sampled_from([None, 12.0, 15.0])))
            case 5:
                truing = Truing(batter=Removal(abs(draw(SMALL_MM)), draw(SMALL_MM), 0.0))
                scheme = coded(scheme, truing=truing)
            case 6:
                drum = replace(layout.drum, depth_mm=layout.drum.depth_mm + draw(SMALL_MM))
                scheme = coded(scheme, drum=drum)
            case 7:
                kind = draw(st.sampled_from(["stays", "paint", "clear lacquer", "new wrap"]))
                scheme = coded(scheme, finish=replace(layout.finish, kind=kind))
            case 8:
                scheme = coded(scheme, fittings=(), hoops=(), rods=(), marks=())
            case 9:
                scheme = coded(scheme, holes=tuple(draw(st.permutations(scheme.layout.holes))))
    return scheme


@given(data=st.data())
def test_the_code_changes_exactly_when_a_difference_is_said(data, schemes) -> None:
    before = data.draw(st.sampled_from(schemes), label="agreed")
    start = data.draw(st.sampled_from([before, data.draw(st.sampled_from(schemes))]))
    now = data.draw(edited(start), label="now")
    yes = yes_to(before)
    found = differences(yes, now, say=SAY)
    assert bool(found) is (yes.covers != now.code)
    assert {one.was for one in found if one.was} == set(yes.lines) - set(lines_of(now))
    assert {one.now for one in found if one.now} == set(lines_of(now)) - set(yes.lines)
    for one in found:
        assert (bool(one.was), bool(one.now)) == {
            "added": (False, True), "gone": (True, False), "altered": (True, True),
        }[one.how]  # fmt: skip
        assert one.does.strip()
        assert one.says.endswith(".")


@given(along=st.floats(0, 360), down=st.floats(0, 500), way=st.sampled_from([-1, 1]))
def test_a_hole_moved_by_a_tenth_of_a_millimetre_is_always_seen(along, down, way) -> None:
    """Brute force over places: 0.1 mm on a shell up to a metre across is over a hundredth degree.

    Halves of the last place are where rounding to the even neighbour saw nothing.
    """
    from counterhoop.scheme.code import _at

    here = Place(along, round(down, 2))
    aside_deg = way * 0.1 * 360.0 / 3140.0
    assert _at(here) != _at(Place(along, here.down_mm + way * 0.1))
    assert _at(here) != _at(Place(along + aside_deg, here.down_mm))


def plain(schemes: tuple[Scheme, ...]) -> Scheme:
    """A hand-made scheme: one hole stays, one is closed, one is new; worked by hand below."""
    old = (
        Hole(number=7, place=Place(90.0, 60.0), shape=Round(8.0)),
        Hole(number=8, place=Place(180.0, 60.0), shape=Round(8.0)),
    )
    holes = (
        HolePlan(
            number=7, verdict=Verdict.KEEP, place=old[0].place, old=Round(8.0), new=Round(8.0)
        ),
        HolePlan(number=8, verdict=Verdict.PLUG, place=old[1].place, old=Round(8.0)),
        HolePlan(number=9, verdict=Verdict.DRILL, place=Place(36.0, 70.0), new=Round(6.5)),
    )
    layout = schemes[0].layout
    surface = replace(layout.flat.surface, circumference_mm=1000.0)
    return coded(
        schemes[0], holes=holes, drum=replace(layout.drum, holes=old),
        flat=replace(layout.flat, surface=surface),
    )  # fmt: skip


def hole(scheme: Scheme, number: int, **changes: object) -> Scheme:
    index = [plan.number for plan in scheme.layout.holes].index(number)
    return with_hole(scheme, index, **changes)


def said(before: Scheme, now: Scheme) -> list[str]:
    return [one.says for one in differences(yes_to(before), now, say=SAY)]


def test_the_words_of_a_difference(schemes) -> None:
    """Worked by hand: 1 degree is 1000 / 360 = 2.8 mm of this shell, 2.5 to half a millimetre."""
    before = plain(schemes)
    assert said(before, before) == []
    wider = hole(before, 7, verdict=Verdict.ENLARGE, new=Round(10.0))
    assert said(before, wider) == [
        "Hole 7: 8.0 dia, was to stay; now it is to be made larger, to 10.0 dia."
    ]
    (found,) = differences(yes_to(before), wider, say=SAY, not_known=frozenset({7}))
    assert found.does == "8.0 dia, not known then; now it is to be made larger, to 10.0 dia"
    assert said(wider, before) == [
        "Hole 7: was to be made larger, to 10.0 dia; now it stays as it is."
    ]
    turned = hole(before, 9, place=Place(37.0, 68.0), new=Round(6.5))
    assert said(before, turned) == ["Hole 9: moved 3 mm right and 2 mm up."]
    hair = hole(before, 9, place=Place(36.0, 70.1))
    assert said(before, hair) == ["Hole 9: moved by less than 0.5 mm."]
    elsewhere = hole(before, 9, place=Place(216.0, 70.0))
    assert said(before, elsewhere) == ["Hole 9: moved 500 mm left."]
    fewer = coded(before, holes=before.layout.holes[:2])
    assert said(before, fewer) == ["Hole 9: was to be drilled new, 6.5 dia; now there is none."]
    assert said(fewer, before) == ["Hole 9: one that nobody agreed to, drilled new, 6.5 dia."]
    painted = coded(before, finish=replace(before.layout.finish, kind="paint"))
    assert said(before, painted) == [
        "The outside was to be left as it is; now it is to be painted."
    ]
    trued = coded(before, truing=Truing(resonant=Removal(1.0, 0.3, 0.4)))
    assert said(before, trued) == [
        "From the resonant edge nothing was to come off; now up to 1.5 mm comes off."
    ]
    ring = replace(before, made_from=replace(before.made_from, work=(("glue in a ring", 1),)))
    assert said(before, ring) == ["Not agreed yet: a ring glued in."]


def test_a_yes_without_lines_or_with_another_yes_lines(schemes) -> None:
    before = plain(schemes)
    now = hole(before, 9, place=Place(36.0, 71.0))
    bare = yes_to(before, lines=())
    assert differences(bare, before, say=SAY) == ()
    assert [d.does for d in differences(bare, now, say=SAY)] == [NOT_IN_LINES]
    forged = yes_to(before, covers=now.code)
    assert [d.does for d in differences(forged, now, say=SAY)] == [NOT_ITS_LINES]
    (other,) = differences(yes_to(before, drum="floor tom"), before, say=SAY)
    assert "floor tom" in other.says


def test_a_note_needs_a_difference_and_its_amounts_add_up(schemes) -> None:
    yes = yes_to(plain(schemes))
    one = (Difference(how="altered", does="moved 2 mm right", hole=7),)
    more, in_all = Money(minor=2850, currency="GBP"), Money(minor=40000, currency="GBP")
    note = ChangeNote(found=("A crack.",), agreed=yes, differs=one, more=more, in_all=in_all)
    assert note.price_says == "The price rises by 28.50 GBP, from 371.50 GBP to 400.00 GBP."
    less = replace(note, more=Money(minor=-2850, currency="GBP"))
    assert less.price_says == "The price falls by 28.50 GBP, from 428.50 GBP to 400.00 GBP."
    same = replace(note, more=Money(minor=0, currency="GBP"), in_all=None)
    assert same.price_says == "The price stays as it was."
    sooner = DayMoved(was=dt.date(2030, 5, 17), now=dt.date(2030, 5, 16))
    assert sooner.says == "Ready by 16 May 2030 instead of 17 May 2030, 1 day sooner."
    assert replace(note, differs=()).found  # a crack is glued: hours, and no other hole
    with pytest.raises(BadInput, match="nothing differs"):
        replace(note, differs=(), found=())
    with pytest.raises(BadInput, match="two currencies"):
        replace(note, in_all=Money(minor=1, currency="EUR"))
