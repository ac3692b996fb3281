"""A kit's pitches as plain values, for other programs."""

from __future__ import annotations

from typing import Any

from counterhoop.bench.tune.kit_pitches import DrumPitches, KitPitches
from counterhoop.heads.kit import HeadPlan


def kit_listing(kit: KitPitches) -> dict[str, Any]:
    """Return the plan of a kit's pitches as JSON takes it; figures no finer than they are told.

    Names say the units. What is not known is left out.
    """
    return {
        "a4_hz": kit.wish.a4_hz,
        "heard": kit.wish.heard,
        "bottom": kit.wish.bottom,
        "steps_cents": list(kit.steps_cents),
        "drums": [_drum(one) for one in kit.drums],
        "refusals": list(kit.refusals),
        "says": list(kit.says),
    }


def _drum(one: DrumPitches) -> dict[str, Any]:
    found: dict[str, Any] = {
        "drum": one.key,
        "what": one.tune.what,
        "step_of_the_kit": one.in_steps,
        "taken_for_granted": list(one.tune.assumed),
    }
    if one.planned is None:
        return {**found, "refusal": one.refusal}
    return {
        **found,
        "note": one.planned.note,
        "middle_hz": round(one.planned.middle_hz, 1),
        "low_hz": round(one.planned.low_hz, 1),
        "high_hz": round(one.planned.high_hz, 1),
        "wished": one.planned.wished,
        "standing": one.planned.standing.value,
        "says": list(one.planned.says),
        "heads": [_head(head, one) for head in one.planned.heads],
    }


def _head(head: HeadPlan, drum: DrumPitches) -> dict[str, Any]:
    rods = drum.tune.rods(head.head)
    found: dict[str, Any] = {
        "head": head.head,
        "note": head.note,
        "rim_hz": round(head.rim_hz, 1),
        "tension_n_per_m": _to(head.n_per_m, 50.0),
        "force_per_rod_n": _to(head.force.n, 10.0),
        "force_while_tightened_n": _to(head.force.most_n, 10.0),
        "order": list(head.order),
        "says": list(head.says),
    }
    if rods is not None:
        found["thread"] = rods.thread.designation
    if head.torque is not None:
        found["torque_n_m"] = round(head.torque.nm, 1)
    if head.start is not None:
        found["turns_from_finger_tight"] = _to(head.start.turns, 1.0 / 16.0)
        found["turns_heard_on_this_drum"] = not head.start.at_least
    return found


def _to(value: float, step: float) -> float:
    return round(value / step) * step
