"""The bench sheet: what to take care of, the order of work, rods, parts, what nobody checked."""

from __future__ import annotations

from typing import Any

from counterhoop.errors import Finding
from counterhoop.papers.cautions import DEFER, cautions_for
from counterhoop.papers.facts import (
    Lengths,
    block_of,
    foot_facts,
    say_money,
    sheet_for,
)
from counterhoop.papers.order_of_work import (
    Step,
    counted,
    needs_of,
    not_checked,
    order_of_work,
)
from counterhoop.papers.printable import set_readable
from counterhoop.papers.rod_list import rod_rows
from counterhoop.quantities.duration import print_minutes
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.scheme.plan import PartLine, Scheme
from counterhoop.shell.drum import Material
from counterhoop.shell.job import Job


def bench_sheet_pdf(
    job: Job, scheme: Scheme, *, noticed: tuple[Finding, ...] = (),
    before: tuple[Finding, ...] = (), paper: str = "A4",
) -> bytes:  # fmt: skip
    """Set the bench sheet of a scheme.

    Parameters
    ----------
    job : Job
        Its figures say how long steps usually take, its stock what is there.
    scheme : Scheme
        DRAFT stands across the sheet unless it carries a recorded approval.
    noticed : tuple of Finding
        What was noticed of the survey; what the scheme's own findings say again is left out.
    before : tuple of Finding
        What the same checks find on the drum as it stands; those that the scheme clears are
        listed as put right.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    data = bench_data(job, scheme, noticed=noticed, before=before, paper=paper)
    return set_readable("bench_sheet", data, title=f"Bench sheet, {scheme.drum}")


def bench_data(
    job: Job, scheme: Scheme, *, noticed: tuple[Finding, ...] = (),
    before: tuple[Finding, ...] = (), paper: str = "A4",
) -> dict[str, Any]:  # fmt: skip
    """Return what the bench sheet says, as plain data."""
    sheet, say = sheet_for(paper), Lengths(job.units)
    needs = needs_of(scheme)
    steps = order_of_work(scheme, figures=job.figures, say=say)
    rows, sources = step_rows(steps, needs=needs)
    said = {(f.code, f.says) for f in scheme.findings}
    unsaid = tuple(f for f in noticed if (f.code, f.says) not in said)
    material = scheme.layout.drum.material
    return {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "draft": scheme.draft,
        "facts": foot_facts(job, what="bench sheet", drum=scheme.drum),
        "block": block_of(job, scheme, what="bench sheet"),
        "why": [said for said in (scheme.why, *scheme.near_misses) if said],
        "findings": finding_rows(scheme.findings),
        "noticed": finding_rows(unsaid),
        "put-right": put_right(before, scheme),
        "other-material": ""
        if material is Material.WOOD
        else f"This shell is {material}: advice on plugs, edges and glue is for wood and left out.",
        "steps": rows,
        "minutes": print_minutes(sum(step.minutes for step in steps)),
        "unpriced": any(step.unpriced_minutes for step in steps),
        "rods": rod_rows(scheme, say=say),
        "parts": [_part(line, currency=job.figures.currency) for line in scheme.parts],
        "not-checked": not_checked(scheme),
        "defer": DEFER,
        "sources": sources,
    }


def finding_rows(findings: tuple[Finding, ...]) -> list[dict[str, Any]]:
    """Return findings in full, those alike said once, the gravest first."""
    ordered = sorted(gathered(findings), key=lambda f: -f.grade)
    return [
        {
            "grade": f.grade.words,
            "where": f.where,
            "says": f.says,
            "remedy": "" if _said_in(f.remedy, f.says) else f.remedy,
            "close": f.too_close and "too close to call" not in f.says.casefold(),
        }
        for f in ordered
    ]


def put_right(before: tuple[Finding, ...], scheme: Scheme) -> list[str]:
    """What was amiss on the drum as it stands and is not any more, a sentence each."""
    gone = [f for f in before if not any(_still(f, now) for now in scheme.findings)]
    return [finding.says for finding in gathered(gone)]


def _still(then: Finding, now: Finding) -> bool:
    same_place = then.where == now.where or bool(set(then.holes) & set(now.holes))
    return then.code == now.code and same_place


def _said_in(remedy: str, says: str) -> bool:
    """Whether a sentence already says what its remedy would say again."""
    return remedy.strip().rstrip(".").casefold() in says.casefold()


def step_rows(steps: tuple[Step, ...], *, needs: frozenset[str]) -> tuple[list[Any], list[str]]:
    """Return the lines of the order of work and the sources that their cautions point to.

    A caution is printed in full where it first applies, and by its name afterwards.
    """
    sources: list[str] = []
    told: dict[str, int] = {}
    rows = []
    for number, step in enumerate(steps, 1):
        full, again = [], []
        for caution in cautions_for(step.key, needs=needs):
            if caution.short in told:
                again.append(f"{caution.short}, as at step {told[caution.short]}")
                continue
            told[caution.short] = number
            if caution.source not in sources:
                sources.append(caution.source)
            number_of = sources.index(caution.source) + 1
            full.append({"short": caution.short, "says": caution.says, "source": number_of})
        rows.append({**_step(number, step), "cautions": full, "again": again})
    return rows, sources


def _step(number: int, step: Step) -> dict[str, Any]:
    return {
        "number": number,
        "heading": step.heading,
        "says": step.says,
        "lines": step.lines,
        "work": "; ".join(counted(step)),
        "minutes": print_minutes(step.minutes) if step.minutes else "",
        "usual": print_minutes(step.unpriced_minutes) if step.unpriced_minutes else "",
        "cure": print_minutes(step.cure_hours * 60.0) if step.cure_hours else "",
    }


def _part(line: PartLine, *, currency: str) -> dict[str, Any]:
    return {
        "name": line.name,
        "count": line.count,
        "stock": line.count - line.bought,
        "bought": line.bought,
        "each": say_money(line.each_minor, currency=currency) if line.bought else "",
    }
