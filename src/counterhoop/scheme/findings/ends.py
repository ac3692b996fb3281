"""The open end of a single-headed drum, and the vent that two heads ask for."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.heads import heads_of
from counterhoop.shell.drum import Material


def check_ends(after: Afterwards, tally: Tally) -> None:
    """Say what an end lacks that gets its first head, and whether air can leave."""
    drum = after.layout.drum
    heads = {head.head for head in heads_of(after.layout)}
    if drum.heads == 1 and "resonant" in heads:
        _open_end(after, tally)
    if drum.heads == 2 or {"batter", "resonant"} <= heads:
        _vent(after, tally)


def _open_end(after: Afterwards, tally: Tally) -> None:
    drum = after.layout.drum
    edge = drum.edge("resonant")
    if not edge.surveyed:
        _end(
            tally,
            code="end-not-surveyed",
            grade=Grade.STOP,
            says="The open end has not been surveyed: edge, roundness and the fit of a head are"
            " not known there, so no second head can be promised.",
            remedy="Survey that end, and try an actual head on it by hand.",
        )
    if not edge.there:
        _end(
            tally,
            code="no-edge",
            grade=Grade.TAKE_CARE,
            says="The open end has no bearing edge: one must be cut there and a head tried on it"
            " by hand. The price has the hours for the edge, none for what the head may want.",
            remedy="Try the head by hand as soon as the edge is cut, before anything is fitted.",
        )
    if drum.material is not Material.WOOD:
        return
    if not edge.ring and not any(ring.end == "resonant" for ring in drum.rings):
        _end(
            tally,
            code="no-ring",
            grade=Grade.TAKE_CARE,
            says="The open end has no ring: a thin wall must carry the pull of a whole head there.",
            remedy="Glue a ring in before the edge is cut, or ask whether the wall is enough.",
        )
    if edge.wrap_to_edge and after.layout.finish.kind == "stays":
        _end(
            tally,
            code="wrap-to-edge",
            grade=Grade.TAKE_CARE,
            says="The wrap runs to the edge of the open end, where the head's collar must go over"
            " it.",
            remedy="Cut the wrap back below the collar before the edge is made.",
        )


def _end(tally: Tally, *, code: str, grade: Grade, says: str, remedy: str) -> None:
    tally.say(
        Finding(
            code=code,
            grade=grade,
            says=says,
            where="resonant end",
            unit="",
            rule="an end that takes a head",
            remedy=remedy,
        )
    )


def _vent(after: Afterwards, tally: Tally) -> None:
    lined = any(b.plan.fitting.kind in (Kind.VENT, Kind.GROMMET) for b in after.bases)
    if lined or any(opening.is_vent for opening in after.openings):
        return
    tally.say(
        Finding(
            code="no-vent",
            grade=Grade.TAKE_CARE,
            says="There is no vent: two heads on a closed shell hold the air in.",
            where="shell",
            unit="",
            rule="a vent for two heads",
            remedy="Ask the client whether to drill one, under the badge where there is one.",
        )
    )
