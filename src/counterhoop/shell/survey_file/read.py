"""Read a survey file: from text to a job, or one clear line about what is wrong."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from counterhoop.errors import BadInput, Finding
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.pitch import A4_HZ
from counterhoop.shell.approval import Approval
from counterhoop.shell.job import DrumWanted, Job
from counterhoop.shell.survey_file.faults import Faults, faults_of
from counterhoop.shell.survey_file.gate import toml_tables
from counterhoop.shell.survey_file.models_job import JobWritten, SurveyWritten
from counterhoop.shell.survey_file.resolve_drum import resolve_drum
from counterhoop.shell.survey_file.resolve_shop import resolve_figures, resolve_rules
from counterhoop.shell.survey_file.resolve_tuning import drums_in_kit, kit_a4_hz, resolve_kit
from counterhoop.shell.survey_file.resolve_wrap import resolve_wraps


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyRead:
    """What a survey file says.

    Attributes
    ----------
    job : Job
        Drums as found, wishes, stock, rules.
    findings : dict of str to tuple of Finding
        What the readings of each drum say against each other, by the drum's name.
    """

    job: Job
    findings: dict[str, tuple[Finding, ...]]


def read_survey(text: str, *, name: str) -> SurveyRead:
    """Read a survey file.

    Parameters
    ----------
    text : str
        The whole file, as ``survey_bytes`` gives it.
    name : str
        What the file is called, for the messages.

    Returns
    -------
    SurveyRead

    Raises
    ------
    BadInput
        One line about the first fault in the order of the file: file, line, place, what was
        found, what was wanted, a near spelling. ``faults`` on it lists all that were found.

    Examples
    --------
    >>> read_survey('format = 1', name="kit.toml")
    Traceback (most recent call last):
        ...
    counterhoop.shell.survey_file.faults.BadSurvey: kit.toml, job: nothing is written for it: \
wanted a table [job] with number = "24-017"
    """
    return read_tables(toml_tables(text, name=name), name=name, text=text)


def read_tables(raw: dict[str, Any], *, name: str = "", text: str = "") -> SurveyRead:
    """Read the tables of a survey, wherever they were written.

    Parameters
    ----------
    raw : dict
        As TOML gives them; days may be texts, as JSON has them.
    name : str
        What the file is called, for the messages; empty where there is none.
    text : str
        The file that they come from, for the lines that messages name.

    Raises
    ------
    BadInput
        As ``read_survey``.
    """
    faults = Faults(text=text, name=name)
    try:
        written = SurveyWritten.model_validate(raw)
    except ValidationError as error:
        for fault in faults_of(error, raw=raw, model=SurveyWritten):
            faults.add(fault)
        faults.raise_if_any()
        raise
    rules = resolve_rules(written.rules, faults=faults)
    figures = resolve_figures(
        prices=written.prices,
        wraps={name: wrap.price for name, wrap in written.wraps.items() if wrap.price},
        minutes=written.minutes,
        cure=written.cure,
        faults=faults,
    )
    wraps = resolve_wraps(written.wraps, faults=faults)
    kit, a4_hz = None, A4_HZ
    try:
        kit, a4_hz = resolve_kit(written.kit), kit_a4_hz(written.kit)
    except BadInput as fault:
        faults.add(fault)
    _check_names(written, faults=faults)
    _check_wraps(written, faults=faults)
    drums: list[DrumWanted] = []
    findings: dict[str, tuple[Finding, ...]] = {}
    for key, drum in written.drums.items():
        made = resolve_drum(
            key,
            drum,
            tape=written.job.tape,
            air=written.job.air,
            wraps=wraps,
            rules=rules,
            a4_hz=a4_hz,
            faults=faults,
        )
        if made is not None:
            drums.append(made[0])
            findings[key] = made[1]
    match = tuple(one.drums for one in written.match)
    faults.raise_if_any()
    return SurveyRead(
        job=Job(
            **_job(written.job),
            drums=tuple(drums),
            match=match,
            kit=kit,
            stock=tuple(written.stock.items()),
            wraps=tuple(wraps.values()),
            rules=rules,
            figures=figures,
            approvals=tuple(
                Approval(
                    drum=one.drum,
                    who=one.who,
                    when=one.when,
                    how=one.how,
                    covers=one.covers,
                    scheme=one.scheme,
                    lines=one.lines,
                    taken_back=one.taken_back,
                    taken_back_how=one.taken_back_how,
                )
                for one in written.approval
            ),
        ),
        findings=findings,
    )


def _job(written: JobWritten) -> dict[str, Any]:
    return {
        "number": written.number,
        "client": written.client,
        "owner": written.owner,
        "date": written.date,
        "measured_by": written.measured_by,
        "units": written.units,
        "story": written.story,
        "book_files": written.book,
    }


def _check_names(written: SurveyWritten, *, faults: Faults) -> None:
    """Note drums whose names cannot be told apart, and drums named that are not there."""
    seen: dict[str, str] = {}
    for key in written.drums:
        where = f"drums.{key}"
        plain = key.casefold()
        if plain in seen:
            faults.add(
                BadInput(
                    "two drums of one name",
                    where=where,
                    given=key,
                    wanted="names that differ by more than capitals",
                )
            )
        seen[plain] = key
    grouped: dict[str, int] = {}
    for index, group in enumerate(written.match, 1):
        for number, drum in enumerate(group.drums, 1):
            where = f"match[{index}].drums[{number}]"
            _check_drum(drum, written, where=where, faults=faults)
            if group.drums.index(drum) != number - 1:
                faults.add(BadInput("the same drum twice", where=where, given=drum))
            elif grouped.setdefault(drum, index) != index:
                faults.add(
                    BadInput(
                        "a drum in two groups that must match",
                        where=where,
                        given=drum,
                        wanted="each drum in one group",
                    )
                )
    for where, drum in drums_in_kit(written.kit):
        _check_drum(drum, written, where=where, faults=faults)
    for index, approval in enumerate(written.approval, 1):
        _check_drum(approval.drum, written, where=f"approval[{index}].drum", faults=faults)


def _check_wraps(written: SurveyWritten, *, faults: Faults) -> None:
    """Note finish plans with a wrap that is not in the file."""
    known = {name.casefold() for name in written.wraps}
    for key, drum in written.drums.items():
        named = drum.finish_plan.wrap
        if named is not None and named.casefold() not in known:
            faults.add(
                BadInput(
                    "no such wrap in this file",
                    where=f"drums.{key}.finish_plan.wrap",
                    given=named,
                    wanted=f'the name of one of its wraps, [wraps."{named}"]',
                    step=did_you_mean(named, written.wraps),
                )
            )


def _check_drum(drum: str, written: SurveyWritten, *, where: str, faults: Faults) -> None:
    if drum not in written.drums:
        faults.add(
            BadInput(
                "no such drum in this file",
                where=where,
                given=drum,
                wanted="one of its drums by name",
                step=did_you_mean(drum, written.drums),
            )
        )
