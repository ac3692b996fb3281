"""The checks that rest on what was read round the ends, on heads and on screws."""

from __future__ import annotations

from counterhoop.errors import Finding
from counterhoop.scheme.findings.afterwards import afterwards
from counterhoop.scheme.findings.beds import check_beds
from counterhoop.scheme.findings.fit import check_fit
from counterhoop.scheme.findings.flatness import check_flatness
from counterhoop.scheme.findings.not_wood import for_its_material
from counterhoop.scheme.findings.rings import check_rings
from counterhoop.scheme.findings.roundness import check_roundness
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.threads_read import check_threads_read
from counterhoop.scheme.layout import Layout
from counterhoop.shell.shop_rules import ShopRules

SURVEY_CHECKS = (
    check_roundness,
    check_flatness,
    check_rings,
    check_fit,
    check_threads_read,
    check_beds,
)


def look_over_survey(layout: Layout, *, rules: ShopRules) -> tuple[Finding, ...]:
    """Return what the readings of a drum as found come to, gravest first."""
    tally = Tally()
    after = afterwards(layout, rules=rules)
    for check_one in SURVEY_CHECKS:
        check_one(after, tally)
    return tuple(
        for_its_material(finding, drum=layout.drum)
        for finding in sorted(tally.findings, key=lambda f: -f.grade)
    )
