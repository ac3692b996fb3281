"""The change note of a drum, set beside the pages."""

from __future__ import annotations

from typing import Final

from starlette.responses import Response

from counterhoop.bench.long_work.answers import Done, Failed, Working
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.works import plan_asked
from counterhoop.bench.paper_names import plain_name
from counterhoop.errors import CannotDo
from counterhoop.web.change_desk import ChangeDesk
from counterhoop.web.paper_asked import own_printing

PATIENCE_S: Final = 60.0


def note_file(desk: ChangeDesk) -> Response:
    """Return the note by which the client agrees to what changed, as a file.

    Raises
    ------
    CannotDo
        Where nothing is asked of the client, or the paper is not set yet.
    """
    changed, source = desk.changed(for_client=True), desk.planned.source
    if changed is None or source is None:
        raise CannotDo(desk.why_no_note or "Nothing is asked of the client just now.")
    # The function goes to its process by name; the planner's modules load in a second there.
    from counterhoop.bench.long_work.change_tasks import make_change_note

    answer = desk.shop.works.ask(
        Asked(
            line="papers", task=make_change_note, source=source,
            arguments=(changed.note, desk.drum.name, own_printing(desk.shop).paper),
            rests_on=plan_asked(source),
        )
    )  # fmt: skip
    if isinstance(answer, Working):
        answer = desk.shop.works.wait(answer.id, PATIENCE_S)
    if isinstance(answer, Failed):
        raise answer.fault or CannotDo(answer.says)
    if not isinstance(answer, Done):
        raise CannotDo("The paper is still being set: ask for it again in a while.")
    names = (str(desk.job.job.get("number") or ""), f"{desk.drum.name} change note")
    called = " - ".join(part for part in map(plain_name, names) if part)
    return Response(
        answer.value.content, media_type=answer.value.media_type,
        headers={"content-disposition": f'attachment; filename="{called}.pdf"'},
    )  # fmt: skip
