"""The papers of a planned job by their names, each made when it is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from counterhoop.bench.drum_papers import drum_papers
from counterhoop.bench.evidence.identity_papers import identity_papers
from counterhoop.bench.known import Known
from counterhoop.bench.paper_names import folder_name
from counterhoop.bench.paper_sorts import (
    KIT_SHEET,
    READ_ME,
    SCHEME_SHEET,
    Maker,
    check_sheet_name,
)
from counterhoop.bench.parts_papers import drum_parts_papers, wants_papers
from counterhoop.bench.plan_job import DrumPlan, JobPlan, Progress
from counterhoop.bench.printing import Printing
from counterhoop.bench.read_me import read_me
from counterhoop.bench.survey_papers import job_survey_papers, wrap_papers
from counterhoop.bench.tune_papers import tuned_papers, tuning_papers
from counterhoop.errors import BadInput
from counterhoop.papers.check_sheet import check_sheet_pdf
from counterhoop.papers.facts import sheet_for
from counterhoop.papers.kit_sheet import kit_sheet_pdf
from counterhoop.papers.sheets import ROLL
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.wrapping import WrapPlan, wrap_plans


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSet:
    """Papers that go together into one folder.

    Attributes
    ----------
    makers : dict of str to callable
        By the papers' names below the folder, in the order of use.
    drafts : tuple of str
        A sentence for each drum whose papers say DRAFT.
    first : str
        What to look at first.
    """

    makers: dict[str, Maker]
    drafts: tuple[str, ...]
    first: str

    def made(self, *, progress: Progress = lambda _says, _share: None) -> dict[str, bytes]:
        """Make all papers.

        Raises
        ------
        CannotDo
            When one cannot be set.
        """
        files: dict[str, bytes] = {}
        for name, maker in self.makers.items():
            progress(name, len(files) / len(self.makers))
            files[name] = maker()
        return files

    def made_one(self, name: str) -> bytes:
        """Make one paper.

        Raises
        ------
        BadInput
            When there is no paper of that name.
        CannotDo
            When it cannot be set.
        """
        if name not in self.makers:
            raise BadInput(
                "no paper of that name", given=name, wanted="one of the papers of this job"
            )
        return self.makers[name]()


def paper_set(
    plan: JobPlan, *, drum: str = "", scheme: int = 0, printing: Printing | None = None,
    known: Known | None = None,
) -> PaperSet:  # fmt: skip
    """Return the papers of a planned job, none of them made yet.

    Parameters
    ----------
    plan : JobPlan
        The planned job.
    drum : str
        Only this drum.
    scheme : int
        This scheme of it instead of the chosen one; the kit's own sheets are left out then.
    printing : Printing, optional
        A4 on a true printer where nothing is said.
    known : Known, optional
        What a store knows of the job beside its survey.

    Raises
    ------
    BadInput
        For a drum or a scheme that is not there.
    """
    printing, known = printing or Printing(), known or Known()
    job, book, paper = plan.opened.job, plan.opened.shop.book, printing.paper
    picked = _picked(plan, drum=drum, scheme=scheme)
    chosen = {one.key: found for one, found in picked if found is not None}
    places = {key: place for place, key in enumerate((d.key for d in plan.drums), 1)}
    inside: dict[str, Maker] = {}
    firsts: list[str] = []
    for one, found in picked:
        folder = folder_name(places[one.key], one.key)
        of_drum = drum_papers(
            job, one, found, book=book, paper=paper, correction=printing.correction
        )
        of_drum |= tuned_papers(job, one, paper=paper)
        of_drum |= identity_papers(job, one.surveyed.drum, known=known, book=book, paper=paper)
        of_drum |= drum_parts_papers(
            job, one, found, shop=plan.opened.shop, told=known.parts, paper=paper
        )
        inside |= {f"{folder}/{name}": maker for name, maker in of_drum.items()}
        clients = SCHEME_SHEET.named()
        firsts.append(f"{folder}/{clients if clients in of_drum else next(iter(of_drum))}")
    top: dict[str, Maker] = {}
    sheet = sheet_for(paper).name if paper == ROLL else paper
    if any("template" in name for name in inside):
        top[check_sheet_name(sheet)] = lambda: check_sheet_pdf(paper=sheet)
    schemes = tuple(chosen.values())

    @cache
    def wraps() -> tuple[WrapPlan, ...]:
        return wrap_plans(job, schemes, rules=job.rules)

    if (kit := plan.kit) is not None and not scheme:
        top[KIT_SHEET.named()] = lambda: kit_sheet_pdf(job, kit, paper=paper, wraps=wraps())
    top |= wrap_papers(job, schemes, wraps=wraps, paper=paper)
    surveyed = [one.surveyed for one, _ in picked]
    top |= job_survey_papers(job, surveyed, chosen, book=book, paper=paper)
    top |= wants_papers(
        job,
        [one for one, _ in picked],
        chosen,
        shop=plan.opened.shop,
        told=known.parts,
        paper=paper,
    )
    if not scheme:
        top |= tuning_papers(plan, paper=paper)
    drafts = tuple(_draft(found) for found in schemes if found.draft)
    names = (*top, *inside)
    makers = {
        READ_ME.named(): lambda: read_me(job, schemes, names=names, drafts=drafts).encode(),
        **top,
        **inside,
    }
    return PaperSet(makers=makers, drafts=drafts, first=firsts[0])


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
