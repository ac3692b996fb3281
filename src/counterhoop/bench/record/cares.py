"""What holds of a drum as it goes: by that its care is chosen."""

from __future__ import annotations

from counterhoop.bench.plan_job import DrumPlan
from counterhoop.papers.care_sheet import care_rows
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Drum, DrumKind, Material
from counterhoop.shell.tuning import Tuning

ANY_DRUM = frozenset({"always", "wood", "plastic"})
CARE_SHEET = "What any drum wants is on the care sheet that goes with it."
SNARES = (DrumKind.SNARE, DrumKind.MARCHING_SNARE)


def holds_of(plan: DrumPlan, left: Layout | None) -> frozenset[str]:
    """Return what holds of a drum, in the words of the table of care.

    Parameters
    ----------
    left : Layout or None
        As it goes; None where nothing was done to its shell.
    """
    drum = plan.wanted.drum
    holds = _shell(drum) | _finish(drum, left) | _heads(drum, plan.wanted.tuning)
    if left is not None and left.truing.any:
        holds.add("new edges")
    if left is not None and any(one.verdict is Verdict.PLUG for one in left.holes):
        holds.add("plugs")
    return frozenset(holds)


def cares_said(holds: frozenset[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what its record says of a drum's care, and every caution.

    What is true of any drum stands on the care sheet, which goes with it.
    """
    rows = care_rows(holds)
    own = [
        row.values["says"]
        for row in rows
        if "caution" not in row.values and not ANY_DRUM & {*row.values["when"]}
    ]
    cautions = tuple(row.values["says"] for row in rows if "caution" in row.values)
    return (*own, CARE_SHEET), cautions


def _shell(drum: Drum) -> set[str]:
    known = {Material.WOOD: "wood", Material.METAL: "metal shell"}
    return {known[drum.material]} if drum.material in known else set()


def _finish(drum: Drum, left: Layout | None) -> set[str]:
    kind = left.finish.kind if left is not None else "stays"
    match kind:
        case "new wrap":
            return {"wrap"}
        case "clear lacquer":
            return {"lacquer", "new finish"}
        case "paint":
            return {"new finish"}
    if drum.finish.kind == "wrap":
        return {"wrap", "old wrap"} if drum.finish.maybe_nitrate else {"wrap"}
    return {"lacquer"} if drum.finish.kind == "lacquer" else set()


def _heads(drum: Drum, tuning: Tuning | None) -> set[str]:
    heads = [head for head in (tuning.batter, tuning.resonant) if head] if tuning else []
    holds = {"calf" if head.calf else "plastic" for head in heads} or {"plastic"}
    return holds | ({"snare side"} if drum.kind in SNARES else set())
