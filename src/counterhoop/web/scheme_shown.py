"""The schemes of a drum as their sheet shows them: drawn whole or as pictures, in what order."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.bench.move_row import rows_of
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.remembered import Remembered
from counterhoop.errors import Finding, Grade
from counterhoop.papers.drawing.manner import Units
from counterhoop.papers.facts import Lengths, say_money
from counterhoop.quantities.duration import print_minutes
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.scheme.findings.tally import MARGIN_CAP_MM
from counterhoop.scheme.nearest import Nearest
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.choice import RowMoved
from counterhoop.shell.shop_rules import ShopFigures, ShopRules, default_rules
from counterhoop.web.scheme_words import (
    Figures,
    figures_of,
    own_rule,
    rule_words,
    tally_words,
)
from counterhoop.web.shell_view import ShellView, client_view, scheme_view

TAKEN = "taken"
"""The id of the scheme that is taken, whatever its number: it stays while a row is dragged."""
ROOM_BYTES = 150_000
"""What whole drawings may weigh on one page; the taken one and the first are drawn in any case."""
_DRAWN = Remembered(most=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkRow:
    """One operation of the price: how often, how long, and what waits afterwards."""

    operation: str
    count: int
    takes: str
    waits: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """The limit that a margin is made of, in words."""

    fact: str
    limit: str
    doubt: str
    rule: str
    whose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SchemeShown:
    """One scheme on its drum's sheet.

    Attributes
    ----------
    view : ShellView
        The drawing, whole or the client's picture.
    whole : bool
        Whether it is drawn with numbers and can be chosen in.
    taken : bool
        Whether it is what will be done, by hand or for the kit.
    findings : tuple of Finding
        What is alike is said once.
    limit : Limit or None
        None where nothing new comes near a limit.
    worst : Finding or None
        The first of the stops.
    """

    scheme: Scheme
    view: ShellView
    whole: bool
    taken: bool
    figures: Figures
    findings: tuple[Finding, ...]
    tally: str
    work: tuple[WorkRow, ...]
    hour: str
    limit: Limit | None
    worst: Finding | None

    @property
    def ident(self) -> str:
        """Its id on the page."""
        return self.view.ident


def schemes_shown(
    drum: DrumPlan, *, units: Units, figures: ShopFigures, rules: ShopRules,
    wanted_whole: int = 0, plan_key: str = "",
) -> tuple[SchemeShown, ...]:  # fmt: skip
    """Return a drum's schemes in their order, one moved by hand before the one it came from.

    Parameters
    ----------
    plan_key : str
        Of what was planned: the same plan is drawn once. Empty: nothing is remembered.
    wanted_whole : int
        Number of one that is to be drawn whole, whatever it weighs.
    """
    ordered = sorted(drum.ranked.shown, key=lambda s: (s.moved_from or s.number, not s.moved))
    taken = drum.chosen.number if drum.chosen else 0
    first = min((s.number for s in ordered), default=0)
    # Those that are drawn in any case take their room first.
    in_turn = sorted(
        ordered, key=lambda s: (s.number not in (taken, wanted_whole), s.number != first, s.number)
    )
    drawn: dict[int, tuple[ShellView, bool]] = {}
    left = ROOM_BYTES
    for scheme in in_turn:
        is_taken = scheme.number == taken
        view = _once(scheme, plan_key=plan_key, units=units, whole=True, taken=is_taken)
        whole = scheme.number in (taken, first, wanted_whole) or len(view.svg) <= left
        if whole:
            left -= len(view.svg)
        else:
            view = _once(scheme, plan_key=plan_key, units=units, whole=False, taken=is_taken)
        drawn[scheme.number] = (view, whole)
    return tuple(
        scheme_shown(
            scheme, view=drawn[scheme.number][0], whole=drawn[scheme.number][1],
            taken=scheme.number == taken, units=units, figures=figures, rules=rules,
        )
        for scheme in ordered
    )  # fmt: skip


def _once(
    scheme: Scheme, *, plan_key: str, units: Units, whole: bool, taken: bool
) -> ShellView:  # fmt: skip
    """Return the drawing of a scheme, made once for each plan."""
    ident = TAKEN if taken else f"scheme-{scheme.number}"

    def draw() -> ShellView:
        if whole:
            return whole_view(scheme, ident=ident, units=units, movable=taken)
        return client_view(scheme.layout, ident=ident, title=f"Scheme {scheme.number}")

    if not plan_key:
        return draw()
    key = (plan_key, scheme.drum, scheme.number, units, whole, taken)
    made: ShellView = _DRAWN.get(key, draw)
    return made


def client_sheet_view(scheme: Scheme, *, plan_key: str, ident: str) -> ShellView:
    """Return the drawing of a scheme that the client signs, made once for each plan."""
    key = (plan_key, scheme.drum, scheme.number, ident)
    made: ShellView = _DRAWN.get(key, lambda: client_view(scheme.layout, ident=ident))
    return made


def whole_view(
    scheme: Scheme, *, ident: str, units: Units, movable: bool = False, live: bool = False,
    at: RowMoved | None = None,
) -> ShellView:  # fmt: skip
    """Draw a scheme with numbers; ``at``: the row in hand, whose place a scheme at zero forgets."""
    places = {row.name: (row.right_mm, row.down_mm) for row in rows_of(scheme)} if movable else {}
    if at is not None:
        places[at.row] = (at.right_mm, at.down_mm)
    return scheme_view(
        scheme, ident=ident, units=units, findings=gathered(scheme.findings), movable=places,
        live=live,
    )  # fmt: skip


def scheme_shown(
    scheme: Scheme, *, view: ShellView, whole: bool, taken: bool, units: Units,
    figures: ShopFigures, rules: ShopRules,
) -> SchemeShown:  # fmt: skip
    """Return what the sheet says of one scheme."""
    say = Lengths(units)
    return SchemeShown(
        scheme=scheme,
        view=view,
        whole=whole,
        taken=taken,
        figures=figures_of(scheme, figures=figures, say=say),
        findings=gathered(scheme.findings),
        tally=tally_words(scheme.findings),
        work=tuple(
            WorkRow(
                operation=line.operation, count=line.count, takes=print_minutes(line.minutes),
                waits=f"{line.cure_hours:g} h" if line.cure_hours else "",
            )
            for line in scheme.work
        ),
        hour=say_money(figures.hour_minor, currency=figures.currency),
        limit=_limit(scheme.nearest, scheme.criteria.margin_mm, rules=rules, say=say),
        worst=next((f for f in scheme.findings if f.grade is Grade.STOP), None),
    )  # fmt: skip


def _limit(
    nearest: Nearest | None, margin_mm: float, *, rules: ShopRules, say: Lengths
) -> Limit | None:
    if nearest is None or margin_mm >= MARGIN_CAP_MM:
        return None
    own = own_rule(nearest.rule, rules, default_rules())
    return Limit(
        fact=f"{nearest.fact[:1].upper()}{nearest.fact[1:]}.",
        limit=say.length(nearest.limit_mm),
        doubt=say.length(nearest.doubt_mm, resolution_mm=0.1) if nearest.doubt_mm else "",
        rule=rule_words(nearest.rule),
        whose="your own rule" if own else "common practice, no source",
    )
