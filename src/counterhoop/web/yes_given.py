"""A client's yes as a form sends it: written down, and what was taken for it held fast."""

from __future__ import annotations

from contextlib import suppress
from typing import Final

from starlette.datastructures import FormData

from counterhoop.bench.folders.decide import Yes, approve
from counterhoop.bench.parts.set_aside import (
    OVERTAKEN,
    ToTake,
    choose_and_set_aside,
    set_aside,
)
from counterhoop.errors import BadInput, CannotDo
from counterhoop.scheme.plan import Scheme
from counterhoop.store.save import Conflict
from counterhoop.web.given_form import text_in
from counterhoop.web.scheme_desk import SchemeDesk
from counterhoop.web.scheme_page import YesTyped

YES_S: Final = 20.0
"""What is typed is lost with a refusal: rather wait for a plan that somebody set going."""
ANOTHER_YES: Final = BadInput(
    "somebody wrote down another yes for this drum at the same time",
    step="Look at it; what you typed stands below",
)


def write_yes(desk: SchemeDesk, given: FormData, *, by: str) -> YesTyped | None:
    """Write down who said yes to the permanent changes of what is taken, when and how.

    Returns
    -------
    YesTyped or None
        What was typed, where it could not be written; its fault is ``ANOTHER_YES`` where somebody
        was faster.

    Raises
    ------
    CannotDo
        Where no scheme is taken, or while the plan is worked out anew.
    """
    scheme = desk.need_plan(wait_s=YES_S).drum(desk.drum.name).chosen
    if scheme is None:
        raise CannotDo("No scheme is taken for this drum, so there is nothing to say yes to.")
    yes = Yes(**{name: text_in(given, name) for name in ("who", "when", "how")})
    code = text_in(given, "code")
    try:
        done = approve(
            desk.shop, desk.job.id, desk.drum, scheme=scheme, shown_code=code, yes=yes, by=by
        )
    except BadInput as fault:
        return YesTyped(yes=yes, fault=fault)
    if isinstance(done, Conflict):
        return YesTyped(yes=yes, fault=ANOTHER_YES)
    # The yes stands; whoever took another scheme meanwhile has set that one's pieces aside.
    with suppress(CannotDo):
        hold_fast(desk, scheme, by=by)
    return None


def hold_fast(desk: SchemeDesk, scheme: Scheme, *, by: str) -> None:
    """Take by hand what the kit's choice gave, its pieces set aside: it is passed by no more.

    Raises
    ------
    CannotDo
        When somebody changed meanwhile what is taken.
    """
    if desk.code:
        set_aside(desk.shop, desk.job, desk.drum, parts=scheme.parts, by=by)
        return
    wanted = ToTake(
        code=scheme.code, title=scheme.title, moved=[], based_on=desk.choice.number,
        parts=scheme.parts, seen={},
    )  # fmt: skip
    done = choose_and_set_aside(desk.shop, desk.job, desk.drum, wanted, by=by)
    if isinstance(done, Conflict):
        raise CannotDo(OVERTAKEN)
