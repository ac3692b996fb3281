"""Hold the reading of strokes against real drums, a library for music, and what is possible at all.

``.venv/bin/python docs/pictures/listening.py`` writes ``explanation/what-can-be-heard-evidence.md``
and the plot in it, by the same readings that the tests hold to limits. It needs the recordings that
``tests/listen/get_recordings.py`` gets, and some minutes.
"""

from __future__ import annotations

import statistics
import sys
import warnings
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parents[1] / "tests" / "listen"))

import get_recordings  # type: ignore[import-not-found]  # noqa: E402
import recordings as kept  # type: ignore[import-not-found]  # noqa: E402
import test_read_stroke as one_stroke  # type: ignore[import-not-found]  # noqa: E402
import test_real_strokes as real  # type: ignore[import-not-found]  # noqa: E402

PAGE = HERE.parent / "explanation" / "what-can-be-heard-evidence.md"
PLOT = HERE / "listening-bound.png"
WIRES = ("snare, centre, wires on", "snare, edge, wires on")
GROSS_CENTS, NEAR_CENTS = 200.0, 15.0
FROM_S, TO_S = 0.05, 0.5
LOW_HZ, HIGH_HZ = 40.0, 420.0
HERTZ, DECAYS, SHARES, SNRS = 100.0, (2.8, 4.0, 7.0), (0.0, 0.02, 0.06, 0.12), (20.0, 30.0, 40.0)
PER_CELL, PAIRS, SINGLES = 30, 60, 60
Method = Callable[[Any], float | None]


@dataclass(frozen=True, kw_only=True)
class Score:
    """How a way of reading did on some takes."""

    takes: int
    unread: int
    gross: int
    near: int
    sharp_cents: float | None
    spread_hz: float | None


class Takes:
    """Takes of each drum, where each of them ends up, and what is read of it, once."""

    def __init__(self, recordings: Any) -> None:
        self.of = {drum: recordings.takes(drum) for drum in (*real.TOMS, *WIRES)}
        self.read = {drum: [real.read(take) for take in takes] for drum, takes in self.of.items()}
        self.end_hz = {drum: [_end_hz(take, drum) for take in self.of[drum]] for drum in real.TOMS}


def main() -> None:
    """Write the page and its plot."""
    takes = kept.recordings_in(get_recordings.folder())
    lines = []
    for line in page(takes):
        lines.append(line)
        PAGE.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(PAGE.name)


def page(takes: Any) -> Iterator[str]:
    """Yield the page line by line."""
    yield "<!-- Made by docs/pictures/listening.py. Run it again, do not change this page. -->\n"
    yield "# How well strokes are read\n"
    yield (
        "The evidence behind [what can be heard](what-can-be-heard.md): real drums first, then "
        "sounds whose truth is known. The tests hold all of it to limits.\n"
    )
    yield "## Real drums\n"
    yield (
        f"Toms of two packages of free recordings, each struck at several strengths and not "
        f"touched between: `{kept.FILES}` and `{kept.FONTS}`, both of Debian. The same take sold "
        "at two strengths counts once. The truth that a take is held to is its own last part, by "
        "a plain spectrum from six tenths of it on, or from one second, near where the drum's "
        f"lowest pitch is known to lie. **Grossly wrong** is more than {GROSS_CENTS:.0f} cents "
        "from there, so that even the sharp beginning of a hard stroke is forgiven; **near** is "
        "within "
        f"{NEAR_CENTS:.0f} cents. **Differs** is the standard deviation over the strengths of one "
        "drum, the median of the drums; a take that the recorder clipped is not counted there, as "
        "the program drops such a stroke.\n"
    )
    read = Takes(takes)
    yield from against_others(read)
    yield (
        "\n*yin*, *pyin* and *piptrack* are those of librosa, set for drums (40 to 420 Hz, long "
        "windows), the median from 0.05 to 0.5 s. They are made for voices and strings and follow "
        "a pitch while it moves; where the stroke settles is not what they were asked. A late "
        "spectrum is the simple way, and on clean toms it is hard to beat: what it lacks is a "
        "doubt, a decay, and a way to tell that another tone is the louder one. The truth is a "
        "later spectrum still, which favours it.\n"
    )
    yield (
        "Drum by drum, as read here. How sharp a stroke starts is carried back to its first "
        "instant, where the stick is heard as well: take it as more or less.\n"
    )
    yield from drum_by_drum(read)
    yield ""
    yield from wires(read)
    yield "\n## Sounds whose truth is known\n"
    yield from against_the_bound()
    yield ""
    yield from pairs()


def methods() -> dict[str, Method]:
    """Return every other way of reading, by name."""
    return {
        "late spectrum, from 0.35 s": lambda take: real.peak_from(take, 0.35, None),
        "spectrum of the whole stroke": lambda take: real.peak_from(take, 0.0, None),
        "yin": yin,
        "pyin": pyin,
        "piptrack": piptrack,
    }


def against_others(takes: Takes) -> Iterator[str]:
    """Yield the table of all methods over all toms, struck in the middle and at the edge."""
    rows = []
    for name, method in {"as it is read here": None, **methods()}.items():
        for where, drums in (
            ("middle", [drum for drum in real.TOMS if drum not in real.EDGE]),
            ("edge", list(real.EDGE)),
        ):
            all_of = score(takes, drums, method)
            rows.append((
                name, where, all_of.takes, all_of.unread, all_of.gross, all_of.near,
                _figure(all_of.sharp_cents, "{:+.0f}"), _figure(all_of.spread_hz, "{:.2f} Hz"),
            ))  # fmt: skip
    head = (
        "read by", "struck", "takes", "no reading", "grossly wrong", "near", "sharp, cents",
        "differs",
    )  # fmt: skip
    return _table(head, rows)


def score(takes: Takes, drums: Sequence[str], method: Method | None) -> Score:
    """Return how a method did on some drums; without one, the reading here."""
    count = unread = gross = near = 0
    off, spreads = [], []
    for drum in drums:
        read_hz = []
        every = zip(takes.of[drum], takes.read[drum], takes.end_hz[drum], strict=True)
        for take, reading, end_hz in every:
            count += 1
            settled = reading.settled.hz if reading.settled else None
            hz = settled if method is None else method(take)
            if hz is None:
                unread += 1
                continue
            cents = 1200.0 * float(np.log2(hz / end_hz))
            if abs(cents) > GROSS_CENTS:
                gross += 1
                continue
            near += abs(cents) <= NEAR_CENTS
            off.append(cents)
            if not real.clipped(take):
                read_hz.append(hz)
        if len(read_hz) > 1:
            spreads.append(statistics.stdev(read_hz))
    return Score(
        takes=count, unread=unread, gross=gross, near=near,
        sharp_cents=statistics.median(off) if off else None,
        spread_hz=statistics.median(spreads) if spreads else None,
    )  # fmt: skip


def yin(take: Any) -> float | None:
    """Return the middle of what it finds frame by frame."""
    import librosa

    sound, rate_hz = _from_onset(take)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        hz = librosa.yin(
            sound, fmin=LOW_HZ, fmax=HIGH_HZ, sr=rate_hz, frame_length=4096, hop_length=256
        )
    return _middle(hz, rate_hz)


def pyin(take: Any) -> float | None:
    """Return the middle of what it finds frame by frame, where it finds a voice."""
    import librosa

    sound, rate_hz = _from_onset(take)
    hz, _, _ = librosa.pyin(
        sound, fmin=LOW_HZ, fmax=HIGH_HZ, sr=rate_hz, frame_length=4096, hop_length=256
    )
    return _middle(hz, rate_hz)


def piptrack(take: Any) -> float | None:
    """Return the middle of the loudest peak of each frame."""
    import librosa

    sound, rate_hz = _from_onset(take)
    pitches, loud = librosa.piptrack(
        y=sound, sr=rate_hz, fmin=LOW_HZ, fmax=HIGH_HZ, n_fft=8192, hop_length=256
    )
    at = loud.argmax(axis=0)
    hz = pitches[at, np.arange(len(at))]
    return _middle(np.where(hz > 0.0, hz, np.nan), rate_hz)


def drum_by_drum(takes: Takes) -> Iterator[str]:
    """Yield what is read of each tom."""
    rows = []
    for drum in real.TOMS:
        each = takes.read[drum]
        hz = [one.settled.hz for one in each if one.settled]
        whole = [
            one.settled.hz
            for take, one in zip(takes.of[drum], each, strict=True)
            if one.settled and not real.clipped(take)
        ]
        ends = zip(each, takes.end_hz[drum], strict=True)
        off = [1200.0 * np.log2(one.settled.hz / end) for one, end in ends if one.settled]
        falls = sorted(one.glide.cents for one in each if one.glide)
        beats = sorted({f"{pair.beat_hz:.1f}" for one in each for pair in one.pairs})
        rows.append((
            drum, f"{kept.DRUMS[drum].package}, set {kept.DRUMS[drum].set}",
            f"{len(hz)} of {len(each)}",
            f"{statistics.median(hz):.1f} Hz", f"{statistics.stdev(whole):.2f} Hz",
            f"{statistics.median(off):+.0f}",
            f"{falls[0]:.0f} to {falls[-1]:.0f}" if falls else "none", ", ".join(beats) or "none",
        ))  # fmt: skip
    head = (
        "drum", "from", "read", "settles at", "differs", "from its end, cents",
        "starts sharp by, cents", "pairs that beat at, Hz",
    )  # fmt: skip
    return _table(head, rows)


def wires(takes: Takes) -> Iterator[str]:
    """Yield what became of snares with their wires on."""
    each = [reading for drum in WIRES for reading in takes.read[drum]]
    count, read = len(each), sum(reading.settled is not None for reading in each)
    yield (
        f"Of {count} strokes on a snare with its wires on {count - read} are refused and "
        f"{read} read, those with their quality lowered."
    )


def against_the_bound() -> Iterator[str]:
    """Draw errors beside the least that any method could make; yield what it shows."""
    import matplotlib as mpl

    mpl.use("Agg")
    import matplotlib.pyplot as plt

    figure, panels = plt.subplots(1, len(DECAYS), figsize=(10, 3.6), sharey=True)
    ratios, inks = [], ("#22303a", "#7b6a45", "#2f6f8f", "#b5482a")
    for panel, decay in zip(panels, DECAYS, strict=True):
        for share, ink in zip(SHARES, inks, strict=True):
            # The bound is the same for all of them, to a per cent.
            cells = [
                one_stroke.cell(HERTZ, decay, share, snr_db, count=PER_CELL) for snr_db in SNRS
            ]
            ratios += [cell.over_bound for cell in cells]
            cents = 1200.0 * np.log2(1.0 + share)
            if not share:
                least = [cell.bound_cents for cell in cells]
                panel.plot(SNRS, least, color="#22303a", lw=1, label="the least possible")
            panel.plot(
                SNRS, [cell.worst_cents for cell in cells], "o", color=ink,
                label=f"starts {cents:.0f} cents sharp",
            )  # fmt: skip
        panel.set_yscale("log")
        panel.yaxis.set_major_formatter(lambda cents, _: f"{cents:g}")
        panel.set_title(f"1/e in {1 / decay:.2f} s", fontsize=10)
        panel.set_xlabel("above the noise, dB")
    panels[0].set_ylabel("error, cents")
    panels[-1].legend(fontsize=8, frameon=False)
    figure.tight_layout()
    figure.savefig(PLOT, dpi=110, metadata={"Software": None})
    print(PLOT.name)
    whole = float(np.sqrt(np.mean(np.square(ratios))))
    yield (
        f"A tone of {HERTZ:.0f} Hz that begins sharp, settles and dies away, in white noise. The "
        "line is the least error that a method can have on the mean which knows nothing of the "
        "glide beforehand and favours none (the Cramér-Rao bound of the whole sound model); dots "
        f"are the root mean square of {PER_CELL} readings each. Over all of them it is "
        f"{whole:.2f} times the bound, at the worst dot {max(ratios):.2f} times. A tone that does "
        "not glide comes out below the line, because a glide is expected to die twice as fast as "
        "the tone, and no more than a drum does, unless the sound shows another; the bound expects "
        "nothing.\n"
    )
    yield "![Errors of the settled pitch and the bound, by decay, glide and noise](../pictures/" + (
        f"{PLOT.name})"
    )


def pairs() -> Iterator[str]:
    """Yield how often pairs are found, and invented."""
    found = one_stroke.found_pairs(PAIRS)
    invented = one_stroke.invented_pairs(SINGLES)
    yield (
        f"Two tones 2 Hz apart, gliding, 20 dB above the noise: found in {found:.0%} of {PAIRS} "
        f"strokes. A single tone that glides by up to 200 cents, 15 to 60 dB above the noise: a "
        f"pair invented in {invented:.0%} of {SINGLES}. Each at random, with fixed seeds."
    )


def _end_hz(take: Any, drum: str) -> float:
    """Return where the last part of a take rings."""
    seconds = (len(take.samples) - real.onset(take)) / take.rate_hz
    return float(real.peak_from(take, min(0.6 * seconds, 1.0), real.TOMS[drum]))


def _from_onset(take: Any) -> tuple[Any, int]:
    return take.samples[real.onset(take) :], take.rate_hz


def _middle(hz: Any, rate_hz: int) -> float | None:
    per_s = rate_hz / 256.0
    part = hz[round(FROM_S * per_s) : round(TO_S * per_s)]
    part = part[np.isfinite(part)]
    return float(np.median(part)) if len(part) else None


def _figure(value: float | None, form: str) -> str:
    return "" if value is None else form.format(value)


def _table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> Iterator[str]:
    yield f"| {' | '.join(head)} |"
    yield f"|{'---|' * len(head)}"
    for row in rows:
        yield f"| {' | '.join(str(cell) for cell in row)} |"


if __name__ == "__main__":
    main()
