"""Hear a drum as it is and as its scheme leaves it, before anything is drilled."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from fastapi import APIRouter, Header
from starlette.requests import Request
from starlette.responses import Response

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.errors import BadInput, DoesNotAnswer
from counterhoop.web.folder_index import folder_index, job_address
from counterhoop.web.guard.pen import PageRoute
from counterhoop.web.guard.ranged import ranged
from counterhoop.web.guard.served_upload import upload_headers
from counterhoop.web.plans import WAIT_S
from counterhoop.web.render import page
from counterhoop.web.tuned_desk import TunedDesk, tuned_desk
from counterhoop.web.workshop_of import GivenWorkshop

if TYPE_CHECKING:  # the model takes a second to load, and the works have it
    from counterhoop.bench.hear_it import HearIt

pages = APIRouter(route_class=PageRoute)
HEAR = "/jobs/{job}/drums/{drum}/tuned/hear"
PLAYER_WAIT_S = 20.0
"""A player waits for its sound that was let go and is made again."""
Asked = Annotated[str, Header(alias="range", max_length=200)]


@pages.get(HEAR)
def look(request: Request, shop: GivenWorkshop, job: str, drum: str) -> Response:
    """Show the sounds, and what must be said beside them."""
    desk = tuned_desk(request, shop, job, drum)
    answer = sounds_of(desk, wait_s=WAIT_S)
    return page(
        request,
        "tuned_hear.html",
        job=desk.job,
        job_address=job_address(desk.job),
        drum=desk.drum,
        address=desk.address,
        index=folder_index(desk.job, here=desk.address, drum=desk.drum),
        heard=answer.value if isinstance(answer, Done) else None,
        working=answer if isinstance(answer, Working) else None,
        failed=answer if isinstance(answer, Failed) else None,
    )


@pages.get(HEAR + "/{number}.wav")
def play(
    request: Request, shop: GivenWorkshop, job: str, drum: str, number: str, asked: Asked = ""
) -> Response:
    """Send one sound."""
    desk = tuned_desk(request, shop, job, drum)
    answer = sounds_of(desk, wait_s=PLAYER_WAIT_S)
    if isinstance(answer, Working):
        raise DoesNotAnswer("The sounds are being made: open the page again.")
    sounds = answer.value.sounds if isinstance(answer, Done) else ()
    known = number.isdecimal() and len(number) < 3 and 1 <= int(number) <= len(sounds)
    if not known:
        raise BadInput("no such sound", where="sound", given=number)
    one = sounds[int(number) - 1]
    headers = upload_headers(kind="audio/wav", name=one.file_name)
    return ranged(one.wav, asked=asked, headers=headers)


def sounds_of(desk: TunedDesk, *, wait_s: float) -> Answer[HearIt] | None:
    """Return the sounds of a drum, or how far they are; None while it cannot be planned."""
    source = desk.planned.source
    if source is None or desk.drum.id in desk.planned.faults:
        return None
    answer = desk.shop.works.hear(source, drum=desk.drum.name)
    if isinstance(answer, Working):
        answer = desk.shop.works.wait(answer.id, wait_s)
    return answer
