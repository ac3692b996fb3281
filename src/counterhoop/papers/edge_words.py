"""The cut of an edge in words: what to set the fence and the bit to, and where the head lies."""

from __future__ import annotations

from counterhoop.papers.facts import Lengths, listed
from counterhoop.quantities.print_length import CALIPER_MM
from counterhoop.survey.edge_profile import BACK_CUT, EdgeProfile
from counterhoop.survey.edge_profile_contact import Contact

GUIDE_MM = 6.0
"""Straight wood that a router's guide rides on (common practice, no source)."""


def profile_lines(profile: EdgeProfile, *, bare_mm: float, say: Lengths) -> list[str]:
    """Say where the apex lies, how the cuts go, and what a guide can ride on."""

    def tenth(value_mm: float) -> str:
        return say.length(value_mm, resolution_mm=CALIPER_MM)

    lines = [_apex(profile, tenth(profile.apex_mm)), _inside(profile, tenth(profile.inside_mm))]
    if profile.outer_mm > 0.0:
        lines.append(
            f"Outside a counter-cut {tenth(profile.outer_mm)} down."
            if profile.cut == BACK_CUT
            else f"Outside a round-over of {tenth(profile.outer_mm)} radius."
        )
    if profile.ply_mm is not None:
        left = "whole: a guide can ride on it" if profile.ply_left else "cut into: no guide on it"
        lines.append(f"The outermost ply ({tenth(profile.ply_mm)}) is {left}.")
    if profile.bore_mm is not None:
        enough = profile.bore_mm >= GUIDE_MM
        lines.append(
            f"Below the inner cut {tenth(profile.bore_mm)} of the ring stays straight"
            + (", enough for a guide." if enough else ", too little for a guide.")
        )
    lines.append(f"The head sounds across {tenth(profile.head_mm(bare_mm))}.")
    if profile.usual:
        lines.append(f"Not read, taken as usual: {listed(profile.usual)}. Check on a card.")
    return lines


def contact_line(contact: Contact, *, below_mm: float, say: Lengths) -> str:
    """Say where the film lies on the wood, and what was assumed."""

    def tenth(value_mm: float) -> str:
        return say.length(value_mm, resolution_mm=CALIPER_MM)

    if contact.length_mm < CALIPER_MM / 2.0:
        where = "The head lies on the apex only"
    else:
        where = (
            f"The head lies on the wood from {tenth(contact.from_down_mm)} down"
            f" ({tenth(contact.from_outside_mm)} in) to the apex"
        )
    return (
        f"{where}, taken as a taut film that leaves a collar {tenth(contact.collar_off_mm)} off the"
        f" bare wood {below_mm:.0f} mm below the edge."
    )


def _apex(profile: EdgeProfile, at: str) -> str:
    if profile.apex_mm == 0.0:
        return "Apex at the outside."
    return f"Apex {at} from the outside of the bare wood."


def _inside(profile: EdgeProfile, down: str) -> str:
    if profile.inner_deg is None:
        return f"Inside rounded to {down} down."
    return f"Inner cut {profile.inner_deg:g} degrees, {down} down inside."
