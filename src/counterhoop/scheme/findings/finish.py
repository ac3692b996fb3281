"""What the material and the old finish ask for."""

from __future__ import annotations

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards
from counterhoop.scheme.findings.not_wood import ASK
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import first_up
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Material


def check_finish(after: Afterwards, tally: Tally) -> None:
    """Say what does not hold for a shell that is not wood, and what old wrap may be."""
    layout = after.layout
    drum = layout.drum
    if drum.material is not Material.WOOD:
        tally.say(
            Finding(
                code="not-wood",
                grade=Grade.NOTE,
                says=first_up(
                    f"the shell is {drum.material}: holes, fit and rods hold as they stand, advice"
                    " on plugs, edges and glue does not."
                ),
                where="shell",
                unit="",
                rule="advice for wood",
                remedy=ASK,
            )
        )
    works = any(plan.verdict.cuts or plan.verdict is Verdict.PLUG for plan in layout.holes)
    if drum.finish.maybe_nitrate and (works or layout.finish.kind != "stays"):
        tally.say(
            Finding(
                code="maybe-nitrate",
                grade=Grade.NOTE,
                says=(
                    "The old wrap may be cellulose nitrate, which burns fiercely: no spark, no"
                    " heat gun, no hot drill, and its dust and swarf go out wet."
                ),
                where="old finish",
                unit="",
                rule="old wrap",
                remedy="Drill slowly with a sharp bit and wipe up as you go.",
            )
        )
