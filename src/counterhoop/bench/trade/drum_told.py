"""A drum as it is told to a buyer: the facts of its folder, as found or as it was left."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any, Final

from counterhoop.bench.change.found import found_on
from counterhoop.bench.evidence.dating import Dating
from counterhoop.bench.evidence.drum_features import KEPT_AS, MAKER, SERIAL
from counterhoop.bench.folders.drum_state import state_of_drum
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import ARRIVAL, FACTS, LISTING, SURVEY
from counterhoop.bench.plan_job import DrumPlan, JobPlan
from counterhoop.bench.record.record_of import DrumRecord, record_of
from counterhoop.bench.record.story import BY_THE_LOG, agreed_said, found_said
from counterhoop.bench.record.sure import dated
from counterhoop.bench.trade.features_typed import called_size
from counterhoop.bench.trade.holes_told import extra_holes
from counterhoop.bench.trade.parts_told import parts_told
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.evidence.words import carries_words
from counterhoop.job.trade.facts import DrumFacts
from counterhoop.quantities.length import MM_PER_INCH
from counterhoop.shell.drum import Drum, DrumKind

CALLED: Final = {
    DrumKind.SNARE.value: "snare drum",
    DrumKind.MARCHING_SNARE.value: "marching snare drum",
    DrumKind.OTHER.value: "drum",
}
FINISHED: Final = {
    "clear lacquer": "new clear lacquer",
    "paint": "new paint",
    "new wrap": "new wrap",
}
PESTS: Final = ("woodworm", "mould", "smell")
WIDE_YEARS: Final = 25
"""Years further apart than this do not date a drum. Common practice, no source."""


def facts_told(shop: Workshop, job: KeptJob, drum: KeptDrum, plan: JobPlan | None) -> DrumFacts:
    """Return a drum's facts for its listing.

    Parameters
    ----------
    plan : JobPlan or None
        Of the job; without it nothing is said of holes and edges.

    Raises
    ------
    BadInput
        While nobody has said how large it is.
    """
    record = next(one for one in record_of(shop, job, plan) if one.drum.id == drum.id)
    own = next((one for one in plan.drums if one.key == drum.name), None) if plan else None
    found = own.wanted.drum if own else None
    dating = dated(shop, job, drum)
    table, facts = drum.kept(SURVEY).table, drum.kept(FACTS).table
    dia_in, deep_in = sizes_in(table, found)
    typed = drum.kept(LISTING).table
    said, later = record.record, found_on(drum)
    # Who said yes to what is the client's affair, and no buyer's.
    plain = dict(
        zip(found_said(found, later), found_said(found, later, with_answers=False), strict=True)
    )
    agreed = agreed_said(state_of_drum(drum))
    return DrumFacts(
        kind=kind_called(table),
        dia_in=dia_in,
        deep_in=deep_in,
        line=line_said(facts),
        serial=_says(facts, SERIAL),
        made=made_said(dating),
        shell=_shell(found, facts),
        finish=_finish(record, own, facts),
        edges="; ".join(f"{end}: {_small(words)}" for end, words in said.edges),
        parts=parts_told(found, dating, said.parts),
        holes_counted=bool(table) and drum.kept(SURVEY).as_found is not None and own is not None,
        extra_holes=extra_holes(record.left or own.found) if own else (),
        faults=tuple(
            dict.fromkeys(
                (
                    *(plain[line] for line in said.found if line in plain),
                    *_pests(job, drum),
                    *_lines(typed, "faults"),
                )
            )
        ),
        # Nor is the log of work.
        as_it_came=tuple(line for line in said.found if line not in plain),
        work_done=tuple(
            line for line in said.story if line not in agreed and not line.startswith(BY_THE_LOG)
        ),
        comes_with=(*said.bag, *_lines(typed, "comes_with")),
        not_known=(*_not_told(said.not_known), *_lines(typed, "not_known")),
    )


def kind_called(survey: Mapping[str, Any]) -> str:
    """Return what one calls a drum's kind."""
    kind = survey.get("kind")
    return CALLED.get(kind, kind) if isinstance(kind, str) and kind else DrumKind.TOM.value


def sizes_in(survey: Mapping[str, Any], found: Drum | None) -> tuple[float, float]:
    """Return diameter and depth in inches as the drum is called.

    Raises
    ------
    BadInput
        While its survey says no size.
    """
    size = survey.get("size")
    if isinstance(size, str) and size.strip():
        read = called_size(size)
        return _inches(read.dia.mm), _inches(read.deep.mm)
    if found is not None and found.nominal_diameter_mm:
        return _inches(found.nominal_diameter_mm), _inches(found.depth_mm)
    raise BadInput(
        "nobody has said how large it is", where="size", wanted='"14 dia x 6.5 deep"',
        step="Write its size on the sheet Shell.",
    )  # fmt: skip


def _inches(size_mm: float) -> float:
    """Return a size as a drum is called: in quarters of an inch."""
    return round(4.0 * size_mm / float(MM_PER_INCH)) / 4.0


def line_said(facts: Mapping[str, Any]) -> str:
    """Return family and line of a drum, as far as its sheet of facts says them."""
    maker = facts.get(MAKER)
    told = maker if isinstance(maker, dict) else {}
    family, line = (_text(told.get(word)) for word in ("family", "line"))
    words = line if family and line.casefold().startswith(family.casefold()) else f"{family} {line}"
    return words.strip() or _text(told.get("says"))


def made_said(dating: Dating | None) -> str:
    """Return when a drum was made and by what one knows it; nothing where nobody can tell."""
    if dating is None:
        return ""
    span = dating.found.spans[0.8]
    if span.wide > WIDE_YEARS:
        return ""
    rests = carries_words(dating.found).rstrip(".")
    front = "This rests on "
    by = rests.removeprefix(front).replace("then on the", "then the")
    by = f", by {by}" if rests.startswith(front) else ""
    return f"most likely {span} (4 in 5){by}"


def _shell(found: Drum | None, facts: Mapping[str, Any]) -> str:
    plies = _says(facts, KEPT_AS["shell make-up"])
    if plies:
        # A bare number of plies says nothing to who does not know what is counted.
        return re.sub(r"^(\d+)(?=,|$)", r"\1 plies", plies)
    if found is None:
        return ""
    counted = f", {found.plies} plies" if found.plies else ""
    rings = f", {len(found.rings)} ring{'s'[: len(found.rings) != 1]}" if found.rings else ""
    return f"{found.material.value}{counted}{rings}"


def _finish(record: DrumRecord, own: DrumPlan | None, facts: Mapping[str, Any]) -> str:
    left = record.left
    if left is not None and left.finish.kind != "stays":
        return f"{FINISHED[left.finish.kind]}, put on by us"
    return finish_said(own.wanted.drum if own else None, facts)


def finish_said(found: Drum | None, facts: Mapping[str, Any]) -> str:
    """Return the finish as found, in the words of the sheet of facts or of the survey."""
    said = _says(facts, KEPT_AS["wrap"])
    if said or found is None:
        return said
    return f"{found.finish.kind}, {found.finish.says}" if found.finish.says else found.finish.kind


def _pests(job: KeptJob, drum: KeptDrum) -> Iterable[str]:
    """Yield what was found when the job came in, unless it names another of its drums."""
    arrival = job.kept(ARRIVAL).table
    others = [one.name.casefold() for one in job.drums if one.id != drum.id]
    for name in PESTS:
        held = arrival.get(name)
        told = held if isinstance(held, dict) else {}
        says = _text(told.get("says"))
        own = drum.name.casefold() in says.casefold()
        elsewhere = any(other in says.casefold() for other in others) and not own
        if told.get("found") == "yes" and not elsewhere:
            whole = "" if own or not others else " (said of the whole job)"
            yield f"{name} when it came in{whole}{': ' + says if says else ''}"


def _not_told(said: Iterable[str]) -> Iterable[str]:
    """Yield what a listing does not say by itself: years, parts and holes it names anyway."""
    fixed = ("When it was made.", "Who made hole")
    return (one for one in said if not one.startswith(fixed) and " is its own." not in one)


def _lines(table: Mapping[str, Any], name: str) -> tuple[str, ...]:
    text = table.get(name)
    lines = text.splitlines() if isinstance(text, str) else ()
    return tuple(line.strip() for line in lines if line.strip())


def _says(facts: Mapping[str, Any], key: str) -> str:
    held = facts.get(key)
    return _text(held.get("says")) if isinstance(held, dict) else ""


def _text(value: Any) -> str:
    return " ".join(value.split()) if isinstance(value, str) else ""


def _small(words: str) -> str:
    return f"{words[:1].lower()}{words[1:].rstrip('.')}"
