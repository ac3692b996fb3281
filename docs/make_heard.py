"""Write the figures of the page on what can be heard: none of them is typed.

``.venv/bin/python docs/make_heard.py`` fills each part of ``explanation/what-can-be-heard.md``
between ``<!-- made: NAME -->`` and ``<!-- end -->`` and draws the strips beside it. Everything
comes from the program's own model and from recordings that it makes; a test holds the page to it.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Iterable, Sequence
from functools import cache
from pathlib import Path

from counterhoop.bench.demonstration.recordings import PHONE, Recording, recordings
from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.bench.tune.heads_written import HeadTaken
from counterhoop.bench.tune.rods_at import RodAt, RodsOfHead
from counterhoop.bench.tune.split_per_turn import at_most_cents_per_turn
from counterhoop.heads.conversion import conversion
from counterhoop.heads.head import film_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.modes import batter_lug_mode, lowest, modes_around
from counterhoop.heads.oval import oval_doublet
from counterhoop.heads.rank import hearing
from counterhoop.heads.rim_load import load_of_rods
from counterhoop.heads.strike import rise_n_per_m
from counterhoop.heads.tension import rim_hz
from counterhoop.heads.uneven import Doublet, doublet_of, pitch_near
from counterhoop.listen.advice import Advice, advise
from counterhoop.listen.decode import decode
from counterhoop.listen.read_round_rim import read_round_rim
from counterhoop.listen.round_rim import RimReading, Tap
from counterhoop.listen.shares import shares_of_split
from counterhoop.listen.strokes import Stroke
from counterhoop.papers.rim_strip import draw_rim, reach_of
from counterhoop.papers.svg import to_svg
from counterhoop.quantities.print_pitch import cents
from counterhoop.standards.threads import find_thread

sys.path.insert(0, str(Path(__file__).parent))

from made_parts import filled, table  # type: ignore[import-not-found]

DOCS = Path(__file__).parent
PAGE = DOCS / "explanation" / "what-can-be-heard.md"
INCH_M = 0.0254
BATTER, RESONANT = film_head(254e-6), film_head(190.5e-6)
SIZES_IN = ((8, 7), (10, 8), (12, 8), (13, 9), (14, 14), (16, 16))
N_PER_M = 2000.0
RODS = RodsOfHead(
    head="batter",
    rods=tuple(RodAt(number=n + 1, along_deg=45.0 * n) for n in range(8)),
    thread=find_thread("12-24"),
    thread_from="",
)
SAID_CENTS = 21.0
BEFORE_N = (425.0, 352.0, 371.0, 410.0, 391.0, 378.0, 436.0, 437.0)
"""Pulls of an invented drum of eight rods."""


def main() -> None:
    """Fill in the page and draw its strips."""
    for name, text in strips().items():
        (DOCS / "pictures" / name).write_text(text, encoding="utf-8")
        print(name)
    PAGE.write_text(filled(PAGE.read_text(encoding="utf-8"), computed() | listened()), "utf-8")
    print(PAGE.name)


def computed() -> dict[str, str]:
    """Return the parts that need no recording."""
    return {
        "rods": rods(),
        "pulls": pulls(),
        "pair": pair(),
        "causes": causes(),
        "turn": turn(),
        "second": second(),
        "glide": glide(),
    }


def rods() -> str:
    """How many patterns of pull are heard, by the number of rods."""
    rows = []
    for count in (3, 4, 5, 6, 8, 10, 12):
        ears = hearing(_even(count))
        rows.append((count, count, len(ears.cents), ears.unheard))
    return table(("rods", "ways to be uneven, and the mean", "heard", "never heard"), rows)


def pulls() -> str:
    """One drum before and after what listening could do, by the pull of each rod."""
    along = _even(len(BEFORE_N))
    was = _pair(BEFORE_N)
    shares = [one.share for one in _advice(was, along).pattern]
    turned = [[n + step * s for n, s in zip(BEFORE_N, shares, strict=True)] for step in range(80)]
    after = min(turned, key=lambda pull: _pair(pull).split_cents)
    now = _pair(after)
    half = len(along) // 2
    rows = [
        ("pulls, before", *(f"{n:.0f} N" for n in BEFORE_N)),
        ("reads near it, cents", *_cents_near(was, along)),
        ("turned", *(f"{_signed(b - a)} N" for a, b in zip(BEFORE_N, after, strict=True))),
        ("pulls, after", *(f"{n:.0f} N" for n in after)),
        ("reads near it, cents", *_cents_near(now, along)),
        (
            "more than the rod opposite",
            *(f"{_signed(after[k] - after[k - half])} N" for k in range(8)),
        ),
    ]
    head = ("rod", *(str(n) for n in range(1, 9)))
    return f"The split goes from {was.split_cents:.0f} to {now.split_cents:.0f} cents.\n\n" + table(
        head, rows
    )


def pair() -> str:
    """Two heads alike, perfectly even."""
    rows = []
    for across, deep in SIZES_IN:
        drum = HeadedShell(
            radius_m=across / 2 * INCH_M, depth_m=deep * INCH_M, batter=RESONANT,
            batter_n_per_m=N_PER_M, resonant=RESONANT, resonant_n_per_m=N_PER_M,
        )  # fmt: skip
        low, high = (mode.hz for mode in modes_around(drum, around=1) if mode.circles == 1)
        apart = cents(high, above_hz=low)
        rows.append((f"{across} x {deep} in", f"{low:.0f} Hz", f"{high:.0f} Hz", f"{apart:.0f}"))
    return table(("drum", "one pitch", "the other", "cents apart"), rows)


def causes() -> str:
    """What splits a head whose rods all pull alike."""
    grain = shares_of_split(film=True).film_cents
    rows = [("the film's own grain, at the most", "any", f"{grain:.0f}")]
    for oval_mm in (1.0, 2.0, 4.0):
        for across in (12, 16):
            made = oval_doublet(200.0, difference_m=oval_mm / 1e3, diameter_m=across * INCH_M)
            what = f"an edge {oval_mm:.0f} mm longer one way than across"
            rows.append((what, f"{across} in", f"{made.split_cents:.0f}"))
    return table(("what", "drum", "cents"), rows)


def turn() -> str:
    """What small turns on one pair, and as much back on the pair across it, may do at most."""
    rows = []
    for across, deep in SIZES_IN:
        radius_m, depth_m = across / 2 * INCH_M, deep * INCH_M
        drum = DrumToTune(
            key="", what="", radius_m=radius_m, depth_now_m=depth_m, depth_m=depth_m,
            heads_now=1, heads_then=1, batter=HeadTaken(head=BATTER),
            resonant=HeadTaken(head=None), rods_now=(), rods_then=(RODS,),
            diameter_mm=2e3 * radius_m,
        )  # fmt: skip
        hz = rim_hz(N_PER_M, radius_m=radius_m, depth_m=depth_m, head=BATTER, end="open")
        whole = at_most_cents_per_turn(drum, "batter", hz=hz)
        assert whole is not None
        at_most = (f"{whole / part:.0f}" for part in (64, 32, 16))
        rows.append((f"{across} in", *at_most, f"1/{whole / SAID_CENTS:.0f} of a turn"))
    cents_of = "cents at the most: 1/64 of a turn"
    head = ("drum", cents_of, "1/32", "1/16", f"{SAID_CENTS:.0f} cents take, at the least")
    return table(head, rows)


def second() -> str:
    """What a second head does to a drum that had one."""
    rows = []
    for across, deep in SIZES_IN:
        told = conversion(
            radius_m=across / 2 * INCH_M, depth_m=deep * INCH_M, batter=BATTER,
            batter_n_per_m=N_PER_M, resonant=RESONANT, resonant_n_per_m=N_PER_M,
        )  # fmt: skip
        low, high = sorted(told.together_hz)
        rows.append((
            f"{across} x {deep} in",
            f"{told.middle_before_hz:.0f} to {told.middle_after_hz:.0f} Hz",
            _signed(told.middle_cents),
            _signed(told.rim_cents),
            f"{cents(high, above_hz=low):.0f}",
        ))  # fmt: skip
    head = (
        "drum", "struck in the middle", "cents", "near a rod, the other head muted: cents",
        "near a rod, both ringing: cents apart",
    )  # fmt: skip
    return table(head, rows)


def glide() -> str:
    """How sharp a stroke begins, by how far the middle of the head swings."""
    rows = []
    for tight in (1500.0, 2500.0):
        drum = HeadedShell(
            radius_m=6 * INCH_M, depth_m=8 * INCH_M, batter=BATTER, batter_n_per_m=tight
        )
        mode = lowest(drum, 0)
        middle = sum(mode.batter_shape)
        sharp = []
        for swing_mm in (1.0, 2.0, 4.0):
            rise = rise_n_per_m(
                BATTER, mode, amplitude_m=swing_mm / 1e3 / abs(middle), drum=drum
            )  # fmt: skip
            sharp.append(f"{600.0 * math.log2(1.0 + rise / tight):.0f}")
        rows.append((f"{tight:.0f} N/m", *sharp))
    return table(("12 in drum, one ply of 10 mil at", "1 mm", "2 mm", "4 mm"), rows)


def listened() -> dict[str, str]:
    """Return what is read of the worked job's recordings."""
    rows = []
    for name in ("low-tom-rim-before.wav", "low-tom-rim-after.wav", "small-tom-rim-not-muted.wav"):
        made, read = _read(name)
        put = made.lobes
        rows.append((
            f"`{name}`",
            f"{put.split_cents:.0f} cents, tight at {put.axis_deg:.0f}°" if put.split_cents
            else "an even head, and another like it",
            f"{read.split_cents:.1f} cents" if read.split_cents is not None else "one pitch",
            f"{read.axis_deg:.0f}° ± {2 * (read.axis_doubt_deg or 0.0):.0f}°"
            if read.axis_deg is not None else "none",
            " ".join(_advice_on(made, read).sentences[:1]),
        ))  # fmt: skip
    head = ("recording", "put in", "read", "tight axis", "said")
    return {"demo": table(head, rows)}


def strips() -> dict[str, str]:
    """Return the low tom before and after, drawn on one scale."""
    read = {when: _read(f"low-tom-rim-{when}.wav") for when in ("before", "after")}
    reach = reach_of([reading for _, reading in read.values()])
    return {
        f"rim-{when}.svg": to_svg(
            draw_rim(
                reading, rods=_rods(made), pattern=_advice_on(made, reading).pattern,
                heading=f"Low tom, {when}", reach_cents=reach, key=when == "after",
            )
        )
        for when, (made, reading) in read.items()
    }  # fmt: skip


@cache
def _made() -> dict[str, Recording]:
    return {one.name: one for one in recordings()}


@cache
def _read(name: str) -> tuple[Recording, RimReading]:
    """Read a recording by where its taps are known to be, the one that is too loud left out."""
    made = _made()[name]
    ends = [tap.starts_s for tap in made.taps[1:]] + [made.taps[-1].starts_s + 1.8]
    taps = [
        Tap(
            rod=tap.rod,
            along_deg=tap.along_deg,
            stroke=Stroke(number=number, starts_s=tap.starts_s, ends_s=end - 0.02),
        )
        for number, (tap, end) in enumerate(zip(made.taps, ends, strict=True), 1)
        if not tap.too_loud
    ]
    return made, read_round_rim(decode(made.wav), taps, phone_deg=[PHONE.along_deg])


def _rods(made: Recording) -> list[tuple[int, float]]:
    return sorted({(tap.rod, tap.along_deg) for tap in made.taps})


def _advice_on(made: Recording, reading: RimReading) -> Advice:
    along = [along for _, along in _rods(made)]
    return advise(reading, rods=len(along), rod_deg=along)


def _advice(sounds: Doublet, along: Sequence[float]) -> Advice:
    read = RimReading(
        mean_hz=sounds.mean_hz, mean_doubt_hz=0.01, split_cents=sounds.split_cents,
        split_doubt_cents=0.1, axis_deg=sounds.tight_deg, axis_doubt_deg=0.5, quality="good",
    )  # fmt: skip
    return advise(read, rods=len(along), rod_deg=along, film=False, even_enough_cents=1.0)


def _pair(pulls_n: Sequence[float]) -> Doublet:
    radius_m = 7 * INCH_M
    edge = load_of_rods(pulls_n, radius_m=radius_m, along_deg=_even(len(pulls_n)))
    drum = HeadedShell(
        radius_m=radius_m, depth_m=10 * INCH_M, batter=BATTER, batter_n_per_m=edge.mean_n_per_m
    )
    return doublet_of(edge, even_hz=batter_lug_mode(drum).hz)


def _cents_near(sounds: Doublet, along: Iterable[float]) -> list[str]:
    read = [cents(pitch_near(sounds, along_deg=at), above_hz=sounds.mean_hz) for at in along]
    return [_signed(at) for at in read]


def _signed(value: float) -> str:
    return f"{round(value):+d}" if round(value) else "0"


def _even(count: int) -> list[float]:
    return [360.0 * n / count for n in range(count)]


if __name__ == "__main__":
    main()
