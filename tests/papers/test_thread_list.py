"""The thread list: what was read and what it may be, rods before and after, drills."""

from __future__ import annotations

from dataclasses import replace

import pytest
from documents import words
from example_jobs import job_of
from example_threads import BRITISH, CHOSEN, SHORT, drum_of

from counterhoop.bench.demo import open_demo
from counterhoop.development.truing import Removal, Truing
from counterhoop.papers.facts import Lengths
from counterhoop.papers.thread_list import (
    DrumThreads,
    drum_threads,
    thread_list_data,
    thread_list_pdf,
)
from counterhoop.papers.thread_rows import drill_rows, rod_rows_before_and_after, thread_rows
from counterhoop.scheme.draft import draft_of
from counterhoop.scheme.ground import ground_of
from counterhoop.scheme.settle import settle
from counterhoop.shell.readings import Readings
from counterhoop.shell.wish import FinishPlan
from counterhoop.standards.threads import all_threads, find_thread

ROWS = thread_rows(drum_of().threads, takes=drum_of().takes)


def row(of: str) -> dict[str, object]:
    return next(r for r in ROWS if r["of"] == of)


def test_a_thread_that_is_sure_and_goes() -> None:
    sure = ROWS[0]
    assert sure["may-be"] == [{"name": "12-24 UNC", "odds": "almost sure"}]
    assert (sure["can-tell"], sure["lugs"], sure["goes"]) == (True, "12-24 UNC", "yes")
    assert sure["next"] == "None is needed."


def test_a_thread_that_cannot_be_told() -> None:
    """5.46 is 12-24 within its doubt and a worn 7/32 of either flank."""
    told = ROWS[1]
    assert not told["can-tell"]
    assert {it["name"] for it in told["may-be"]} == {"12-24 UNC", "7/32-24", "7/32 BSW"}
    assert {it["odds"] for it in told["may-be"]} == {"could be"}
    assert told["goes"] == "only if it is 12-24 UNC"
    assert "take the largest" in str(told["next"])


def test_a_look_alike_is_not_to_be_tried() -> None:
    assert row("resonant rods")["goes"] == "no: do not try"


def test_a_thread_of_no_table_a_slip_and_a_screw() -> None:
    assert row("old rods")["goes"] == "can't tell"
    assert row("old rods")["read"] == ["outside 5.4 mm"]
    assert "Count again: the length is that of 9 threads." in str(row("counted rods")["next"])
    assert row("strainer screw")["goes"] == "no rod"


def test_rods_before_and_after() -> None:
    """Case A with 3.0 off the edge: 41.0 to 56.0 become 38.0 to 53.0."""
    chosen, short = rod_rows_before_and_after((CHOSEN, SHORT), say=Lengths())
    assert (chosen["before"], chosen["after"]) == (["41 to 56 mm"], ["38 to 53 mm"])
    assert chosen["take"] == [
        "Rod 42, 4 in stock",
        "before truing it was Rod 48",
        "Rod 50 would do too, 16 in stock",
    ]
    assert (chosen["finger"], chosen["pitch"], chosen["room"]) == ("11 mm", "14 mm", "16 mm")
    assert chosen["splay"] == "2 mm in, leans 4°"
    assert (short["before"], short["after"]) == (["–"], ["58 mm or more"])
    assert short["take"] == ["none serves; nearest is Rod 42, 16 mm short"]
    assert (short["room"], short["splay"]) == ("not known", "not known")


def test_inches_stand_on_a_line_of_their_own() -> None:
    """38.0 mm is 1 1/2 in to the nearest 32nd, 53.0 is 2 3/32 (1 in = 25.4 mm exactly)."""
    [chosen] = rod_rows_before_and_after((CHOSEN,), say=Lengths("in"))
    assert chosen["after"] == ["38 to 53 mm", "1 1/2 to 2 3/32 in"]


def test_no_figure_is_finer_than_a_rule_shows() -> None:
    """Common practice, no source: a rule is read to half a millimetre."""
    odd = replace(CHOSEN, after_mm=(38.13, 52.87))
    [said] = rod_rows_before_and_after((odd,), say=Lengths())
    assert said["after"] == ["38 to 53 mm"]


def test_drills_of_12_24() -> None:
    """No. 16 leaves 72 per cent (docslib 4942776); 0.228 in, No. 1, lets it pass."""
    [drills] = drill_rows([find_thread("12-24")])
    assert drills["tap"] == ["4.5", "16", "–", "11/64"]
    assert drills["percent"] == ["72 %", "72 %", "", "82 %"]
    assert drills["clear"] == ["5.8", "1", "A", "15/64"]
    assert all(len(r["tap"]) == len(r["clear"]) == 4 for r in drill_rows(all_threads()))


def test_threads_of_the_list_have_their_drills_once() -> None:
    data = thread_list_data(job_of(), [drum_of(), drum_of("large tom")])
    names = [r["thread"] for r in data["drills"]]
    assert len(names) == len(set(names))
    assert {"12-24 UNC", "7/32-24", "7/32 BSW", "10-32 UNF"} <= set(names)


def test_a_drum_with_nothing_to_say_is_left_out() -> None:
    data = thread_list_data(job_of(), [DrumThreads(drum="empty"), drum_of()])
    assert [drum["drum"] for drum in data["drums"]] == ["small tom"]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_what_the_sheet_says(paper: str) -> None:
    said = words(thread_list_pdf(job_of(), [drum_of()], paper=paper))
    for piece in (
        "Threads as read, small tom",
        "12-24 UNC almost sure",
        "can’t tell:",
        "38 to 53 mm",
        "do not say which hoop it gets",
        "force nothing: old castings crack",
        "A rod that bottoms",
        "A thread that strips",
        "100 % is 3/4 of the sharp V",
        "Nothing old is tapped to another standard.",
    ):
        assert piece in said, piece


def test_from_a_drum_as_found_to_the_list() -> None:
    """The demonstration's first drum, 2.0 off its batter edge: the batter stack shortens by 2.0."""
    opened = open_demo()
    drum = replace(opened.job.drums[0].drum, readings=Readings(threads=(BRITISH,)))
    shop = opened.shop
    found, after = (
        settle(
            draft_of(ground_of(drum, finish=FinishPlan(truing=truing), book=shop.book)),
            rules=shop.rules,
        )
        for truing in (Truing(), Truing(batter=Removal(2.0)))
    )
    made = drum_threads(found, after, book=shop.book, rules=shop.rules, stock=shop.stock)
    assert made.takes("batter") == ("12-24 UNC",)
    assert [state.shorter_mm for state in made.rods] == [pytest.approx(2.0)]
    assert [found.read for found in made.threads] == [BRITISH]


def test_no_length_bottoming_and_nothing_engaged_are_said() -> None:
    """58.0 to engage and 53.0 to stay off the bottom; 2.0 past the bottom; no thread engaged."""
    assert CHOSEN.stand is not None
    stand = replace(CHOSEN.stand, finger_mm=0.0, room_mm=-2.0)
    none = replace(CHOSEN, after_mm=(58.0, 53.0), serves=False, stand=stand)
    [said] = rod_rows_before_and_after((none,), say=Lengths())
    assert said["after"] == ["no length:", "58 mm to engage, 53 mm to stay off the bottom"]
    assert (said["room"], said["finger"]) == ("bottoms 2 mm early", "none")
    assert said["take"][0] == "none serves; nearest is Rod 42, 16 mm short"
