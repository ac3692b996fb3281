"""The sheet that a client says yes on, and the note on what changed: nothing is left out."""

from __future__ import annotations

import re
from dataclasses import replace

from documents import made, pages, words
from example_changes import note_of
from example_jobs import full_scheme, job_of

from counterhoop.job.yes.change import gathered
from counterhoop.job.yes.changes import changes_of
from counterhoop.papers.approval_sheet import approval_sheet_pdf, numbered_pictures
from counterhoop.papers.change_note import change_note_pdf, difference_rows
from counterhoop.papers.facts import Lengths
from counterhoop.scheme.code import PERMANENT
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.wish import FinishPlan

YES = "by A. Player on 5 March 2026, signed at the bench"


def free() -> Scheme:
    """The example scheme with nothing that stops it."""
    return replace(full_scheme(), findings=())


def test_every_change_is_on_the_sheet_in_its_list() -> None:
    scheme = free()
    said = words(approval_sheet_pdf(job_of(), scheme))
    at = [
        said.index(heading)
        for heading in (
            "Cannot be undone Cut",
            "Cannot be undone, and is not seen from outside",
            "Can be undone",
            "What comes off and is yours",
            "Agreement to the permanent changes",
        )
    ]
    assert at == sorted(at)
    for change in gathered(changes_of(scheme, say=Lengths())):
        place = {"permanent": 0, "hidden": 1, "reversible": 2}[change.sort]
        assert at[place] < said.index(change.does) < at[place + 1], change
    assert "5 Short lug" in said[at[3] :]
    for line in ("name", "how it is given", "date", "signature", scheme.code):
        assert line in said[at[4] :]


def test_plugs_under_a_new_wrap_are_hidden() -> None:
    scheme = replace(full_scheme(finish=FinishPlan(kind="new wrap", thickness_mm=0.5)), findings=())
    said = words(approval_sheet_pdf(job_of(), scheme))
    hidden = said[said.index("is not seen from outside") : said.index("Can be undone")]
    assert "The new finish covers it outside; inside it can be found." in hidden
    assert "The old lacquer is taken off" in said


def test_every_hole_that_changes_has_its_number_on_the_picture_and_no_other() -> None:
    layout: Layout = free().layout
    wanted = {plan.number for plan in layout.holes if plan.verdict in PERMANENT}
    assert {plan.number for plan in layout.holes if plan.verdict is Verdict.KEEP} - wanted
    for numbers in (wanted, {31}, set()):
        images, _ = numbered_pictures(free(), numbers, wide_mm=186.0, title="")
        shown = re.findall(r'id="after-number-(\d+)', images["after"])
        assert {int(number) for number in shown} == numbers


def test_what_is_given_or_not_to_be_given_is_said() -> None:
    given = words(approval_sheet_pdf(job_of(), replace(free(), approved=YES)))
    assert f"Agreed: {YES}." in given
    assert "signature" not in given
    stopped = words(made("approval sheet"))
    assert "Not to be signed: it cannot be done as it stands." in stopped
    assert "signature" not in stopped


def test_a_signature_never_stands_alone_on_a_page() -> None:
    for pdf in (approval_sheet_pdf(job_of(), free()), note()):
        last = pages(pdf)[-1]
        assert "signature" in last
        assert "Can be undone" in last or "What it costs" in last


def note(**changes: object) -> bytes:
    return change_note_pdf(job_of(), free(), replace(note_of(free()), **changes))


def test_the_note_says_what_was_found_what_differs_its_price_and_its_day() -> None:
    said = words(note())
    assert "A crack runs from hole 31 to the edge" in said
    assert "done otherwise Hole 4: moved 1 mm up." in said
    assert (
        "not agreed yet Hole 31: 22.0 along, 9.0 down, was to stay; now it is to be closed." in said
    )
    assert "The price rises by 42.00 GBP, from 370.00 GBP to 412.00 GBP." in said
    assert "Ready by 10 June 2026 instead of 3 June 2026, 7 days later." in said
    assert f"The last yes was given {YES}" in said
    assert free().code in said
    assert "Ready by" not in words(note(day=None))


def test_holes_of_which_the_same_is_said_stand_in_one_line() -> None:
    whole = note_of(free())
    (first, *_) = whole.differs
    many = replace(whole, differs=tuple(replace(first, hole=n) for n in (9, 4, 5, 6)))
    (row,) = difference_rows(many)
    assert row["says"] == f"Holes 4 to 6, 9: {first.does}."
