"""What the store keeps: jobs in and out, and copies of everything."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterhoop.cli.options import DataFolder, StoreAddress, SurveyFile

if TYPE_CHECKING:
    from counterhoop.bench.workshop import Workshop

BENCH = "the command line"
"""The bench that stands in the record for what a command wrote."""

store_app = typer.Typer(
    help="Look the store over.", no_args_is_help=True, rich_markup_mode=None, add_completion=False
)


@contextmanager
def workshop(store: str, data: Path | None) -> Iterator[Workshop]:
    """Open the workshop for one command; whatever it works out, it works out itself."""
    from counterhoop.bench.long_work.at_once import WorksAtOnce
    from counterhoop.bench.workshop import open_workshop

    with open_workshop(store=store, data=data, works=WorksAtOnce()) as opened:
        yield opened


def jobs(data: DataFolder = None, store: StoreAddress = "") -> None:
    """List the jobs that the store keeps, the last changed first."""
    from counterhoop.bench.folders.first_page import on_the_bench

    with workshop(store, data) as shop:
        listed = on_the_bench(shop)
    for job in listed:
        typer.echo(f"{job.id}  {job.title}")
        typer.echo(f"    {', '.join(job.drums) or 'no drum yet'}. {job.says}")
    if not listed:
        typer.echo("No job is kept there yet.")


def take_in(survey: SurveyFile, data: DataFolder = None, store: StoreAddress = "") -> None:
    """Put a survey file into the store as a job's folder.

    The file is kept as it is, with the fittings books it names, and comes out again byte for byte
    while nothing has changed. The file itself is left alone.
    """
    from counterhoop.bench.folders.folder import kept_job
    from counterhoop.bench.folders.survey_file import take_in_file

    with workshop(store, data) as shop:
        job_id = take_in_file(shop, survey, by=BENCH)
        title = kept_job(shop, job_id).title
    typer.echo(f"{title} is in the store, as {job_id}.")


def hand_out(
    job: Annotated[str, typer.Argument(metavar="JOB", help="As the jobs command names it.")],
    to: Annotated[Path, typer.Option("--to", metavar="FOLDER", help="Where to write it.")],
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write a job of the store to a folder, as a survey file with its fittings books."""
    from counterhoop.bench.folders.survey_file import hand_out as written_out
    from counterhoop.cli.of_job import job_called

    with workshop(store, data) as shop:
        kept = job_called(shop, job)
        folder = written_out(shop, kept.id, folder=to)
    typer.echo(f"{kept.title} is in {folder}.")


def backup(
    to: Annotated[
        Path, typer.Argument(metavar="TO", help="A folder, or the name of the archive to write.")
    ],
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write one archive of everything that is kept: jobs, their history, photographs.

    It can be made while the pages are open. Keep it on another disk than the store.
    """
    from counterhoop.bench.keep_safe import write_backup

    with workshop(store, data) as shop:
        made = write_backup(shop, to=to)
    typer.echo(f"Wrote {made.archive}, with {made.files} photographs and sounds.")
    if made.missing or made.changed:
        typer.echo(
            f"{len(made.missing)} files are missing from the store and {len(made.changed)} are no"
            " longer what they were; the archive holds the rest. Run: counterhoop store verify",
            err=True,
        )
        raise typer.Exit(1)


@store_app.command(name="verify")
def verify(
    data: DataFolder = None,
    store: StoreAddress = "",
    put_away: Annotated[
        bool,
        typer.Option(
            "--put-away",
            help="Move what belongs to nothing, and is older than a day, into a folder of its own.",
        ),
    ] = False,
) -> None:
    """Hash everything anew and say what is damaged, missing, or belongs to nothing."""
    from counterhoop.bench.keep_safe import look_over_store, put_leftovers_away

    with workshop(store, data) as shop:
        found = look_over_store(shop)
        # Out of a store that is damaged nothing is moved: it may be wanted for the mending.
        away = put_leftovers_away(shop) if put_away and found.sound else ()
    typer.echo(f"{found.revisions} saved versions and {found.files} files looked at.")
    for line in found.leftovers:
        typer.echo(f"left over, harmless: {line}")
    for file in away:
        typer.echo(f"put away: {file}")
    if not found.sound:
        for line in found.faults:
            typer.echo(line, err=True)
        typer.echo(
            "Something is damaged. Stop writing into this store; restore the last backup into a"
            " new folder and compare.",
            err=True,
        )
        raise typer.Exit(1)
    typer.echo("Everything that was saved is there, and is what was saved.")


def restore(
    archive: Annotated[Path, typer.Argument(metavar="ARCHIVE", help="What backup wrote.")],
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Bring a store back from an archive; never over one that is there.

    The archive is looked over first; half an archive changes nothing.
    """
    from counterhoop.bench.keep_safe import restore_backup

    typer.echo(f"The store is back, in {restore_backup(archive, store=store, data=data)}.")


def export(
    to: Annotated[Path, typer.Argument(metavar="FOLDER", help="A folder that is not there yet.")],
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write everything as plain files, with a page that explains them.

    Text and tables that any program reads; import makes a store of them again.
    """
    from counterhoop.bench.keep_safe import write_plain_folder

    with workshop(store, data) as shop:
        write_plain_folder(shop, to=to)
    typer.echo(f"Everything is in {to}.")


def import_folder(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="What export wrote.")],
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Fill an empty store from the plain files that export wrote."""
    from counterhoop.bench.keep_safe import read_plain_folder

    with workshop(store, data) as shop:
        read_plain_folder(shop, folder=folder)
    typer.echo("The store says again what the folder says.")
