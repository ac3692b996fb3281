"""Write every paper of a planned job to a folder, all at once."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from counterhoop.bench.deliver import deliver
from counterhoop.bench.paper_set import paper_set
from counterhoop.bench.plan_job import JobPlan, Progress
from counterhoop.bench.printing import Printing


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
    papers = paper_set(plan, drum=drum, scheme=scheme, printing=printing or Printing())
    where = deliver(papers.made(progress=progress), folder=folder)
    progress("done", 1.0)
    return Written(
        folder=where, names=tuple(papers.makers), drafts=papers.drafts, first=papers.first
    )
