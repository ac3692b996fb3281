"""The quote of a job as it stands now: fresh lines, a person's edits, the price on its face."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.parts.stripped import stripped_of
from counterhoop.bench.parts.wants_of_job import is_taken
from counterhoop.bench.plan_job import DrumPlan, JobPlan
from counterhoop.bench.price.kept_quote import KeptQuote, discount_read, kept_quote
from counterhoop.bench.price.parts_lines import head_lines, part_lines, wrap_lines
from counterhoop.bench.price.terms import Terms, terms_of
from counterhoop.bench.price.works import WorkPriced, log_of, runs_over, work_priced
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.hours.worked import Worked
from counterhoop.job.price.doubt import doubt_of
from counterhoop.job.price.face import beneath_says, face_says
from counterhoop.job.price.from_scheme import lines_of_scheme
from counterhoop.job.price.line import QuoteLine
from counterhoop.job.price.quote import Quote, quote_of
from counterhoop.job.price.renew import news_of, renewed
from counterhoop.quantities.money import Money, parse_money
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import WrapPlan, wrap_plans

if TYPE_CHECKING:
    from counterhoop.shell.shop_rules import ShopFigures


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumPriced:
    """One drum of a quote.

    Attributes
    ----------
    kept : KeptDrum
    plan : DrumPlan
    scheme : Scheme
        That it is priced by.
    taken : bool
        Whether a person took it.
    """

    kept: KeptDrum
    plan: DrumPlan
    scheme: Scheme
    taken: bool

    @property
    def says(self) -> str:
        """By which scheme, in a sentence."""
        by = f"{self.kept.name}: by scheme {self.scheme.number}, {self.scheme.title}"
        return f"{by}." if self.taken else f"{by}; not taken yet."


@dataclass(frozen=True, slots=True, kw_only=True)
class JobQuote:
    """The quote of a job as it stands now.

    Attributes
    ----------
    kept : KeptQuote
        What a person did to it; ``kept.number`` is the revision to build on.
    lines : tuple of QuoteLine
        All of them, struck ones too, without the contingency; the key begins with the drum's name
        for programs, ``named`` puts its name in front.
    quote : Quote or None
        None where it cannot be made yet; ``fault`` says why.
    fault : BadInput or None
    drums : tuple of DrumPriced
    without : tuple of str
        Why a drum is not in it, a sentence each.
    work : WorkPriced
        The hours that it rests on.
    terms : Terms
    currency : str
    """

    kept: KeptQuote
    lines: tuple[QuoteLine, ...]
    quote: Quote | None
    fault: BadInput | None
    drums: tuple[DrumPriced, ...]
    without: tuple[str, ...]
    work: WorkPriced
    terms: Terms
    currency: str

    @property
    def news(self) -> tuple[str, ...]:
        """What a person should look at before it goes out, a sentence each."""
        return (*(f"{one}." for one in news_of(named(self.lines, self.drums))), *self.without)

    @property
    def face(self) -> tuple[str, ...]:
        """What stands large."""
        return face_says(self.quote) if self.quote else ()

    @property
    def beneath(self) -> tuple[str, ...]:
        """What stands beneath: what it may come to, by which schemes and on whose hours."""
        said = beneath_says(self.quote) if self.quote else ()
        return (*said, *(drum.says for drum in self.drums), self.work.whose)

    def line(self, key: str) -> QuoteLine:
        """Return a line by its key.

        Raises
        ------
        BadInput
            When the quote has none.
        """
        for one in self.lines:
            if one.key == key:
                return one
        raise BadInput("no such line on this quote", where="line", given=key)

    def drum(self, drum_id: str) -> DrumPriced:
        """Return a drum by its name for programs.

        Raises
        ------
        BadInput
            When it is not in the quote.
        """
        for one in self.drums:
            if one.kept.id == drum_id:
                return one
        raise BadInput("this drum is not in the quote", where="drum", given=drum_id)

    def need(self) -> Quote:
        """Return the quote that can go out.

        Raises
        ------
        BadInput
            Where it cannot be made yet.
        """
        if self.quote is None:
            raise self.fault or BadInput("no quote can be made yet", where="quote")
        return self.quote


def quote_of_job(shop: Workshop, job: KeptJob, plan: JobPlan) -> JobQuote:
    """Return the quote of a job: its drums by the schemes that are taken, else by the first.

    Parameters
    ----------
    plan : JobPlan
        Of this job.
    """
    drums, without = _drums(job, plan)
    return quote_by(shop, job, plan, drums=drums, without=without, log=log_of(shop))


def quote_by(
    shop: Workshop, job: KeptJob, plan: JobPlan, *, drums: Sequence[DrumPriced],
    without: tuple[str, ...] = (), log: Sequence[Worked], as_typed: bool = True,
) -> JobQuote:  # fmt: skip
    """Return the quote of a job by named schemes; a person's edits are on it too.

    Parameters
    ----------
    as_typed : bool
        Whether a price that was typed for the whole is asked, too.
    """
    figures, kept, terms = plan.opened.job.figures, kept_quote(job), terms_of(shop)
    work = work_priced([drum.scheme for drum in drums], figures=figures, log=log)
    wraps = _wraps(plan, drums)
    fresh = [
        line
        for drum, lines in zip(drums, work.lines, strict=True)
        for line in (
            *lines_of_scheme((), lines, figures=figures),
            *part_lines(
                drum.scheme, stripped_of(shop, job, drum.kept, plan), book=plan.opened.shop.book,
                figures=figures,
            ),
            *head_lines(drum.plan.wanted.tuning, figures=figures),
        )
        for line in (replace(line, key=f"{drum.kept.id}/{line.key}"),)
    ]  # fmt: skip
    over = runs_over(work, fresh, figures=figures)
    lines = renewed(kept.lines, (*fresh, *over, *wrap_lines(wraps, figures=figures)))
    quote, fault = _made(
        named(lines, drums), kept, terms, work, figures=figures,
        extra_holes=sum(drum.scheme.extra_holes for drum in drums),
        as_typed=as_typed,
    )  # fmt: skip
    return JobQuote(
        kept=kept, lines=lines, quote=quote, fault=fault, drums=tuple(drums), without=without,
        work=work, terms=terms, currency=figures.currency,
    )  # fmt: skip


def _made(
    lines: Sequence[QuoteLine], kept: KeptQuote, terms: Terms, work: WorkPriced, *,
    figures: ShopFigures, extra_holes: int, as_typed: bool,
) -> tuple[Quote | None, BadInput | None]:  # fmt: skip
    currency = figures.currency

    def money(typed: str, where: str) -> Money | None:
        return parse_money(typed, where=where, otherwise=currency) if typed else None

    try:
        return quote_of(
            lines,
            rules=terms.rules(currency=currency, bought_for=money(kept.bought_for, "bought_for")),
            doubt=doubt_of(work.hours),
            discount=discount_read(kept.discount, currency=currency),
            price=money(kept.price if as_typed else "", "price"),
            extra_holes=extra_holes,
        ), None
    except BadInput as fault:
        return None, fault


def _drums(job: KeptJob, plan: JobPlan) -> tuple[tuple[DrumPriced, ...], tuple[str, ...]]:
    drums: list[DrumPriced] = []
    without = []
    by_name = {one.key: one for one in plan.drums}
    for kept in job.drums:
        one = by_name.get(kept.name)
        if one is None:
            without.append(f"The {kept.name} is not in it: it cannot be read whole yet.")
            continue
        scheme = scheme_priced(one)
        if scheme is None:
            why = f"no scheme can be worked out, {one.refused}" if one.refused else (
                "nothing is wished of it"
            )  # fmt: skip
            without.append(f"The {kept.name} is not in it: {why.rstrip('.')}.")
            continue
        taken = is_taken(kept) or one.wanted.chosen is not None
        drums.append(DrumPriced(kept=kept, plan=one, scheme=scheme, taken=taken))
    return tuple(drums), tuple(without)


def scheme_priced(drum: DrumPlan) -> Scheme | None:
    """Return the scheme that a drum is priced by: the one that is taken, else the first."""
    return drum.chosen or next(iter(drum.ranked.shown), None)


def named(lines: Iterable[QuoteLine], drums: Sequence[DrumPriced]) -> tuple[QuoteLine, ...]:
    """Return lines with their drum's name in front, where there are several drums.

    What a person changed is kept without it: a drum more, or another name, changes no line.
    """
    names = {one.kept.id: one.kept.name for one in drums}
    if len(names) < 2:
        return tuple(lines)
    return tuple(
        replace(line, stands=replace(line.stands, says=f"{name}: {line.stands.says}"))
        if (name := names.get(line.key.partition("/")[0]))
        else line
        for line in lines
    )


def _wraps(plan: JobPlan, drums: Sequence[DrumPriced]) -> tuple[WrapPlan, ...]:
    if all(drum.scheme.layout.finish.kind != "new wrap" for drum in drums):
        return ()
    schemes = [drum.scheme for drum in drums]
    return wrap_plans(plan.opened.job, schemes, rules=plan.opened.shop.rules)
