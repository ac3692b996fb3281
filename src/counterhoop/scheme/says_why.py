"""Why a scheme stands where it stands: one sentence, as a colleague would say it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from counterhoop.errors import Finding, Grade
from counterhoop.quantities.angle import print_deg
from counterhoop.quantities.money import Money, print_money
from counterhoop.quantities.print_length import print_mm
from counterhoop.scheme.phrases import counted, embedded, listed, sentence
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.weigh import ENOUGH_MM, Weight, weigh
from counterhoop.shell.shop_rules import ShopFigures, ShopRules
from counterhoop.shell.wish import Pattern


def why_shown(
    scheme: Scheme, shown: Sequence[Scheme], *, rules: ShopRules, figures: ShopFigures
) -> str:
    """Say why the first is first, and what each other one is better at.

    ``shown`` holds the schemes in their order, this one among them, numbered from 1.
    """
    if scheme.moved:  # it is held against the scheme that it was moved from
        return scheme.why
    worked_out = [s for s in shown if not s.moved]
    first = worked_out[0]
    if scheme.number == first.number:
        says = _first(scheme, worked_out[1:], rules=rules, figures=figures)
    else:
        says = _against(scheme, first, rules=rules, figures=figures)
    return _framed(says, scheme)


def why_moved(scheme: Scheme, base: Scheme, *, rules: ShopRules, figures: ShopFigures) -> str:
    """Say what moving rows by hand has changed against the scheme as worked out."""
    says = _framed(_against(scheme, base, rules=rules, figures=figures), scheme)
    return f"Moved by hand from scheme {base.number}. {says}"


def _framed(says: str, scheme: Scheme) -> str:
    """Put what stops it, and who said yes, before; how many holes it adds after."""
    if scheme.stopped:
        says = f"stopped{_at(gravest(scheme.findings))}; {says}"
    if scheme.approved:
        says = f"approved {scheme.approved}: {says}"
    return sentence(f"{says}; {_adds(scheme)}")


def why_aside(
    scheme: Scheme,
    other: Scheme | None,
    *,
    same: bool,
    rules: ShopRules,
    figures: ShopFigures,
) -> str:
    """Say why a scheme is set aside: its gravest finding, or the scheme that is better.

    ``other`` is None where a finding stops it; ``same`` says that it is the other over again.
    """
    if other is None:
        finding = gravest(scheme.findings)
        more = sum(f.grade is Grade.STOP for f in scheme.findings) - 1
        rest = f" (and {counted(more, 'more stop')})" if more else ""
        return sentence(f"stopped{_at(finding)}: {embedded(finding.says)}{rest}")
    if same:
        return f"The same work with the same parts as scheme {other.number}."
    ours, theirs = weigh(scheme), weigh(other)
    worse = _differences(ours, theirs, better=False, figures=figures)
    off = _off(scheme, rules=rules) if ours.off and not theirs.off else ""
    if not worse:
        return sentence(f"no better than scheme {other.number} in anything, and {off}")
    says = listed(_with_number(worse, other))
    return sentence(f"{says}, and {off}" if off else says)


def gravest(findings: Sequence[Finding]) -> Finding:
    """Return the finding to name: a sure stop before one too close to call, then as they come."""
    return min(findings, key=lambda f: (-f.grade, f.too_close))


def say_money(minor: int, *, figures: ShopFigures) -> str:
    """Print an amount in the workshop's currency.

    Examples
    --------
    >>> say_money(3600, figures=ShopFigures())
    '36.00 GBP'
    """
    return print_money(Money(minor=minor, currency=figures.currency))


def _first(
    scheme: Scheme, others: Sequence[Scheme], *, rules: ShopRules, figures: ShopFigures
) -> str:
    weight = weigh(scheme)
    if not others:
        return "the only one offered"
    second = others[0]
    number = f"scheme {second.number}"
    other = weigh(second)
    if (weight.stopped, weight.off) < (other.stopped, other.off):
        lead = f"its rows stand where they should, and in {number} {_off(second, rules=rules)}"
        if other.stopped and not weight.stopped:
            lead = f"nothing stops it, and {number} is stopped"
        return f"first because {lead}"
    better = _differences(weight, other, better=True, figures=figures)
    if not better:
        return f"level with {number} in every figure that decides"
    return f"first because it {_with_number(better[:1], second)[0]}"


def _against(scheme: Scheme, first: Scheme, *, rules: ShopRules, figures: ShopFigures) -> str:
    ours, theirs = weigh(scheme), weigh(first)
    better = _differences(ours, theirs, better=True, figures=figures)
    worse = _differences(ours, theirs, better=False, figures=figures)
    if ours.off and not theirs.off:
        worse.append(_off(scheme, rules=rules))
    if better:
        says = listed(_with_number(better, first))
        return f"{says}, but {listed(worse)}" if worse else says
    if worse:
        return listed(_with_number(worse, first))
    return f"level with scheme {first.number} in every figure that decides"


def _differences(ours: Weight, theirs: Weight, *, better: bool, figures: ShopFigures) -> list[str]:
    """Return what one is better at (or worse) than the other, in the order that decides."""
    sign = -1 if better else 1
    less = "less" if better else "more"
    found = []
    cut = sign * (ours.cut - theirs.cut)
    if cut > 0:
        found.append(f"cuts {counted(cut, 'hole')} {'fewer' if better else 'more'}")
    shows = sign * (ours.shows_mm2 - theirs.shows_mm2)
    if shows > 0:
        found.append(f"shows {shows} mm² {less} outside")
    money = sign * (ours.money_minor - theirs.money_minor)
    if money > 0:
        found.append(f"costs {say_money(money, figures=figures)} {less}")
    inside = sign * (ours.inside_mm2 - theirs.inside_mm2)
    if inside > 0:
        found.append(f"shows {inside} mm² {less} inside")
    margin = _margin(ours.margin_mm, theirs.margin_mm, better=better)
    return [*found, margin] if margin else found


def _margin(ours_mm: Fraction, theirs_mm: Fraction, *, better: bool) -> str:
    """Compare distances to a limit; both come with the sign turned."""
    if ours_mm == theirs_mm or (ours_mm < theirs_mm) is not better:
        return ""
    if -ENOUGH_MM in (ours_mm, theirs_mm):  # capped: the true difference is larger
        return "stays further from the nearest limit" if better else "comes nearer to a limit"
    apart = print_mm(abs(float(ours_mm - theirs_mm)))
    nearer = f"comes {apart} nearer to a limit"
    return f"stays {apart} further from the nearest limit" if better else nearer


def _with_number(phrases: Sequence[str], other: Scheme) -> list[str]:
    """Name the other scheme in the first phrase, where it reads as a comparison."""
    head, *rest = phrases
    link = ", unlike" if head.startswith("comes near ") else " than"
    return [f"{head}{link} scheme {other.number}", *rest]


def _off(scheme: Scheme, *, rules: ShopRules) -> str:
    if scheme.pattern == Pattern.TURNED:
        return "a row stands at an odd angle"
    return f"a row stands further off its proper height than your {print_mm(rules.off_middle_mm)}"


def _adds(scheme: Scheme) -> str:
    return f"adds {counted(scheme.extra_holes, 'hole') if scheme.extra_holes > 0 else 'no hole'}"


def _at(finding: Finding) -> str:
    """Say where: the place in words, the angle, or both."""
    angle = ""
    if finding.along_deg is not None:
        angle = print_deg(finding.along_deg).replace(" deg", " degrees")
    if finding.where and angle:
        return f" at {finding.where} ({angle})"
    return f" at {finding.where or angle}" if finding.where or angle else ""
