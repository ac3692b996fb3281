"""A drum while it is being entered: as far as it can be read, and what its readings say by then."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.bench.folders.read_so_far import SoFar, read_so_far
from counterhoop.bench.own_lug import lug_called, lug_entry, lug_of_row
from counterhoop.errors import BadInput, CounterhoopError, Finding

if TYPE_CHECKING:
    from counterhoop.bench.survey_job import DrumSurveyed

STAND_IN = "what the rows say of their lugs"


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedOver:
    """What is known of a drum by now.

    Attributes
    ----------
    so_far : SoFar
        What can be read, and the faults of what cannot.
    surveyed : DrumSurveyed or None
        What the readings say; None while there is nothing to draw.
    noticed : tuple of Finding
        What is to be said of the drum as it stands: the wood between its holes too.
    """

    so_far: SoFar
    surveyed: DrumSurveyed | None = None
    noticed: tuple[Finding, ...] = ()

    @property
    def faults(self) -> tuple[BadInput, ...]:
        """What cannot be read; ``where`` is a path in the drum's own table."""
        return self.so_far.faults

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Suspect readings first, then what is to be said of the drum as it stands."""
        from counterhoop.scheme.findings.gathered import gathered

        one = self.surveyed
        return () if one is None else gathered((*one.suspects, *self.noticed))


def look_over(job: KeptJob, drum: KeptDrum, *, shop: Mapping[str, Kept]) -> LookedOver:
    """Read a drum as far as it goes and work out what it says; nothing is planned.

    A lug that no book has, or that nobody has named yet, is drawn about the holes that its row
    gives; the fault stands.
    """
    from counterhoop.bench.survey_job import survey_job
    from counterhoop.scheme.findings.all_checks import look_over as hold_against_rules

    so_far = read_so_far(job, drum, shop=shop)
    named, stand_ins = _with_stand_ins(drum, so_far)
    if stand_ins:
        import tomli_w

        book = {STAND_IN: tomli_w.dumps({"fitting": stand_ins})}
        again = read_so_far(replace(job, books={**job.books, **book}), named, shop=shop)
        mine = {str(fault) for fault in so_far.faults}
        more = tuple(fault for fault in again.faults if str(fault) not in mine)
        so_far = replace(again, faults=(*so_far.faults, *more))
    so_far = replace(so_far, faults=_as_typed(so_far))
    if so_far.opened is None:
        return LookedOver(so_far=so_far)
    try:
        (surveyed,) = survey_job(so_far.opened)
        own = so_far.opened.shop
        noticed = hold_against_rules(
            surveyed.found, rules=own.rules, figures=own.figures, book=own.book
        ).findings
    except CounterhoopError as fault:
        # Sizes that contradict each other so far that nothing can be worked out from them.
        said = fault if isinstance(fault, BadInput) else BadInput(str(fault))
        return LookedOver(so_far=replace(so_far, faults=(*so_far.faults, said)))
    return LookedOver(so_far=so_far, surveyed=surveyed, noticed=noticed)


def _as_typed(so_far: SoFar) -> tuple[BadInput, ...]:
    """Return the faults without those that only say that a thing left out is not there."""
    said: dict[str, BadInput] = {}
    for fault in so_far.faults:
        said.setdefault(fault.where if fault.where in so_far.left_out else str(fault), fault)
    return tuple(said.values())


def _with_stand_ins(drum: KeptDrum, so_far: SoFar) -> tuple[KeptDrum, list[dict[str, Any]]]:
    """Return the drum with every lug named, and entries for those that no book has."""
    wrong = {fault.where for fault in so_far.faults}
    kept = drum.kept(SURVEY)
    rows = kept.table.get("rows")
    made: list[dict[str, Any]] = []
    named = list(rows) if isinstance(rows, list) else []
    for place, row in enumerate(named):
        if not isinstance(row, dict) or f"rows[{place + 1}].fitting" not in wrong:
            continue
        name = str(row.get("fitting") or lug_called(drum.name))
        try:
            entry = lug_entry(lug_of_row(row, name=name), source=STAND_IN)
        except BadInput:
            continue
        named[place] = {**row, "fitting": name}
        if name not in [one["name"] for one in made]:
            made.append(entry)
    body = {**kept.table, "rows": named}
    return replace(drum, documents={**drum.documents, SURVEY: replace(kept, body=body)}), made
