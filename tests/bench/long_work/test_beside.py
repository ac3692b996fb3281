"""Real processes: stopped half way, killed, asked twice, replaced, let go; no clock is trusted."""

from __future__ import annotations

import asyncio
import logging
import os
import pickle
import signal
import threading

import pytest
from slow_tasks import (
    asked,
    dies,
    errs,
    gated,
    hoards,
    known,
    large,
    let_on,
    loaded,
    mark,
    marks,
    out_of_memory,
    refuses,
    until,
    until_so,
)

from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.bench.long_work.beside import WorksBeside
from counterhoop.bench.long_work.line import Limits
from counterhoop.errors import BadInput, CannotDo

LONG_S = 120.0


def gone(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return True
    return False


def done(works, piece):
    """Ask and wait for what comes of it."""
    answer = works.wait(works.ask(piece).id, LONG_S)
    assert isinstance(answer, Done), answer
    return answer.value


def test_work_says_how_far_it_is_and_then_what_came_of_it(works, tmp_path):
    piece = asked(gated, str(tmp_path))
    answer = works.ask(piece)
    assert isinstance(answer, Working)
    assert answer.share == 0.0
    pid = int(until(tmp_path / "a.begun"))
    assert pid != os.getpid()
    assert works.wait(answer.id, 0.02) == Working(id=answer.id, says="first half", share=0.5)
    let_on(tmp_path)
    assert works.wait(answer.id, LONG_S) == Done(id=answer.id, value=pid)


def test_the_same_work_is_done_once_however_often_it_is_asked_for(works, tmp_path):
    """A reload is one more asking: it finds the same id, half way and afterwards."""
    ids = []

    def ask():
        ids.append(works.ask(asked(gated, str(tmp_path))).id)

    asking = [threading.Thread(target=ask) for _ in range(8)]
    for thread in asking:
        thread.start()
    for thread in asking:
        thread.join()
    until(tmp_path / "a.begun")
    ask()
    assert set(ids) == {asked(gated, str(tmp_path)).id}
    assert isinstance(works.state(ids[0]), Working)
    let_on(tmp_path)
    pid = done(works, asked(gated, str(tmp_path)))
    assert works.ask(asked(gated, str(tmp_path))) == Done(id=ids[0], value=pid)
    assert marks(tmp_path) == ["a"]


def test_other_content_or_other_arguments_are_other_work(works, tmp_path):
    (tmp_path / "else").mkdir()
    pieces = [
        asked(mark, str(tmp_path)),
        asked(mark, str(tmp_path), name="b"),
        asked(mark, str(tmp_path / "else")),
        asked(gated, str(tmp_path)),
    ]
    assert len({piece.id for piece in pieces}) == 4
    assert asked(mark, str(tmp_path), folder="12").id == pieces[0].id
    pids = {done(works, piece) for piece in pieces[:3]}
    assert len(pids) == 1, "one line has one process, which stays"


def test_stopping_ends_the_process_and_the_next_work_has_another(works, tmp_path):
    id_ = works.ask(asked(gated, str(tmp_path))).id
    pid = int(until(tmp_path / "a.begun"))
    answer = works.stop(id_)
    assert isinstance(answer, Failed)
    assert answer.why == "stopped"
    assert "Stopped" in answer.says
    assert done(works, asked(mark, str(tmp_path), name="b")) != pid
    assert gone(pid)
    assert works.stop(id_) == answer


def test_what_was_stopped_stays_so_until_it_is_asked_for_again(works, tmp_path):
    piece = asked(gated, str(tmp_path))
    id_ = works.ask(piece).id
    until(tmp_path / "a.begun")
    stopped = works.stop(id_)
    assert works.ask(piece) == stopped
    assert marks(tmp_path) == ["a"]
    let_on(tmp_path)
    assert isinstance(works.again(id_), Working)
    assert isinstance(works.wait(id_, LONG_S), Done)
    assert marks(tmp_path) == ["a", "a"]
    assert isinstance(works.again(id_), Done), "what is done is not done again"
    assert isinstance(works.stop(id_), Done), "it was quicker"


def test_work_that_waits_is_stopped_without_touching_what_is_under_way(works, tmp_path):
    first = works.ask(asked(gated, str(tmp_path))).id
    until(tmp_path / "a.begun")
    second = works.ask(asked(mark, str(tmp_path), name="b")).id
    assert works.stop(second).why == "stopped"
    let_on(tmp_path)
    assert isinstance(works.wait(first, LONG_S), Done)
    assert marks(tmp_path) == ["a"]


def test_a_killed_process_is_said_in_plain_words_and_the_next_try_works(works, tmp_path):
    piece = asked(gated, str(tmp_path))
    id_ = works.ask(piece).id
    os.kill(int(until(tmp_path / "a.begun")), signal.SIGKILL)
    answer = works.wait(id_, LONG_S)
    assert answer.why == "died"
    assert "Try again" in answer.says
    let_on(tmp_path)
    assert works.ask(piece) == answer
    works.again(id_)
    assert isinstance(works.wait(id_, LONG_S), Done)


def test_a_process_that_ends_itself_is_said_too(works, tmp_path):
    piece = asked(dies, str(tmp_path))
    assert works.wait(works.ask(piece).id, LONG_S).why == "died"
    works.again(piece.id)
    assert isinstance(works.wait(piece.id, LONG_S), Done)
    spent = asked(out_of_memory)
    assert works.wait(works.ask(spent).id, LONG_S).why == "died"


def test_a_process_killed_while_it_had_nothing_to_do_is_not_noticed(works, tmp_path):
    pid = done(works, asked(mark, str(tmp_path)))
    os.kill(pid, signal.SIGKILL)
    assert done(works, asked(mark, str(tmp_path), name="b")) != pid
    assert marks(tmp_path) == ["a", "b"]


def test_what_cannot_be_worked_on_comes_back_as_it_was_raised(works):
    answer = works.wait(works.ask(asked(refuses)).id, LONG_S)
    assert answer.why == "refused"
    assert isinstance(answer.fault, BadInput)
    assert (answer.fault.where, answer.fault.given) == ("depth", "200")
    assert answer.says == str(answer.fault)
    assert works.again(answer.id) == answer


def test_a_mistake_of_the_program_is_logged_without_what_a_client_wrote(works, caplog):
    with caplog.at_level(logging.ERROR, logger="counterhoop.long_work"):
        answer = works.wait(works.ask(asked(errs, "Quennick, 3 Mill Lane")).id, LONG_S)
    assert answer.why == "fault"
    assert "mistake of the program" in answer.says
    assert "KeyError" in caplog.text
    assert "slow_tasks.py" in caplog.text
    assert "Quennick" not in caplog.text


def test_newer_work_of_a_folder_replaces_what_waits_for_it(works, tmp_path):
    here = str(tmp_path)
    first = works.ask(asked(gated, here, folder="12")).id
    until(tmp_path / "a.begun")
    older = works.ask(asked(mark, here, name="b", folder="12")).id
    other_folder = works.ask(asked(mark, here, name="c", folder="13")).id
    no_folder = works.ask(asked(mark, here, name="d")).id
    newer = works.ask(asked(mark, here, name="e", folder="12")).id
    assert works.state(older).why == "replaced"
    let_on(tmp_path)
    for id_ in (first, other_folder, no_folder, newer):
        assert isinstance(works.wait(id_, LONG_S), Done)
    assert marks(tmp_path) == ["a", "c", "d", "e"]
    done(works, asked(mark, here, name="b", folder="12"))
    assert marks(tmp_path)[-1] == "b", "what was undone comes back and is worked out after all"


def test_lines_do_not_wait_for_each_other(works, tmp_path):
    first = works.ask(asked(gated, str(tmp_path), line="one")).id
    until(tmp_path / "a.begun")
    done(works, asked(mark, str(tmp_path), name="b", line="two"))
    assert isinstance(works.state(first), Working)


def test_what_is_kept_stays_within_its_bound():
    works = WorksBeside(most_bytes=250_000)
    try:
        sizes = (100_000, 100_001, 100_002)
        ids = [works.ask(asked(large, size)).id for size in sizes]
        for id_ in ids[:2]:
            works.wait(id_, LONG_S)
        assert len(done(works, asked(large, sizes[0]))) == sizes[0], "used last but one"
        works.wait(ids[2], LONG_S)
        kept = [isinstance(works.state(id_), Done) for id_ in ids]
        assert kept in ([True, False, True], [False, True, True])
        assert works.state(ids[kept.index(False)]).why == "unknown"
        assert len(done(works, asked(large, 900_000))) == 900_000, "the last one stays in any case"
        assert works.state(ids[2]).why == "unknown"
    finally:
        works.close()


def test_work_is_told_what_it_rests_on_while_that_is_kept(works):
    base = asked(known, name="base", bears=True)
    above = asked(known, rests_on=base)
    other = asked(known, name="b", rests_on=base)
    assert done(works, above) is None
    done(works, base)
    assert pickle.loads(done(works, other)) is None
    assert done(works, other) == pickle.dumps(None, protocol=5)


def test_a_process_that_grew_is_replaced():
    works = WorksBeside(limits=Limits(most_held_bytes=200_000_000))
    try:
        small = done(works, asked(hoards, 1000))
        assert done(works, asked(hoards, 300_000_000)) == small
        after = done(works, asked(hoards, 1001))
        assert after != small
        assert gone(small)
    finally:
        works.close()


def test_a_process_is_let_go_after_so_many_pieces(tmp_path):
    works = WorksBeside(limits=Limits(most_pieces=2))
    try:
        pids = [done(works, asked(mark, str(tmp_path), name=name)) for name in "abcd"]
        assert pids[0] == pids[1] != pids[2] == pids[3]
    finally:
        works.close()


def test_an_idle_process_ends_and_the_next_work_starts_another(tmp_path):
    works = WorksBeside(limits=Limits(idle_s=0.01))
    try:
        pid = done(works, asked(mark, str(tmp_path)))
        line = works.line("trial")
        until_so(lambda: not line.pid)
        until_so(lambda: gone(pid))
        assert done(works, asked(mark, str(tmp_path), name="b")) != pid
    finally:
        works.close()


def test_closing_ends_what_waits_what_is_under_way_and_every_process(tmp_path):
    works = WorksBeside()
    first = works.ask(asked(gated, str(tmp_path))).id
    pid = int(until(tmp_path / "a.begun"))
    second = works.ask(asked(mark, str(tmp_path), name="b")).id
    works.close()
    assert gone(pid)
    assert [works.state(id_).why for id_ in (first, second)] == ["stopped", "stopped"]
    with pytest.raises(CannotDo, match="closed"):
        works.ask(asked(mark, str(tmp_path), name="c"))


def test_events_are_told_until_there_is_an_answer(works, tmp_path):
    piece = asked(gated, str(tmp_path))

    async def watched():
        id_ = works.ask(piece).id
        told = []
        async for says, share in works.events(id_):
            told.append((says, share))
            if share == 0.5:
                let_on(tmp_path)
        return told, works.state(id_), [event async for event in works.events(id_)]

    told, answer, afterwards = asyncio.run(watched())
    assert isinstance(answer, Done)
    assert ("first half", 0.5) in told
    assert [share for _, share in told] == sorted(share for _, share in told)
    assert afterwards == []


def test_events_end_when_work_is_stopped_and_nobody_listens_afterwards(works, tmp_path):
    piece = asked(gated, str(tmp_path))

    async def watched():
        id_ = works.ask(piece).id
        async for _, share in works.events(id_):
            if share == 0.5:
                await asyncio.to_thread(works.stop, id_)
        return works.state(id_)

    assert asyncio.run(watched()).why == "stopped"
    assert asyncio.run(anext_or_none(works.events("0" * 32))) is None


async def anext_or_none(events):
    return await anext(events, None)


def test_what_is_not_known_is_said_to_be_so(works):
    for call in (works.state, works.stop, works.again):
        assert call("f" * 32).why == "unknown"


def test_a_process_carries_what_its_line_needs_and_no_more(works):
    names = done(works, asked(loaded, line="papers"))
    assert "typst" in names
    assert "ortools" not in names


def test_ready_beforehand_the_first_plan_finds_its_process(works):
    works.warm()
    line = works.line("plans")
    until_so(lambda: line.pid)
    pid = line.pid
    names = done(works, asked(loaded, line="plans"))
    assert line.pid == pid
    assert {"ortools", "scipy"} <= set(names)
