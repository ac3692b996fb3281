"""Listen to a recording of taps."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final, TypeVar

import typer

from counterhoop.cli.options import DrumName
from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from counterhoop.bench.tune.against_plan import PitchPlanned
    from counterhoop.bench.tune.drum_to_tune import DrumToTune
    from counterhoop.development.flat import End
    from counterhoop.shell.tuning import Stage

W = TypeVar("W", bound=str)
ENDS: Final[tuple[End, ...]] = ("batter", "resonant")
LARGEST_BYTES = 500_000_000


def listen(
    recording: Annotated[
        Path,
        typer.Argument(
            metavar="RECORDING", help="WAV, FLAC, Ogg, Opus, MP3, M4A, or a phone's video."
        ),
    ],
    survey: Annotated[
        Path | None,
        typer.Argument(metavar="[SURVEY]", help="A survey file, for the drum's own rods."),
    ] = None,
    drum: DrumName = "",
    head: Annotated[
        str, typer.Option("--head", metavar="HEAD", help="Which was tapped: batter or resonant.")
    ] = "batter",
    stage: Annotated[
        str, typer.Option("--stage", metavar="WHEN", help="before, between or after the work.")
    ] = "before",
    first: Annotated[
        int, typer.Option("--first", metavar="N", min=1, help="The rod that was tapped first.")
    ] = 1,
    rods: Annotated[
        str,
        typer.Option(
            "--rods", metavar="N,N,...",
            help="The rod of each stroke in the list, 0 for one to leave out.",
        ),
    ] = "",
    also: Annotated[
        Path | None,
        typer.Option(
            "--also", metavar="RECORDING",
            help="The same taps once more, the phone an eighth of the way round.",
        ),
    ] = None,
    back: Annotated[
        bool,
        typer.Option("--back", help="The taps went round against the numbers of the rods."),
    ] = False,
    also_first: Annotated[
        int, typer.Option("--also-first", metavar="N", min=1, help="The rod tapped first there.")
    ] = 1,
    muted: Annotated[
        bool, typer.Option("--muted/--ringing", help="Whether the other head was muted.")
    ] = True,
) -> None:  # fmt: skip
    """Hear taps round the rim of a drum: how even it is, and what may be turned.

    Mute the other head with a folded cloth, lay the phone down in one place off the middle, and tap
    softly near each rod in order, two seconds apart. Without a survey it says strokes and pitches.
    The exit code is 1 when nothing can be read in it.
    """
    from counterhoop.bench.tune.listened import listened
    from counterhoop.bench.tune.phone_places import Also
    from counterhoop.cli.progress import watched
    from counterhoop.cli.tune_text import heard_text
    from counterhoop.shell.tuning import STAGES

    end = _one_of(head, ENDS, where="--head")
    when = _one_of(stage, STAGES, where="--stage")
    given = _rods(rods)
    data = _read(recording)
    second = (
        [Also(data=_read(also), name=also.name, first_rod=also_first, back=back)] if also else []
    )
    with watched() as progress:
        tune, planned, even_cents = _drum(survey, drum, head=end, stage=when)
        heard = listened(
            data, name=recording.name, tune=tune, head=end, stage=when, muted=muted, rods=given,
            first_rod=first, back=back, also=second, planned=planned, even_enough_cents=even_cents,
            progress=progress,
        )  # fmt: skip
    typer.echo(heard_text(heard))
    if second and not heard.also:
        typer.echo("A second place of the phone needs the drum's survey: left out.", err=True)
    if heard.refusal:
        typer.echo(heard.refusal, err=True)
        raise typer.Exit(1)


def _drum(
    survey: Path | None, name: str, *, head: End, stage: Stage
) -> tuple[DrumToTune | None, PitchPlanned | None, float]:
    """Return the drum that was tapped, its plan, and what is even enough."""
    from counterhoop.bench.open_job import open_job
    from counterhoop.bench.tune.drum_asked import drum_asked
    from counterhoop.shell.shop_rules import default_rules

    if survey is None:
        return None, None, default_rules().even_enough_cents
    opened = open_job(survey)
    asked = drum_asked(opened, name, head=head, stage=stage)
    return asked.tune, asked.planned, opened.job.rules.even_enough_cents


def _one_of(given: str, words: tuple[W, ...], *, where: str) -> W:
    for word in words:
        if word == given.strip().casefold():
            return word
    raise BadInput("not one of the words known here", where=where, given=given,
                   wanted=" or ".join(words))  # fmt: skip


def _rods(given: str) -> list[int] | None:
    if not given.strip():
        return None
    pieces = given.replace(",", " ").split()
    if not all(piece.isdigit() and len(piece) < 4 for piece in pieces):
        raise BadInput(
            "not a list of rods", where="--rods", given=given, wanted='numbers such as "1,2,0,3"'
        )
    return [int(piece) for piece in pieces]


def _read(recording: Path) -> bytes:
    try:
        if recording.stat().st_size > LARGEST_BYTES:
            raise BadInput("too large for a recording", where=recording.name,
                           wanted=f"at most {LARGEST_BYTES // 1_000_000} MB")  # fmt: skip
        return recording.read_bytes()
    except OSError as fault:
        gone = isinstance(fault, FileNotFoundError)
        raise BadInput(
            "there is no such file" if gone else "cannot read it", where="recording",
            given=str(recording), wanted="the path of a recording",
        ) from None  # fmt: skip
