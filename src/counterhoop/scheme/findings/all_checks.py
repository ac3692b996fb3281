"""Every check over one layout."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.errors import Finding
from counterhoop.fittings.book import Book
from counterhoop.scheme.findings.afterwards import afterwards
from counterhoop.scheme.findings.as_found import check_as_found
from counterhoop.scheme.findings.bases import check_bases, check_vents
from counterhoop.scheme.findings.beds import check_beds
from counterhoop.scheme.findings.edges import check_edges, check_lines
from counterhoop.scheme.findings.ends import check_ends
from counterhoop.scheme.findings.finish import check_finish
from counterhoop.scheme.findings.fit import check_fit
from counterhoop.scheme.findings.flatness import check_flatness
from counterhoop.scheme.findings.heights import check_heights
from counterhoop.scheme.findings.hoops import check_hoops
from counterhoop.scheme.findings.inside import check_inside
from counterhoop.scheme.findings.nesting import check_nesting
from counterhoop.scheme.findings.not_wood import for_its_material
from counterhoop.scheme.findings.openings import check_openings
from counterhoop.scheme.findings.rings import check_rings
from counterhoop.scheme.findings.rod_lengths import check_rods
from counterhoop.scheme.findings.roundness import check_roundness
from counterhoop.scheme.findings.screws import check_screws
from counterhoop.scheme.findings.shows import check_marks, check_plugs_seen
from counterhoop.scheme.findings.snare_line import check_snare_line
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.threads_read import check_threads_read
from counterhoop.scheme.findings.webs import check_plugs, check_webs
from counterhoop.scheme.findings.wrap_seam import check_seam
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.nearest import Nearest
from counterhoop.shell.shop_rules import ShopFigures, ShopRules

CHECKS = (
    check_as_found,
    check_fit,
    check_edges,
    check_lines,
    check_webs,
    check_plugs,
    check_seam,
    check_bases,
    check_vents,
    check_hoops,
    check_rods,
    check_threads_read,
    check_screws,
    check_openings,
    check_inside,
    check_snare_line,
    check_beds,
    check_heights,
    check_ends,
    check_roundness,
    check_flatness,
    check_rings,
    check_marks,
    check_plugs_seen,
    check_finish,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What all checks say of a layout.

    Attributes
    ----------
    findings : tuple of Finding
        Every one, gravest first; within a grade in the order of the checks.
    margin_mm : float
        Least distance left to a limit, over all distances that the scheme makes anew: webs,
        plugs, edges, lines, seam, bases, hoop travel. Below zero a limit is passed. Not followed
        beyond ``MARGIN_CAP_MM``, which is also what a scheme gets that makes nothing anew.
    nearest : Nearest or None
        The distance and the limit that the margin is made of; None where none is followed.
    """

    findings: tuple[Finding, ...]
    margin_mm: float
    nearest: Nearest | None = None


def look_over(
    layout: Layout,
    *,
    rules: ShopRules,
    others: Sequence[Layout] = (),
    figures: ShopFigures | None = None,
    book: Book | None = None,
) -> Checked:
    """Hold a layout against every check.

    Parameters
    ----------
    layout : Layout
        The drum as a scheme leaves it.
    rules : ShopRules
        Limits that the workshop works to.
    others : sequence of Layout
        Layouts of the job's other drums: what may be carried inside what.
    figures, book : ShopFigures, Book, optional
        What work and parts cost: without them the findings say nothing of money.

    Returns
    -------
    Checked
    """
    after = afterwards(layout, rules=rules, figures=figures, book=book)
    tally = Tally()
    for check_one in CHECKS:
        check_one(after, tally)
    check_nesting(after, others, tally)
    return Checked(
        findings=tuple(
            for_its_material(finding, drum=layout.drum)
            for finding in sorted(tally.findings, key=lambda f: -f.grade)
        ),
        # A millionth: what only rounding takes away has not passed a limit.
        margin_mm=round(float(tally.margin_mm), 6) + 0.0,
        nearest=tally.nearest,
    )


def check(
    layout: Layout, *, rules: ShopRules, others: Sequence[Layout] = ()
) -> tuple[Finding, ...]:
    """Return all findings of a layout, gravest first: see ``look_over``."""
    return look_over(layout, rules=rules, others=others).findings


def margin_mm(layout: Layout, *, rules: ShopRules) -> float:
    """Return the least distance left to a limit: see ``Checked``."""
    return look_over(layout, rules=rules).margin_mm
