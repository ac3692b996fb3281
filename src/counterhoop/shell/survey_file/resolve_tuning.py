"""Heads, tuning and the kit's pitches become what they say."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator

from counterhoop.errors import BadInput
from counterhoop.quantities.pitch import A4_HZ, parse_pitch
from counterhoop.quantities.print_length import print_mm
from counterhoop.shell.drum import Drum
from counterhoop.shell.survey_file.models_tuning import (
    DrumToneWritten,
    HeadWritten,
    HoopHeightsWritten,
    KitWritten,
    ReadingWritten,
    TuningWritten,
    TurnWritten,
)
from counterhoop.shell.tuning import (
    DrumTone,
    HeadSaid,
    HoopHeights,
    KitWish,
    ReadingKept,
    SoundKept,
    Tone,
    Tuning,
    TurnHeard,
)
from counterhoop.standards.film import lightest_kg_per_m2
from counterhoop.standards.threads import find_thread

A4_SPAN_HZ = (400.0, 480.0)
FEWEST_HEIGHTS = 3
HIGHEST_MM = 60.0
LIGHT_KG_PER_M2, HEAVY_KG_PER_M2 = 0.02, 3.0
"""Outside these a head was not weighed on its own, or its hoop was weighed with it."""
WIDEST_COLLAR_MM = 100.0
"""No head, and no skin that is cut to be tucked, reaches further beyond its drum all round."""


def resolve_tuning(
    written: TuningWritten | None, *, drum: Drum, a4_hz: float, where: str
) -> Tuning | None:
    """Return heads and tuning of a drum; None where nothing is written of them.

    Parameters
    ----------
    drum : Drum
        As found; heights are held against its rods.
    a4_hz : float
        What notes are read by.
    where : str
        Path in the file.

    Raises
    ------
    BadInput
        For a head written in two ways, or what cannot be.
    """
    if written is None:
        return None
    pitch = written.pitch
    return Tuning(
        batter=_head(written.batter, drum=drum, where=f"{where}.batter"),
        resonant=_head(written.resonant, drum=drum, where=f"{where}.resonant"),
        rod=_thread(written.rod, where=f"{where}.rod"),
        most_per_rod_n=written.most_per_rod.newtons if written.most_per_rod else None,
        batter_tone=_tone(pitch.batter if pitch else None, a4_hz=a4_hz, where=f"{where}.pitch"),
        resonant_tone=_tone(pitch.resonant if pitch else None, a4_hz=a4_hz, where=f"{where}.pitch"),
        turns=tuple(
            _turn(one, rod=written.rod or "", a4_hz=a4_hz, where=f"{where}.turns[{index}]")
            for index, one in enumerate(written.turns, 1)
        ),
        heights=tuple(
            _heights(one, drum=drum, where=f"{where}.heights[{index}]")
            for index, one in enumerate(written.heights, 1)
        ),
        readings=tuple(_reading(number, one) for number, one in written.readings.items()),
    )


def resolve_kit(written: KitWritten | None, *, where: str = "kit") -> KitWish | None:
    """Return what is wished of the kit's pitches; None where nothing is written.

    Raises
    ------
    BadInput
        For a pitch that cannot be, or a drum wished for twice.
    """
    if written is None:
        return None
    a4_hz = kit_a4_hz(written, where=where)

    def drum_tone(one: DrumToneWritten | None, *, path: str) -> DrumTone | None:
        if one is None:
            return None
        tone = parse_pitch(one.pitch, a4_hz=a4_hz, where=f"{path}.pitch").hz
        return DrumTone(drum=one.drum, tone=Tone(hz=tone, as_written=one.pitch))

    made = [(f"{where}.as_heard[{index}]", one) for index, one in enumerate(written.as_heard, 1)]
    seen: set[str] = set()
    for path, one in made:
        if one.drum.casefold() in seen:
            raise BadInput("the same drum twice", where=f"{path}.drum", given=one.drum)
        seen.add(one.drum.casefold())
    return KitWish(
        lowest=drum_tone(written.lowest, path=f"{where}.lowest"),
        highest=drum_tone(written.highest, path=f"{where}.highest"),
        as_heard=tuple(tone for path, one in made if (tone := drum_tone(one, path=path))),
        bottom=written.bottom or "same",
        heard=written.heard,
        a4_hz=a4_hz,
    )


def drums_in_kit(written: KitWritten | None) -> Iterator[tuple[str, str]]:
    """Yield each drum that the kit's wish names, with its place in the file."""
    if written is None:
        return
    for end in ("lowest", "highest"):
        one: DrumToneWritten | None = getattr(written, end)
        if one is not None:
            yield f"kit.{end}.drum", one.drum
    for index, one in enumerate(written.as_heard, 1):
        yield f"kit.as_heard[{index}].drum", one.drum


def kit_a4_hz(written: KitWritten | None, *, where: str = "kit") -> float:
    """Return what notes are read by in this job.

    Raises
    ------
    BadInput
        When it is no A that a band tunes to.
    """
    if written is None or written.a4 is None:
        return A4_HZ
    hz = parse_pitch(written.a4, a4_hz=A4_HZ, where=f"{where}.a4").hz
    if not A4_SPAN_HZ[0] <= hz <= A4_SPAN_HZ[1]:
        raise BadInput(
            "no band tunes its A to that",
            where=f"{where}.a4",
            given=written.a4,
            wanted='such as "440 Hz"',
        )
    return hz


def _head(written: HeadWritten | None, *, drum: Drum, where: str) -> HeadSaid | None:
    if written is None:
        return None
    if written.film is not None and written.films is not None:
        raise BadInput(
            "film and films both",
            where=f"{where}.films",
            wanted="film for one ply, or films for each of several",
        )
    films = written.films or ((written.film,) if written.film is not None else ())
    if written.calf and films:
        raise BadInput(
            "calf, and film too",
            where=f"{where}.calf",
            given="true",
            wanted="calf with its weight, or film with its thickness",
        )
    if written.weight is not None:
        _check_weight(written, drum=drum, where=f"{where}.weight")
    if written.across is not None:
        _check_across(written, drum=drum, where=where)
    if written.weight is not None and films:
        film_m = math.fsum(film.metres for film in films)
        _check_film_weighs(written, film_m=film_m, drum=drum, where=f"{where}.weight")
    return HeadSaid(
        films_m=tuple(film.metres for film in films),
        weight_kg=written.weight.kg if written.weight else None,
        across_m=written.across.mm / 1000.0 if written.across else None,
        calf=written.calf,
        says=written.says,
    )


def _check_weight(written: HeadWritten, *, drum: Drum, where: str) -> None:
    # Pi over 4 times the square of the girth over pi.
    area_m2 = (drum.circumference.mean_mm / 1000.0) ** 2 / 12.566
    kg = written.weight.kg if written.weight else 0.0
    if not LIGHT_KG_PER_M2 <= kg / area_m2 <= HEAVY_KG_PER_M2:
        raise BadInput(
            "no head of this size weighs that",
            where=where,
            given=written.weight.as_written if written.weight else None,
            wanted="the head alone, without its hoop",
            step="Look at the unit and the decimal point.",
        )


def _check_film_weighs(written: HeadWritten, *, film_m: float, drum: Drum, where: str) -> None:
    # Nobody having measured across, it is no less than the drum is.
    across_mm = written.across.mm if written.across else drum.circumference.mean_mm / math.pi
    least_kg = lightest_kg_per_m2(film_m) * math.pi / 4.0 * (across_mm / 1000.0) ** 2
    if written.weight is not None and written.weight.kg < least_kg:
        raise BadInput(
            "a head cannot weigh less than its own film",
            where=where,
            given=written.weight.as_written,
            wanted=f"{math.ceil(1000.0 * least_kg)} g or more for that film",
            step="Look at the scale's unit, and at how thick the film is.",
        )


def _check_across(written: HeadWritten, *, drum: Drum, where: str) -> None:
    if written.across is None:
        return
    if written.weight is None:
        raise BadInput(
            "how far across the head is, and no weight",
            where=f"{where}.across",
            given=written.across.as_written,
            wanted="weight too: only a weighed head is measured across",
        )
    outside_mm = drum.circumference.mean_mm / math.pi
    if not outside_mm <= written.across.mm <= outside_mm + 2.0 * WIDEST_COLLAR_MM:
        raise BadInput(
            "no head for this drum is so far across",
            where=f"{where}.across",
            given=written.across.as_written,
            wanted=f"from rim to rim with its collar, more than the drum's {print_mm(outside_mm)}",
            step="Lay the tape over the collar from rim to rim, the head without its hoop.",
        )


def _thread(written: str | None, *, where: str) -> str:
    return find_thread(written, where=where).designation if written else ""


def _tone(written: str | None, *, a4_hz: float, where: str) -> Tone | None:
    if written is None:
        return None
    return Tone(hz=parse_pitch(written, a4_hz=a4_hz, where=where).hz, as_written=written)


def _turn(written: TurnWritten, *, rod: str, a4_hz: float, where: str) -> TurnHeard:
    thread = _thread(written.rod, where=f"{where}.rod") or rod
    before = parse_pitch(written.from_, a4_hz=a4_hz, where=f"{where}.from").hz
    after = parse_pitch(written.to, a4_hz=a4_hz, where=f"{where}.to").hz
    if (after - before) * written.turns.turns <= 0.0:
        raise BadInput(
            "tighter rods, and no higher pitch"
            if written.turns.turns > 0.0
            else "looser rods, and no lower pitch",
            where=f"{where}.to",
            given=written.to,
            wanted=f"{'more' if written.turns.turns > 0.0 else 'less'} than {written.from_}",
            step="Turns that loosen are written below zero.",
        )
    return TurnHeard(
        head=written.head,
        rod=thread,
        from_hz=before,
        to_hz=after,
        turns=written.turns.turns,
    )


def _heights(written: HoopHeightsWritten, *, drum: Drum, where: str) -> HoopHeights:
    at_mm = written.at.mm
    row = drum.row(written.head)
    # A scheme may give it other rods than it was found with.
    rods = len(row.lugs) if row is not None and written.stage == "before" else None
    if len(at_mm) < FEWEST_HEIGHTS or (rods is not None and len(at_mm) != rods):
        raise BadInput(
            f"{len(at_mm)} heights",
            where=f"{where}.at",
            given=written.at.as_written,
            wanted=f"one at each of the {rods} rods, in their order"
            if rods is not None
            else "one at each rod, in their order",
        )
    if max(at_mm) > HIGHEST_MM:
        raise BadInput(
            "no hoop stands so high",
            where=f"{where}.at",
            given=written.at.as_written,
            wanted="from the lug's top, or the shell's edge, to the hoop, the same at each rod",
        )
    return HoopHeights(
        head=written.head, stage=written.stage, hoop_flat=written.hoop_flat, at_mm=at_mm
    )


def _reading(number: str, written: ReadingWritten) -> ReadingKept:
    return ReadingKept(
        number=number,
        when=written.when,
        by=written.by,
        head=written.head,
        stage=written.stage,
        muted=written.muted,
        kind=written.kind,
        sound=written.sound,
        file=written.file,
        rods=written.rods,
        also=tuple(
            SoundKept(sound=one.sound, file=one.file, rods=one.rods) for one in written.also
        ),
        says=written.says,
        result_json=json.dumps(written.result, sort_keys=True),
    )
