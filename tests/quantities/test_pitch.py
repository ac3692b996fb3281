"""Pitches: read as a drummer writes them, printed no finer than the ear."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.pitch import parse_pitch
from counterhoop.quantities.print_pitch import cents, moved_hz, print_hz, print_note, print_pitch


@pytest.mark.parametrize(
    ("text", "hz"),
    [
        # Equal temperament on A4 = 440 Hz, two decimals, as any table of notes has it
        # (from memory); A is exact in every octave.
        ("A4", 440.0),
        ("a2", 110.0),
        ("C4", 261.63),
        ("c 4", 261.63),
        ("B3", 246.94),
        ("Cb4", 246.94),
        ("B#3", 261.63),
        ("F#2", 92.50),
        ("F♯2", 92.50),
        ("Gb2", 92.50),
        ("G♭2", 92.50),
        ("E flat 2", 77.78),
        ("Bb2", 116.54),
        ("B-flat 2", 116.54),
        ("F＃2", 92.50),
        ("b2", 123.47),
        ("G2", 98.00),
        ("A2 +50 cents", 113.22),
        ("A2 −50 ct", 106.87),
        ("98 Hz", 98.0),
        ("98,5hz", 98.5),
    ],
)
def test_pitches(text: str, hz: float) -> None:
    assert parse_pitch(text).hz == pytest.approx(hz, abs=0.005)
    assert parse_pitch(text).as_written == text


def test_another_a() -> None:
    # Exact: every note goes with A.
    assert parse_pitch("A3", a4_hz=442.0).hz == 221.0
    assert print_note(221.0, a4_hz=442.0) == "A3"
    assert parse_pitch("98 Hz", a4_hz=442.0).hz == 98.0


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("98", '"98 Hz"'),
        (98, "a bare number"),
        ("G", 'with its octave, such as "G2"'),
        ("Bb", 'such as "Bb2"'),
        ("H2", '"B2" for H, "Bb2" for B'),
        ("Fis2", "a German note name"),
        ("A-2", 'the dash may join or take away: found .* wanted "A2"'),
        ("F#2 +120 cents", "the next note"),
        ("F2 to G2", "two notes"),
        ("A9", "no head of a drum sounds so high"),
        ("C0", "no head of a drum sounds so low"),
        ("1,500 Hz", "thousands"),
        ("0 Hz", "so low"),
        ("low", "cannot be read as a pitch"),
        ("F#2 12 cents", "above or below"),
        ("F#2 +10 cents (93 Hz)", "a note and its Hz"),
        ("A##2", "cannot be read as a pitch"),
        ("nan Hz", "cannot be read as a pitch"),
        ("", "nothing is written"),
    ],
)
def test_refused(text: object, says: str) -> None:
    with pytest.raises(BadInput, match=says):
        parse_pitch(text)


@given(hz=st.floats(30.0, 1900.0), resolution=st.sampled_from([1, 2, 5, 10, 20]))
def test_what_is_printed_is_read_again(hz: float, resolution: float) -> None:
    # Exact law: within half the step that was printed.
    back = parse_pitch(print_note(hz, resolution_cents=resolution)).hz
    assert abs(cents(back, above_hz=hz)) <= resolution / 2 + 1e-6


@given(hz=st.floats(30.0, 1900.0), resolution=st.floats(0.5, 50.0))
def test_hz_are_no_finer_than_the_ear_nor_much_coarser(hz: float, resolution: float) -> None:
    # The step is the next of 1, 2, 5 above the resolution: at most 2.5 times as coarse.
    back = parse_pitch(print_hz(hz, resolution_cents=resolution)).hz
    assert abs(back - hz) <= 2.5 * hz * (2 ** (resolution / 1200) - 1) / 2 + 1e-9


@given(hz=st.floats(30.0, 1900.0), by=st.floats(-1200, 1200))
def test_cents_there_and_back(hz: float, by: float) -> None:
    assert cents(moved_hz(hz, cents=by), above_hz=hz) == pytest.approx(by, abs=1e-6)


def test_print() -> None:
    # Hand-worked: 5 cents of 98 Hz are 0.28 Hz, so halves are shown; of 255 Hz 0.74: whole.
    assert print_hz(98.3) == "98.5 Hz"
    assert print_hz(254.6) == "255 Hz"
    assert print_pitch(146.83) == "D3 (147 Hz)"
    for wrong in (0.0, -1.0, float("nan"), float("inf")):
        with pytest.raises(BadInput, match="no pitch at all"):
            print_note(wrong)
    with pytest.raises(BadInput, match="finest step"):
        print_hz(98.0, resolution_cents=0)
