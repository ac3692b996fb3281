"""What a wrap plan comes to, in sentences that the paper and the command share."""

from __future__ import annotations

from counterhoop.quantities.money import Money, print_money
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.scheme.phrases import counted
from counterhoop.scheme.wrapping.plan import DrumWrap, WrapPlan

ONE_BY_ONE = "Cut one after another in the order of the job they would take"


def sheets_say(plan: WrapPlan, *, currency: str) -> tuple[str, ...]:
    """Say what the plan takes, how good that is, and what cutting as one goes would have taken."""
    taken = _taken(plan.nesting.new_sheets, plan.nesting.offcuts_used)
    cost = _money(plan.cost_minor, currency)
    priced = f", {cost} of new wrap" if cost and plan.nesting.new_sheets else ""
    return (
        f"{counted(len(plan.pieces), 'piece')} from {taken}{priced}.",
        plan.nesting.says,
        _against(plan, currency=currency),
    )


def _against(plan: WrapPlan, *, currency: str) -> str:
    obvious, ours = plan.obvious, plan.nesting
    said = _taken(obvious.new_sheets, obvious.offcuts_used)
    if plan.saved_sheets > 0:
        money = _money(plan.saved_minor, currency)
        saved = counted(plan.saved_sheets, "sheet") + (f", {money}" if money else "")
        return f"{ONE_BY_ONE} {said}: {saved} more."
    if (obvious.new_sheets, obvious.offcuts_used) == (ours.new_sheets, ours.offcuts_used):
        return f"{ONE_BY_ONE} as many."
    return f"{ONE_BY_ONE} {said}."


def grows_say(drum: DrumWrap, *, thickness_mm: float) -> str:
    """Say how much a wrap adds to a drum.

    Two layers lie on one side and one on the other where a diameter runs through the overlap.
    """
    adds = print_mm(2 * thickness_mm, resolution_mm=CALIPER_MM)
    across = print_mm(drum.cut.across_overlap_mm - drum.cut.diameter_mm + 2 * thickness_mm,
                      resolution_mm=CALIPER_MM)  # fmt: skip
    overlap = f", {across} through the overlap" if drum.cut.overlap_mm > 0 else ""
    then = print_mm(drum.cut.diameter_mm)
    return f"The wrap adds {adds} to every diameter{overlap}: about {then} across by the tape."


def would_do_say(plan: WrapPlan) -> tuple[str, ...]:
    """Say of each offcut in stock whether it is cut into, and what it would take by itself."""
    used = {sheet.name for sheet in plan.nesting.sheets[: plan.nesting.offcuts_used]}
    says = []
    for name, pieces in plan.would_do:
        takes = f"would take {' or '.join(pieces)}" if pieces else "takes none of the pieces"
        state = "is cut into" if name in used else "stays on the shelf"
        says.append(f"{name}: {takes}; it {state}.")
    return tuple(says)


def _taken(new: int, offcuts: int) -> str:
    said = [counted(new, "new sheet")] if new or not offcuts else []
    said += [f"{counted(offcuts, 'offcut')} in stock"] if offcuts else []
    return " and ".join(said)


def _money(minor: int | None, currency: str) -> str:
    return "" if minor is None else print_money(Money(minor=minor, currency=currency))
