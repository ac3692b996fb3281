"""What the sheet of a drum's schemes shows, as its templates take it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request

from counterhoop.bench.folders.decide import Yes
from counterhoop.bench.folders.drum_state import state_of_drum
from counterhoop.bench.folders.history import before
from counterhoop.bench.folders.kinds import APPROVAL, JOB
from counterhoop.bench.parts.set_aside import ToTake
from counterhoop.bench.plan_job import DrumPlan, JobPlan
from counterhoop.errors import BadInput
from counterhoop.papers.cautions import DEFER
from counterhoop.papers.client_picture import client_legend
from counterhoop.papers.client_words import not_in_the_price
from counterhoop.papers.facts import Lengths, say_money
from counterhoop.papers.scheme_sheet import client_data, part_rows
from counterhoop.papers.screen.play import to_screen
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.choice import RowMoved
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.folder_index import drum_address, folder_index, job_address
from counterhoop.web.plans import Planned
from counterhoop.web.scheme_desk import SchemeDesk
from counterhoop.web.scheme_shelf import shelf_said
from counterhoop.web.scheme_shown import (
    TAKEN,
    client_sheet_view,
    scheme_shown,
    schemes_shown,
    whole_view,
)
from counterhoop.web.scheme_words import for_good
from counterhoop.web.shell_desk import desk_of
from counterhoop.web.shell_moves import RowMove
from counterhoop.web.shell_page import unread

LEGEND_MM = 84.0
"""As wide as a small phone's sheet."""
DRAFT_SAYS = "Never drill from a paper that says DRAFT: nobody has said yes to its changes."


@dataclass(frozen=True, slots=True, kw_only=True)
class YesTyped:
    """A yes as it was typed, and what cannot be read of it."""

    yes: Yes
    fault: BadInput


@dataclass(frozen=True, slots=True, kw_only=True)
class Missed:
    """A scheme that was not taken, because somebody was faster at the shelf."""

    taking: ToTake
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptOut:
    """A drum that the plan leaves out: why, where that is put right, and what was to match it."""

    name: str
    because: str
    href: str
    matched: bool


def whole_data(
    request: Request, desk: SchemeDesk, planned: Planned, *, whole: int = 0,
    typed: YesTyped | None = None, missed: Missed | None = None,
) -> dict[str, Any]:  # fmt: skip
    """Return what the whole sheet shows, also while there is no plan."""
    data: dict[str, Any] = {
        **around(desk),
        "index": folder_index(desk.job, here=desk.address, drum=desk.drum),
        "working": planned.working,
        "failed": planned.failed,
        "refused": _refused(desk, planned),
        "unread": (),
        "kept_out": _kept_out(desk, planned),
        "missed": missed,
        "one": None,
        "shown": (),
    }
    if desk.drum.id in planned.faults or planned.source is None:
        entry_desk = desk_of(request, desk.shop, desk.job.id, desk.drum.id)
        data["unread"] = unread(desk.job, entry_desk.looked, entry_desk.entry())
        return data
    if planned.plan is None:
        return data
    plan = planned.plan
    desk.plan_remembered(plan)
    one = plan.drum(desk.drum.name)
    job = plan.opened.job
    shown = schemes_shown(
        one, units=desk.mine.units, figures=job.figures, rules=job.rules, wanted_whole=whole,
        plan_key=planned.source.key,
    )  # fmt: skip
    taken = next((s for s in shown if s.taken), None)
    return {
        **data,
        "one": one,
        "shown": shown,
        "taken": taken,
        "shelf": shelf_said(desk.shop, desk.job, one.ranked.every),
        "gone": [f for f in one.noticed if f.code == "choice-gone"],
        "kit": _kit(plan),
        **(_of_scheme(desk, plan, taken.scheme, typed=typed) if taken else {}),
    }


def moved_data(
    request: Request, desk: SchemeDesk, scheme: Scheme, asked: RowMove
) -> dict[str, Any]:
    """Return what is sent back while a row is moved: the drawing, the figures, the findings."""
    plan = desk.plan_remembered()
    job = plan.opened.job
    at = RowMoved(row=asked.row, right_mm=asked.right_mm, down_mm=asked.down_mm)
    view = whole_view(
        scheme, ident=TAKEN, units=desk.mine.units, movable=True, live=not asked.settled, at=at
    )
    shown = scheme_shown(
        scheme, view=view, whole=True, taken=True, units=desk.mine.units, figures=job.figures,
        rules=job.rules,
    )  # fmt: skip
    return {
        **around(desk),
        "settled": asked.settled,
        "one": plan.drum(desk.drum.name),
        "s": shown,
        "kit": _kit(plan),
        **_of_scheme(desk, plan, scheme),
    }


def sign_data(desk: SchemeDesk, plan: JobPlan, *, number: int = 0, plan_key: str) -> dict[str, Any]:
    """Return what the client's sheet shows; ``plan_key`` is of what was planned.

    Raises
    ------
    BadInput
        For a number that no scheme of the drum has.
    """
    one = plan.drum(desk.drum.name)
    scheme = one.chosen if not number else _numbered(one, number)
    if scheme is None:
        raise BadInput("nothing is proposed for this drum yet", where="scheme")
    say = Lengths(desk.mine.units)
    after = client_sheet_view(scheme, plan_key=plan_key, ident="after")
    return {
        **around(desk),
        "scheme": scheme,
        "view": after,
        "good": for_good(scheme, say=say, numbered=False),
        "legend": to_screen(client_legend([scheme.layout], wide_mm=LEGEND_MM), ident="legend"),
        **{
            name.replace("-", "_"): value
            for name, value in client_data(plan.opened.job, scheme, ways=(), say=say).items()
        },
        "client": plan.opened.job.client,
    }


def around(desk: SchemeDesk) -> dict[str, Any]:
    """Return what stands round everything: names, addresses, what is saved, what undo does."""
    choice, approval = desk.choice, desk.drum.kept(APPROVAL)
    saved = max(
        (one for one in (choice, approval) if one.made_at), key=lambda one: str(one.made_at),
        default=choice,
    )  # fmt: skip
    return {
        "job": desk.job,
        "drum": desk.drum,
        "address": desk.address,
        "shell_address": f"{drum_address(desk.job, desk.drum)}/shell",
        "bench_address": f"{drum_address(desk.job, desk.drum)}/bench",
        "choice": choice,
        "approval": approval,
        "by_hand": bool(desk.code),
        "saved": saved,
        "undo_to": before(choice, desk.shop, nothing_first=True),
    }


def _of_scheme(
    desk: SchemeDesk, plan: JobPlan, scheme: Scheme, *, typed: YesTyped | None = None
) -> dict[str, Any]:
    """Return what is said of the scheme that is taken: rows to move, what is for good, the yes."""
    code, title = _worked_out(plan.drum(desk.drum.name), scheme)
    query = urlencode({"scheme": code, "title": title})
    yes = state_of_drum(desk.drum).yes
    fault = typed.fault if typed else None
    field = fault.where if fault and fault.where in ("who", "when", "how") else ""
    return {
        "move_url": f"{desk.address}/move?{query}",
        "base_code": code,
        "base_title": title,
        "good": for_good(scheme, say=Lengths(desk.mine.units)),
        "yes": yes,
        "typed": typed.yes if typed else None,
        "yes_faults": {field: _said(fault)} if fault and field else {},
        "yes_fault": _said(fault) if fault and not field else "",
        "today": desk.shop.now().astimezone().date().isoformat(),
        "draft_says": DRAFT_SAYS,
        "defer": DEFER,
        "not_in_price": not_in_the_price,
        "part_rows": lambda one: part_rows(one, figures=plan.opened.job.figures),
    }  # fmt: skip


def _worked_out(one: DrumPlan, scheme: Scheme) -> tuple[str, str]:
    """Return code and heading of a scheme as it was worked out, before any row was moved."""
    number = scheme.moved_from or scheme.number
    base = next((s for s in one.ranked.every if s.number == number and not s.moved), scheme)
    return base.code, base.title


def _numbered(one: DrumPlan, number: int) -> Scheme:
    found = next((s for s in one.ranked.every if s.number == number), None)
    if found is None:
        raise BadInput("this drum has no scheme of that number", where="scheme", given=number)
    return found


def _kit(plan: JobPlan) -> dict[str, Any] | None:
    """Return the choice over all drums in short, where there is more than one to choose for."""
    if plan.kit is None or len(plan.kit.schemes) < 2:
        return None
    first, *rest = plan.kit.says
    figures = plan.opened.job.figures
    return {
        "total": say_money(plan.kit.total_minor, currency=figures.currency),
        "first": first,
        "rest": rest,
        "drums": len(plan.kit.schemes),
    }


def _kept_out(desk: SchemeDesk, planned: Planned) -> list[KeptOut]:
    """Return the other drums that the plan does without."""
    plan, listed = planned.plan, desk.job.kept(JOB).table.get("match")
    groups = [one.get("drums") for one in listed or () if isinstance(one, dict)]
    partners = {key for group in groups if desk.drum.id in (group or ()) for key in group or ()}
    kept_out = []
    for drum in desk.job.drums:
        faults = planned.faults.get(drum.id, ())
        refused = _wish_refused(plan, drum.name) if plan and not faults else None
        if drum.id == desk.drum.id or not (faults or refused):
            continue
        things = "one thing" if len(faults) == 1 else f"{len(faults)} things"
        kept_out.append(
            KeptOut(
                name=drum.name,
                because=f"{things} in its survey cannot be read" if faults else _said(refused),
                href=f"{drum_address(desk.job, drum)}/shell#{'adds-up' if faults else 'wanted'}",
                matched=drum.id in partners,
            )
        )
    return kept_out


def _refused(desk: SchemeDesk, planned: Planned) -> dict[str, str] | None:
    """Return where to mend what keeps this drum, or the whole job, from being planned."""
    if planned.plan is not None:
        own = _wish_refused(planned.plan, desk.drum.name)
        href = f"{drum_address(desk.job, desk.drum)}/shell#wanted"
        return {"says": _said(own), "name": desk.drum.name, "href": href} if own else None
    failed = planned.failed
    if failed is None or not isinstance(failed.fault, BadInput):
        return None
    fault = failed.fault
    for drum in desk.job.drums:
        if fault.where.startswith((f"drums.{drum.name}", f'drums."{drum.name}"')):
            href = f"{drum_address(desk.job, drum)}/shell#adds-up"
            return {"says": _said(fault), "name": drum.name, "href": href}
    return {"says": _said(fault), "name": "the job", "href": job_address(desk.job)}


def _wish_refused(plan: JobPlan, name: str) -> BadInput | None:
    """Return why nothing was worked out for a drum of the plan."""
    return next((one.refused for one in plan.drums if one.key == name), None)


def _said(fault: BadInput | None) -> str:
    """Say a fault without its path, which a page says by its place."""
    if fault is None:
        return ""
    plain = bench_fault(fault)
    return str(BadInput(plain.what, given=plain.given, wanted=plain.wanted, step=plain.step))
