"""What the checks have said so far, and how near the nearest limit is."""

from __future__ import annotations

import math
from dataclasses import fields

from counterhoop.development.place import Place
from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.wording import figure, first_up
from counterhoop.scheme.nearest import Nearest
from counterhoop.shell.shop_rules import ShopRules

MARGIN_CAP_MM = 30.0
"""A margin is not followed beyond this: more room than that is no better."""
RULES = frozenset(field.name for field in fields(ShopRules))
ROUNDING_MM = 1e-9
"""A calculation's last digits: nothing may hang on them, or it hangs on where the datum lies."""
PRINTS_ALIKE = 0.05
"""A figure that prints like its limit meets it."""


def together(*doubts: float) -> float:
    """Combine the doubts of independent readings: root of the sum of squares.

    Each is the half-width of an interval with the same coverage (taken as k = 2, about 95 in
    100); the law of propagation of uncertainty (JCGM 100:2008, 5.1.2, equation 10, sensitivity
    one each) then gives the half-width of their sum or difference with the same coverage. Only
    readings count: how true a drill holds its place is what the limits themselves allow for.

    Examples
    --------
    >>> round(together(0.5, 0.5), 2)
    0.71
    """
    return math.hypot(*doubts)


class Tally:
    """Gathers findings and the least margin while one layout is gone through.

    Grades follow one principle. What a scheme makes anew and a rule forbids is a *stop*; what
    the drum has had all along is a *note*; in between stands *take care*. Where a limit lies
    inside the doubt of the readings nobody can say, so a stop becomes *take care* and asks for
    another measurement.
    """

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.margin_mm = MARGIN_CAP_MM
        self.nearest: Nearest | None = None

    def say(self, finding: Finding) -> None:
        """Take down a finding."""
        self.findings.append(finding)

    def near(self, left_mm: float, nearest: Nearest) -> None:
        """Take down what is left to a limit, where nothing came nearer to one."""
        if left_mm < self.margin_mm:
            self.margin_mm, self.nearest = left_mm, nearest

    def worth(self, at_least_mm: float, *, limit: float, doubt: float, counts: bool) -> bool:
        """Whether a distance of at least this much could still be a finding or the margin."""
        left = at_least_mm - limit
        return left <= doubt + PRINTS_ALIKE or (counts and left < self.margin_mm)

    def hold(
        self,
        code: str,
        measured: float,
        *,
        limit: float,
        doubt: float,
        grade: Grade,
        fact: str,
        again: str = "",
        rule: str = "",
        remedy: str = "",
        where: str = "",
        place: Place | None = None,
        holes: tuple[int, ...] = (),
        unit: str = "mm",
        counts: bool = False,
        most: bool = False,
        rule_says: str | None = None,
    ) -> None:
        """Hold a figure against its limit, and take down what there is to say.

        Parameters
        ----------
        code : str
            Code of the finding.
        measured, limit, doubt : float
            The figure, the least it may be (``most``: the most), the half-width of its doubt.
        grade : Grade
            Of a figure that is past its limit beyond doubt.
        fact : str
            The sentence's first half, without a full stop.
        again : str
            What to measure again where the doubt decides.
        counts : bool
            Whether it is a distance in millimetres that the margin is made of.
        rule_says : str, optional
            What the sentence says of the limit where "your rule is ..." would be wrong.
        """
        left = limit - measured if most else measured - limit
        if counts and left < self.margin_mm:
            self.near(
                left,
                Nearest(
                    fact=fact, where=where, rule=rule, measured_mm=float(measured),
                    limit_mm=float(limit), doubt_mm=float(doubt),
                ),
            )  # fmt: skip
        close = doubt > 0.0 and abs(left) <= doubt + ROUNDING_MM
        if left >= -PRINTS_ALIKE and not (close and grade is Grade.STOP):
            return
        if close:
            grade = Grade.TAKE_CARE if grade is Grade.STOP else grade
            held = "" if rule not in RULES or limit == 0.0 else f" and your rule is {figure(limit)}"
            says = f"{fact}{held}: too close to call"
            says += f", measure {again} again." if again else "."
        else:
            held = f"your rule is {figure(limit)}" if rule in RULES and limit != 0.0 else ""
            held = held if rule_says is None else rule_says
            says = f"{fact}; {held}." if held else f"{fact}."
        self.say(
            Finding(
                code=code,
                grade=grade,
                says=first_up(says),
                where=where,
                along_deg=None if place is None else place.along_deg,
                down_mm=None if place is None else place.down_mm,
                measured=float(measured),
                limit=float(limit),
                doubt=float(doubt),
                unit=unit,
                rule=rule,
                remedy=f"Measure {again} again." if close and again else remedy,
                too_close=close,
                holes=holes,
            )
        )
