"""What is agreed of each drum: its changes apart, the client's yes, and other ways beside it."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.bench.folders.drum_state import Given, state_of_drum
from counterhoop.bench.price.job_quote import DrumPriced, JobQuote
from counterhoop.job.price.sides import Sides
from counterhoop.job.yes.change import Change, gathered
from counterhoop.job.yes.changes import changes_of
from counterhoop.job.yes.undone import removed
from counterhoop.papers.approval_sheet import HEADINGS, where_said
from counterhoop.papers.client_words import seen_afterwards
from counterhoop.papers.facts import count
from counterhoop.quantities.money import Money, print_money
from counterhoop.scheme.code import same_code
from counterhoop.scheme.plan import Scheme
from counterhoop.web.folder_index import drum_address
from counterhoop.web.look.say import capfirst
from counterhoop.web.price_desk import PriceDesk
from counterhoop.web.scheme_shown import TAKEN
from counterhoop.web.scheme_words import figures_of


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeShown:
    """What is done, where, and where that is on the drawing; empty where it has no place."""

    does: str
    where: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Changes of one sort: what cannot be undone, is hidden, or can be undone."""

    heading: str
    says: str
    changes: tuple[ChangeShown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumAgreed:
    """One drum.

    Attributes
    ----------
    parts : tuple of Changes
        Apart: permanent, hidden, reversible.
    originals : tuple of str
        What comes off and stays the client's.
    yes, back : Given or None
        The yes that covers this scheme, or the last to another one; the last taken back.
    covered : bool
        Whether a yes covers what is taken.
    by_hand : bool
        Whether it was taken by hand.
    """

    drum: DrumPriced
    schemes: str
    parts: tuple[Changes, ...]
    originals: tuple[str, ...]
    yes: Given | None
    back: Given | None
    covered: bool

    @property
    def id(self) -> str:
        """The drum's name for programs."""
        return self.drum.kept.id

    @property
    def scheme(self) -> Scheme:
        """By which it is priced."""
        return self.drum.scheme

    @property
    def says(self) -> str:
        """Whether the client has said yes to it, in one sentence."""
        if not self.scheme.permanent:
            return "Nothing on it is changed for good: it needs nobody's yes."
        if self.covered and self.yes is not None:
            how = f", {self.yes.how}" if self.yes.how else ""
            return f"{capfirst(self.yes.says())}{how}. It covers the code {self.scheme.code}."
        if self.back is not None and same_code(self.back.covers, self.scheme.code):
            how = f", {self.back.back_how}" if self.back.back_how else ""
            return f"{capfirst(self.back.back_says())}{how}. Nobody's yes covers it now."
        if self.yes is not None:
            return (
                f"{capfirst(self.yes.says())}, but to another scheme ({self.yes.covers}). Nobody"
                f" has said yes to this one, code {self.scheme.code}."
            )
        return f"Nobody has said yes yet to its permanent changes, code {self.scheme.code}."


@dataclass(frozen=True, slots=True, kw_only=True)
class WayShown:
    """Another way with one drum, and what it would make of the whole job's price."""

    says: str
    price: str
    dearer: str
    ceiling: str
    cut: str
    shows: str
    added: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WaysShown:
    """The ways with one drum, the one that is priced first.

    Attributes
    ----------
    rows : tuple of (str, tuple of str)
        Row by row what each costs, what differs first.
    """

    drum: DrumPriced
    schemes: str
    ways: tuple[WayShown, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    without: tuple[str, ...]


def agreed_of(desk: PriceDesk, drum: DrumPriced) -> DrumAgreed:
    """Return what is agreed of a drum."""
    scheme, schemes = drum.scheme, f"{drum_address(desk.job, drum.kept)}/schemes"
    changes = changes_of(scheme, say=desk.say)
    state = state_of_drum(drum.kept)
    covers = [one for one in state.yes if same_code(one.covers, scheme.code)]
    yes = covers or list(state.yes)
    return DrumAgreed(
        drum=drum,
        schemes=schemes,
        parts=tuple(
            Changes(
                heading=heading,
                says=says if any(one.sort == sort for one in changes) else nothing,
                changes=tuple(
                    _shown(one, f"{schemes}#{TAKEN}")
                    for one in gathered(one for one in changes if one.sort == sort)
                ),
            )
            for sort, (heading, says, nothing) in HEADINGS.items()
        ),
        originals=tuple(f"{one.count} {one.name}" for one in removed(scheme.layout)),
        yes=yes[-1] if yes else None,
        back=state.taken_back[-1] if state.taken_back else None,
        covered=bool(scheme.permanent and scheme.approved),
    )


def ways_of(desk: PriceDesk, now: JobQuote, drum: DrumPriced) -> WaysShown | None:
    """Return other ways with a drum beside the one it is priced by; none where there is none."""
    if len(drum.plan.ranked.shown) < 2:
        return None
    found = desk.ways(now, drum.kept.id)
    sides = found.sides
    by_title = {f"{one.number}. {one.title}": one for one in drum.plan.ranked.shown}
    by_title[f"{drum.scheme.number}. {drum.scheme.title}"] = drum.scheme
    return WaysShown(
        drum=drum,
        schemes=f"{drum_address(desk.job, drum.kept)}/schemes",
        ways=tuple(_way(desk, sides, at, by_title[title]) for at, title in enumerate(sides.titles))
        if sides
        else (),
        rows=tuple((row.says, tuple(map(_amount, row.amounts))) for row in sides.rows)
        if sides
        else (),
        without=found.without,
    )


def _way(desk: PriceDesk, sides: Sides, at: int, scheme: Scheme) -> WayShown:
    dearer, holes = sides.dearer[at], sides.extra_holes[at]
    more = print_money(Money(minor=abs(dearer.minor), currency=dearer.currency))
    said = figures_of(scheme, figures=desk.need_plan().opened.job.figures, say=desk.say)
    apart = f"{more} {'more' if dearer.minor > 0 else 'less'}" if dearer.minor else "the same"
    return WayShown(
        says=f"Scheme {sides.titles[at]}",
        price=print_money(sides.prices[at]),
        dearer="as it is priced" if not at else apart,
        ceiling=print_money(sides.ceilings[at]),
        cut="; ".join(part for part in (said.cut, said.cut_beside) if part),
        shows=seen_afterwards(scheme, say=desk.say),
        added=f"{count(holes, 'hole')} added in the whole job" if holes else "no hole added",
    )


def _shown(change: Change, drawing: str) -> ChangeShown:
    hole = next((spot.number for spot in change.spots if spot.number), 0)
    href = f"{drawing}-hole-{hole}" if hole else f"{drawing}-laid" if change.spots else ""
    # The sheet that is signed speaks to the client; here the workshop reads it.
    does = change.does.replace("stays yours", "stays the client's")
    return ChangeShown(does=does, where=capfirst(where_said(change)), href=href)


def _amount(amount: Money | None) -> str:
    return "–" if amount is None else print_money(amount)
