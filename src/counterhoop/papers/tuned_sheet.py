"""The tuned sheet: a drum's heads as they were heard before and after, and what was made of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.heads.mode import Mode
from counterhoop.listen.advice import EVEN_ENOUGH_CENTS, Advice
from counterhoop.listen.round_rim import RimReading
from counterhoop.papers.cautions import DEFER
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.facts import facts_of, foot_facts, sheet_for
from counterhoop.papers.job_facts import NOT_WRITTEN
from counterhoop.papers.printable import set_readable
from counterhoop.papers.rim_strip import draw_rim, reach_of
from counterhoop.papers.sheets import MARGIN_MM
from counterhoop.papers.sound_plots import draw_fade, draw_spectrum
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.day import say_day
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.quantities.print_pitch import print_cents, print_hz, print_note, print_pitch
from counterhoop.shell.job import Job
from counterhoop.shell.tuning import HoopHeights, Stage

READ_SAID: dict[Stage, str] = {
    "before": "before any turn",
    "between": "on the way",
    "after": "after the work",
}
STAGE_SAID: dict[Stage, str] = {"before": "Before", "between": "On the way", "after": "After"}
BEHIND = "What is behind this:"


@dataclass(frozen=True, slots=True, kw_only=True)
class SoundShown:
    """A stroke as it is drawn.

    Attributes
    ----------
    spectrum_db, from_hz, step_hz
        As for ``draw_spectrum``.
    tones : tuple of (float, float)
        Hz and level of each tone that was found.
    modes : tuple of Mode
        What the drum should have.
    fade_db, fade_step_s
        As for ``draw_fade``; empty where there is none.
    hz, decay_per_s : float
        Of the tone that was settled on.
    """

    spectrum_db: tuple[float, ...] = ()
    from_hz: float = 0.0
    step_hz: float = 1.0
    tones: tuple[tuple[float, float], ...] = ()
    modes: tuple[Mode, ...] = ()
    fade_db: tuple[float, ...] = ()
    fade_step_s: float = 0.02
    hz: float | None = None
    decay_per_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingShown:
    """A reading that was kept.

    Attributes
    ----------
    stage : Stage
    day : date or None
        When.
    by : str
        At which bench.
    muted : bool
        Whether the other head was muted.
    hz : float or None
        The pitch of the head; None where nothing was read, and ``refusal`` says why.
    refusal : str
    used, taken : int
        Strokes that were used, of how many.
    rim : RimReading or None
        Of taps round the rim.
    rods : tuple of (int, float)
        The rods as they were then.
    advice : Advice or None
    even_enough_cents : float
        The split at which the workshop stops.
    sound : SoundShown
    """

    stage: Stage
    day: dt.date | None = None
    by: str = ""
    muted: bool = True
    hz: float | None = None
    refusal: str = ""
    used: int = 0
    taken: int = 0
    rim: RimReading | None = None
    rods: tuple[tuple[int, float], ...] = ()
    advice: Advice | None = None
    even_enough_cents: float = EVEN_ENOUGH_CENTS
    sound: SoundShown = SoundShown()


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadTuned:
    """One head of a drum.

    Attributes
    ----------
    head, film : str
        Which, and what it is.
    wished_hz : float or None
        What it was to sound like near a rod.
    readings : tuple of ReadingShown
        In the order in which they were made.
    heights : tuple of HoopHeights
        Of its hoop.
    """

    head: str
    film: str
    wished_hz: float | None = None
    readings: tuple[ReadingShown, ...] = ()
    heights: tuple[HoopHeights, ...] = ()


def tuned_sheet_pdf(
    job: Job,
    *,
    drum: str,
    what: str,
    heads: Sequence[HeadTuned],
    a4_hz: float = 440.0,
    paper: str = "A4",
) -> bytes:
    """Set the tuned sheet of a drum.

    Parameters
    ----------
    job : Job
        Whose names are printed.
    drum, what : str
        The drum's name, and its size in words.
    heads : sequence of HeadTuned
        Those of which something was heard.
    a4_hz : float
        What notes are named by.
    paper : str
        "Letter" sets it on Letter, anything else on A4.
    """
    sheet = sheet_for(paper)
    wide_mm = sheet.short_mm - 2 * MARGIN_MM
    drawn = [
        (rim_strips(head, wide_mm=wide_mm), sound_pictures(head, wide_mm=wide_mm)) for head in heads
    ]
    facts = facts_of(job)
    data = {
        "wide": sheet.short_mm,
        "high": sheet.long_mm,
        "facts": foot_facts(job, what="tuned sheet", drum=drum),
        "block": (
            ("job", f"{facts.job}, {facts.client}" if facts.client else facts.job),
            ("drum", f"{drum}, {what}" if what else drum),
            ("A is", print_hz(a4_hz)),
            ("heard on", listened_on(heads) or NOT_WRITTEN),
        ),
        "heads": [
            head_data(head, strips=strips, sounds=sounds, place=place, a4_hz=a4_hz)
            for place, (head, (strips, sounds)) in enumerate(zip(heads, drawn, strict=True))
        ],
        "defer": DEFER,
    }
    images = {
        f"{name}-{place}": to_svg(picture, palette=PRINT, ident=f"{name}-{place}-")
        for place, both in enumerate(drawn)
        for pictures in both
        for name, picture in pictures.items()
    }
    return set_readable("tuned_sheet", data, title=f"Tuned sheet, {drum}", images=images)


def listened_on(heads: Sequence[HeadTuned]) -> str:
    """Return the days of the sittings, the first first, whichever head; "" for none.

    Examples
    --------
    >>> batter, resonant = (
    ...     HeadTuned(head=head, film="", readings=tuple(
    ...         ReadingShown(stage="before", day=dt.date(2026, 5, day)) for day in days))
    ...     for head, days in (("batter", (2, 12)), ("resonant", (2, 3))))
    >>> listened_on([batter, resonant])
    '2 May 2026, 3 May 2026, 12 May 2026'
    """
    days = {read.day for head in heads for read in head.readings if read.day}
    return ", ".join(say_day(day) for day in sorted(days))


def rim_strips(head: HeadTuned, *, wide_mm: float) -> dict[str, Drawing]:
    """Return a strip for each reading round the rim, to one scale; the last has the key."""
    shown = [read for read in head.readings if read.rim is not None]
    reach = reach_of([read.rim for read in shown if read.rim is not None])
    return {
        f"rim-{place}": draw_rim(
            read.rim, rods=read.rods, pattern=read.advice.pattern if read.advice else (),
            heading=_heading(read), reach_cents=reach, wide_mm=wide_mm,
            even_cents=read.even_enough_cents, key=place == len(shown) - 1, name=f"rim-{place}",
        )
        for place, read in enumerate(shown)
        if read.rim is not None
    }  # fmt: skip


def sound_pictures(head: HeadTuned, *, wide_mm: float) -> dict[str, Drawing]:
    """Return spectrum and fading of the last reading that has them."""
    heard = [read for read in head.readings if read.sound.spectrum_db]
    if not heard:
        return {}
    read = heard[-1]
    sound = read.sound
    pictures = {
        "spectrum": draw_spectrum(
            sound.spectrum_db, from_hz=sound.from_hz, step_hz=sound.step_hz, partials=sound.tones,
            modes=sound.modes, heading="What rings", wide_mm=wide_mm, high_mm=34.0,
        )
    }  # fmt: skip
    if sound.fade_db and sound.hz is not None and sound.decay_per_s:
        pictures["fade"] = draw_fade(
            sound.fade_db, step_s=sound.fade_step_s, hz=sound.hz, decay_per_s=sound.decay_per_s,
            heading="How it dies", wide_mm=wide_mm / 2.0, high_mm=28.0,
        )  # fmt: skip
    return pictures


def head_data(
    head: HeadTuned,
    *,
    strips: dict[str, Drawing],
    sounds: dict[str, Drawing],
    place: int,
    a4_hz: float,
) -> dict[str, Any]:
    """Return what the sheet says of one head, as plain data."""
    wished = head.wished_hz
    return {
        "name": f"{head.head[0].upper()}{head.head[1:]} head",
        "film": head.film,
        "wished": ""
        if wished is None
        else f"{print_note(wished, a4_hz=a4_hz)} ({print_hz(wished)})",
        "came-to": came_to(head, a4_hz=a4_hz),
        "strips": _shown(strips, place=place),
        "sounds": _shown(sounds, place=place),
        "advised": [
            {
                "stage": _heading(read),
                "says": advised_words(read),
                "beside": [{"lead": lead, "says": said} for lead, said in beside_words(read)],
            }
            for read in head.readings
            if advised_words(read)
        ],
        "unknown": list(
            dict.fromkeys(
                said for read in head.readings if read.advice for said in read.advice.unknown
            )
        ),
        "heights": _heights(head),
    }


def came_to(head: HeadTuned, *, a4_hz: float) -> list[str]:
    """Say what each reading came to, a line each."""
    found = []
    for read in head.readings:
        if read.hz is None:
            found.append(f"{_heading(read)}: nothing was read. {read.refusal}".strip())
            continue
        said = f"{_heading(read)}: {print_pitch(read.hz, a4_hz=a4_hz)}"
        rim = read.rim
        if rim is not None and rim.coupled_pair:
            said += ", both heads ringing"
        elif rim is not None and rim.split_cents is not None:
            said += f", round the rim {print_cents(rim.split_cents)} apart"
        if read.taken:
            said += f"; {read.used} of {read.taken} strokes used"
        muted = "" if read.muted else ", the other head not muted"
        found.append(f"{said}{muted}.")
    return found


def advised_words(read: ReadingShown) -> list[str]:
    """Return what a reading led to: what to turn, what to expect, or to stop."""
    if read.advice is None:
        return []
    return [*read.advice.sentences, *([read.advice.expected] if read.advice.expected else [])]


def beside_words(read: ReadingShown) -> list[tuple[str, list[str]]]:
    """Return what waits and what is behind it, each with the words that lead to it."""
    if read.advice is None:
        return []
    told = [read.advice.staying, read.advice.later]
    told += [(BEHIND, *read.advice.because)] if read.advice.because else []
    return [(lead, said) for lead, *said in filter(None, told)]


def _heading(read: ReadingShown) -> str:
    return f"{STAGE_SAID[read.stage]}{f', {say_day(read.day)}' if read.day else ''}"


def _shown(pictures: dict[str, Drawing], *, place: int) -> list[dict[str, str]]:
    return [
        {"name": f"{name}-{place}", "alt": f"{picture.title}. {picture.says}"}
        for name, picture in pictures.items()
    ]


def _heights(head: HeadTuned) -> dict[str, Any]:
    most = max((len(one.at_mm) for one in head.heights), default=0)
    return {
        "rods": [str(rod) for rod in range(1, most + 1)],
        "rows": [
            {
                "stage": READ_SAID[one.stage],
                "flat": "flat" if one.hoop_flat else "not checked",
                "at": [print_mm(at, resolution_mm=CALIPER_MM, with_unit=False) for at in one.at_mm]
                + [""] * (most - len(one.at_mm)),
            }
            for one in head.heights
        ],
    }
