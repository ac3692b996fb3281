"""The papers of a price, set beside the pages: the quote, an offer again, the sheet to sign."""

from __future__ import annotations

from typing import Final

from starlette.responses import Response

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.works import Works, plan_asked
from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.price.papers import (
    NO_NAME,
    offer_sheet,
    quote_of_sheet,
    shop_lines,
    surveyed_on,
)
from counterhoop.errors import CannotDo
from counterhoop.papers.letter_head import LetterHead
from counterhoop.papers.quote_sheet import QuoteSheet
from counterhoop.web.date_desk import DateDesk
from counterhoop.web.date_told import ready_told
from counterhoop.web.paper_asked import own_printing
from counterhoop.web.price_desk import PriceDesk

PATIENCE_S: Final = 60.0
NO_JOB: Final = JobSource(tables_json=b"")


def quote_file(desk: PriceDesk, date: DateDesk, *, ways_with: str = "") -> Response:
    """Return the quote as it stands, as a file.

    Parameters
    ----------
    date : DateDesk
        Of the same job: when its drums would be ready.
    ways_with : str
        The drum whose other ways stand beside it; empty for none.
    """
    now = desk.need_quote()
    sheet = quote_of_sheet(
        desk.need_plan(), now, day=desk.shop.now().astimezone().date(),
        sides=desk.ways(now, ways_with).sides if ways_with else None, ready=ready_told(date),
    )  # fmt: skip
    lone = now.drums[0].kept.name if len(now.drums) == 1 else ""
    answer = _quote(desk, sheet, drum=lone)
    return _file(desk, answer, name="quote")


def offer_file(desk: PriceDesk, number: int) -> Response:
    """Return an offer as it was handed out, as a file."""
    made, terms, job = desk.kept.offer(number), desk.terms, desk.job.job
    head = LetterHead(
        shop=terms.shop or NO_NAME, shop_lines=terms.shop_lines,
        client=str(job.get("client") or ""), job=str(job.get("number") or ""),
        drums=tuple(one.name for one in made.drums), date=made.day,
    )  # fmt: skip
    return _file(desk, _quote(desk, offer_sheet(made, head=head)), name=f"offer {number}")


def approval_file(desk: PriceDesk, drum_id: str) -> Response:
    """Return the sheet that a client signs for a drum, as a file."""
    drum = desk.need_quote().drum(drum_id)
    # The function goes to its process by name; the planner's modules load in a second there.
    from counterhoop.bench.long_work.price_tasks import make_approval

    source = desk.planned.source or NO_JOB
    job, terms = desk.need_plan().opened.job, desk.terms
    answer = desk.shop.works.ask(
        Asked(
            line="papers", task=make_approval, source=source,
            arguments=(
                drum.kept.name, job.units, job.date or surveyed_on(desk.shop, drum.kept),
                shop_lines(terms), own_printing(desk.shop).paper,
            ),
            rests_on=plan_asked(source),
        )
    )  # fmt: skip
    return _file(desk, answer, name=f"{drum.kept.name} approval sheet")


def _quote(desk: PriceDesk, sheet: QuoteSheet, *, drum: str = "") -> Answer[Paper]:
    from counterhoop.bench.long_work.price_tasks import make_quote

    source = (desk.planned.source if drum else None) or NO_JOB
    return desk.shop.works.ask(
        Asked(
            line="papers", task=make_quote, source=source,
            arguments=(sheet, drum, own_printing(desk.shop).paper),
            rests_on=plan_asked(source) if drum else None,
        )
    )  # fmt: skip


def _file(desk: PriceDesk, answer: Answer[Paper], *, name: str) -> Response:
    made = _waited(desk.shop.works, answer)
    number = str(desk.job.job.get("number") or "")
    called = " - ".join(part for part in (plain_name(number), plain_name(name)) if part)
    return Response(
        made.content, media_type=made.media_type,
        headers={"content-disposition": f'attachment; filename="{called}.pdf"'},
    )  # fmt: skip


def _waited(works: Works, answer: Answer[Paper]) -> Paper:
    if isinstance(answer, Working):
        answer = works.wait(answer.id, PATIENCE_S)
    if isinstance(answer, Failed):
        raise answer.fault or CannotDo(answer.says)
    if not isinstance(answer, Done):
        raise CannotDo("The paper is still being set: ask for it again in a while.")
    return answer.value
