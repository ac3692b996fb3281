"""A scheme: one worked-out way to reach what the client wants."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.code import PERMANENT, PERMANENT_WORK
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.nearest import Nearest
from counterhoop.shell.choice import RowMoved

if TYPE_CHECKING:
    from counterhoop.scheme.draft import Draft

EDGES_AND_FINISH = "edges and finish only"
"""The pattern of a scheme for a drum of which nothing else is wished: every hole stays."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Criteria:
    """What schemes are compared by; less is better, except the margin.

    ``cut`` counts holes cut anew (drilled, enlarged, slotted); ``shows_mm2`` bare plugs, open
    holes and uncovered shadow outside, ``shows_inside_mm2`` plugs inside; ``money_minor`` parts
    bought and hours; ``margin_mm`` the least distance left to a limit (negative: passed).
    """

    cut: int
    shows_mm2: float
    shows_inside_mm2: float
    money_minor: int
    margin_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """Parts of one sort that a scheme needs; ``bought`` of them are not in stock."""

    name: str
    count: int
    bought: int
    each_minor: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkLine:
    """One operation: how often, minutes in all, hours of waiting afterwards."""

    operation: str
    count: int
    minutes: float
    cure_hours: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ReuseProof:
    """What the search for the best use of old holes says of itself."""

    kept: int
    enlarged: int
    slotted: int
    wanted: int
    candidates: int
    off_middle_mm: float
    turn_mm: float
    within: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheme:
    """One scheme with its findings, its criteria and the sentence that explains it.

    Attributes
    ----------
    number : int
        Place in the ranking, from 1.
    pattern : str
        What sort of change ("long lugs", "second row in line", "back to factory").
    title : str
        One line for a heading.
    why : str
        One sentence: why it stands where it stands.
    near_misses : tuple of str
        Sentences on what a little more freedom would bring.
    code : str
        Short code of the exact permanent changes; approval is given to it.
    centred : bool
        Whether rows lie on their proper heights within the rules.
    extra_holes : int
        Holes added to what the drum has now.
    moved, moved_from : tuple of RowMoved, int
        What was moved by hand, and the number of the scheme that it was moved from; nothing and
        0 in a scheme as worked out.
    nearest : Nearest or None
        The distance and the limit that its margin is made of.
    made_from : Draft or None
        What it was settled from, before anything was moved by hand.
    """

    drum: str
    number: int
    pattern: str
    title: str
    why: str = ""
    near_misses: tuple[str, ...] = ()
    layout: Layout
    findings: tuple[Finding, ...]
    criteria: Criteria
    parts: tuple[PartLine, ...]
    work: tuple[WorkLine, ...]
    reuse: tuple[ReuseProof, ...] = ()
    code: str = ""
    centred: bool = True
    extra_holes: int = 0
    family: str = ""  # fitting family and finish, for drums that must match
    badge_deg: float | None = None  # angle from badge to the nearest lug
    approved: str = ""  # who and when, when the code is covered by a recorded approval
    moved: tuple[RowMoved, ...] = ()
    moved_from: int = 0
    nearest: Nearest | None = field(default=None, repr=False, compare=False)
    made_from: Draft | None = field(default=None, repr=False, compare=False)

    @property
    def stopped(self) -> bool:
        """Whether any finding says stop."""
        return any(finding.grade is Grade.STOP for finding in self.findings)

    @property
    def permanent(self) -> bool:
        """Whether anything is done that cannot be undone."""
        cut = self.layout.truing.any or any(hole.verdict in PERMANENT for hole in self.layout.holes)
        made = any(line.operation in PERMANENT_WORK for line in self.work)
        return cut or made or self.layout.finish.kind != "stays"

    @property
    def draft(self) -> bool:
        """Whether its papers say DRAFT: permanent changes that nobody has said yes to."""
        return self.permanent and not self.approved

    @property
    def approval(self) -> str:
        """Who said yes, or that nothing needs a yes; empty while a yes is wanted."""
        return self.approved or ("" if self.permanent else "nothing permanent to approve")

    @property
    def minutes(self) -> float:
        """Bench time in all."""
        return sum(line.minutes for line in self.work)
