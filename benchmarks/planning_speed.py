"""Speed and memory of the main job: planning, findings, papers, the commands' first word."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from _timing import Table, peak_mb, timed

from counterhoop.bench.demo import open_demo
from counterhoop.bench.open_job import open_job
from counterhoop.scheme.findings.all_checks import look_over
from counterhoop.scheme.schemes import schemes_for

HERE = Path(__file__).parent


def command(*words: str) -> None:
    """Run one command in a process of its own."""
    subprocess.run(
        [sys.executable, "-m", "counterhoop", *words], check=True, stdout=subprocess.DEVNULL
    )


def main() -> None:
    """Print the table."""
    table = Table("Planning and papers")
    job = open_job(HERE / "data" / "eight_lugs_32_holes.toml")
    wanted = job.job.drums[0]
    ranked = schemes_for(wanted, shop=job.shop)
    one = ranked.shown[0].layout
    table.row(
        "all schemes of one 8-lug drum with 32 old holes, warm",
        timed(lambda: schemes_for(wanted, shop=job.shop), times=15),
        limit_s=0.25,
    )
    look_over(one, rules=job.shop.rules)
    table.row(
        f"one pose with all its findings ({len(one.holes)} holes)",
        timed(lambda: look_over(one, rules=job.shop.rules), times=50),
        limit_s=0.02,
    )
    open_demo()
    with tempfile.TemporaryDirectory() as folder:
        to = Path(folder) / "papers"
        table.row(
            "the demonstration kit with all its papers, cold",
            timed(lambda: command("demo", "--papers", str(to)), times=3),
            limit_s=10.0,
        )
    survey = HERE.parent / "examples" / "survey.toml"
    table.row(
        "planning the demonstration kit alone, cold",
        timed(lambda: command("schemes", str(survey)), times=5),
        limit_s=3.0,
    )
    table.row("--help, cold", timed(lambda: command("--help"), times=9), limit_s=0.5)
    table.figure("most memory held by any of these", peak_mb(), "MB", limit=400.0)
    table.close()


if __name__ == "__main__":
    main()
