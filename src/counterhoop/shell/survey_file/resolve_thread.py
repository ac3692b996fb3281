"""Threads as read with a caliper or a gauge."""

from __future__ import annotations

from collections.abc import Sequence

from counterhoop.errors import BadInput
from counterhoop.shell.readings import ThreadRead
from counterhoop.shell.survey_file.models_readings import ThreadWritten
from counterhoop.shell.survey_file.written_step import half_step_mm

OUTSIDE_MM = (1.5, 16.0)
OUTSIDE_DOUBT_MM = 0.02
OVER_DOUBT_MM = 0.1
"""A crest is found by eye: no finer caliper makes the length over several of them surer."""
BLADE_DOUBT_MM = 0.01
COARSEST_MM = 0.5
TEN = 10
PITCH_MM = (0.2, 4.0)
STEEPEST = 0.4
"""Pitch over diameter; the coarsest of the usual series stay under 0.3."""
FLANKS_DEG = (20.0, 100.0)


def resolve_threads(written: Sequence[ThreadWritten], *, where: str) -> tuple[ThreadRead, ...]:
    """Return the threads that were read.

    Raises
    ------
    BadInput
        For a thread that no screw has, or one that is read in two ways.
    """
    return tuple(_thread(one, where=f"{where}[{index}]") for index, one in enumerate(written, 1))


def _thread(written: ThreadWritten, *, where: str) -> ThreadRead:
    if not OUTSIDE_MM[0] <= written.outside.mm <= OUTSIDE_MM[1]:
        raise BadInput(
            "impossible as the outside of a drum's screw",
            where=f"{where}.outside",
            given=written.outside.as_written,
            wanted=f"from {OUTSIDE_MM[0]:g} to {OUTSIDE_MM[1]:g} mm, over the crests",
            step="Look at the unit and the decimal point.",
        )
    _check_pitch(written, where=where)
    flanks_deg = written.flanks.deg if written.flanks else None
    if flanks_deg is not None and not FLANKS_DEG[0] <= flanks_deg <= FLANKS_DEG[1]:
        raise BadInput(
            "no screw has such flanks",
            where=f"{where}.flanks",
            given=written.flanks.as_written if written.flanks else "",
            wanted='the whole angle between them, such as "60 deg" or "55 deg"',
        )
    finest_mm = written.finest.mm if written.finest else None
    if finest_mm is not None and finest_mm > COARSEST_MM:
        raise BadInput(
            "too coarse a step to tell threads apart",
            where=f"{where}.finest",
            given=written.finest.as_written if written.finest else "",
            wanted='the smallest step that the caliper shows, such as "0.02 mm"',
        )
    over = written.pitch or written.over
    over_doubt_mm = OVER_DOUBT_MM
    if written.over is not None:
        over_doubt_mm = max(finest_mm or half_step_mm(written.over.as_written), OVER_DOUBT_MM)
    by_gauge = written.pitch is not None
    return ThreadRead(
        of=written.of,
        head=written.head or "",
        outside_mm=written.outside.mm,
        outside_doubt_mm=finest_mm
        or max(half_step_mm(written.outside.as_written), OUTSIDE_DOUBT_MM),
        over_mm=over.mm if over else None,
        over_doubt_mm=BLADE_DOUBT_MM if by_gauge else over_doubt_mm,
        threads=1 if by_gauge else written.threads or TEN,
        by_gauge=by_gauge,
        flanks_deg=flanks_deg,
        as_written=_as_written(written),
    )


def _check_pitch(written: ThreadWritten, *, where: str) -> None:
    if written.pitch is not None and (written.over is not None or written.threads is not None):
        raise BadInput(
            "its pitch is written twice over",
            where=f"{where}.pitch",
            given=written.pitch.as_written,
            wanted='over = "10.6 mm" with threads = 10, or pitch = "24 tpi" by a gauge',
        )
    if written.threads is not None and written.over is None:
        raise BadInput(
            f"how long are the {written.threads} threads?",
            where=f"{where}.threads",
            wanted='over = "10.6 mm" with it, from the first crest to the last',
        )
    read = written.over or written.pitch
    if read is None:
        return
    count = 1 if written.over is None else written.threads or TEN
    if not PITCH_MM[0] <= read.mm / count <= min(PITCH_MM[1], STEEPEST * written.outside.mm):
        raise BadInput(
            f"no screw of that size has {count} threads so long"
            if written.over is not None
            else "no screw of that size has that pitch",
            where=f"{where}.{'over' if written.over is not None else 'pitch'}",
            given=read.as_written,
            wanted="the length from one crest to the eleventh, which is ten threads"
            if written.over is not None
            else 'what the blade that fits says, such as "24 tpi" or "0.7 mm"',
            step="Look at the unit, and count again.",
        )


def _as_written(written: ThreadWritten) -> tuple[str, ...]:
    said = [f"outside {written.outside.as_written}"]
    if written.over is not None:
        said.append(f"{written.threads or TEN} threads over {written.over.as_written}")
    if written.pitch is not None:
        said.append(f"gauge {written.pitch.as_written}")
    if written.flanks is not None:
        said.append(f"flanks {written.flanks.as_written}")
    return tuple(said)
