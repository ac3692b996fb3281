"""The record of a job's drums: what its folder knows of each, for page and paper alike."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.change.found import found_on
from counterhoop.bench.folders.album import Photograph, photographs_of
from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.drum_state import state_of_drum, what_says
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import CHOICE, HANDOVER
from counterhoop.bench.parts.goes_back import spares_of
from counterhoop.bench.parts.stripped import Stripped, stripped_of
from counterhoop.bench.plan_job import DrumPlan, JobPlan
from counterhoop.bench.price.papers import NO_NAME
from counterhoop.bench.price.terms import Terms, terms_of
from counterhoop.bench.record.cares import cares_said, holds_of
from counterhoop.bench.record.edges import edges_said
from counterhoop.bench.record.heads import heads_left
from counterhoop.bench.record.left import as_left, not_ticked, ticked
from counterhoop.bench.record.parts_done import ADDED_OFF, OFF, parts_done, taken_off
from counterhoop.bench.record.said_of_drum import lines_for
from counterhoop.bench.record.sides import Sides, lacks_after, sides_of
from counterhoop.bench.record.story import (
    agreed_said,
    bag_said,
    done_said,
    found_said,
    worked_said,
)
from counterhoop.bench.record.sure import dated, not_known, sure_of
from counterhoop.bench.record.unfinished import ByTheLog, is_mended, log_of_job, unfinished
from counterhoop.bench.workshop import Workshop
from counterhoop.fittings.entry import Kind
from counterhoop.papers.facts import Lengths, holes_said
from counterhoop.papers.handover_record import HandedOver
from counterhoop.papers.letter_head import LetterHead
from counterhoop.scheme.code import same_code
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.store.work_log.read_log import workings_of_job
from counterhoop.store.work_log.working import Working

UNDER: Final[dict[str, str]] = {
    Kind.SCREW: "screws",
    Kind.WASHER: "washers",
    Kind.ROD: "rod",
    Kind.T_ROD: "rod",
}
"""Under which tick of the hand-over a spare goes; all others lie under "small"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumRecord:
    """The record of one drum.

    Attributes
    ----------
    drum : KeptDrum
    record : HandedOver
        Without its photographs: ``sides`` names those.
    sides : tuple of Sides
    holds : frozenset of str
        By what its care is chosen.
    left : Layout or None
        The shell as it goes; None where nothing says that it was worked on.
    done : frozenset of int
        Holes that are ticked.
    lacks : tuple of str
        What the record could say and nobody has put in, a sentence each.
    """

    drum: KeptDrum
    record: HandedOver
    sides: tuple[Sides, ...]
    holds: frozenset[str]
    left: Layout | None = None
    done: frozenset[int] = frozenset()
    lacks: tuple[str, ...] = ()


def record_of(shop: Workshop, job: KeptJob, plan: JobPlan | None) -> tuple[DrumRecord, ...]:
    """Return the record of every drum of a job.

    Parameters
    ----------
    plan : JobPlan or None
        Of the job; without it nothing is said of holes, edges and heads.
    """
    terms, found = terms_of(shop), photographs_of(shop, job)
    with shop.store.reading() as connection:
        log = workings_of_job(connection, job.id)
    day, by_log = day_of(shop, job), log_of_job(shop, job)
    return tuple(
        _record(shop, job, drum, plan, terms=terms, found=found, log=log, by_log=by_log, day=day)
        for drum in job.drums
    )


def day_of(shop: Workshop, job: KeptJob) -> dt.date:
    """Return the day of a job's record: that of its hand-over, else today."""
    written = day_written(job.kept(HANDOVER).table.get("handed_over"))
    return written or shop.now().astimezone().date()


def head_of_letter(job: KeptJob, terms: Terms, *, drums: Sequence[str], day: dt.date) -> LetterHead:
    """Return the head of a paper that goes out with a job."""
    return LetterHead(
        shop=terms.shop or NO_NAME,
        shop_lines=terms.shop_lines,
        client=str(job.job.get("client") or ""),
        job=str(job.job.get("number") or job.title),
        drums=tuple(drums),
        date=day,
    )


def _record(
    shop: Workshop, job: KeptJob, drum: KeptDrum, plan: JobPlan | None, *, terms: Terms,
    found: Sequence[Photograph], log: Sequence[Working], by_log: ByTheLog, day: dt.date,
) -> DrumRecord:  # fmt: skip
    own = next((one for one in plan.drums if one.key == drum.name), None) if plan else None
    scheme = _taken(drum, own)
    done = ticked(drum, scheme) if scheme else frozenset()
    left = as_left(scheme.layout, done) if scheme and (done or not _cuts(scheme)) else None
    said, names = job.kept(HANDOVER).table, [one.name for one in job.drums]
    stripped = stripped_of(shop, job, drum, plan)
    dating = dated(shop, job, drum)
    units = plan.opened.job.units if plan else "mm"
    bag = said.get("bag")
    bag = bag if isinstance(bag, dict) else {}

    def typed(name: str) -> tuple[str, ...]:
        return lines_for(said.get(name), drum=drum.name, drums=names)

    later = found_on(drum)
    gone = day_written(said.get("handed_over")) is not None
    rest = unfinished(
        drum, scheme, by_log, later, figures=plan.opened.job.figures if plan else None, done=done
    )
    harmed = own.wanted.drum if own else None
    holds = holds_of(own, left) if own else frozenset({"plastic"})
    care, cautions = cares_said(holds)
    state = state_of_drum(drum)
    record = HandedOver(
        head=head_of_letter(job, terms, drums=(drum.name,), day=day),
        drum=drum.name,
        what=what_says(drum),
        # What left the bench is finished, whatever nobody logged; glue sets all the same.
        unfinished=(*rest.sets, *(() if gone else rest.open)),
        mended=harmed is not None and is_mended(harmed, by_log.said.get(drum.id, {})),
        sure=sure_of(drum, dating),
        found=(*typed("found"), *found_said(own.wanted.drum if own else None, later)),
        story=(
            *typed("done"),
            *(done_said(scheme, left, say=Lengths(units)) if scheme and left else ()),
            *worked_said(log, names=(drum.id, drum.name)),
            *agreed_said(state),
        ),
        edges=edges_said(own, left, say=Lengths(units)) if own else (),
        parts=parts_done(left, stripped.counted, bagged=bool(bag.get("originals"))),
        bag=bag_said(
            bag, off=taken_off(left), spares=_spares(stripped, scheme),
            says=lines_for(bag.get("says"), drum=drum.name, drums=names),
        ),
        heads=heads_left(plan.opened.job, own) if plan and own else (),
        not_known=(*typed("not_known"), *not_known(drum, dating, own.wanted.drum if own else None)),
        care=care,
        cautions=cautions,
        warranty=str(said.get("warranty") or " ".join(terms.warranty)),
    )  # fmt: skip
    return DrumRecord(
        drum=drum, record=record, sides=sides_of(found, drum), holds=holds, left=left, done=done,
        lacks=(
            *lacks_after(found, drum),
            *(f"Not answered yet: {one.says}" for one in later.open),
            *rest.sets,
            *rest.open,
            *_lacks(own, scheme, record, done=done, left=left)),
    )  # fmt: skip


def _taken(drum: KeptDrum, own: DrumPlan | None) -> Scheme | None:
    code = drum.kept(CHOICE).table.get("scheme")
    if own is None or own.chosen is None or not isinstance(code, str):
        return None
    return own.chosen if same_code(own.chosen.code, code) else None


def _cuts(scheme: Scheme) -> bool:
    return bool(not_ticked(scheme.layout, ()))


def _spares(stripped: Stripped, scheme: Scheme | None) -> list[tuple[str, str]]:
    return [
        (UNDER.get(one.sort.kind, "small"), f"{one.count} x {one.sort.piece}")
        for one in spares_of(stripped, scheme)
    ]


def _lacks(
    own: DrumPlan | None, scheme: Scheme | None, record: HandedOver, *, done: frozenset[int],
    left: Layout | None,
) -> tuple[str, ...]:  # fmt: skip
    said = []
    if own is None:
        said.append("Too little is measured: the record says nothing of holes, edges and heads.")
    elif scheme is None and own.ranked.every:
        said.append("No scheme is taken: the record does not show how it was left.")
    elif scheme is not None:
        undone = not_ticked(scheme.layout, done)
        if left is None:
            said.append(
                "No hole of its scheme is ticked: the record does not show how it was left."
            )
        elif undone:
            verb = "is" if len(undone) == 1 else "are"
            which = holes_said(undone)
            said.append(
                f"{which[:1].upper()}{which[1:]} {verb} not ticked as done: the record leaves"
                f" {'it' if len(undone) == 1 else 'them'} as found."
            )
    if own is not None and not record.heads:
        said.append("No head is written down on its sheet of tuning.")
    unheard = [one.head for one in record.heads if not one.says.startswith("heard")]
    if unheard:
        said.append(f"Not listened to after the work: the {' and the '.join(unheard)} head.")
    if not record.bag and any(one.done in (OFF, ADDED_OFF) for one in record.parts):
        said.append("Parts came off, and nothing is said of the bag.")
    if not record.warranty:
        said.append("No words of warranty, here or in the terms.")
    return tuple(said)
