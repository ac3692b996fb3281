"""A scheme that was taken and is cut otherwise by what was found: taken anew under its heading."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import CHOICE
from counterhoop.bench.parts.set_aside import OVERTAKEN, Overtaken, ToTake, choose_and_set_aside
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.store.save import Conflict
from counterhoop.web.plans import Planned

if TYPE_CHECKING:
    from counterhoop.scheme.plan import Scheme


def is_gone(drum: KeptDrum, planned: Planned) -> bool:
    """Tell whether the scheme that was taken by hand is not among those worked out any more."""
    from counterhoop.bench.take import scheme_chosen

    code, title = _taken(drum)
    plan = planned.drum(drum)
    if not code or plan is None:
        return False
    return scheme_chosen(code, plan.ranked, title=title) is None


def as_it_stands_now(drum: KeptDrum, planned: Planned) -> Scheme | None:
    """Return the scheme of the same heading as it is worked out now; None for none."""
    _, title = _taken(drum)
    plan = planned.drum(drum)
    if plan is None or not title:
        return None
    return next(
        (
            one
            for one in plan.ranked.every
            if not one.moved and one.title.casefold() == title.casefold()
        ),
        None,
    )


def take_anew(
    shop: Workshop, job: KeptJob, drum: KeptDrum, scheme: Scheme, *, based_on: int, by: str
) -> None:
    """Take a scheme as it stands now; rows that were moved by hand stay moved.

    Raises
    ------
    CannotDo
        When somebody else took something, or the shelf has too little by now.
    """
    moved = drum.kept(CHOICE).table.get("moved")
    wanted = ToTake(
        code=scheme.code, title=scheme.title, moved=moved if isinstance(moved, list) else [],
        based_on=based_on, parts=scheme.parts, seen={},
    )  # fmt: skip
    done = choose_and_set_aside(shop, job, drum, wanted, by=by)
    if isinstance(done, Conflict):
        raise CannotDo(OVERTAKEN)
    if isinstance(done, Overtaken):
        raise CannotDo(" ".join(done.says))


def _taken(drum: KeptDrum) -> tuple[str, str]:
    table = drum.kept(CHOICE).table
    return str(table.get("scheme") or ""), str(table.get("title") or "")
