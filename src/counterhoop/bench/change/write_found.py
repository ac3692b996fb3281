"""Write down what was found on the way, in its own list and where the planner reads it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from counterhoop.bench.change.found import ANSWERS, THINGS, Found, found_on
from counterhoop.bench.change.on_top import line_of
from counterhoop.bench.change.together import Overtaken, write_together
from counterhoop.bench.change.typed import ON_THE_WAY, FoundTyped, with_one_more, without
from counterhoop.bench.folders.folder import KeptDrum, kept_job
from counterhoop.bench.folders.kinds import FOUND, SURVEY
from counterhoop.bench.folders.write_down import Change
from counterhoop.bench.price.kept_quote import kept_quote
from counterhoop.bench.price.write_quote import as_it_came
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.quantities.day import say_day
from counterhoop.store.body import Json

MOST_TRIES = 5
T = TypeVar("T")
LONGEST = 200


def write_found(shop: Workshop, job_id: str, drum_id: str, typed: FoundTyped, *, by: str) -> int:
    """Write a thing down, and a crack, a loose ply or a hole into the survey with the same turn.

    A survey that says how the drum was found keeps what stood there, with the day and the reason.

    Returns
    -------
    int
        Its number on the drum.
    """
    today = clock_of(shop).date()

    def changes(drum: KeptDrum) -> tuple[list[Change], int]:
        found = found_on(drum)
        number = max((one.number for one in found.every), default=0) + 1
        row: dict[str, Json] = {
            "sort": typed.sort, "where": typed.where, "size": typed.size,
            "means": typed.word("means"), "on": today.isoformat(), "by": by,
            "photographs": list(typed.photographs),
        }  # fmt: skip
        row = {name: value for name, value in row.items() if value}
        made = []
        if (goes := typed.in_survey) is not None:
            place, item = goes
            row["in_survey"] = {"place": place, "item": item}
            survey = drum.kept(SURVEY)
            body = with_one_more(survey.table, place, item)
            why = f"{ON_THE_WAY} on {say_day(today)}"
            made.append(
                Change(
                    kind=SURVEY, name=drum.id, value=body, based_on=survey.number, why=why
                )
            )  # fmt: skip
        return [*made, _with_row(drum, number, row)], number

    return _written(shop, job_id, drum_id, changes, by=by)


def take_found_back(
    shop: Workshop, job_id: str, drum_id: str, number: int, *, why: str, by: str
) -> bool:
    """Take a thing back that was no such thing; what it put into the survey is corrected away.

    What it was to cost on top goes with it.

    Returns
    -------
    bool
        Whether the survey says nothing of it any more: where somebody has changed it there since,
        it stays, to be put right on the sheet *Shell*.

    Raises
    ------
    BadInput
        Without a reason, for no such thing, and for one that the client has answered.
    """
    because = _words(why, where="why", wanted='why, such as "only a scratch in the lacquer"')

    def changes(drum: KeptDrum) -> tuple[list[Change], bool]:
        thing = _need(drum, number)
        row = {**_row(drum, number), "taken_back": because}
        if not thing.place or thing.item is None:
            return [_with_row(drum, number, row)], True
        survey = drum.kept(SURVEY)
        body = without(survey.table, thing.place, thing.item)
        if body is None:
            return [_with_row(drum, number, row)], False
        change = Change(
            kind=SURVEY, name=drum.id, value=body, based_on=survey.number,
            why=f"taken back: {because}",
        )  # fmt: skip
        return [change, _with_row(drum, number, row)], True

    gone = _written(shop, job_id, drum_id, changes, by=by)
    _costs_nothing(shop, job_id, drum_id, number, by=by)
    return gone


def _costs_nothing(shop: Workshop, job_id: str, drum_id: str, number: int, *, by: str) -> None:
    for _ in range(MOST_TRIES):
        job = kept_job(shop, job_id)
        line = line_of(job, drum_id, number)
        if line is None:
            return
        as_it_came(shop, job_id, line, based_on=kept_quote(job).number, by=by)
    raise CannotDo("Several benches are writing at once: its price still stands, line by line.")


def settle_found(
    shop: Workshop, job_id: str, drum_id: str, number: int, *, why: str, by: str
) -> None:
    """Say that a thing needs no answer of the client, and why.

    Raises
    ------
    BadInput
        As for ``take_found_back``, and for one that costs something on top: the next change note
        would charge it and not say what for.
    """
    because = _words(why, where="why", wanted='why, such as "it is in the price as it is"')
    line = line_of(kept_job(shop, job_id), drum_id, number)
    if line is not None and line.amount.minor:
        raise BadInput(
            "it costs something on top, so the client is asked", where="why",
            given=str(line.amount), step="Take that away first",
        )  # fmt: skip

    def changes(drum: KeptDrum) -> tuple[list[Change], None]:
        _need(drum, number)
        return [_with_row(drum, number, {**_row(drum, number), "settled": because})], None

    _written(shop, job_id, drum_id, changes, by=by)


def _written(
    shop: Workshop, job_id: str, drum_id: str,
    changes: Callable[[KeptDrum], tuple[Sequence[Change], T]], *, by: str,
) -> T:  # fmt: skip
    """Write several documents of a drum with one turn, on top of whatever stands there."""
    for _ in range(MOST_TRIES):
        job = kept_job(shop, job_id)
        made, answer = changes(job.drum(drum_id))
        try:
            write_together(shop, job, made, by=by)
        except Overtaken:
            continue
        return answer
    raise CannotDo("Several benches are writing at once, and this was not kept: press again.")


def _need(drum: KeptDrum, number: int) -> Found:
    found = found_on(drum)
    thing = found.thing(number)
    if thing is None or thing.taken_back:
        raise BadInput("nothing of that number was found on this drum", where="thing", given=number)
    if found.answer_to(thing) is not None:
        raise BadInput(
            "the client has answered this already", where="thing", given=number,
            step="Both stay on record: write down anew what is otherwise.",
        )  # fmt: skip
    return thing


def _row(drum: KeptDrum, number: int) -> Mapping[str, Json]:
    row: Mapping[str, Json] = drum.kept(FOUND).table[THINGS][str(number)]
    return row


def _with_row(drum: KeptDrum, number: int, row: Mapping[str, Json]) -> Change:
    kept = drum.kept(FOUND)
    things = kept.table.get(THINGS)
    held = things if isinstance(things, dict) else {}
    body = {ANSWERS: [], **kept.table, THINGS: {**held, str(number): dict(row)}}
    return Change(kind=FOUND, name=drum.id, value=body, based_on=kept.number)


def _words(typed: str, *, where: str, wanted: str) -> str:
    words = " ".join(typed.split())
    if not words or len(words) > LONGEST:
        raise BadInput("a few words belong here", where=where, given=typed or None, wanted=wanted)
    return words
