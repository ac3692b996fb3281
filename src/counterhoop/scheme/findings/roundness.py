"""How round the ends are that a head goes on."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.read_once import cut_away, ends_with_a_head, surveyed
from counterhoop.scheme.findings.tally import Tally
from counterhoop.survey.round_words import round_findings


def check_roundness(after: Afterwards, tally: Tally) -> None:
    """Say how far each end is out of round, and what its readings cannot see.

    Under the rule for taking care that is one short note; what a head makes of it is said with
    its fit.
    """
    layout, rules = after.layout, after.rules
    for end in ends_with_a_head(layout):
        read = layout.drum.readings.at(end)
        if read.across is None and read.radii is None and read.head is None:
            continue
        if cut_away(layout, end):
            tally.say(
                Finding(
                    code="readings-cut-away",
                    grade=Grade.TAKE_CARE,
                    says=(
                        f"The {end} end is cut off with what was read there: how round the new"
                        " end is, and whether a head goes on it, is not known yet."
                    ),
                    where=f"{end} end",
                    unit="",
                    rule="read where the head goes",
                    remedy="Measure the new end once it is cut, before its edge is made.",
                )
            )
            continue
        found = surveyed(layout.drum, end)
        if found.across is None:
            continue
        for finding in round_findings(
            found.across,
            end_says=f"{end} end",
            care_mm=rules.round_care_mm,
            ask_mm=rules.round_ask_mm,
            waves=found.waves,
        ):
            tally.say(finding)
