"""A scheme in the words of its sheet: its four figures, and what of it is for good."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from counterhoop.development.shape import HoleShape
from counterhoop.errors import Finding, Grade
from counterhoop.papers.client_words import cut_besides_holes, what_shows
from counterhoop.papers.facts import Lengths, count, holes_said, labels, listed, say_money
from counterhoop.papers.scheme_sheet import work_minor
from counterhoop.quantities.duration import print_minutes
from counterhoop.quantities.print_length import TAPE_MM, nearest_step
from counterhoop.scheme.findings.gathered import gathered
from counterhoop.scheme.findings.tally import MARGIN_CAP_MM
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.shop_rules import ShopFigures, ShopRules
from counterhoop.sources import load_table

DONE = {
    Verdict.DRILL: "drilled",
    Verdict.PLUG_AND_DRILL: "drilled anew in plugged wood",
    Verdict.ENLARGE: "made larger",
    Verdict.SLOT: "made longer",
    Verdict.PLUG: "closed with a plug",
}
"""What is done to a hole for good, in the order in which it is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """The four figures of a scheme, as they are said; ``_beside`` says a little more.

    ``parts_money`` and ``work_money`` are what ``money`` is made of.
    """

    cut: str
    cut_beside: str
    shows: str
    shows_beside: str
    money: str
    money_beside: str
    parts_money: str
    work_money: str
    margin: str
    margin_beside: str


def figures_of(scheme: Scheme, *, figures: ShopFigures, say: Lengths) -> Figures:
    """Return the figures that schemes are compared by, in words."""
    c, currency = scheme.criteria, figures.currency
    bench = work_minor(scheme)
    parts = c.money_minor - bench
    unpriced = any(line.bought and line.each_minor is None for line in scheme.parts)
    shows, shows_beside = _shows(what_shows(scheme, say=say))
    return Figures(
        cut=count(c.cut, "hole") if c.cut else "no hole",
        cut_beside=_verdicts(scheme.layout.holes),
        shows=shows,
        shows_beside=shows_beside,
        money=say_money(c.money_minor, currency=currency),
        money_beside=(
            f"{say_money(parts, currency=currency) if parts else 'no'}"
            f"{' of' if parts else ''} parts to buy, {print_minutes(scheme.minutes)} at the bench"
            f"{f'; a part has no price in {currency} yet' if unpriced else ''}."
            " Only what differs between schemes, not the price of the job"
        ),
        parts_money=say_money(parts, currency=currency),
        work_money=say_money(bench, currency=currency),
        margin=margin_words(c.margin_mm, say=say),
        margin_beside=_nearest(scheme),
    )


def _shows(words: str) -> tuple[str, str]:
    """Part how much will be seen from what that is.

    Examples
    --------
    >>> _shows("1 wood plug, about 4 square centimetres in all")
    ('about 4 square centimetres', '1 wood plug')
    >>> _shows("nothing: the new finish covers old marks"), _shows("nothing of the work")
    (('nothing', 'the new finish covers old marks'), ('nothing of the work', ''))
    """
    what, seen, much = words.removesuffix(" in all").rpartition(", ")
    if seen and words.endswith(" in all"):
        return much, what
    much, _, what = words.partition(": ")
    return much, what


def margin_words(margin_mm: float, *, say: Lengths) -> str:
    """Say how far the nearest limit is, to what a rule can tell.

    Examples
    --------
    >>> say = Lengths()
    >>> [margin_words(mm, say=say) for mm in (30.0, 9.41, 0.1, -3.6)]
    ['30 mm or more', '9.5 mm', 'none left', 'passed by 3.5 mm']
    """
    if margin_mm >= MARGIN_CAP_MM:
        return f"{say.length(MARGIN_CAP_MM)} or more"
    if nearest_step(margin_mm, step=Fraction(TAPE_MM)) == 0:
        return "none left"
    said = say.length(abs(margin_mm))
    return f"passed by {said}" if margin_mm < 0 else said


def _nearest(scheme: Scheme) -> str:
    if scheme.nearest is None or scheme.criteria.margin_mm >= MARGIN_CAP_MM:
        return "nothing new comes near a limit"
    return f"at {scheme.nearest.where}" if scheme.nearest.where else ""


def _verdicts(holes: Iterable[HolePlan]) -> str:
    found = Counter(plan.verdict for plan in holes)
    said = [f"{found[verdict]} {word}" for verdict, word in DONE.items() if found[verdict]]
    return listed(said) or "every hole stays as it is"


def rule_words(name: str) -> str:
    """Say what a shop rule limits; nothing for what is no rule.

    Examples
    --------
    >>> rule_words("edge_mm"), rule_words("hoop travel")
    ('hole edge to bearing edge', '')
    """
    rows = load_table("counterhoop.shell", "shop_rules.toml")
    return next((str(r.values["says"]) for r in rows if r.values["name"] == name), "")


def own_rule(name: str, rules: ShopRules, standard: ShopRules) -> bool:
    """Tell whether the workshop changed a rule."""
    return getattr(rules, name, None) != getattr(standard, name, None)


def tally_words(findings: Iterable[Finding]) -> str:
    """Say how many findings of each grade there are.

    Examples
    --------
    >>> tally_words([Finding(code="a", grade=Grade.NOTE, says="A.")])
    'Nothing stops it; 1 note.'
    """
    found = Counter(finding.grade for finding in gathered(findings))
    said = [
        count(found[Grade.STOP], "stop") if found[Grade.STOP] else "",
        f"{count(found[Grade.TAKE_CARE], 'thing')} to take care of"
        if found[Grade.TAKE_CARE] else "",
        count(found[Grade.NOTE], "note") if found[Grade.NOTE] else "",
    ]  # fmt: skip
    words = [one for one in said if one]
    if found[Grade.STOP]:
        return f"{'; '.join(words)}."
    return "; ".join(["Nothing stops it", *words]) + "."


# --- what is for good ---------------------------------------------------------------------------


def for_good(scheme: Scheme, *, say: Lengths, numbered: bool = True) -> list[str]:
    """Say exactly what cannot be undone: which holes, how large, for what; ends, edges, finish.

    Parameters
    ----------
    numbered : bool
        Whether holes are told by their numbers: a client's drawing has none.
    """
    said = [
        _group(verdict, plans, say=say, numbered=numbered)
        for verdict in DONE
        for plans in _alike(scheme.layout.holes, verdict)
    ]
    said += [f"{what[:1].upper()}{what[1:]}." for what in cut_besides_holes(scheme, say=say)]
    return said


def _alike(holes: Iterable[HolePlan], verdict: Verdict) -> list[list[HolePlan]]:
    """Holes of one verdict that are cut to the same size, together."""
    groups: dict[object, list[HolePlan]] = {}
    for plan in holes:
        if plan.verdict is verdict:
            before = None if verdict.drills else plan.old
            groups.setdefault((before, plan.new), []).append(plan)
    return list(groups.values())


def _group(verdict: Verdict, plans: list[HolePlan], *, say: Lengths, numbered: bool) -> str:
    which = holes_said(plans) if numbered else count(len(plans), "hole")
    first = plans[0]
    old, new = (_size(shape, say=say) for shape in (first.old, first.new))
    serves = labels(dict.fromkeys(plan.of for plan in plans if plan.of))
    for_what = f", for {serves}" if serves else ""
    through = sorted({number for plan in plans for number in plan.through})
    if verdict is Verdict.PLUG:
        size, for_what = old, ""
    elif verdict in (Verdict.ENLARGE, Verdict.SLOT):
        size = f"from {old} to {new}"
    else:
        size = new
    closed = f", through what was {holes_said(through)}" if through and numbered else ""
    return f"{which[:1].upper()}{which[1:]} {DONE[verdict]}: {size}{closed}{for_what}."


def _size(shape: HoleShape | None, *, say: Lengths) -> str:
    said, beside = say.size(shape)
    return f"{said} ({beside})" if beside else said
