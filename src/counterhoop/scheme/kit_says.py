"""The choice over a kit in sentences, as a colleague would say them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from counterhoop.quantities.angle import print_deg
from counterhoop.scheme.kit_choice import Kit, KitChoice
from counterhoop.scheme.kit_match import Aspect, Differing
from counterhoop.scheme.kit_price import KitPart
from counterhoop.scheme.phrases import counted, embedded, listed, sentence
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.says_why import gravest, say_money
from counterhoop.shell.shop_rules import ShopFigures

MOST_PART_LINES = 6


def kit_sentences(choice: KitChoice, *, figures: ShopFigures) -> tuple[str, ...]:
    """Say what is chosen, what it takes, what does not match, and what the next best costs."""
    chosen = choice.chosen
    says = [sentence(f"no scheme for {_the(choice.without)}")] if choice.without else []
    if chosen.schemes:
        says.append(sentence(_who_gets_what((s.pattern, s) for s in chosen.schemes)))
        says += _by_hand(choice)
        says += _parts(chosen, figures=figures)
        says.append(_total(chosen, figures=figures))
        says += [_stopped(s, choice) for s in chosen.schemes if s.stopped]
        says += [_differing(d, chosen) for d in chosen.differing]
        says += _prices_of_matching(choice, figures=figures)
        says += _next_best(choice, figures=figures)
    if not choice.proven:
        says.append("The search was cut short: a better choice may exist.")
    return tuple(says)


def _parts(kit: Kit, *, figures: ShopFigures) -> list[str]:
    lines = kit.bought
    if len(lines) > MOST_PART_LINES:
        first = [part for part in lines if part.each_minor is None]
        lines = (*first, *(part for part in lines if part.each_minor is not None))
    says = [_part(part, figures=figures) for part in lines[:MOST_PART_LINES]]
    rest = lines[MOST_PART_LINES:]
    if rest:
        money = say_money(sum(part.cost_minor for part in rest), figures=figures)
        says.append(f"And {counted(len(rest), 'more sort')} of part for {money}.")
    return says


def _part(part: KitPart, *, figures: ShopFigures) -> str:
    in_stock = f"{part.in_stock or 'none'} in stock"
    buy = f"{part.bought} to buy"
    if part.each_minor is None:
        price = ", and nobody knows the price: the total leaves them out"
    elif part.bought == 1:
        price = f" at {say_money(part.each_minor, figures=figures)}"
    else:
        price = f" at {say_money(part.each_minor, figures=figures)} each"
    return sentence(f"{part.name}: {part.wanted} wanted, {in_stock}, {buy}{price}")


def _total(kit: Kit, *, figures: ShopFigures) -> str:
    total, bench = (say_money(m, figures=figures) for m in (kit.total_minor, kit.bench_minor))
    parts = say_money(kit.total_minor - kit.bench_minor, figures=figures)
    without = f", without {counted(kit.unpriced, 'part')} of unknown price" if kit.unpriced else ""
    return f"In all {total}: {parts} of parts to buy and {bench} of bench time{without}."


def _by_hand(choice: KitChoice) -> list[str]:
    named = [
        f"scheme {s.number} on the {s.drum}"
        for s in choice.chosen.schemes
        if s.drum in choice.by_hand
    ]
    return [f"Taken by hand: {listed(named)}."] if named else []


def _stopped(scheme: Scheme, choice: KitChoice) -> str:
    says = embedded(gravest(scheme.findings).says)
    if scheme.drum in choice.by_hand:
        return sentence(f"what was chosen for the {scheme.drum} is stopped: {says}")
    return sentence(f"the {scheme.drum} has no scheme that can be drilled: {says}")


def _differing(differing: Differing, kit: Kit) -> str:
    first, second = (
        next(s for s in kit.schemes if s.drum == drum)
        for drum in (differing.first, differing.second)
    )
    words = {
        Aspect.PATTERN: f"{first.pattern} against {second.pattern}",
        Aspect.FITTINGS: f"{_family(first)} against {_family(second)}",
        Aspect.BADGE: f"{_badge(first)} from badge to lug against {_badge(second)}",
    }
    what = "; ".join(words[aspect] for aspect in differing.aspects)
    return sentence(f"the {first.drum} and the {second.drum} do not match: {what}")


def _prices_of_matching(choice: KitChoice, *, figures: ShopFigures) -> list[str]:
    """Say what matching costs, or what better matching would take."""
    chosen, says = choice.chosen, []
    if choice.if_differing is not None:
        saved = say_money(chosen.total_minor - choice.if_differing.total_minor, figures=figures)
        says.append(
            f"Letting them differ would save {saved}: {_instead(choice.if_differing, chosen)}."
        )
    if choice.if_stopped is not None:
        kit = choice.if_stopped
        stopped = _newly_stopped(kit, chosen)
        stops = listed([f"the {s.drum} is stopped ({_stop(s)})" for s in stopped])
        says.append(
            f"They would match better with {_instead(kit, chosen)}, {_more(kit, chosen, figures)},"
            f" but {stops}."
        )
    elif chosen.differing and not choice.by_hand:
        says.append("No choice of schemes matches better.")
    return says


def _next_best(choice: KitChoice, *, figures: ShopFigures) -> list[str]:
    chosen, kit = choice.chosen, choice.runner_up
    if kit is None:
        return [] if choice.by_hand else ["There is no other choice."]
    says = f"The next best is {_instead(kit, chosen)}, {_more(kit, chosen, figures)}"
    more_stops = _stops(kit) - _stops(chosen)
    if more_stops > 0:
        says += f", but {listed([f'the {s.drum} is stopped' for s in _newly_stopped(kit, chosen)])}"
    elif kit.differences > chosen.differences:
        drums = [
            f"the {d.first} and the {d.second}" for d in kit.differing if d not in chosen.differing
        ]
        says += f", but {'; '.join(drums)} do not match"
    elif kit.total_minor <= chosen.total_minor and kit.unpriced == chosen.unpriced:
        says += _decided_by(kit, chosen)
    return [f"{says}."]


def _decided_by(kit: Kit, chosen: Kit) -> str:
    """Say what decides between two choices of one price."""
    cut = sum(s.criteria.cut for s in kit.schemes) - sum(s.criteria.cut for s in chosen.schemes)
    if cut > 0:
        return f", but cuts {counted(cut, 'hole')} more"
    shows = sum(s.criteria.shows_mm2 for s in kit.schemes)
    shows -= sum(s.criteria.shows_mm2 for s in chosen.schemes)
    if round(shows) > 0:
        return f", but shows {round(shows)} mm² more"
    return ", and level in all else: the places in the drums' own rankings decide"


def _more(kit: Kit, chosen: Kit, figures: ShopFigures) -> str:
    apart = kit.total_minor - chosen.total_minor
    unpriced = kit.unpriced - chosen.unpriced
    if apart:
        money = say_money(abs(apart), figures=figures)
        says = f"which costs {money} {'more' if apart > 0 else 'less'}"
    else:
        says = "which costs the same"
    if unpriced:
        more = "more" if unpriced > 0 else "fewer"
        says += f" with {abs(unpriced)} {more} to buy at a price that nobody knows"
    return says


def _instead(kit: Kit, chosen: Kit) -> str:
    """Name what another choice does on the drums where it differs."""
    named = []
    for other, ours in zip(kit.schemes, chosen.schemes, strict=True):
        if other is ours:
            continue
        if other.pattern != ours.pattern:
            named.append((other.pattern, other))
        elif other.title != ours.title:
            named.append((other.title, other))
        else:
            named.append((f"scheme {other.number}", other))
    return _who_gets_what(named)


def _who_gets_what(named: Iterable[tuple[str, Scheme]]) -> str:
    drums: dict[str, list[str]] = {}
    for name, scheme in named:
        drums.setdefault(name, []).append(scheme.drum)
    return "; ".join(f"{name} on {_the(those)}" for name, those in drums.items())


def _stops(kit: Kit) -> int:
    return sum(s.stopped for s in kit.schemes)


def _newly_stopped(kit: Kit, chosen: Kit) -> list[Scheme]:
    both = zip(kit.schemes, chosen.schemes, strict=True)
    return [other for other, ours in both if other.stopped and other is not ours]


def _stop(scheme: Scheme) -> str:
    return embedded(gravest(scheme.findings).says)


def _family(scheme: Scheme) -> str:
    return scheme.family or "fittings of no named family"


def _badge(scheme: Scheme) -> str:
    return print_deg(scheme.badge_deg or 0.0).replace(" deg", " degrees")


def _the(drums: Sequence[str]) -> str:
    return listed([f"the {drum}" for drum in drums])
