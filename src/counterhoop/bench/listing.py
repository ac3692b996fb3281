"""Schemes as plain data: the JSON that the schemes command prints, and its schema."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pydantic import BaseModel, ConfigDict

from counterhoop.development.shape import HoleShape, Round, Slot
from counterhoop.errors import Finding

if TYPE_CHECKING:
    from counterhoop.bench.plan_job import DrumPlan, JobPlan
    from counterhoop.scheme.plan import Scheme
    from counterhoop.scheme.verdict import HolePlan

LISTING_FORMAT = 1


class _Listed(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class HoleListed(_Listed):
    """One line of the hole list. ``down_mm`` is from the batter edge in the scheme's geometry."""

    number: int
    verdict: str
    along_deg: float
    along_mm: float
    down_mm: float
    size_now: str
    size_after: str
    serves: str
    off_mm: float
    through: tuple[int, ...]
    plug_mm: float | None
    backing_washer_mm: float | None
    covered: bool
    origin: str


class FindingListed(_Listed):
    """One finding."""

    code: str
    grade: str
    says: str
    where: str
    along_deg: float | None
    down_mm: float | None
    measured: float | None
    limit: float | None
    doubt: float | None
    unit: str
    rule: str
    remedy: str
    too_close: bool
    holes: tuple[int, ...]


class PartListed(_Listed):
    """Parts of one sort; ``bought`` counts those that the stock does not hold."""

    name: str
    count: int
    bought: int
    each_minor: int | None


class WorkListed(_Listed):
    """One operation."""

    operation: str
    count: int
    minutes: float
    cure_hours: float


class SchemeListed(_Listed):
    """One scheme. Money is in minor units of ``currency``."""

    number: int
    chosen: bool
    pattern: str
    title: str
    why: str
    near_misses: tuple[str, ...]
    code: str
    approved: str
    centred: bool
    extra_holes: int
    cut: int
    shows_mm2: float
    shows_inside_mm2: float
    money_minor: int
    margin_mm: float
    depth_mm: float
    surface: str
    circumference_mm: float
    after_truing: bool
    holes: tuple[HoleListed, ...]
    findings: tuple[FindingListed, ...]
    parts: tuple[PartListed, ...]
    work: tuple[WorkListed, ...]


class SetAsideListed(_Listed):
    """A scheme that is not offered, and why."""

    title: str
    why: str


class DrumListed(_Listed):
    """One drum of the job; ``refused`` says why nothing was worked out for it."""

    drum: str
    refused: str = ""
    noticed: tuple[FindingListed, ...]
    schemes: tuple[SchemeListed, ...]
    set_aside: tuple[SetAsideListed, ...]


class JobListed(_Listed):
    """Every scheme of every drum."""

    format: int = LISTING_FORMAT
    job: str
    currency: str
    drums: tuple[DrumListed, ...]
    kit_says: tuple[str, ...]
    kit_total_minor: int | None


def listing(plan: JobPlan, *, drums: tuple[DrumPlan, ...] | None = None) -> JobListed:
    """Return a planned job as plain data, all drums or those given."""
    kit = plan.kit
    return JobListed(
        job=plan.opened.job.number,
        currency=plan.opened.job.figures.currency,
        drums=tuple(_drum(drum) for drum in (plan.drums if drums is None else drums)),
        kit_says=tuple(kit.says) if kit else (),
        kit_total_minor=kit.total_minor if kit else None,
    )


def listing_schema() -> dict[str, Any]:
    """Return the JSON Schema of what ``listing`` gives."""
    return JobListed.model_json_schema(mode="serialization")


def size_words(shape: HoleShape | None) -> str:
    """Say a hole's size in words, millimetres."""
    if shape is None:
        return ""
    if isinstance(shape, Round):
        return f"{shape.diameter_mm:.1f} dia"
    if isinstance(shape, Slot):
        return f"slot {shape.width_mm:.1f} wide, {shape.length_mm:.1f} long, {shape.lies}"
    along_mm, down_mm = shape.size_mm
    return f"{along_mm:.1f} along, {down_mm:.1f} down"


def _drum(plan: DrumPlan) -> DrumListed:
    return DrumListed(
        drum=plan.key,
        refused=str(plan.refused) if plan.refused else "",
        noticed=tuple(_finding(f) for f in plan.noticed),
        schemes=tuple(
            _scheme(s, chosen=plan.chosen is not None and s.number == plan.chosen.number)
            for s in plan.ranked.shown
        ),
        set_aside=tuple(
            SetAsideListed(title=aside.scheme.title, why=aside.says)
            for aside in plan.ranked.set_aside
        ),
    )


def _scheme(scheme: Scheme, *, chosen: bool) -> SchemeListed:
    flat, criteria = scheme.layout.flat, scheme.criteria
    return SchemeListed(
        number=scheme.number,
        chosen=chosen,
        pattern=scheme.pattern,
        title=scheme.title,
        why=scheme.why,
        near_misses=scheme.near_misses,
        code=scheme.code,
        approved=scheme.approved,
        centred=scheme.centred,
        extra_holes=scheme.extra_holes,
        cut=criteria.cut,
        shows_mm2=round(criteria.shows_mm2, 1),
        shows_inside_mm2=round(criteria.shows_inside_mm2, 1),
        money_minor=criteria.money_minor,
        margin_mm=round(criteria.margin_mm, 2),
        depth_mm=round(flat.depth_mm, 2),
        surface=str(flat.surface.skin),
        circumference_mm=round(flat.surface.circumference_mm, 2),
        after_truing=flat.after_truing,
        holes=tuple(_hole(h, scheme) for h in scheme.layout.holes),
        findings=tuple(_finding(f) for f in scheme.findings),
        parts=tuple(
            PartListed(name=p.name, count=p.count, bought=p.bought, each_minor=p.each_minor)
            for p in scheme.parts
        ),
        work=tuple(
            WorkListed(
                operation=w.operation, count=w.count, minutes=w.minutes, cure_hours=w.cure_hours
            )
            for w in scheme.work
        ),
    )


def _hole(plan: HolePlan, scheme: Scheme) -> HoleListed:
    at = plan.new_place or plan.place
    return HoleListed(
        number=plan.number,
        verdict=str(plan.verdict),
        along_deg=round(at.along_deg, 3),
        along_mm=round(scheme.layout.flat.surface.along_mm(at.along_deg), 2),
        down_mm=round(at.down_mm, 2),
        size_now=size_words(plan.old),
        size_after=size_words(plan.new),
        serves=plan.serves,
        off_mm=round(plan.off_mm, 2),
        through=plan.through,
        plug_mm=plan.plug_mm,
        backing_washer_mm=plan.backing_washer_mm,
        covered=plan.covered,
        origin=str(plan.origin) if plan.origin else "new",
    )


def _finding(finding: Finding) -> FindingListed:
    return FindingListed(
        code=finding.code,
        grade=finding.grade.words,
        says=finding.says,
        where=finding.where,
        along_deg=finding.along_deg,
        down_mm=finding.down_mm,
        measured=finding.measured,
        limit=finding.limit,
        doubt=finding.doubt,
        unit=finding.unit,
        rule=finding.rule,
        remedy=finding.remedy,
        too_close=finding.too_close,
        holes=finding.holes,
    )
