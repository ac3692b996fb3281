"""Other ways side by side: the job's quote with another scheme for one of its drums."""

from __future__ import annotations

from dataclasses import dataclass, replace

from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.price.gathered import one_drum, rows_gathered
from counterhoop.bench.price.job_quote import JobQuote, quote_by
from counterhoop.bench.price.works import log_of
from counterhoop.bench.workshop import Workshop
from counterhoop.job.price.quote import Quote
from counterhoop.job.price.sides import FEWEST, MOST, Sides, side_by_side
from counterhoop.scheme.plan import Scheme


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """What other ways with one drum would make of the whole job's price.

    Attributes
    ----------
    drum : str
        Its name for programs.
    sides : Sides or None
        The quote as it stands first; None where no other way can be priced.
    without : tuple of str
        Why another way has no price, a sentence each.
    """

    drum: str
    sides: Sides | None
    without: tuple[str, ...] = ()


def ways_beside(
    shop: Workshop, job: KeptJob, plan: JobPlan, now: JobQuote, *, drum_id: str
) -> Ways:
    """Return the job's quote beside up to three that take another scheme for one drum.

    A person's edits are on all of them; a price that was typed is on the first alone, for it was
    asked for this way. All work of the drum stands in one row, all that is of other drums in
    another.

    Parameters
    ----------
    plan : JobPlan
        Of this job.
    now : JobQuote
        From ``quote_of_job``.
    """
    drum, log = now.drum(drum_id), log_of(shop)
    others = [one for one in drum.plan.ranked.shown if one.number != drum.scheme.number]
    under = one_drum(
        drum_id, name=drum.kept.name, others={one.kept.id for one in now.drums if one is not drum}
    )
    without: list[str] = []
    quotes: dict[str, Quote] = {}
    for scheme in (drum.scheme, *others[: MOST - 1]):
        drums = [replace(one, scheme=scheme) if one is drum else one for one in now.drums]
        made = quote_by(shop, job, plan, drums=drums, log=log, as_typed=scheme is drum.scheme)
        if made.quote is None:
            without.append(f"Scheme {scheme.number} has no price yet: {made.fault}")
        else:
            quotes[_title(scheme)] = replace(made.quote, sums=rows_gathered(made.quote.sums, under))
    first_there = _title(drum.scheme) in quotes
    sides = side_by_side(quotes) if first_there and len(quotes) >= FEWEST else None
    return Ways(drum=drum_id, sides=sides, without=tuple(without))


def _title(scheme: Scheme) -> str:
    return f"{scheme.number}. {scheme.title}"
