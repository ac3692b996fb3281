"""Things of one document, written by several at once."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.save import Conflict, Saved


def drum_of(shop: Workshop, body: dict[str, Any]) -> tuple[str, str]:
    job = open_folder(shop, job={"number": "7"}, by="bench")
    return job, add_drum(shop, job, name="tom", survey=body, by="bench")


def change(drum: str, name: str, value: Any, *, based_on: int) -> ThingChange:
    """One name of the body is the thing."""
    return ThingChange(
        kind="survey", drum=drum, based_on=based_on,
        same=lambda seen, newest: bool(seen.get(name) == newest.get(name)),
        put=lambda _, base: {**base, name: value},
    )  # fmt: skip


@settings(
    max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None
)
@given(
    st.lists(st.tuples(st.sampled_from("abc"), st.integers(0, 3)), min_size=1, max_size=6),
    st.data(),
)
def test_nothing_is_written_over_that_was_not_seen(
    shop: Workshop, writes: list[tuple[str, int]], data: st.DataObject
) -> None:
    """Against a model: each thing is a cell; a write goes through unless its cell has changed."""
    job, drum = drum_of(shop, {"a": 0, "b": 0, "c": 0})
    bodies = [{"a": 0, "b": 0, "c": 0}]
    for name, value in writes:
        seen = data.draw(st.integers(0, len(bodies) - 1))
        done = write_thing(shop, job, change(drum, name, value, based_on=seen + 1), by="bench")
        newest = bodies[-1]
        allowed = bodies[seen][name] == newest[name] or newest[name] == value
        assert isinstance(done, Saved if allowed else Conflict)
        if allowed and newest[name] != value:
            bodies.append({**newest, name: value})
        assert kept_job(shop, job).drum(drum).kept("survey").body == bodies[-1]


def test_a_conflict_holds_what_each_of_them_wrote(shop: Workshop) -> None:
    job, drum = drum_of(shop, {"wall": "5 mm", "depth": "200 mm"})
    write_thing(shop, job, change(drum, "wall", "6 mm", based_on=1), by="one")
    done = write_thing(shop, job, change(drum, "wall", "7 mm", based_on=1), by="two")
    assert isinstance(done, Conflict)
    assert done.mine == {"wall": "7 mm", "depth": "200 mm"}
    assert done.theirs.body == {"wall": "6 mm", "depth": "200 mm"}
    assert done.theirs.bench == "one"


def test_a_version_that_never_was_is_no_base(shop: Workshop) -> None:
    job, drum = drum_of(shop, {})
    with pytest.raises(BadInput):
        write_thing(shop, job, change(drum, "wall", "6 mm", based_on=9), by="bench")
