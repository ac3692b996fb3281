"""What was cut stays cut when a find changes the scheme around it.

Truth: a hole is done when the very same was to be done to it: the place, size and verdict that
stand in the code's own lines, told apart here by hand.
"""

from __future__ import annotations

from mid_work import BY, InWork

from counterhoop.bench.folders.decide import tick
from counterhoop.bench.folders.kinds import APPROVAL, TICKS
from counterhoop.bench.folders.ticks import ticked_otherwise, ticks_of
from counterhoop.job.yes.changes import lines_of
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import Verdict


def done(work: InWork, hole: int) -> None:
    tick(work.shop, work.id, work.drum, scheme=work.scheme, hole=hole, done=True, by=BY)


def plugged(scheme: Scheme) -> list[int]:
    return [one.number for one in scheme.layout.holes if one.verdict is Verdict.PLUG]


def test_a_plug_stays_ticked_when_another_hole_is_found(work: InWork) -> None:
    old = work.scheme
    first, second = plugged(old)
    done(work, first)
    before = dict(ticks_of(work.drum, scheme=old))
    work.finds("hole", along="lug 3 + 20 mm", near="60 mm", dia="7 mm", origin="extra")
    new = work.scheme
    assert new.code != old.code
    assert set(lines_of(old)) < set(lines_of(new))
    assert ticks_of(work.drum, scheme=new) == before
    assert ticked_otherwise(work.drum, scheme=new) == ()
    work.hears(yes=True)
    done(work, second)
    assert set(ticks_of(work.drum, scheme=work.scheme)) == {str(first), str(second)}
    assert work.drum.kept(TICKS).table["code"] == new.code


def test_a_hole_that_is_done_otherwise_now_is_named(work: InWork) -> None:
    """The same number is no reason: another place or size is another hole."""
    scheme = work.scheme
    first, _ = plugged(scheme)
    done(work, first)
    (row,) = work.drum.kept(APPROVAL).rows
    assert isinstance(row, dict)
    line = next(one for one in row["lines"] if one.startswith(f"{first} "))
    elsewhere = [one if one != line else f"{first} plug closed at 1.00 1.0" for one in row["lines"]]
    work.write(APPROVAL, "", [{**row, "lines": elsewhere, "covers": "AAAA-AAAA"}])
    work.write(TICKS, "", {**work.drum.kept(TICKS).table, "code": "AAAA-AAAA"})
    assert ticks_of(work.drum, scheme=scheme) == {}
    assert ticked_otherwise(work.drum, scheme=scheme) == (str(first),)
