"""One head of a plan: its note near a rod, what the rods pull, torque and turns as guides."""

from __future__ import annotations

from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.heads.kit import HeadPlan
from counterhoop.heads.rods import rod_force, rod_torque
from counterhoop.heads.tension import print_tension, rim_hz
from counterhoop.heads.turns import TurnsGuide, turn_bound, turn_order, turns_between
from counterhoop.heads.working_range import Voice
from counterhoop.quantities.print_pitch import print_pitch


def planned_head(
    voice: Voice, head: Literal["batter", "resonant"], n_per_m: float, *, a4_hz: float
) -> HeadPlan:
    """Return what is to be said of one head at a tension."""
    drum = voice.drum
    film = drum.batter if head == "batter" or drum.resonant is None else drum.resonant
    rods = drum.rods if head == "batter" else drum.resonant_rods or drum.rods
    hz = rim_hz(
        n_per_m, radius_m=drum.radius_m, depth_m=drum.depth_m, head=film,
        end="open" if drum.resonant is None else "muted", air=voice.air,
    )  # fmt: skip
    force = rod_force(n_per_m, radius_m=drum.radius_m, rods=rods, edge_friction=drum.edge_friction)
    torque = None
    if drum.thread is not None:
        torque = rod_torque(force.n, thread=drum.thread, state=drum.rods_are)
    start, why_not = _start(voice, head, n_per_m)
    note = print_pitch(hz, a4_hz=a4_hz)
    muted = "" if drum.resonant is None else ", the other head muted"
    says = [
        f"{note} near each rod{muted}: about {print_tension(n_per_m)}.",
        force.says,
        torque.says if torque is not None else "",
        start.says if start is not None else why_not,
    ]
    return HeadPlan(
        head=head, rim_hz=hz, note=note, n_per_m=n_per_m, force=force, torque=torque, start=start,
        order=turn_order(rods), says=tuple(said for said in says if said),
    )  # fmt: skip


def _start(voice: Voice, head: str, n_per_m: float) -> tuple[TurnsGuide | None, str]:
    drum = voice.drum
    gain = drum.batter_gain if head == "batter" else drum.resonant_gain
    if gain is not None:
        return turns_between(0.0, n_per_m, gain=gain, thread=drum.thread), ""
    if drum.thread is None:
        return None, "Which thread the rods have is not known, so no turns are given: go by ear."
    film = drum.batter if head == "batter" or drum.resonant is None else drum.resonant
    try:
        bound = turn_bound(film, radius_m=drum.radius_m, thread=drum.thread)
    except BadInput:
        return None, "How thick the film is is not known, so no turns are given: go by ear."
    return turns_between(0.0, n_per_m, gain=bound), ""
