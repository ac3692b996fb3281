"""What happens to the outside and to the edges."""

from __future__ import annotations

from collections.abc import Mapping

from counterhoop.development.flat import End
from counterhoop.development.truing import Removal, Truing
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.shell.drum import Drum
from counterhoop.shell.survey_file.models_job import DrumWritten
from counterhoop.shell.survey_file.models_wish import FLAT, FinishPlanWritten
from counterhoop.shell.survey_file.resolve_height import Depth
from counterhoop.shell.survey_file.resolve_shell import ENDS
from counterhoop.shell.wish import FinishPlan, Flatten
from counterhoop.shell.wrap_stock import WrapStock

THICKEST_MM = 5.0
FRESH_MM = 5.0


def resolve_plan(
    written: DrumWritten,
    *,
    drum: Drum,
    depth: Depth,
    wraps: Mapping[str, WrapStock],
    where: str,
) -> FinishPlan:
    """Return what happens to the outside and to the edges; ``wraps`` go by lower-case names.

    Raises
    ------
    BadInput
        When a new wrap has no thickness, truing leaves no shell, or an edge is to be trued by
        readings that nobody took.
    """
    plan = written.finish_plan
    path = f"{where}.finish_plan"
    thickness_mm, wrap = _new_wrap(plan, wraps=wraps, where=path)
    return FinishPlan(
        kind=plan.kind,
        thickness_mm=thickness_mm,
        truing=Truing(
            batter=_off(plan.true_batter, drum=drum, where=f"{path}.true_batter"),
            resonant=_off(plan.true_resonant, drum=drum, where=f"{path}.true_resonant"),
        ),
        flatten=_flatten(plan, drum=drum, depth=depth, where=path),
        wrap=wrap,
        butt=bool(wrap) and wraps[wrap.casefold()].overlap_mm == 0.0,
    )


def _new_wrap(
    plan: FinishPlanWritten, *, wraps: Mapping[str, WrapStock], where: str
) -> tuple[float | None, str]:
    """Return the thickness of a new wrap, and its name among the job's wraps if it has one."""
    for name, given in (("thickness", plan.thickness), ("wrap", plan.wrap)):
        if given is not None and (plan.kind == "stays" or (name == "wrap" and _painted(plan))):
            raise BadInput(
                f"a {name}, but the finish stays"
                if plan.kind == "stays"
                else f"a wrap, but what is planned is {plan.kind}",
                where=f"{where}.{name}",
                given=str(given),
                wanted='kind = "new wrap" with it',
            )
    if plan.wrap is None:
        if plan.kind == "new wrap" and plan.thickness is None:
            raise BadInput(
                "how thick is the new wrap?",
                where=where,
                wanted='thickness = "0.5 mm", or wrap, the name of one of the job\'s wraps',
            )
        if plan.thickness is not None and plan.thickness.mm > THICKEST_MM:
            raise BadInput(
                "impossible as the thickness of a finish",
                where=f"{where}.thickness",
                given=plan.thickness.as_written,
                wanted='such as "0.5 mm"',
            )
        return plan.thickness.mm if plan.thickness else None, ""
    stock = wraps.get(plan.wrap.casefold())
    if stock is None:  # not in the file, or not possible: said where it is, or is not
        return None, ""
    if plan.thickness is not None:
        raise BadInput(
            "the wrap is named, and its thickness is written too",
            where=f"{where}.thickness",
            given=plan.thickness.as_written,
            wanted=f"no thickness here: {stock.name} is {stock.thickness_mm:g} mm",
        )
    return stock.thickness_mm, stock.name


def _painted(plan: FinishPlanWritten) -> bool:
    return plan.kind in ("paint", "clear lacquer")


def _off(given: Length | str | None, *, drum: Drum, where: str) -> Removal:
    if not isinstance(given, Length):
        return Removal()
    if given.mm > drum.depth_mm / 4.0:
        raise BadInput(
            "far more than truing takes off",
            where=where,
            given=given.as_written,
            wanted='such as "1.5 mm"',
            step='To make the shell less deep write a wish: want = "shorten".',
        )
    return Removal(given.mm)


def _flatten(plan: FinishPlanWritten, *, drum: Drum, depth: Depth, where: str) -> Flatten | None:
    written = {"batter": plan.true_batter, "resonant": plan.true_resonant}
    ends: tuple[End, ...] = tuple(end for end in ENDS if written[end] == FLAT)
    for end in ends:
        if drum.readings.at(end).edge is None:
            raise BadInput(
                "an edge to be trued by its readings, and none are written",
                where=f"{where}.true_{end}",
                given=FLAT,
                wanted=f'edges.{end} with gaps = "0, 0.1, 0.25, 0 mm", or what comes off',
            )
    truing = plan.truing
    if truing is None:
        return Flatten(ends=ends) if ends else None
    if not ends:
        raise BadInput(
            "how to true by readings, but no edge is trued so",
            where=f"{where}.truing",
            wanted=f'true_batter = "{FLAT}", or true_resonant, or both',
        )
    if truing.parallel and not depth.by_place:
        raise BadInput(
            "nobody can tell how the edges lie to each other",
            where=f"{where}.truing.parallel",
            given="true",
            wanted='the depth at three places or more, depth = { "0 deg" = "203 mm", ... }',
        )
    if truing.fresh is not None and truing.fresh.mm > FRESH_MM:
        raise BadInput(
            "far more than it takes to reach fresh wood",
            where=f"{where}.truing.fresh",
            given=truing.fresh.as_written,
            wanted='such as "0.2 mm"',
        )
    return Flatten(
        ends=ends,
        least=truing.least,
        parallel=truing.parallel,
        fresh_mm=truing.fresh.mm if truing.fresh else 0.0,
    )
