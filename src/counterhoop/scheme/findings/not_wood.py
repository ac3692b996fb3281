"""What a finding advises on a shell that is not wood."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.errors import Finding
from counterhoop.shell.drum import Drum, Material

ASK = "Ask someone who works in that material."
CUTS_EDGES = frozenset(
    {
        "edge-not-flat",
        "ring-narrow",
        "bed-steep",
        "bed-through-ring",
        "bed-shallower",
        "beds-unlike",
        "beds-not-opposite",
        "bed-off-strainer",
    }
)
"""Codes whose remedy is to sand or cut an edge: what was measured holds, the remedy is for wood."""


def for_its_material(finding: Finding, *, drum: Drum) -> Finding:
    """Return a finding without advice on edges where the shell is not wood."""
    wood = drum.material is Material.WOOD
    if wood or finding.code not in CUTS_EDGES or finding.too_close:
        return finding
    return replace(finding, remedy=ASK)
