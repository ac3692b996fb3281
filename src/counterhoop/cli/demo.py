"""The demonstration: opened in the browser, or written into a folder as papers and files."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from counterhoop.cli.serve import PORT, serve_from

DATA = Path("demo-data")


def demo(
    data: Annotated[
        Path,
        typer.Option("--data", metavar="FOLDER", help="A store of its own for the invented jobs."),
    ] = DATA,
    papers: Annotated[
        Path | None,
        typer.Option(
            "--papers",
            metavar="FOLDER",
            help="Write all papers of the worked job there and open nothing.",
        ),
    ] = None,
    sounds: Annotated[
        Path | None,
        typer.Option(
            "--sounds",
            metavar="FOLDER",
            help="Write recordings of its drums there, to listen to, and open nothing.",
        ),
    ] = None,
    rows: Annotated[
        Path | None,
        typer.Option(
            "--rows",
            metavar="FOLDER",
            help="Write its shelf as rows and the dated features there, and open nothing.",
        ),
    ] = None,
    port: Annotated[
        int, typer.Option("--port", metavar="N", min=0, max=65535, help="0 takes a free one.")
    ] = PORT,
    browser: Annotated[
        bool, typer.Option("--open/--no-browser", help="Whether to open the pages at once.")
    ] = True,
) -> None:
    """Open the invented workshop that comes with Counterhoop, in a store of its own.

    Seven jobs, from the first call to the one that went home, and a shelf; change what you like.
    It runs until you stop it with Ctrl+C; the next time it is as you left it. Delete the folder to
    begin anew.
    """
    if papers is not None:
        _write_papers(papers)
    if sounds is not None:
        _write_sounds(sounds)
    if rows is not None:
        _write_rows(rows)
    if papers is not None or sounds is not None or rows is not None:
        return
    put_in_once(data)
    serve_from(data, port=port, browser=browser, lands="/")


def put_in_once(data: Path) -> None:
    """Put the invented jobs into a store that holds none yet."""
    from counterhoop.bench.folders.first_page import on_the_bench
    from counterhoop.cli.progress import watched
    from counterhoop.cli.store import workshop

    with workshop("", data) as shop:
        if on_the_bench(shop):
            return
        from counterhoop.bench.demonstration.whole_shop import put_demonstration

        with watched() as progress:
            put_demonstration(shop, by="the demonstration", bills=True, progress=progress)


def _write_papers(folder: Path) -> None:
    from counterhoop.bench.demo import open_demo
    from counterhoop.bench.plan_job import plan_job
    from counterhoop.bench.printing import Printing
    from counterhoop.bench.write_papers import write_papers
    from counterhoop.cli.progress import watched
    from counterhoop.cli.text import demo_text

    with watched() as progress:
        plan = plan_job(open_demo(), progress=progress)
        written = write_papers(plan, folder=folder, printing=Printing(), progress=progress)
    typer.echo(demo_text(plan, written))


def _write_sounds(folder: Path) -> None:
    from counterhoop.bench.deliver import deliver
    from counterhoop.bench.demonstration.recordings import recordings
    from counterhoop.cli.progress import watched
    from counterhoop.cli.text import wrapped

    with watched() as progress:
        progress("recordings", 0.0)
        made = recordings()
    about = "\n".join(f"{one.name}  ({one.drum})\n  {one.says}\n" for one in made)
    files = {one.name: one.wav for one in made} | {"what-these-are.txt": about.encode()}
    folder = deliver(files, folder=folder)
    lines = [f"{len(made)} recordings are in {folder}"]
    for one in made:
        lines += wrapped(f"{one.name}, {one.drum}: {one.says}", indent=2)
    typer.echo("\n".join(lines))


def _write_rows(folder: Path) -> None:
    from counterhoop.bench.deliver import deliver
    from counterhoop.bench.demonstration.rows import demo_files
    from counterhoop.cli.text import wrapped

    made = demo_files()
    lies = deliver({one.name: one.content for one in made}, folder=folder)
    lines = [f"{len(made)} files are in {lies}"]
    for one in made:
        lines += wrapped(f"{one.name}: {one.says}", indent=2)
    typer.echo("\n".join(lines))
