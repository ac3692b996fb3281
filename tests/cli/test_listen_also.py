"""``listen --also``: the same taps with the phone in a second place.

Truth: the recordings are made by the forward model, of a head that is even.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

from counterhoop.heads.wav import wav_bytes
from counterhoop.listen.refuse import SILENT
from counterhoop.listen.rim_words import second_place

sys.path.insert(0, str(Path(__file__).parents[1] / "bench" / "tune"))

from small_kits import drum, tune
from tapped import tapped

TOM = drum("tom", girth=955, depth=203)


@pytest.fixture(autouse=True)
def together_only(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read no stroke singly but one: that takes longest, and nothing is asked of it here."""
    monkeypatch.setattr("counterhoop.bench.tune.listened.MOST_READ", 1)


@pytest.fixture(scope="module")
def at_bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a survey, taps from two places of the phone, and silence."""
    folder, tom = tmp_path_factory.mktemp("also"), tune(TOM)
    (folder / "tom.toml").write_text(f'format = 1\n[job]\nnumber = "1"\n{TOM}')
    (folder / "first.wav").write_bytes(tapped(tom, phone_deg=205.0))
    (folder / "second.wav").write_bytes(tapped(tom, phone_deg=250.0, rods=(3, 4, 5, 6, 1, 2)))
    (folder / "silence.wav").write_bytes(wav_bytes(np.zeros(44_100)))
    return folder


@pytest.fixture
def listen(run, at_bench, monkeypatch):
    monkeypatch.chdir(at_bench)
    return lambda *words: run("listen", "first.wav", *words)


def plain(text):
    return " ".join(text.split())


def test_both_places_are_listed_and_read_together(listen):
    alone = listen("tom.toml")
    assert second_place(0) in plain(alone.out)
    both = listen("tom.toml", "--also", "second.wav", "--also-first", "3")
    assert both.code == 0
    first, second = both.out.split("From another place of the phone, second.wav:")
    assert second_place(0) not in plain(both.out)

    def rods(part):
        return [int(line.partition("rod")[2].split()[0]) for line in part.splitlines()
                if " s  rod" in line]  # fmt: skip

    assert rods(first) == [1, 2, 3, 4, 5, 6]
    assert rods(second) == [3, 4, 5, 6, 1, 2]
    # The order that is taken for granted stands before what to do.
    said = plain(second)
    order = said.index("Taken as tapped at rod 1, then rod 2 and so on: anticlockwise")
    assert order < said.index("as even round the rim as listening can tell")


def test_a_second_of_no_use_is_listed_with_why(listen):
    ran = listen("tom.toml", "--also", "silence.wav")
    assert ran.code == 0
    assert f"Left out: {SILENT}" in plain(ran.out)
    assert second_place(0) in plain(ran.out)


def test_without_a_survey_the_second_is_left_out_and_said_to_be(listen):
    ran = listen("--also", "second.wav")
    assert ran.code == 0
    assert "needs the drum's survey: left out" in ran.err
    assert "From another place" not in ran.out


def test_taps_against_the_numbers(listen):
    ran = listen("tom.toml", "--back", "--first", "2")
    assert "Taken as tapped at rod 2, then rod 1 and so on: clockwise" in plain(ran.out)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--also", "gone.wav"), "there is no such file"),
        (("--also", "tom.toml"), "tom.toml: this is no sound file"),
        (("--also", "second.wav", "--also-first", "7"), "no such rod"),
    ],
)
def test_a_slip_is_one_line_and_exit_code_2(listen, words, says):
    ran = listen("tom.toml", *words)
    assert ran.code == 2
    assert says in ran.err
    assert ran.err.strip().count("\n") == 0
