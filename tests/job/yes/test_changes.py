"""Every change of a scheme; exact law: the permanent and hidden ones are what the code covers.

The count of what must have a change is made here anew, from the layout alone.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from counterhoop.development.truing import Removal
from counterhoop.job.yes.change import SORTS, gathered
from counterhoop.job.yes.changes import changes_of, lines_of
from counterhoop.job.yes.line import HoleLine, OtherLine, read_line
from counterhoop.job.yes.undone import removed, undone_changes
from counterhoop.papers.facts import Lengths
from counterhoop.scheme.code import PERMANENT, PERMANENT_WORK, code_for
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.movable import movable_rows
from counterhoop.scheme.moved import moved
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.choice import RowMoved

SAY = Lengths()


def idle(scheme: Scheme) -> Counter[str]:
    """Lines that only hold what stays: nothing is done there."""
    layout, lines = scheme.layout, lines_of(scheme)
    work = dict(scheme.made_from.work)
    ends = {"batter": layout.truing.batter, "resonant": layout.truing.resonant}
    uncut = [end for end, off in ends.items() if off == Removal()]
    found = [line for line in lines if any(line.startswith(f"off {end} ") for end in uncut)]
    if len(uncut) == 2 and "cut an end off" not in work:
        found += [line for line in lines if line.startswith("depth ")]
    if layout.finish.kind == "stays":
        found += [line for line in lines if line.startswith(("surface ", "finish "))]
    return Counter(found)


def test_no_permanent_change_without_a_line_and_no_line_without_a_change(schemes) -> None:
    for scheme in schemes:
        changes = changes_of(scheme, say=SAY)
        done = Counter(line for change in changes for line in change.lines)
        assert done + idle(scheme) == Counter(lines_of(scheme))
        assert all(bool(change.lines) == (change.sort != "reversible") for change in changes)


def test_what_is_counted_in_the_layout_is_what_is_listed(schemes) -> None:
    for scheme in schemes:
        layout = scheme.layout
        lasting = [c for c in changes_of(scheme, say=SAY) if c.sort != "reversible"]
        holes = sorted(spot.number for change in lasting for spot in change.spots)
        assert holes == sorted(p.number for p in layout.holes if p.verdict in PERMANENT)
        ends = sum(off != Removal() for off in (layout.truing.batter, layout.truing.resonant))
        work = [n for n, _ in scheme.made_from.work if n in PERMANENT_WORK]
        saws = "cut an end off" in work
        others = ends + len(work) - saws + (layout.finish.kind != "stays")
        assert len(lasting) == len(holes) + others
        assert scheme.permanent is bool(lasting)


def test_hidden_is_what_nobody_sees_outside(schemes) -> None:
    seen = Counter()
    for scheme in schemes:
        plans = {plan.number: plan for plan in scheme.layout.holes}
        for change in changes_of(scheme, say=SAY):
            for spot in change.spots if change.lines else ():
                plan = plans[spot.number]
                unseen = plan.covered or scheme.layout.finish.hides_plugs
                assert (change.sort == "hidden") is (plan.verdict is Verdict.PLUG and unseen)
                seen[change.sort, plan.verdict] += 1
    assert {("hidden", Verdict.PLUG), ("permanent", Verdict.PLUG)} <= set(seen)
    assert {("permanent", v) for v in PERMANENT if v is not Verdict.SLOT} <= set(seen)


def test_the_lines_are_those_of_the_code_also_when_a_row_was_moved(schemes, shop) -> None:
    tried = 0
    for scheme in schemes:
        assert code_for(scheme.drum, lines_of(scheme)) == scheme.code
        if tried < 5 and (rows := movable_rows(scheme)):
            move = RowMoved(row=rows[0].name, right_mm=0.5, down_mm=0.0)
            other = moved(scheme, [move], shop=shop)
            assert code_for(other.drum, lines_of(other)) == other.code
            tried += 1
    assert tried > 1


def test_every_line_can_be_read_back(schemes) -> None:
    """What a line says of a hole is what the layout says, to the tenth that it is written to."""
    for scheme in schemes:
        plans = {plan.number: plan for plan in scheme.layout.holes}
        for text in lines_of(scheme):
            line = read_line(text)
            assert not isinstance(line, OtherLine), text
            if not isinstance(line, HoleLine):
                continue
            plan = plans[line.number]
            place = plan.new_place or plan.place
            assert line.verdict is plan.verdict
            assert abs(line.place.down_mm - place.down_mm) < 0.051
            assert abs((line.place.along_deg - place.along_deg + 180) % 360 - 180) < 0.0051
            assert (line.opening is None) is (plan.new is None)
            assert (line.plug_mm is None) is (plan.plug_mm is None)


def test_the_sorts_come_in_order_and_each_has_a_place(schemes) -> None:
    for scheme in schemes:
        changes = gathered(changes_of(scheme, say=SAY))
        order = [SORTS.index(change.sort) for change in changes]
        assert order == sorted(order)
        assert all(change.spots or change.where for change in changes)
        assert all(change.does.endswith(".") and not change.does[0].islower() for change in changes)


def test_what_is_removed_is_the_clients_and_what_goes_on_again_is_not_removed(schemes) -> None:
    counted = 0
    for scheme in schemes:
        layout = scheme.layout
        again = layout.put_on_again
        goes = [f.label for f in layout.fittings if f.status == "goes" and f.label not in again]
        missing = {one.label for one in layout.drum.everything if one.missing}
        labels = [label for one in removed(layout) for label in one.labels]
        assert sorted(labels) == sorted(set(goes) - missing)
        counted += len(labels)
    assert counted > 5


def test_a_change_that_is_forgotten_would_be_found(schemes) -> None:
    """The comparison above can fail."""
    scheme = next(s for s in schemes if any(p.verdict is Verdict.DRILL for p in s.layout.holes))
    changes = changes_of(scheme, say=SAY)
    fewer = [c for c in changes if not any("drill" in line for line in c.lines)]
    done = Counter(line for change in fewer for line in change.lines)
    assert done + idle(scheme) != Counter(lines_of(scheme))
    stays = replace(scheme, layout=replace(scheme.layout, holes=()))
    assert Counter(lines_of(stays)) != Counter(lines_of(scheme))


def test_what_may_still_sit_on_closed_holes_comes_off_and_is_the_clients(schemes) -> None:
    """By hand: what a closed hole was for, where no fitting of the survey stands on it."""
    layout = next(one.layout for one in schemes if _loose(one.layout))
    (number, *_) = _loose(layout)
    for purpose, told in (("cymbal holder, upper", 1), ("vent", 0), ("found on the way", 0)):
        holes = tuple(
            replace(hole, purpose=purpose if hole.number == number else "")
            for hole in layout.drum.holes
        )
        named = replace(layout, drum=replace(layout.drum, holes=holes))
        off = [one.name for one in removed(named) if one.name.startswith("cymbal holder")]
        assert off == ["cymbal holder, where it is still on"] * told
        says = [one for one in undone_changes(named) if one.does.startswith("Cymbal holder, where")]
        assert [spot.number for one in says for spot in one.spots] == [number] * told


def _loose(layout: Layout) -> list[int]:
    held = {number for one in layout.drum.everything for number in one.holes}
    return [h.number for h in layout.holes if h.verdict is Verdict.PLUG and h.number not in held]
