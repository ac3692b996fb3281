"""Write every paper of a planned job to a folder, all at once."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from counterhoop.bench.deliver import deliver
from counterhoop.bench.drum_papers import SCHEME_SHEET, drum_papers
from counterhoop.bench.paper_names import folder_name, plain_name
from counterhoop.bench.plan_job import DrumPlan, JobPlan
from counterhoop.bench.read_me import read_me
from counterhoop.bench.survey_papers import job_survey_papers, wrap_papers
from counterhoop.errors import BadInput
from counterhoop.papers.check_sheet import check_sheet_pdf
from counterhoop.papers.facts import sheet_for
from counterhoop.papers.kit_sheet import kit_sheet_pdf
from counterhoop.papers.printer import PrinterCorrection, from_check_sheet
from counterhoop.papers.sheets import ROLL, sheet_of
from counterhoop.quantities.length import parse_length
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import wrap_plans

KIT_SHEET = "kit sheet.pdf"
READ_ME = "READ ME FIRST.txt"
USUAL_PAPER_MM = 0.1
"""Thickness of common office paper (common practice, no source)."""
Progress = Callable[[str, float], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Printing:
    """What templates are printed on, and what the printer does to lengths.

    Attributes
    ----------
    paper : str
        "A4", "A3", "Letter" or "roll".
    correction : PrinterCorrection
        Factors of the printer and the thickness of the paper.
    """

    paper: str = "A4"
    correction: PrinterCorrection = field(
        default_factory=lambda: PrinterCorrection(paper_mm=USUAL_PAPER_MM)
    )

    @classmethod
    def read(cls, *, paper: str = "A4", measured: str = "", thickness: str = "") -> Printing:
        """Read what a person typed.

        Parameters
        ----------
        paper : str
            Name of a paper, upper and lower case alike.
        measured : str
            Both bars of the check sheet, short side first ("179.6 mm, 249.5 mm"); empty for a
            printer that nobody has measured.
        thickness : str
            Of the paper ("0.1 mm").

        Raises
        ------
        BadInput
            For a paper that is not known, a reading without a unit, a bar more than 2 % off.

        Examples
        --------
        >>> Printing.read(paper="letter", measured="179.6 mm, 249.5 mm").paper
        'Letter'
        """
        name = ROLL if paper.strip().casefold() == ROLL else sheet_of(paper).name
        thick = USUAL_PAPER_MM
        if thickness.strip():
            thick = parse_length(thickness, where="thickness").mm
        if not measured.strip():
            return cls(paper=name, correction=PrinterCorrection(paper_mm=thick))
        short, long = _two(measured)
        return cls(
            paper=name,
            correction=from_check_sheet(
                short_read_mm=parse_length(short, where="printer, short side").mm,
                long_read_mm=parse_length(long, where="printer, long side").mm,
                paper_mm=thick,
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What was written.

    Attributes
    ----------
    folder : Path
        Where.
    names : tuple of str
        Papers by their names below it, in the order of use.
    drafts : tuple of str
        A sentence for each drum whose papers say DRAFT.
    first : str
        What to look at first, below the folder.
    """

    folder: Path
    names: tuple[str, ...]
    drafts: tuple[str, ...] = ()
    first: str = ""


def write_papers(
    plan: JobPlan,
    *,
    folder: Path,
    drum: str = "",
    scheme: int = 0,
    printing: Printing | None = None,
    progress: Progress = lambda _says, _share: None,
) -> Written:
    """Make every paper in memory, then put them into the folder all at once or not at all.

    Parameters
    ----------
    plan : JobPlan
        The planned job.
    folder : Path
        Where; one that this program made before is replaced whole.
    drum : str
        Only this drum.
    scheme : int
        This scheme of it instead of the chosen one; the kit sheet is left out then.
    printing : Printing, optional
        A4 on a true printer where nothing is said.

    Raises
    ------
    BadInput
        For a drum or a scheme that is not there, or a folder that holds other files.
    CannotDo
        When a paper cannot be set or the disk refuses.
    """
    printing = printing or Printing()
    job, book = plan.opened.job, plan.opened.shop.book
    picked = _picked(plan, drum=drum, scheme=scheme)
    chosen = {one.key: found for one, found in picked if found is not None}
    places = {key: place for place, key in enumerate((d.key for d in plan.drums), 1)}
    files: dict[str, bytes] = {}
    firsts: list[str] = []
    for done, (one, found) in enumerate(picked):
        progress(f"papers for the {one.key}", done / (len(picked) + 1))
        inside = folder_name(places[one.key], one.key)
        made = drum_papers(
            job, one, found, book=book, paper=printing.paper, correction=printing.correction
        )
        files |= {f"{inside}/{name}": content for name, content in made.items()}
        firsts.append(f"{inside}/{SCHEME_SHEET if SCHEME_SHEET in made else next(iter(made))}")
    progress("papers for the job", len(picked) / (len(picked) + 1))
    top: dict[str, bytes] = {}
    sheet = sheet_for(printing.paper).name if printing.paper == ROLL else printing.paper
    if any("template" in name for name in files):
        top[plain_name(f"check sheet {sheet}.pdf")] = check_sheet_pdf(paper=sheet)
    wraps = wrap_plans(job, tuple(chosen.values()), rules=job.rules)
    if plan.kit is not None and not scheme:
        top[KIT_SHEET] = kit_sheet_pdf(job, plan.kit, paper=printing.paper, wraps=wraps)
    top |= wrap_papers(job, wraps, paper=printing.paper)
    surveyed = [one.surveyed for one, _ in picked]
    top |= job_survey_papers(job, surveyed, chosen, book=book, paper=printing.paper)
    drafts = tuple(_draft(found) for found in chosen.values() if found.draft)
    names = (READ_ME, *top, *files)
    text = read_me(job, tuple(chosen.values()), names=names[1:], drafts=drafts)
    where = deliver({READ_ME: text.encode(), **top, **files}, folder=folder)
    progress("done", 1.0)
    return Written(folder=where, names=names, drafts=drafts, first=firsts[0])


def _picked(plan: JobPlan, *, drum: str, scheme: int) -> list[tuple[DrumPlan, Scheme | None]]:
    """Return the drums that papers are for, each with the scheme they follow, if it has one."""
    drums = (plan.drum(drum),) if drum else plan.drums
    wished = [d for d in drums if d.ranked.shown]
    if scheme and len(wished) != 1:
        names = ", ".join(f'"{d.key}"' for d in wished)
        raise BadInput(
            "which drum is that scheme of",
            given=scheme,
            wanted=f"--drum with one of {names}" if names else "a wish in the survey file",
        )
    return [(d, _scheme_of(d, number=scheme) if d.ranked.shown else None) for d in drums]


def _scheme_of(drum: DrumPlan, *, number: int) -> Scheme:
    every = (*drum.ranked.shown, *(aside.scheme for aside in drum.ranked.set_aside))
    if not number:
        return drum.chosen or drum.ranked.shown[0]
    for scheme in every:
        if scheme.number == number:
            return scheme
    raise BadInput(
        f"the {drum.key} has no scheme of that number",
        given=number,
        wanted=f"a number from 1 to {len(every)}",
    )


def _draft(scheme: Scheme) -> str:
    return (
        f"The papers of the {scheme.drum} say DRAFT: scheme {scheme.number}, code"
        f" {scheme.code}, is not approved."
    )


def _two(measured: str) -> tuple[str, str]:
    for between in (r"\s*;\s*", r"\s*,\s+", r"\s*,\s*"):
        parts = re.split(between, measured.strip())
        if len(parts) == 2 and all(parts):
            return parts[0], parts[1]
    raise BadInput(
        "two readings are wanted, the short side's bar first",
        where="printer",
        given=measured,
        wanted='for example "179.6 mm, 249.5 mm"',
    )
