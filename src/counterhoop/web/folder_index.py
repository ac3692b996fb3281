"""The margin index of a job: its sheets in the order of the work, drum by drum."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptDrum, KeptJob


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One line of the index.

    Attributes
    ----------
    href, says : str
        Where it leads, and what it is called.
    note : str
        A word beside it.
    deeper : bool
        Whether it belongs to the drum above it.
    here : bool
        Whether it is the page that is open.
    other : bool
        Whether it leads to another drum than the one that is open: a narrow screen leaves it to
        the folder's own page.
    """

    href: str
    says: str
    note: str = ""
    deeper: bool = False
    here: bool = False
    other: bool = False


SHEETS_OF_A_DRUM = (
    ("", "What it is"),
    ("/shell", "Shell"),
    ("/schemes", "Schemes"),
    ("/parts", "Parts"),
    ("/bench", "On the bench"),
    ("/tuned", "Tuned"),
    ("/listing", "For sale"),
)


def job_address(job: KeptJob) -> str:
    """Return the address of a folder."""
    return f"/jobs/{job.id}"


def drum_address(job: KeptJob, drum: KeptDrum) -> str:
    """Return the address of a drum's first sheet."""
    return f"{job_address(job)}/drums/{drum.id}"


def folder_index(job: KeptJob, *, here: str, drum: KeptDrum | None = None) -> list[Sheet]:
    """Return the lines of the index; only the drum that is open shows its sheets.

    Parameters
    ----------
    here : str
        The path of the page that is open.
    drum : KeptDrum, optional
        The drum that it is about.
    """
    folder = job_address(job)
    lines = [Sheet(href=folder, says="Booked in", here=here == folder)]
    for one in job.drums:
        top = drum_address(job, one)
        if drum is None or one.id != drum.id:
            lines.append(Sheet(href=top, says=one.name, other=drum is not None))
            continue
        lines.append(Sheet(href=top, says=one.name, note="open"))
        lines += [
            Sheet(href=top + end, says=says, deeper=True, here=here == top + end)
            for end, says in SHEETS_OF_A_DRUM
        ]
    parts = f"{folder}/parts"
    lines.append(Sheet(href=parts, says="Parts of the job", here=here == parts))
    wrap = f"{folder}/wrap"
    lines.append(Sheet(href=wrap, says="Wrap and finish", here=here == wrap))
    price = f"{folder}/price"
    lines.append(Sheet(href=price, says="Price and date", here=here == price))
    tuned = f"{folder}/tuned"
    lines.append(Sheet(href=tuned, says="The kit tuned", here=here == tuned))
    handed = f"{folder}/handed-over"
    lines.append(Sheet(href=handed, says="Handed over", here=here == handed))
    return lines
