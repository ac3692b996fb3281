"""The change note of a drum, set beside the pages."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from starlette.responses import Response

from counterhoop.bench.change.found import Answer, FoundOnDrum
from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.works import plan_asked
from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.price.papers import shop_lines
from counterhoop.bench.price.terms import terms_of
from counterhoop.errors import CannotDo
from counterhoop.job.yes.note_said import NoteSaid
from counterhoop.web.change_desk import ChangeDesk
from counterhoop.web.paper_asked import own_printing

PATIENCE_S: Final = 60.0


def note_file(desk: ChangeDesk, *, answer: int = 0) -> Response:
    """Return the note by which the client agrees to what changed, as a file.

    Parameters
    ----------
    answer : int
        Number of an answer: the note to which it was given, printed again.

    Raises
    ------
    CannotDo
        Where nothing is asked of the client, or the paper is not set yet.
    """
    from counterhoop.papers.change_note import Answered, words_of

    source, answered = desk.planned.source, None
    if answer:
        given = next((one for one in desk.found.answers if one.number == answer), None)
        if given is None:
            raise CannotDo("No such answer is written down here.")
        said, answered = said_again(desk.found, given), Answered(words=given.words, code=given.code)
    else:
        changed = desk.changed(for_client=True)
        if changed is None:
            raise CannotDo(desk.why_no_note or "Nothing is asked of the client just now.")
        said = words_of(changed.note)
    if source is None:
        raise CannotDo("The drum cannot be read as it is, so no note on it can be set.")
    # The function goes to its process by name; the planner's modules load in a second there.
    from counterhoop.bench.long_work.change_tasks import make_change_note

    terms = terms_of(desk.shop)
    asked = desk.shop.works.ask(
        Asked(
            line="papers", task=make_change_note, source=source,
            arguments=(
                said, desk.drum.name, answered, shop_lines(terms),
                own_printing(desk.shop).paper,
            ),
            rests_on=plan_asked(source),
        )
    )  # fmt: skip
    if isinstance(asked, Working):
        asked = desk.shop.works.wait(asked.id, PATIENCE_S)
    if isinstance(asked, Failed):
        raise asked.fault or CannotDo(asked.says)
    if not isinstance(asked, Done):
        raise CannotDo("The paper is still being set: ask for it again in a while.")
    names = (str(desk.job.job.get("number") or ""), f"{desk.drum.name} change note")
    called = " - ".join(part for part in map(plain_name, names) if part)
    return Response(
        asked.value.content, media_type=asked.value.media_type,
        headers={"content-disposition": f'attachment; filename="{called}.pdf"'},
    )  # fmt: skip


def said_again(found: FoundOnDrum, given: Answer) -> NoteSaid:
    """Return what a note said; of one from before notes were kept, what its answer still knows."""
    if given.note.price:
        return given.note
    things = tuple(one.says for n in given.things if (one := found.thing(n)) is not None)
    return replace(given.note, found=things, price=given.says)
