"""The client's sheet: what it says for good, what it costs, and in whose words."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from documents import made, pages, scheme_sheet, words
from example_jobs import before, full_scheme, job_of
from example_shells import small_tom

from counterhoop.development.place import Place
from counterhoop.development.shape import Round
from counterhoop.development.truing import Truing
from counterhoop.papers.client_words import (
    cut_for_good,
    holes_added,
    not_in_the_price,
    seen_afterwards,
    what_shows,
)
from counterhoop.papers.facts import Lengths
from counterhoop.papers.scheme_sheet import scheme_sheet_pdf, work_minor
from counterhoop.scheme.plan import WorkLine
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import OldFinish
from counterhoop.shell.hole import Condition, Hole
from counterhoop.shell.wish import FinishPlan

YES = "by A. Player on 5 March 2026, signed at the bench"
HOSTILE = '#import "x.typ": * $a^2$ \\ #panic("no") <l> @ref "q" \'s\' [open *b* _i_ `c` // /*'
STRANGE = "Łódź 鼓 \U0001f941 \x07 \u200d ß"


def test_the_scheme_sheet_speaks_the_clients_words() -> None:
    scheme = replace(full_scheme(), findings=())
    said = words(scheme_sheet(job_of(), scheme))
    assert "10 new holes drilled" in said
    assert "13 old holes closed with wood" in said
    assert "10 new holes, 13 closed: 3 fewer than the drum has now." in said
    without = "hoops and rods, which are not chosen yet; heads, screws and washers; stripping"
    assert f"Not in this price: {without}, cleaning and tuning." in said
    assert "5 x Long tube" in said
    assert "5 batter lugs" in said
    assert "7K2M" in said
    assert "Nothing is drilled before that is signed." in said
    assert "what is offered, and what it does not pass, is on the quote" in said
    for jargon in ("mm2", "mm²", "web", "resonant edge", "along °"):
        assert jargon not in said
    shown = [f"Scheme {n}: Way {n}" in said for n in (2, 3, 4, 5)]
    assert shown == [True, True, True, False]
    assert f"scheme {scheme.number}: {scheme.title}" in said


@pytest.mark.parametrize("kind", ["new wrap", "stays"])
def test_the_client_is_told_that_a_new_wrap_is_not_in_the_price(kind: str) -> None:
    said = not_in_the_price(full_scheme(finish=FinishPlan(kind=kind)))
    assert ("the new wrap itself" in said) is (kind == "new wrap")


def test_the_hoop_of_a_row_that_was_there_is_there_too() -> None:
    found = replace(full_scheme(), layout=before(small_tom()))
    assert "hoops" not in not_in_the_price(found)


def test_other_ways_keep_the_numbers_that_schemes_prints() -> None:
    scheme = replace(full_scheme(), findings=(), number=2)
    others = tuple(replace(scheme, number=n, title=f"Way {n}") for n in (1, 2, 3))
    said = words(scheme_sheet_pdf(job_of(), scheme, found=before(small_tom()), others=others))
    for n in (1, 3):
        assert f"Scheme {n}: Way {n}" in said
    assert "Scheme 2: Way 2" not in said


def test_what_work_does_for_good_is_said() -> None:
    kinds = {"make an edge": 1, "glue in a ring": 1, "cut a snare bed": 2, "cut an end off": 1}
    work = tuple(WorkLine(operation=k, count=n, minutes=1.0) for k, n in kinds.items())
    layout = small_tom()
    scheme = replace(full_scheme(), layout=replace(layout, holes=()), work=work)
    assert cut_for_good(scheme, say=Lengths()) == [
        "an end cut off", "a new bearing edge cut", "a ring glued in", "2 snare beds cut",
    ]  # fmt: skip
    for operation in kinds:
        one = replace(scheme, work=(WorkLine(operation=operation, count=1, minutes=1.0),))
        assert len(cut_for_good(one, say=Lengths())) == 1
    true = replace(scheme, work=(WorkLine(operation="true an edge", count=1, minutes=1.0),))
    assert cut_for_good(true, say=Lengths()) == ["one edge trued"]
    both = replace(scheme, work=(WorkLine(operation="true an edge", count=2, minutes=1.0),))
    assert cut_for_good(both, say=Lengths()) == ["both edges trued"]


@pytest.mark.parametrize("old", ["wrap", "lacquer", "paint", "bare"])
def test_the_old_finish_taken_off_is_for_good(old: str) -> None:
    scheme = full_scheme()
    drum = replace(scheme.layout.drum, finish=OldFinish(kind=old))
    for kind, how in (("paint", "painted"), ("new wrap", "wrapped"), ("stays", "")):
        plan = FinishPlan(kind=kind)
        said = cut_for_good(
            replace(scheme, layout=replace(scheme.layout, drum=drum, finish=plan)), say=Lengths()
        )
        want = f"the bare shell {how}" if old == "bare" else f"the old {old} taken off"
        assert (said[-1] == want) is (kind != "stays")


def test_holes_added_counts_what_is_closed_and_what_is_sawn_off() -> None:
    scheme = full_scheme()
    holes = scheme.layout.holes
    new = [h for h in holes if h.verdict.drills]
    found = tuple(
        Hole(number=n, place=Place(0.0, 10.0 * n), shape=Round(6.0), condition=condition)
        for n, condition in ((901, Condition.SOUND), (902, Condition.SOUND), (903, Condition.DOWEL))
    )
    drum = replace(scheme.layout.drum, holes=found)

    def said(drilled: int, closed: int) -> str:
        plugs = [replace(new[0], number=901 + i, verdict=Verdict.PLUG) for i in range(closed)]
        layout = replace(scheme.layout, drum=drum, holes=(*new[:drilled], *plugs))
        return holes_added(replace(scheme, layout=layout))

    cut = "cut away with the offcut"
    assert said(3, 0) == f"3 new holes, 2 {cut}: 1 more than the drum has now."
    assert said(2, 1) == f"2 new holes, 1 closed, 1 {cut}: as many as the drum has now."
    assert said(1, 2) == "1 new hole, 2 closed: 1 fewer than the drum has now."
    assert said(1, 3) == said(1, 2)  # a dowel bored out and plugged again was no open hole
    assert said(0, 2) == "None; 2 closed."


def test_nobody_is_asked_to_agree_to_what_is_stopped_or_approved() -> None:
    stopped = words(made("scheme sheet"))
    assert "This cannot be done as it stands:" in stopped
    assert "Not to be agreed" in stopped
    approved = words(made("scheme sheet", YES))
    assert "Agreed: by A. Player on 5 March 2026, signed at the bench." in approved
    assert "Nothing is drilled before that is signed." not in approved


def test_the_pictures_for_the_client_carry_no_numbers() -> None:
    scheme = replace(full_scheme(), findings=())
    pdf = scheme_sheet_pdf(job_of(), scheme, found=before(small_tom()))
    first = pages(pdf)[0]
    between = first[first.index("As it is now") : first.index("What that means")]
    assert not re.search(r"\d", between)
    assert "bracket" in between


def test_the_price_adds_up() -> None:
    scheme = replace(
        full_scheme(), criteria=replace(full_scheme().criteria, money_minor=23450), findings=()
    )
    assert work_minor(scheme) == 23450 - 3 * 1850
    said = words(scheme_sheet(job_of(), scheme))
    assert "179.00 GBP" in said
    assert "234.50 GBP" in said
    assert "Parts whose price is not known yet, or only in another currency, are" in said


def test_a_new_finish_hides_what_it_covers_and_nothing_else() -> None:
    say = Lengths()
    bare = full_scheme()
    assert what_shows(bare, say=say).startswith("14 wood plugs")
    assert seen_afterwards(bare, say=say).startswith("5 new long lugs; 14 wood plugs")
    for kind, hides in (("paint", True), ("new wrap", True), ("clear lacquer", False)):
        finish = FinishPlan(kind=kind)
        said = what_shows(full_scheme(finish=finish), say=say)
        assert said.startswith("nothing") is hides
        seen = seen_afterwards(full_scheme(finish=finish), say=say)
        assert seen.startswith("5 new long lugs; the new finish covers") is hides


def test_a_new_row_that_hides_every_plug_is_still_seen() -> None:
    """Counted by hand: six new lugs for one head, six closed holes under them and none bare."""
    scheme = full_scheme()
    old = next(f for f in scheme.layout.fittings if f.status == "goes")
    lugs = tuple(replace(old, label=f"lug {n}", row="resonant", status="new") for n in range(1, 7))
    plugs = tuple(replace(h, verdict=Verdict.PLUG, covered=True) for h in scheme.layout.holes[:6])
    layout = replace(scheme.layout, fittings=lugs, holes=plugs, marks=())
    said = seen_afterwards(replace(scheme, layout=layout), say=Lengths())
    assert said == (
        "6 new lugs on the resonant side; 6 closed holes under fittings, no bare plug, open hole or"
        " old mark"
    )
    still = replace(layout, fittings=())
    assert seen_afterwards(replace(scheme, layout=still), say=Lengths()) == "nothing of the work"


def test_nothing_cut_is_said_to_be_nothing() -> None:
    scheme = full_scheme()
    holes = tuple(
        replace(h, verdict=Verdict.KEEP, old=Round(6.0), new=Round(6.0))
        for h in scheme.layout.holes
        if h.old is not None
    )
    layout = replace(scheme.layout, holes=holes)
    trued = replace(scheme, findings=(), layout=layout)
    assert cut_for_good(trued, say=Lengths()) == ["both edges trued"]
    scheme = replace(trued, layout=replace(layout, truing=Truing()), work=())
    assert cut_for_good(scheme, say=Lengths()) == []
    assert "Nothing on this drum is changed for good." in words(scheme_sheet(job_of(), scheme))
