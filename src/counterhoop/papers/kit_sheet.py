"""The kit sheet: which scheme for which drum and why, the shopping list, the next best."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from counterhoop.papers.facts import facts_of, foot_facts, said_code, say_money, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.printable import set_readable
from counterhoop.quantities.duration import print_minutes
from counterhoop.scheme.kit_choice import Kit, KitChoice
from counterhoop.scheme.kit_price import KitPart
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import WrapPlan
from counterhoop.scheme.wrapping.words import sheets_say
from counterhoop.shell.job import Job


def kit_sheet_pdf(
    job: Job, choice: KitChoice, *, paper: str = "A4", wraps: Sequence[WrapPlan] = ()
) -> bytes:
    """Set the sheet on the whole kit.

    Parameters
    ----------
    job : Job
        Whose stock, money and names are printed.
    choice : KitChoice
        One scheme a drum, and what else was possible.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    wraps : sequence of WrapPlan
        What its new wraps take; they are not in the total.
    """
    sheet = sheet_for(paper)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="kit sheet"),
        **kit_data(job, choice, wraps=wraps),
    }
    return set_readable("kit_sheet", data, title=f"Kit sheet, job {job.number}")


def kit_data(job: Job, choice: KitChoice, *, wraps: Sequence[WrapPlan] = ()) -> dict[str, Any]:
    """Return what the kit sheet says, as plain data."""
    facts, currency = facts_of(job), job.figures.currency
    chosen, second = choice.chosen, choice.runner_up
    parts = sorted(chosen.parts, key=lambda p: (not p.bought, p.name.casefold()))
    return {
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("paper", "kit sheet"),
            ("date", facts.date or NOT_WRITTEN),
            ("measured by", facts.measured_by or NOT_WRITTEN),
            ("shop rules", facts.rules_version),
            ("drums", str(len(chosen.schemes))),
        ),
        "says": [*_not_listed(choice.says, parts), *_wrap_lines(wraps, currency=currency)],
        "drums": [_drum(scheme) for scheme in chosen.schemes],
        "shopping": [_part(part, currency=currency) for part in parts],
        "parts-money": say_money(chosen.total_minor - chosen.bench_minor, currency=currency),
        "bench-money": say_money(chosen.bench_minor, currency=currency),
        "total": say_money(chosen.total_minor, currency=currency),
        "unpriced": chosen.unpriced,
        "minutes": print_minutes(sum(s.minutes for s in chosen.schemes)),
        "second": [] if second is None else _against(second, chosen),
        "second-total": "" if second is None else say_money(second.total_minor, currency=currency),
        "proven": choice.proven,
    }


def _not_listed(says: Sequence[str], parts: Sequence[KitPart]) -> list[str]:
    """The sentences that the shopping list does not say again."""
    listed = tuple(f"{part.name}: {part.wanted} wanted".casefold() for part in parts)
    return [sentence for sentence in says if not sentence.casefold().startswith(listed)]


def _wrap_lines(wraps: Sequence[WrapPlan], *, currency: str) -> list[str]:
    return [
        f"Besides, not in this total, {plan.stock.name}: {sheets_say(plan, currency=currency)[0]}"
        for plan in wraps
    ]


def _drum(scheme: Scheme) -> dict[str, Any]:
    return {
        "drum": scheme.drum,
        "title": scheme.title,
        "cut": scheme.criteria.cut,
        "extra": scheme.extra_holes,
        "minutes": print_minutes(scheme.minutes),
        "code": said_code(scheme),
        "state": "stopped" if scheme.stopped else scheme.approval or "not approved",
    }


def _part(part: KitPart, *, currency: str) -> dict[str, Any]:
    cost = None if part.each_minor is None else part.cost_minor
    return {
        "name": part.name,
        "wanted": part.wanted,
        "stock": part.in_stock,
        "bought": part.bought,
        "each": say_money(part.each_minor, currency=currency) if part.bought else "",
        "sum": say_money(cost, currency=currency) if part.bought else "",
    }


def _against(other: Kit, chosen: Kit) -> list[dict[str, Any]]:
    """Put what another choice does otherwise beside what is done."""
    pairs = zip(chosen.schemes, other.schemes, strict=True)
    return [
        {"drum": ours.drum, "chosen": ours.title, "other": theirs.title}
        for ours, theirs in pairs
        if theirs.number != ours.number
    ]
