"""The record of a job as a folder of plain files, which opens without this program."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from counterhoop.bench.folders.album import Photograph
from counterhoop.bench.folders.folder import KeptJob
from counterhoop.bench.folders.photographs import pieces_of, small_picture
from counterhoop.bench.folders.survey_file import survey_files
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.paper_names import folder_name, plain_name
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.price.bills import bills_of_job
from counterhoop.bench.record.bill_kept import bill_name, bill_paper
from counterhoop.bench.record.holes_csv import holes_csv
from counterhoop.bench.record.index_page import DrumPage, Picture, Place, index_page
from counterhoop.bench.record.record_of import DrumRecord
from counterhoop.bench.record.sides import Sides
from counterhoop.bench.workshop import Workshop
from counterhoop.quantities.day import say_day
from counterhoop.store.enclosures.media_type import SUFFIXES
from counterhoop.store.running.bills import Bill

ANY_BROWSER = frozenset({"image/jpeg", "image/png"})
"""What will open in twenty years; of anything else a JPEG lies beside it."""
LARGE_PX = 2400
READ_ME = "READ ME.txt"
INDEX = "index.html"

Pieces = Iterable[bytes]


@dataclass(slots=True)
class _Folder:
    """Files by their names, each to be read when its turn comes."""

    files: dict[str, Pieces] = field(default_factory=dict)

    def put(self, name: str, pieces: Pieces) -> str:
        self.files[name] = pieces
        return name


def record_name(job: KeptJob) -> str:
    """Return what the folder is called."""
    number = plain_name(str(job.job.get("number") or job.title))
    return f"record {number}".strip()


def named_drums(records: Sequence[DrumRecord]) -> tuple[tuple[str, DrumRecord], ...]:
    """Return the records with the folder of each drum."""
    return tuple((folder_name(n, one.drum.name), one) for n, one in enumerate(records, 1))


def folder_out(
    shop: Workshop, job: KeptJob, records: Sequence[DrumRecord], papers: Sequence[Paper], *,
    plan: JobPlan | None,
) -> Iterator[tuple[str, Pieces]]:  # fmt: skip
    """Return the files of the folder by their names, ready to be packed.

    Parameters
    ----------
    records : sequence of DrumRecord
        Of every drum.
    papers : sequence of Paper
        Their records and care sheets, below the folders of ``named_drums``.
    plan : JobPlan or None
        For the holes of drums that were only surveyed.
    """
    inside = _Folder()
    drums = []
    for folder, one in named_drums(records):
        own = [paper for paper in papers if paper.name.startswith(f"{folder}/")]
        files = [(_says(one.name), inside.put(one.name, [one.content])) for one in own]
        if (rows := _holes(one, plan)) is not None:
            name = inside.put(f"{folder}/holes.csv", [rows.encode()])
            files.append(("List of the holes", name))
        places = tuple(_places(shop, inside, folder, one.sides))
        drums.append(_drum(one, files=tuple(files), places=places))
    also = [("Survey", inside.put(f"survey/{name}", [content]))
            for name, content in survey_files(shop, job.id, for_client=True).items()]  # fmt: skip
    bills = bills_of_job(shop, job)
    given: list[Bill] = [*bills.invoices, *bills.receipts, *bills.credits]
    for bill in given:
        name = bill_name(bill)
        content = bill_paper(shop, job, bill)
        also.append(
            (name.removesuffix(".pdf").capitalize(), inside.put(f"bills/{name}", [content]))
        )
    title = f"Record of job {job.job.get('number') or job.title}"
    said = [_made(records)] if records else []
    page = index_page(title=title, says=said, drums=drums, files=also)
    first = {INDEX: [page.encode()], READ_ME: [_read_me(title, said).encode()]}
    top = record_name(job)
    for name, pieces in {**first, **inside.files}.items():
        yield f"{top}/{name}", pieces


def _places(
    shop: Workshop, inside: _Folder, folder: str, sides: Iterable[Sides]
) -> Iterator[Place]:
    for number, side in enumerate(sides, 1):

        def put(one: Photograph | None, when: str, *, n: int = number, at: str = side.place) -> (
            Picture | None
        ):  # fmt: skip
            if one is None:
                return None
            stem = f"{folder}/photographs/{n:02} {plain_name(at)}, {when}"
            kind = one.lies.file.media_type
            href = inside.put(f"{stem}{SUFFIXES[kind]}", pieces_of(shop, one.lies))
            if kind not in ANY_BROWSER:
                href = inside.put(f"{stem}.jpg", _as_jpeg(shop, one))
            says = f"{when.capitalize()}: {one.says}" if one.says else when.capitalize()
            return Picture(href=href, says=says, shows=one.shows)

        yield Place(
            name=side.place[:1].upper() + side.place[1:],
            before=put(side.before, "as found"),
            after=put(side.after, "as left"),
        )


def _as_jpeg(shop: Workshop, one: Photograph) -> Iterator[bytes]:
    yield small_picture(shop, one.lies, longest_px=LARGE_PX)


def _holes(one: DrumRecord, plan: JobPlan | None) -> str | None:
    own = next((drum for drum in plan.drums if drum.key == one.drum.name), None) if plan else None
    layout = one.left or (own.found if own else None)
    return holes_csv(layout) if layout is not None else None


def _drum(
    one: DrumRecord, *, files: tuple[tuple[str, str], ...], places: tuple[Place, ...]
) -> DrumPage:
    record = one.record
    sure = [f"{says}: {how}" if how else says for says, how in record.sure]
    parts = [(part.part, part.done, part.says) for part in record.parts]
    heads = [(head.head, head.what, head.pitch, head.says) for head in record.heads]
    told = (
        ("What it is, and how sure", sure),
        ("What was found", record.found),
        ("What was done", record.story),
        ("Edges", [f"{edge.capitalize()}: {says}" for edge, says in record.edges]),
        ("Parts", [", ".join(filter(None, part)) for part in parts]),
        ("In the bag", record.bag),
        ("Heads", [", ".join(filter(None, head)) for head in heads]),
        ("What could not be known", record.not_known),
        ("Care", (*record.care, *record.cautions)),
        ("Warranty", [record.warranty] if record.warranty else []),
    )
    return DrumPage(
        name=one.drum.name[:1].upper() + one.drum.name[1:], what=record.what,
        told=tuple((heading, tuple(lines)) for heading, lines in told), files=files, places=places,
    )  # fmt: skip


def _says(name: str) -> str:
    return name.rpartition("/")[2].removesuffix(".pdf").capitalize()


def _made(records: Sequence[DrumRecord]) -> str:
    head = records[0].record.head
    to = f", for {head.client}" if head.client else ""
    return f"Handed over by {head.shop}{to}, {say_day(head.date)}."


def _read_me(title: str, said: Sequence[str]) -> str:
    return "\n".join([title, *said, "", *READ_ME_SAYS, ""])


READ_ME_SAYS = (
    "Open index.html in any browser: it needs neither the internet nor any program of ours.",
    "",
    "In this folder:",
    "",
    "  a folder for each drum, with",
    "    handover record.pdf  what was found, done and kept (PDF/A, made to be kept)",
    "    care sheet.pdf       how to look after it",
    "    holes.csv            every hole: where, how large, who made it; opens in a spreadsheet",
    "    photographs          as they were taken, from the same places before and after",
    "  survey                 what was measured, as plain text (TOML)",
    "  bills                  invoices, receipts and credit notes, where there are any",
    "",
    "Lengths are in millimetres. Along is counted in degrees from the pencil tick inside the",
    "shell, to the right as one looks at the outside with the batter edge up; down is measured",
    "from the batter edge.",
    "",
    "Keep two copies in two places. Nothing in it can be changed by opening it.",
)
