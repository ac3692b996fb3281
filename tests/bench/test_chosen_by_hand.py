"""A drum's scheme is chosen in the file, and moved by hand: the plan, the kit, the yes follow it.

Exact laws: what the plan takes and what is asked for one row alone agree; the sheets of the drums
add up to the kit.
"""

from __future__ import annotations

import datetime as dt
import pickle
from dataclasses import fields, replace

import pytest

from counterhoop.bench.demo import open_demo
from counterhoop.bench.listing import listing
from counterhoop.bench.move_row import row_held, row_moved, rows_of
from counterhoop.bench.open_job import OpenJob
from counterhoop.bench.plan_job import JobPlan, plan_job
from counterhoop.bench.take import scheme_chosen
from counterhoop.cli.text import schemes_text
from counterhoop.errors import BadInput, Grade
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.rank import Ranked
from counterhoop.shell.approval import Approval
from counterhoop.shell.choice import Chosen, RowMoved
from planned_once import planned_demo

MOVES = (RowMoved(row="resonant", right_mm=2.5, down_mm=-1.0),)


def chosen_in(opened: OpenJob, **choices: Chosen) -> OpenJob:
    """The same job with a choice for some drums, by their names with _ for a space."""
    drums = tuple(
        replace(w, chosen=choices.get(w.drum.key.replace(" ", "_"))) for w in opened.job.drums
    )
    return replace(opened, job=replace(opened.job, drums=drums))


@pytest.fixture(scope="module")
def free() -> JobPlan:
    return planned_demo()


@pytest.fixture(scope="module")
def in_line(free) -> Scheme:
    return next(s for s in free.drum("small tom").ranked.shown if "in line" in s.title)


@pytest.fixture(scope="module")
def plan(free, in_line) -> JobPlan:
    """The small tom moved by hand, another depth for the snare, and a code that is gone."""
    deeper = next(s for s in free.drum("marching snare").ranked.every if "182.5" in s.title)
    return plan_job(
        chosen_in(
            open_demo(),
            small_tom=Chosen(scheme=in_line.code.lower(), moved=MOVES),
            marching_snare=Chosen(scheme=f" {deeper.code} "),
            bass_drum=Chosen(scheme="AAAA-AAAA"),
        )
    )


def test_the_moved_scheme_stands_beside_the_others_which_keep_their_numbers(free, plan, in_line):
    before, now = free.drum("small tom"), plan.drum("small tom")
    chosen = now.chosen
    assert chosen in now.ranked.shown
    assert chosen.number == len(before.ranked.every) + 1
    assert (chosen.moved, chosen.moved_from) == (MOVES, in_line.number)
    assert "moved by hand 2.5 mm to the right and 1 mm toward the batter edge" in chosen.title
    assert [(s.number, s.code) for s in now.ranked.every if not s.moved] == [
        (s.number, s.code) for s in before.ranked.every
    ]
    assert chosen.code not in {s.code for s in before.ranked.every}


def test_a_choice_is_taken_as_given_and_the_kit_says_so(plan):
    snare = plan.drum("marching snare").chosen
    assert "182.5" in snare.title
    assert snare.why.startswith("Taken by hand.")
    assert plan.kit.by_hand == ("small tom", "marching snare")
    tom = plan.drum("small tom").chosen
    assert (
        f"Taken by hand: scheme {tom.number} on the small tom and scheme {snare.number} on the"
        " marching snare." in plan.kit.says
    )
    assert not any("On its own the small tom" in said for said in plan.kit.says)
    assert sum(d.chosen.criteria.money_minor for d in plan.drums) == plan.kit.total_minor


def test_a_code_that_is_gone_is_a_finding_and_the_kit_decides(free, plan):
    drum = plan.drum("bass drum")
    (gone,) = (f for f in drum.noticed if f.code == "choice-gone")
    assert gone.grade is Grade.TAKE_CARE
    assert "AAAA-AAAA, is no longer among those worked out: choose again" in gone.says
    assert drum.chosen.code == free.drum("bass drum").chosen.code
    assert gone.says in " ".join(schemes_text(plan, (drum,)).split())
    others = [f.code for d in plan.drums if d is not drum for f in d.noticed]
    assert "choice-gone" not in others


def test_a_drum_that_has_no_scheme_at_all_says_that_the_choice_is_gone():
    opened = open_demo()
    (bass,) = (w for w in opened.job.drums if w.drum.key == "bass drum")
    bare = replace(bass, wishes=(), chosen=Chosen(scheme="DFE7-GUYC"))
    drum = plan_job(replace(opened, job=replace(opened.job, drums=(bare,), match=()))).drums[0]
    assert (drum.chosen, drum.ranked.shown) == (None, ())
    assert [f.code for f in drum.noticed].count("choice-gone") == 1


def test_asked_for_alone_the_moved_row_is_what_the_plan_takes(plan, in_line):
    taken = plan.drum("small tom").chosen
    alone = row_moved(plan, drum="small tom", scheme_code=in_line.code, moves=MOVES)
    held = row_held(plan, drum="Small Tom", scheme_code=in_line.code, row="resonant")
    for one in (alone, held.at(right_mm=2.5, down_mm=-1.0)):
        assert [
            f.name for f in fields(Scheme) if getattr(one, f.name) != getattr(taken, f.name)
        ] == []
    assert held.row in rows_of(in_line)


def test_a_row_not_moved_is_the_scheme_as_the_kit_takes_it(free, in_line):
    chosen = free.drum("large tom").chosen
    same = row_moved(free, drum="large tom", scheme_code=chosen.code, moves=())
    names = [f.name for f in fields(Scheme) if f.name not in ("why", "made_from")]
    assert [name for name in names if getattr(same, name) != getattr(chosen, name)] == []


def test_a_yes_covers_what_it_was_given_to_and_not_what_was_moved_since(plan, in_line):
    moved = plan.drum("small tom").chosen

    def with_yes(code: str) -> Scheme:
        yes = Approval(
            drum="small tom", who="the owner", when=dt.date(2026, 3, 1), how="signed", covers=code
        )
        opened = plan.opened
        shop = replace(opened.shop, approvals=(*opened.shop.approvals, yes))
        return plan_job(replace(opened, shop=shop)).drum("small tom").chosen

    assert with_yes(in_line.code).draft
    approved = with_yes(moved.code)
    assert approved.code == moved.code
    assert not approved.draft
    assert "the owner" in approved.approved


def test_two_schemes_of_one_code_are_told_apart_by_their_heading(in_line):
    other = replace(in_line, number=2, title="Other lugs: Quennick square lug")
    ranked = Ranked(shown=(in_line, other))
    assert scheme_chosen(in_line.code, ranked) is in_line
    assert scheme_chosen(in_line.code, ranked, title="other lugs: Quennick  square lug") is other
    assert scheme_chosen(in_line.code, ranked, title="another heading") is None
    alone = Ranked(shown=(in_line,))
    assert scheme_chosen(in_line.code, alone, title="another heading") is None


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        ({"drum": "no drum"}, "no drum of that name"),
        ({"scheme_code": "ZZZZ-ZZZZ"}, "no scheme of that code"),
        ({"moves": [RowMoved(row="batter", right_mm=1.0)]}, "stays on the holes it has"),
    ],
)
def test_what_is_not_there_is_one_clear_complaint(ask, says, free, in_line):
    asked = {"drum": "small tom", "scheme_code": in_line.code, "moves": MOVES} | ask
    with pytest.raises(BadInput, match=says):
        row_moved(free, **asked)


def test_the_listing_and_the_text_follow_the_choice(plan):
    listed = next(d for d in listing(plan).drums if d.drum == "small tom")
    assert [s.number for s in listed.schemes if s.chosen] == [plan.drum("small tom").chosen.number]
    text = schemes_text(plan, plan.drums)
    chosen = plan.drum("small tom").chosen
    assert f"{chosen.number}. {chosen.title}  [chosen]" in text


def test_a_plan_with_a_moved_row_goes_through_to_another_process(plan):
    again = pickle.loads(pickle.dumps(plan))
    ask = {"drum": "small tom", "scheme_code": plan.drum("small tom").ranked.shown[0].code}
    assert row_moved(again, **ask, moves=MOVES) == row_moved(plan, **ask, moves=MOVES)
