"""What the commands print, in the words of the bench."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from counterhoop.errors import Finding
from counterhoop.quantities.duration import print_minutes
from counterhoop.quantities.money import Money, print_money
from counterhoop.quantities.print_length import print_mm

if TYPE_CHECKING:
    from counterhoop.bench.open_job import OpenJob
    from counterhoop.bench.plan_job import DrumPlan, JobPlan
    from counterhoop.bench.write_papers import Written
    from counterhoop.scheme.plan import Scheme

WIDTH = 96
TOP = 4  # findings printed before the rest is counted


def survey_text(opened: OpenJob, noticed: Mapping[str, tuple[Finding, ...]]) -> str:
    """Say what each drum is and what does not add up."""
    job = opened.job
    whose = f", {job.client}" if job.client else ""
    lines = [f"Job {job.number}{whose}: {opened.name} reads without fault."]
    for wanted in opened.job.drums:
        drum = wanted.drum
        girth = drum.circumference
        lines += [
            "",
            f"{drum.key}: {drum.says or drum.kind}",
            f"  depth {print_mm(drum.depth_read_mm)}, circumference {print_mm(girth.mean_mm)}"
            f" {girth.skin}, {len(drum.holes)} holes",
        ]
        lines += finding_lines(noticed.get(drum.key, ()), most=100)
    return "\n".join(lines)


def schemes_text(plan: JobPlan, drums: Sequence[DrumPlan]) -> str:
    """Schemes of each drum, one above the other, with what each cuts, shows and costs."""
    currency = plan.opened.job.figures.currency
    lines: list[str] = []
    for drum in drums:
        gone = tuple(finding for finding in drum.noticed if finding.code == "choice-gone")
        if drum.refused is not None:
            lines += [*f"{drum.key}: no scheme, for what is wanted of it cannot be met.", ""]
            continue
        if not drum.ranked.shown:
            lines.append(f"{drum.key}: no wish in the survey file, so nothing to plan.")
            lines += [*finding_lines(gone, most=1), ""]
            continue
        lines += [f"{drum.key}: {drum.wanted.drum.says or drum.wanted.drum.kind}", ""]
        if gone:
            lines += [*finding_lines(gone, most=1), ""]
        for scheme in drum.ranked.shown:
            chosen = drum.chosen is not None and drum.chosen.number == scheme.number
            lines += [*_scheme(scheme, currency=currency, chosen=chosen), ""]
        if drum.ranked.set_aside:
            lines.append("  set aside:")
            for aside in drum.ranked.set_aside:
                lines += wrapped(f"{aside.scheme.title}. {aside.says}", indent=4)
            lines.append("")
    if plan.kit is not None and 1 < len(plan.drums) == len(drums):
        lines += ["The kit:", *(w for s in plan.kit.says for w in wrapped(s, indent=2))]
    return "\n".join(lines).rstrip()


def demo_text(plan: JobPlan, written: Written) -> str:
    """What the demonstration did, and where to look."""
    job = plan.opened.job
    lines = [f"Job {job.number}, {job.client} (invented)", *wrapped(job.story, indent=0), ""]
    for drum in plan.drums:
        if drum.chosen is None:
            continue
        cut = drum.chosen.criteria
        money = print_money(Money(minor=cut.money_minor, currency=job.figures.currency))
        lines += wrapped(
            f"{drum.key}: {drum.chosen.title}. {cut.cut} holes cut, {money}.", indent=2
        )
    if plan.kit is not None:
        lines += ["", *(w for s in plan.kit.says for w in wrapped(s, indent=0))]
    lines += ["", f"{len(written.names)} papers are in {written.folder}", *written.drafts]
    if written.first:
        lines.append(f"Look first at {written.first}")
    return "\n".join(lines)


def _scheme(scheme: Scheme, *, currency: str, chosen: bool) -> list[str]:
    c = scheme.criteria
    mark = "chosen" if chosen else ""
    heading = f"  {scheme.number}. {scheme.title}"
    money = print_money(Money(minor=c.money_minor, currency=currency))
    facts = (
        f"cut {c.cut} holes, shows {c.shows_mm2:.0f} mm² outside and"
        f" {c.shows_inside_mm2:.0f} inside, {money}, {print_minutes(scheme.minutes)} at the bench,"
        f" least margin {round(c.margin_mm, 1) + 0.0:.1f} mm, code {scheme.code}"
    )
    lines = [f"{heading}  [{mark}]" if mark else heading, *wrapped(facts, indent=5)]
    lines += wrapped(_to_buy(scheme), indent=5)
    lines += wrapped(scheme.why, indent=5)
    for sentence in scheme.near_misses:
        lines += wrapped(sentence, indent=5)
    if scheme.approved:
        lines += wrapped(f"Approved {scheme.approved}.", indent=5)
    return [*lines, *finding_lines(scheme.findings, most=TOP)]


def _to_buy(scheme: Scheme) -> str:
    """Parts that the stock does not hold, were this drum alone to draw on it."""
    short = [
        f"{line.bought} {line.name}"
        + (f" ({line.count} wanted)" if line.bought < line.count else "")
        for line in scheme.parts
        if line.bought
    ]
    return f"to buy: {'; '.join(short)}" if short else ""


def finding_lines(findings: tuple[Finding, ...], *, most: int) -> list[str]:
    """Findings, those alike said once, and how many more there are than ``most``."""
    from counterhoop.scheme.findings import gathered

    lines = []
    told = gathered(findings)
    for finding in told[:most]:
        sentence = f"{finding.grade.words}: {finding.says}"
        remedy = "" if finding.too_close or not finding.remedy else f" {finding.remedy}"
        lines += wrapped(sentence + remedy, indent=5)
    if len(told) > most:
        lines.append(f"     and {len(told) - most} more on the bench sheet")
    return lines


def wrapped(text: str, *, indent: int) -> list[str]:
    """A text in lines, those after the first set in by two more."""
    if not text:
        return []
    pad = " " * indent
    return textwrap.wrap(text, WIDTH, initial_indent=pad, subsequent_indent=pad + "  ")
