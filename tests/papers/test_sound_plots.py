"""Spectrum and fading: every mark where its scales say, words on nothing."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from example_tuning import DECAY_PER_S, MEAN_HZ, sound
from hypothesis import given
from hypothesis import strategies as st
from test_labels import texts_that_overlap

from counterhoop.heads.mode import Mode, Standing
from counterhoop.papers.drawing.extent import extent_box
from counterhoop.papers.drawing.records import Drawing, Line, Path, Text
from counterhoop.papers.sound_plots import draw_fade, draw_spectrum


def spectrum(
    tones: list[tuple[float, float]] | None = None, modes: list[Mode] | None = None
) -> Drawing:
    shown = sound()
    return draw_spectrum(
        shown.spectrum_db, from_hz=shown.from_hz, step_hz=shown.step_hz,
        partials=shown.tones if tones is None else tones,
        modes=shown.modes if modes is None else modes,
    )  # fmt: skip


def fade(decay_per_s: float = DECAY_PER_S) -> Drawing:
    shown = sound()
    return draw_fade(
        shown.fade_db, step_s=shown.fade_step_s, hz=MEAN_HZ, decay_per_s=decay_per_s
    )  # fmt: skip


def hz_scale(drawing: Drawing) -> tuple[float, float]:
    """Where 0 Hz lies and millimetres a Hz, by the printed figures."""
    at = {
        s.text: s.x_mm
        for s in drawing.strokes
        if isinstance(s, Text) and s.text in ("100", "700") and not s.bold
    }
    per_hz = (at["700"] - at["100"]) / 600.0
    return at["100"] - 100.0 * per_hz, per_hz


def named(drawing: Drawing, start: str) -> list[Line]:
    return [s for s in drawing.strokes if isinstance(s, Line) and s.ident.startswith(start)]


def test_tones_and_modes_stand_at_their_hz() -> None:
    drawing = spectrum()
    zero, per_hz = hz_scale(drawing)
    assert [
        s.x_mm if isinstance(s, Text) else s.x1_mm for s in named(drawing, "spectrum-tone")
    ] == [pytest.approx(zero + hz * per_hz) for hz, _ in sound().tones]
    (tick,) = named(drawing, "spectrum-mode")
    assert tick.x1_mm == pytest.approx(zero + MEAN_HZ * per_hz)


def test_the_curve_is_highest_where_the_tone_is() -> None:
    drawing = spectrum()
    zero, per_hz = hz_scale(drawing)
    (curve,) = (s for s in drawing.strokes if isinstance(s, Path) and "curve" in s.ident)
    x, _ = min(curve.points, key=lambda point: point[1])
    assert abs((x - zero) / per_hz - MEAN_HZ) <= 2.0


def test_the_decay_that_is_drawn_lies_on_a_sound_that_dies_so() -> None:
    """Exact law: 20 d / ln 10 dB a second; the example's floor begins at -45 dB."""
    drawing = fade()
    (curve,) = (s for s in drawing.strokes if isinstance(s, Path) and "curve" in s.ident)
    (line,) = named(drawing, "fade-fit")
    slope = (line.y2_mm - line.y1_mm) / (line.x2_mm - line.x1_mm)
    loud = curve.points[:50]
    assert all(abs(line.y1_mm + slope * (x - line.x1_mm) - y) < 0.1 for x, y in loud)
    wrong = named(fade(2.0 * DECAY_PER_S), "fade-fit")[0]
    other = (wrong.y2_mm - wrong.y1_mm) / (wrong.x2_mm - wrong.x1_mm)
    assert other == pytest.approx(2.0 * slope, rel=1e-6)


def test_how_long_it_rings_is_said() -> None:
    """ln 1000 / 5 is 1.38 s (hand-worked)."""
    assert f"{math.log(1000.0) / DECAY_PER_S:.1f}" == "1.4"
    assert "falls by 60 dB in 1.4 s" in fade().says


def mode(around: int, circles: int, hz: float, family: str = "alone") -> Mode:
    bare = Mode(
        around=around, circles=circles, family="alone", hz=hz, batter_share=1.0,
        batter_shape=(1.0,), resonant_shape=(), standing=Standing.CHECKED,
    )  # fmt: skip
    return replace(bare, family=family)


@given(
    tones=st.lists(st.tuples(st.floats(20.0, 790.0), st.floats(-50.0, 0.0)), max_size=9),
    heard=st.lists(st.tuples(st.integers(0, 6), st.floats(20.0, 790.0)), max_size=20),
)
def test_words_stand_on_no_other_and_within_the_sheet(
    tones: list[tuple[float, float]], heard: list[tuple[int, float]]
) -> None:
    drawing = spectrum(tones, [mode(around, 1, hz) for around, hz in heard])
    assert texts_that_overlap(drawing) == []
    for stroke in drawing.strokes:
        left, top, right, bottom = extent_box(stroke)
        assert min(left, top) >= -1e-6, stroke
        assert right <= drawing.width_mm + 1e-6, stroke
        assert bottom <= drawing.height_mm + 1e-6, stroke
    assert len(named(drawing, "spectrum-mode")) == len(heard)


def test_a_spectrum_without_a_tone_says_so() -> None:
    assert spectrum([], []).says == "No tone was found."
