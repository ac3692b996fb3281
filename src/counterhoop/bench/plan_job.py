"""Work out schemes for every drum of a job, and the choice over the kit."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from counterhoop.bench.chosen import kit_whys, shown_with_chosen
from counterhoop.bench.open_job import OpenJob
from counterhoop.bench.share_stock import stock_shared
from counterhoop.bench.survey_job import DrumSurveyed, survey_job
from counterhoop.bench.take import Taken, take
from counterhoop.errors import BadInput, Finding
from counterhoop.scheme.findings.all_checks import look_over
from counterhoop.scheme.findings.choice import choice_gone
from counterhoop.scheme.kit import choose_kit
from counterhoop.scheme.kit_choice import KitChoice
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.phrases import listed
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.rank import Ranked, repriced
from counterhoop.scheme.schemes import Shop, as_found, schemes_for
from counterhoop.scheme.trued import changes_anything
from counterhoop.shell.job import DrumWanted

Progress = Callable[[str, float], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumPlan:
    """One drum: its readings, its schemes, and the one that the kit's choice gives it.

    ``refused`` says why there are none, where its wish or its finish plan cannot be met.
    """

    wanted: DrumWanted
    surveyed: DrumSurveyed
    noticed: tuple[Finding, ...]
    ranked: Ranked
    chosen: Scheme | None
    refused: BadInput | None = None

    @property
    def key(self) -> str:
        """The drum's name in the job."""
        return self.wanted.drum.key

    @property
    def found(self) -> Layout:
        """The drum as it stands."""
        return self.surveyed.found


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPlan:
    """A job planned."""

    opened: OpenJob
    drums: tuple[DrumPlan, ...]
    kit: KitChoice | None

    def drum(self, key: str) -> DrumPlan:
        """Return the plan of one drum.

        Raises
        ------
        BadInput
            When the job has no drum of that name.
        """
        for plan in self.drums:
            if plan.key.casefold() == key.strip().casefold():
                return plan
        names = ", ".join(f'"{plan.key}"' for plan in self.drums)
        raise BadInput("no drum of that name in the job", given=key, wanted=f"one of {names}")


def plan_job(opened: OpenJob, *, progress: Progress = lambda _says, _share: None) -> JobPlan:
    """Work out every drum, then choose one scheme a drum over the kit.

    A wish that cannot be met keeps no other drum from being planned: its drum says why.

    Parameters
    ----------
    progress : callable
        Called with a sentence and the share done, 0 to 1.
    """
    job, shop = opened.job, opened.shop
    found = {w.drum.key: as_found(w.drum, shop=shop) for w in job.drums}
    ranked: dict[str, Ranked] = {}
    refused: dict[str, BadInput] = {}
    for index, wanted in enumerate(job.drums):
        progress(f"schemes for the {wanted.drum.key}", index / (len(job.drums) + 1))
        if wanted.wishes or changes_anything(wanted.finish):
            others = tuple(lay for key, lay in found.items() if key != wanted.drum.key)
            try:
                ranked[wanted.drum.key] = schemes_for(wanted, shop=shop, others=others)
            except BadInput as fault:
                refused[wanted.drum.key] = fault.with_traceback(None)
    progress("the choice over the kit", len(job.drums) / (len(job.drums) + 1))
    worked_out = [wanted for wanted in job.drums if wanted.drum.key not in refused]
    taken, gone = _taken(worked_out, ranked, found=found, shop=shop)
    ranked |= {key: one.ranked for key, one in taken.items()}
    by_hand = {key: one.scheme for key, one in taken.items()}
    match = _matching(job.match, planned=ranked, drums=job.drums)
    kit = None
    if ranked:
        kit = choose_kit(
            _offered(ranked, by_hand),
            match=match,
            stock=job.stock,
            rules=shop.rules,
            figures=shop.figures,
            by_hand=tuple(by_hand),
        )
    chosen = {scheme.drum: scheme for scheme in kit.schemes} if kit else {}
    if kit:
        free = {key: scheme for key, scheme in chosen.items() if key not in by_hand}
        whys = kit_whys(free, ranked=ranked, match=match)
        without = _matched_without(job.match, refused=tuple(refused))
        kit = replace(kit, says=(*kit.says[:1], *whys, *without, *kit.says[1:]))
    for scheme in _together(chosen, opened):
        ranked[scheme.drum] = repriced(
            ranked[scheme.drum], scheme, rules=shop.rules, figures=shop.figures
        )
    for key, scheme in chosen.items():
        now = next(s for s in ranked[key].every if s.number == scheme.number)
        ranked[key] = shown_with_chosen(now, ranked=ranked, match=match, by_hand=key in by_hand)
        chosen[key] = next(s for s in ranked[key].shown if s.number == scheme.number)
    surveyed = survey_job(opened, found=found)
    noticed = noticed_in(opened, surveyed)
    plans = tuple(
        DrumPlan(
            wanted=one.wanted,
            surveyed=one,
            noticed=(*gone.get(one.drum.key, ()), *noticed[one.drum.key]),
            ranked=ranked.get(one.drum.key, Ranked(shown=(), set_aside=())),
            chosen=chosen.get(one.drum.key),
            refused=refused.get(one.drum.key),
        )
        for one in surveyed
    )
    progress("done", 1.0)
    return JobPlan(opened=opened, drums=plans, kit=kit)


def _together(chosen: Mapping[str, Scheme], opened: OpenJob) -> list[Scheme]:
    """Hold the chosen schemes against each other: one stock, and what must nest afterwards."""
    shop = opened.shop
    shared = stock_shared(chosen.values(), stock=shop.stock, figures=shop.figures)
    settled = []
    for scheme in shared:
        others = [other.layout for other in shared if other.drum != scheme.drum]
        checked = look_over(
            scheme.layout, rules=shop.rules, others=others, figures=shop.figures, book=shop.book
        )
        settled.append(replace(scheme, findings=checked.findings))
    return settled


def _taken(
    drums: Sequence[DrumWanted],
    ranked: Mapping[str, Ranked],
    *,
    found: Mapping[str, Layout],
    shop: Shop,
) -> tuple[dict[str, Taken], dict[str, tuple[Finding, ...]]]:
    """Find the schemes again that a person chose; say of which drums they are gone."""
    taken: dict[str, Taken] = {}
    gone: dict[str, tuple[Finding, ...]] = {}
    for wanted in drums:
        key, chosen = wanted.drum.key, wanted.chosen
        if chosen is None:
            continue
        others = tuple(layout for other, layout in found.items() if other != key)
        try:
            one = take(chosen, ranked.get(key, Ranked()), shop=shop, others=others)
        except BadInput as fault:
            # One row that fits no longer keeps no other drum from being planned.
            gone[key] = (choice_gone(chosen, because=str(fault).rstrip(".")),)
            continue
        if one is None:
            gone[key] = (choice_gone(chosen),)
        else:
            taken[key] = one
    return taken, gone


def _matching(
    match: Sequence[Sequence[str]], *, planned: Mapping[str, Ranked], drums: Sequence[DrumWanted]
) -> tuple[tuple[str, ...], ...]:
    """Return what must match, without drums of which nothing is wanted: they stay as they are."""
    stays = {wanted.drum.key for wanted in drums} - set(planned)
    groups = (tuple(key for key in group if key not in stays) for group in match)
    return tuple(group for group in groups if len(group) > 1)


def _matched_without(match: Sequence[Sequence[str]], *, refused: Sequence[str]) -> tuple[str, ...]:
    """Say which drums were chosen without one that they are to match."""
    said = []
    for group in match:
        others = [f"the {key}" for key in group if key not in refused]
        away = [f"the {key}" for key in group if key in refused]
        if others and away:
            said.append(
                f"Of {listed(away)} no scheme can be worked out as it stands, so"
                f" {listed(others)} {'are' if len(others) > 1 else 'is'} not held to match."
            )
    return tuple(said)


def _offered(
    ranked: Mapping[str, Ranked], by_hand: Mapping[str, Scheme]
) -> dict[str, tuple[Scheme, ...]]:
    """What the kit chooses from; a drum on its own takes its own first, wood before money."""
    alone = len(ranked) == 1
    free = {key: found.shown[:1] if alone else found.for_kit for key, found in ranked.items()}
    return free | {key: (scheme,) for key, scheme in by_hand.items()}


def noticed_in(opened: OpenJob, surveyed: Sequence[DrumSurveyed]) -> dict[str, tuple[Finding, ...]]:
    """Return what is to be said of each drum as it stands, before anything is planned."""
    shop = opened.shop
    return {
        one.drum.key: (
            *one.suspects,
            *look_over(one.found, rules=shop.rules, figures=shop.figures, book=shop.book).findings,
        )
        for one in surveyed
    }
