"""What is found in mid-work is drawn, priced and asked for; what is agreed comes on the bill.

Truth: amounts worked by hand (25 minutes for a glued place by the operations book at the survey's
35.00 GBP an hour are 14.58 GBP, a tenth more for what cannot be seen, to the next round 5.00 GBP);
the invoice itself; the store's own record of corrections.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from mid_work import BY, DAY, InWork
from priced_job import saved, text_of, told

from counterhoop.bench.change.agreed import agreed_changes
from counterhoop.bench.change.answer import write_answer
from counterhoop.bench.change.changed import no_price
from counterhoop.bench.change.found_codes import found_codes
from counterhoop.bench.change.on_top import write_on_top
from counterhoop.bench.change.write_found import settle_found, take_found_back
from counterhoop.bench.folders.decide import Yes
from counterhoop.bench.folders.history import settle, versions
from counterhoop.bench.folders.kinds import APPROVAL, FOUND, SURVEY
from counterhoop.bench.folders.write_own_figures import write_figures
from counterhoop.bench.price.bills import give_invoice
from counterhoop.bench.price.write_quote import type_line, write_line
from counterhoop.errors import BadInput, Finding, Grade
from counterhoop.papers.change_note import change_note_pdf

CRACK = {"along": "at lug 3", "from_": "0 mm", "to": "60 mm", "means": "into the hole"}
HOLE = {"along": "lug 3 + 20 mm", "near": "60 mm", "dia": "7 mm", "origin": "extra"}


def test_a_crack_is_drawn_glued_and_priced(work: InWork) -> None:
    before = len(work.plan().drums[0].found.drum.lines)
    assert work.finds("crack", **CRACK) == 1
    (line,) = work.drum.kept(SURVEY).table["lines"][before:]
    assert line["kind"] == "crack"
    assert line["along"] == "lug 3"
    changed = work.changed()
    assert changed.note.differs == ()  # no other hole: the yes to the drill still covers it
    assert not work.scheme.draft
    assert changed.says == "The price rises by 15.00 GBP, from 390.00 GBP to 405.00 GBP."
    (finding,) = work.found.findings
    (code,) = found_codes()
    assert (finding.code, code.grades) == (code.code, (Grade.TAKE_CARE, Grade.NOTE))
    assert finding.grade is Grade.TAKE_CARE
    assert finding.says == (
        "Crack in the shell at lug 3, 0 mm to 60 mm down: into the hole. Found on 14 May 2030;"
        " not answered yet."
    )


def test_what_is_agreed_comes_on_the_bill_and_no_more(work: InWork) -> None:
    means = "2.5 in. long, into the hole. It wants glue before the head goes on."
    work.finds("crack", **{**CRACK, "means": means})
    work.hears(yes=True)
    (change,) = agreed_changes(work.job)
    assert (str(change.amount), change.yes.who if change.yes else "") == ("15.00 GBP", "Tobin")
    assert change.says.startswith("school snare: crack in the shell at lug 3")
    assert "2.5 in. long, into the hole, agreed on" in change.says  # what it is, as on a bill
    (finding,) = work.found.findings
    assert finding.grade is Grade.NOTE
    # The next thing is asked for by itself, from the price that was agreed by then: two glued
    # places are 29.17 GBP and a tenth, so 15.00 and 20.00 to the round figure.
    work.finds("loose ply", along="lug 6", from_="100 mm", to="150 mm")
    assert work.changed().says.startswith("The price rises by 20.00 GBP, from 405.00 GBP")
    work.hears(yes=False, who="his sister")
    assert agreed_changes(work.job) == (change,)
    bill = give_invoice(work.shop, work.job, day=DAY, changes=agreed_changes(work.job), by=BY)
    assert str(bill.total) == "405.00 GBP"


def test_a_hole_that_is_to_be_closed_asks_for_the_drill_too(work: InWork) -> None:
    work.finds("hole", **HOLE)
    assert work.scheme.draft  # not one hole is ticked by the old yes
    changed = work.changed()
    (plug,) = changed.note.differs
    assert plug.how == "added"
    assert "7.0 dia, not known then; now it is to be closed" in plug.does
    assert changed.approved
    with pytest.raises(BadInput, match="few words"):
        work.hears(yes=True, how=" ")
    with pytest.raises(BadInput, match="since that page was opened"):
        work.hears(yes=True, seen="of another day")
    assert work.scheme.draft
    work.hears(yes=True)
    assert not work.scheme.draft
    assert not work.found.open
    assert [str(one.amount) for one in agreed_changes(work.job)] == [str(changed.note.more)]


def test_a_no_lifts_no_draft_and_charges_nothing(work: InWork) -> None:
    work.finds("hole", **HOLE)
    work.hears(yes=False)
    assert work.scheme.draft
    assert agreed_changes(work.job) == ()
    assert work.found.answers[-1].words == "Tobin said no on 14 May 2030, by telephone"
    # It is asked again as long as more is cut than was agreed.
    assert work.changed().asks


def test_what_had_a_no_is_named_again_while_it_is_in_the_price(work: InWork) -> None:
    work.finds("crack", **CRACK)
    work.hears(yes=False)
    second = work.finds("other", where="the badge", means="its rivet is loose")
    note = work.changed().note
    # The 15.00 are the crack's: whoever reads only of the rivet would pay them unasked.
    assert note.more.minor == 1500
    badge, crack = note.found
    assert badge == "The badge: its rivet is loose."
    assert crack.endswith("Asked before: Tobin said no on 14 May 2030, by telephone.")
    assert work.changed().things == (second, 1)
    glue = next(one for one in work.quote().lines if "glue" in one.stands.says)
    saved(write_line(work.shop, work.id, glue, amount="0", currency="GBP", **told(work)))
    assert work.changed().note.more.minor == 0
    assert work.changed().things == (second,)
    assert len(work.changed().note.found) == 1


def test_a_yes_of_which_no_line_is_known_asks_for_the_whole_sheet(work: InWork) -> None:
    """A note cannot say what differs from it, so a yes to the note is none to the drill."""
    (row,) = work.drum.kept(APPROVAL).rows
    work.write(APPROVAL, "", [{name: said for name, said in row.items() if name != "lines"}])
    work.finds("hole", **HOLE)
    assert work.changed().note.differs
    changed = work.changed()
    assert not changed.approved
    (drum,) = work.quote().drums
    paper = text_of(change_note_pdf(work.plan().opened.job, drum.scheme, changed.note))
    assert "Agreement to the permanent changes" not in paper
    assert "nothing is drilled before" in paper
    work.hears(yes=True)
    assert work.scheme.draft


def test_a_scheme_that_is_stopped_takes_no_yes(work: InWork) -> None:
    work.finds("hole", **HOLE)
    stop = Finding(code="x", grade=Grade.STOP, says="It cannot be.", where="", rule="", remedy="")
    stopped = replace(work.scheme, findings=(stop,))
    changed = work.changed()
    with pytest.raises(BadInput, match="cannot be done as it stands"):
        write_answer(
            work.shop, work.job, work.drum, changed, scheme=stopped, seen=changed.seen,
            said_yes=True, said=Yes(who="Tobin", when=DAY, how="by telephone"), by=BY,
        )  # fmt: skip
    assert work.found.open  # neither of the two was written
    assert work.scheme.draft


def test_hours_that_the_log_has_learned_since_are_no_change(work: InWork) -> None:
    saved(write_figures(work.shop, {("minutes", "plug a hole"): "24 min"}, based_on=0, by=BY))
    work.finds("other", where="the badge", means="its rivet is loose")
    assert work.changed().note.more.minor == 0


def test_a_slip_is_taken_back_with_its_line_in_the_survey(work: InWork) -> None:
    settle(work.shop, work.drum.kept(SURVEY))
    before = work.drum.kept(SURVEY).body
    number = work.finds("crack", **CRACK)
    with pytest.raises(BadInput, match="few words"):
        take_found_back(work.shop, work.id, work.drum.id, number, why="", by=BY)
    assert take_found_back(
        work.shop, work.id, work.drum.id, number, why="only in the lacquer", by=BY
    )
    assert work.drum.kept(SURVEY).body == before
    said = [
        one.correction.why
        for one in versions(work.shop, work.drum.kept(SURVEY).document_id)
        if one.correction
    ]
    assert said == ["taken back: only in the lacquer", "found on the way on 14 May 2030"]
    assert not work.found.stands
    assert work.found.every  # it stays on record


def test_one_that_was_changed_in_the_survey_since_stays_there(work: InWork) -> None:
    number = work.finds("crack", **CRACK)
    last = len(work.drum.kept(SURVEY).table["lines"]) - 1
    work.write(SURVEY, f"/lines/{last}/to", "80 mm")
    assert not take_found_back(
        work.shop, work.id, work.drum.id, number, why="only in the lacquer", by=BY
    )
    assert work.drum.kept(SURVEY).table["lines"][last]["to"] == "80 mm"


def test_what_needs_no_answer_is_said_to(work: InWork) -> None:
    number = work.finds("thread", where="lug 2", means="tapped again")
    settle_found(work.shop, work.id, work.drum.id, number, why="in the price as it is", by=BY)
    (finding,) = work.found.findings
    assert finding.grade is Grade.NOTE
    assert finding.says.endswith("no answer wanted: in the price as it is.")
    with pytest.raises(BadInput, match="nothing differs"):
        work.changed()


def test_what_no_client_is_asked_for_stays_on_no_price(work: InWork) -> None:
    """Else the next note would charge it and name something else."""
    number = work.finds("part", where="lug 2", means="it is split")
    what = {"drum_id": work.drum.id, "number": number, "sort": "part", "says": "a casting"}
    write_on_top(work.shop, work.job, work.quote(), amount="12", **what, **told(work))
    assert work.changed().note.more.minor == 1000  # to the round figure
    with pytest.raises(BadInput, match="costs something on top"):
        settle_found(work.shop, work.id, work.drum.id, number, why="mine to bear", by=BY)
    take_found_back(work.shop, work.id, work.drum.id, number, why="only dirt", by=BY)
    work.finds("other", where="the badge", means="its rivet is loose")
    assert work.changed().note.more.minor == 0


def test_what_no_drum_has_for_itself_is_said_on_its_note_and_not_asked_by_it(
    work: InWork,
) -> None:
    """As a wrap that is cut for several drums: on each of their notes it would be asked anew."""
    work.finds("crack", **CRACK)
    before = work.changed()
    assert before.note.beside_says == ""
    case = {"says": "a case", "amount": "20", "currency": "GBP"}
    saved(type_line(work.shop, work.id, work.quote().lines, **case, **told(work)))
    note = work.changed().note
    assert note.more == before.note.more
    assert note.beside == ("A case, 20.00 GBP: not in what was agreed.",)
    drum = work.quote().drums[0]
    paper = text_of(change_note_pdf(work.plan().opened.job, drum.scheme, note))
    assert f"{note.price_says} Not in this price, for it is the whole job's: A case, 20.00" in paper


def test_what_was_answered_is_not_taken_back(work: InWork) -> None:
    number = work.finds("crack", **CRACK)
    work.hears(yes=True)
    with pytest.raises(BadInput, match="answered this already"):
        take_found_back(work.shop, work.id, work.drum.id, number, why="a slip", by=BY)


@pytest.mark.parametrize(
    ("sort", "words", "field", "says"),
    [
        ("crack", {**CRACK, "along": "lug 33"}, "along", "There is no batter lug 33"),
        ("crack", {**CRACK, "to": "900 mm"}, "along", "does not run down the shell"),
        ("crack", {**CRACK, "to": ""}, "to", "wanted to draw it"),
        ("hole", {**HOLE, "near": "60"}, "near", "No unit"),
        ("hole", {**HOLE, "dia": "400 mm"}, "dia", "hole"),
        ("other", {}, "where", "Say where it is"),
        ("other", {"means": "x" * 301}, "means", "At most 300"),
        ("ghost", {}, "sort", "a crack"),
    ],
)
def test_what_cannot_be_read_is_said_at_its_field(
    work: InWork, sort: str, words: dict[str, str], field: str, says: str
) -> None:
    assert says in work.faults(sort, **words)[field]


def test_before_a_price_is_agreed_no_note_is_made(fresh: InWork) -> None:
    fresh.finds("crack", **CRACK)
    assert no_price(fresh.quote(), fresh.drum.id).startswith("No price was agreed yet")
    assert agreed_changes(fresh.job) == ()
    assert fresh.drum.kept(FOUND).table["things"]["1"]["where"] == "lug 3"
