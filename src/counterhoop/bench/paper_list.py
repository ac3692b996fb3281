"""Which papers a planned job has, and what each is for, without making one."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.bench.known import Known
from counterhoop.bench.paper_names import folder_name
from counterhoop.bench.paper_set import paper_set
from counterhoop.bench.paper_sorts import media_type, sort_of
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.printing import Printing


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperListed:
    """One paper that can be made.

    Attributes
    ----------
    name : str
        Below the folder of papers ("1 small tom/2 hole list.pdf"); it is asked for by this.
    drum : str
        Whose it is; empty for a paper of the whole job.
    says : str
        What it is for.
    media_type : str
        Of its file.
    """

    name: str
    drum: str
    says: str
    media_type: str


def listed_papers(
    plan: JobPlan,
    *,
    drum: str = "",
    scheme: int = 0,
    printing: Printing | None = None,
    known: Known | None = None,
) -> tuple[PaperListed, ...]:
    """List the papers that ``paper_set`` would make, in the order of use.

    Parameters
    ----------
    plan : JobPlan
        The planned job.
    drum : str
        Only this drum, and the job's papers as far as they are about it.
    scheme : int
        This scheme of it instead of the chosen one.
    printing : Printing, optional
        Its paper's size stands in some names.
    known : Known, optional
        What a store knows of the job beside its survey.

    Raises
    ------
    BadInput
        For a drum or a scheme that is not there.
    """
    papers = paper_set(plan, drum=drum, scheme=scheme, printing=printing, known=known)
    folders = {folder_name(place, d.key): d.key for place, d in enumerate(plan.drums, 1)}
    return tuple(
        PaperListed(
            name=name,
            drum=folders.get(name.rpartition("/")[0], ""),
            says=sort_of(name).says,
            media_type=media_type(name),
        )
        for name in papers.makers
    )
