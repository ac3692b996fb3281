"""At once there is an answer for everything, and the same words for what failed."""

from __future__ import annotations

import asyncio

import pytest
from slow_tasks import asked, errs, gated, mark, marks, refuses

from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.long_work.at_once import MOST_KEPT, WorksAtOnce


def test_work_is_done_once_while_its_answer_is_kept(tmp_path):
    works = WorksAtOnce()
    piece = asked(mark, str(tmp_path))
    answer = works.ask(piece)
    assert isinstance(answer, Done)
    assert works.ask(piece) is answer
    for call in (works.state, works.stop, works.again):
        assert call(answer.id) is answer
    assert marks(tmp_path) == ["a"]
    for number in range(MOST_KEPT):
        works.ask(asked(mark, str(tmp_path), name=f"n{number}"))
    assert works.state(answer.id).why == "unknown"


def test_progress_is_told_to_whoever_opened_it(tmp_path):
    told = []
    works = WorksAtOnce(progress=lambda says, share: told.append((says, share)))
    (tmp_path / "a.go").touch()
    id_ = works.ask(asked(gated, str(tmp_path))).id
    assert told == [("first half", 0.5), ("second half", 0.75)]

    async def events():
        return [event async for event in works.events(id_)]

    assert asyncio.run(events()) == []


def test_what_was_refused_is_an_answer_and_a_mistake_is_raised():
    works = WorksAtOnce()
    answer = works.ask(asked(refuses))
    assert (answer.why, answer.says) == ("refused", str(answer.fault))
    with pytest.raises(KeyError):
        works.ask(asked(errs, "Quennick"))
