"""The head-fit sheet: will a head go on, for every end of the job, and a place for the answer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, get_args

from counterhoop.development.flat import End
from counterhoop.papers.facts import Lengths, facts_of, foot_facts, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.printable import set_readable
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.shell.drum import Drum
from counterhoop.shell.job import DrumWanted, Job
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.wish import FinishPlan, KitSnare, SecondHead
from counterhoop.survey.drum_fit import EndFit, fit_of
from counterhoop.survey.drum_survey import EndSurvey, survey_end
from counterhoop.survey.head_fit import Clearance, HeadFit
from counterhoop.survey.head_ways_out import WayOut, other_hoop, ways_out
from counterhoop.survey.head_words import BY_HAND, VERBS, WOULD_TELL, room_words, round_words

BLANK = ""
"""What nobody measured is a line to write on."""
UNMEASURED = "no head was measured"
REFUSED = "refused unless client and restorer both insist"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRow:
    """One end that a head goes on.

    Attributes
    ----------
    said : EndSurvey
        What was read round it.
    fit : EndFit or None
        None when no head was measured for it.
    finish : FinishPlan
        What is to come.
    weather : tuple of str
        What other weather would do to the fit, a sentence each.
    """

    drum: Drum
    end: End
    said: EndSurvey
    fit: EndFit | None
    finish: FinishPlan
    weather: tuple[str, ...] = ()


def fit_rows(job: Job) -> tuple[FitRow, ...]:
    """Return every end of a job that a head goes on, or is to go on."""
    return tuple(
        _row(wanted, end, rules=job.rules)
        for wanted in job.drums
        for end in get_args(End)
        if _has_head(wanted, end)
    )


def _has_head(wanted: DrumWanted, end: End) -> bool:
    drum = wanted.drum
    asked = any(isinstance(wish, SecondHead | KitSnare) for wish in wanted.wishes)
    read = drum.readings.at(end)
    return end == "batter" or drum.heads == 2 or asked or read.head is not None


def _row(wanted: DrumWanted, end: End, *, rules: ShopRules) -> FitRow:
    said = survey_end(wanted.drum, end)
    fit = fit_of(wanted.drum, end, rules=rules, finish=wanted.finish, surveyed=said)
    return FitRow(drum=wanted.drum, end=end, said=said, fit=fit, finish=wanted.finish)


def fit_sheet_pdf(job: Job, rows: Sequence[FitRow], *, paper: str = "A4") -> bytes:
    """Set the sheet on the heads of a job.

    Parameters
    ----------
    rows : sequence of FitRow
        The ends, as ``fit_rows`` gives them.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    return set_readable(
        "fit_sheet", fit_data(job, rows, paper=paper), title=f"Will a head go on, job {job.number}"
    )


def fit_data(job: Job, rows: Sequence[FitRow], *, paper: str = "A4") -> dict[str, Any]:
    """Return what the head-fit sheet says, as plain data."""
    sheet, facts, rules = sheet_for(paper), facts_of(job), job.rules
    floats, snug = (
        print_mm(mm, resolution_mm=CALIPER_MM) for mm in (rules.head_floats_mm, rules.head_snug_mm)
    )
    return {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="head-fit sheet"),
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("paper", "head-fit sheet"),
            ("date", facts.date or NOT_WRITTEN),
            ("measured by", facts.measured_by or NOT_WRITTEN),
            ("shop rules", facts.rules_version),
            ("units", "mm" if job.units == "mm" else "mm, inches beside"),
        ),
        "classes": (
            f"Room on the diameter, collar less shell: {floats} or more floats; {snug} or more "
            "sits snug, and the shell must be round within half of that room; less is tight; "
            "below 0 the head does not go on."
        ),
        "by-hand": BY_HAND,
        "rows": [_end(row, say=Lengths(job.units)) for row in rows],
    }


def _end(row: FitRow, *, say: Lengths) -> dict[str, Any]:
    fit = row.fit
    final = None if fit is None else fit.final
    found = None if fit is None else fit.as_found
    to_come = None if fit is None else fit.to_come
    columns = [_column(row, found, say=say)]
    if to_come is not None:
        columns.append(_column(row, to_come, say=say))
    titles, wrapped = [_over(row)], row.finish.kind == "new wrap"
    if to_come is not None:
        titles.append("over the new wrap" if wrapped else "with the old finish off")
    return {
        "title": f"{row.drum.key}, {row.end} end",
        "head": UNMEASURED if fit is None else fit.head.says,
        "titles": titles,
        "names": _names(row),
        "columns": columns,
        "notes": _notes(row, final),
        "ways": [] if final is None else _ways(final, row.drum, new_wrap=wrapped),
        "weather": row.weather,
    }


def _over(row: FitRow) -> str:
    if row.fit is None:
        return f"as read, {row.drum.circumference.skin}"
    thick = row.drum.finish.thickness_mm
    return f"over the old {row.drum.finish.kind}" if thick else "as found"


def _names(row: FitRow) -> list[str]:
    """What is measured, one line of the table each; the answers follow."""
    across = row.said.across
    shows = across is not None and across.difference_mm >= CALIPER_MM
    return [
        f"shell, largest, at {across.largest_deg:.0f}°" if across and shows else "shell, largest",
        "shell, smallest",
        "shell, girth / π",
        "head, inside its collar",
        "head, outside its rim",
        "counterhoop, inside",
        "as it stands",
        "eased round",
        "hoop over rim",
    ]


def _column(row: FitRow, fit: HeadFit | None, *, say: Lengths) -> list[dict[str, Any]]:
    across = row.said.across
    read = None if fit is None else fit.readings
    largest = None if across is None else across.largest_mm
    smallest = None if across is None else across.smallest_mm
    sizes = [
        largest if fit is None else fit.largest_mm,
        smallest if read is None else read.smallest_mm,
        row.said.girth_mm / math.pi if fit is None else fit.round_mm,
        None if read is None else read.collar_mm,
        None if read is None else read.rim_mm,
        None if read is None else read.hoop_mm,
    ]
    cells = [_size(mm, say=say) for mm in sizes]
    if fit is None:
        return [*cells, *(_answer(BLANK) for _ in range(3))]
    return [*cells, _clear(fit.as_it_stands), _clear(fit.eased_round), _rim(fit)]


def _size(value_mm: float | None, *, say: Lengths) -> dict[str, Any]:
    return _answer(BLANK if value_mm is None else say.length(value_mm, resolution_mm=CALIPER_MM))


def _answer(says: str, *, strong: str = "", close: bool = False) -> dict[str, Any]:
    return {"strong": strong, "says": says, "close": close}


def _clear(clearance: Clearance | None) -> dict[str, Any]:
    if clearance is None:
        return _answer("not known: only a tape was read")
    return _answer(
        _room(clearance.clear_mm, doubt_mm=clearance.doubt_mm),
        strong=VERBS[clearance.fit],
        close=clearance.too_close,
    )


def _rim(fit: HeadFit) -> dict[str, Any]:
    clear = fit.rim_clear_mm
    if clear is None:
        return _answer(BLANK)
    return _answer(
        _room(clear, doubt_mm=fit.rim_doubt_mm),
        strong="goes over" if clear >= 0.0 else "does not go over",
        close=abs(clear) <= fit.rim_doubt_mm,
    )


def _room(clear_mm: float, *, doubt_mm: float) -> str:
    room = room_words(clear_mm).removesuffix(" on the diameter")
    doubt = print_mm(doubt_mm, resolution_mm=CALIPER_MM).replace(" ", "\u00a0")
    return f"{room}, ±\u00a0{doubt}"


def _notes(row: FitRow, final: HeadFit | None) -> list[str]:
    notes = []
    girths = dict(row.drum.circumference.readings_mm)
    if row.end not in girths:
        notes.append(f"No girth was read at this end: {_girth_from(row.drum)}.")
    if row.said.across is None:
        notes.append(WOULD_TELL)
    if final is not None and final.readings.wrap_mm:
        notes.append("The wrap's overlap is counted where it makes the shell widest.")
    if final is not None and not final.round_enough:
        notes.append(round_words(final))
    return notes


def _girth_from(drum: Drum) -> str:
    return (
        "its diameters gave it" if drum.circumference.from_diameters else "the shell's mean is used"
    )


def _ways(fit: HeadFit, drum: Drum, *, new_wrap: bool) -> list[dict[str, Any]]:
    hoop = other_hoop(fit)
    found = [*ways_out(fit, wall_mm=drum.wall_mm, new_wrap=new_wrap)]
    found += [] if hoop is None else [hoop]
    return [_way(way) for way in sorted(found, key=lambda way: way.refused)]


def _way(way: WayOut) -> dict[str, Any]:
    return {
        "does": way.does if way.enough else f"{way.does} Not enough alone.",
        "gains": print_mm(way.gains_mm, resolution_mm=CALIPER_MM),
        "costs": way.costs,
        "undone": f"{way.undone}; {REFUSED}" if way.refused else way.undone,
    }
