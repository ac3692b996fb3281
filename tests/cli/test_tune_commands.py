"""The commands for pitches and for listening, as a person meets them.

Truth: sounds are made by the forward model with a split and an axis that are known; plans by the
planner that the tests of heads hold.
"""

from __future__ import annotations

import json
import re
import sys
import wave
from pathlib import Path

import numpy as np
import pytest

from counterhoop.bench.tune.drum_to_tune import DrumToTune
from counterhoop.heads.strike import Lobes
from counterhoop.heads.wav import wav_bytes

sys.path.insert(0, str(Path(__file__).parents[1] / "bench" / "tune"))

from small_kits import drum, tune
from tapped import tapped

TOM = drum("tom", girth=955, depth=203)
FLOOR = drum("floor", girth=1280, depth=406, lugs=8, kind="floor tom")


@pytest.fixture(scope="module")
def tom() -> DrumToTune:
    return tune(TOM)


@pytest.fixture(scope="module")
def taps(tom: DrumToTune, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("taps") / "taps.wav"
    path.write_bytes(tapped(tom, lobes=Lobes(split_cents=30.0, axis_deg=70.0)))
    return path


@pytest.fixture
def survey(tmp_path: Path) -> Path:
    path = tmp_path / "kit.toml"
    path.write_text(f'format = 1\n[job]\nnumber = "1"\n{TOM}\n{FLOOR}')
    return path


@pytest.mark.parametrize("command", ["kit", "listen", "hear"])
def test_each_command_explains_itself(command, run):
    ran = run(command, "--help")
    assert ran.code == 0
    assert len(ran.out) > 300


def test_a_kit_is_planned_in_words(run, survey):
    ran = run("kit", survey)
    assert ran.code == 0
    assert ran.out.index("floor: ") < ran.out.index("tom: ")
    assert "struck in the middle" in ran.out
    assert "in the order 1-5-3-7-2-6-4-8" in " ".join(ran.out.split())
    assert "taken to be one ply of 10 mil film" in ran.out
    assert "Old castings crack" in ran.out
    assert max(map(len, ran.out.splitlines())) <= 96


def test_a_kit_is_planned_as_json(run, survey):
    ran = run("kit", survey, "--json")
    told = json.loads(ran.out)
    assert [one["drum"] for one in told["drums"]] == ["floor", "tom"]
    batter = told["drums"][0]["heads"][0]
    assert batter["tension_n_per_m"] % 50.0 == 0.0
    assert batter["thread"] == "12-24 UNC"


def test_a_wish_that_cannot_be_met_is_answered(run, survey):
    survey.write_text(survey.read_text() + '\n[kit]\nlowest = { drum = "tom", pitch = "30 Hz" }\n')
    ran = run("kit", survey)
    assert ran.code == 0
    assert "no plan" in ran.out
    assert "too low" in ran.out


def test_taps_are_heard_with_the_drum_beside_them(run, survey, taps):
    ran = run("listen", taps, survey, "--drum", "tom")
    assert ran.code == 0
    assert "Round the rim" in ran.out
    assert "rod  6" in ran.out
    assert "castings" in ran.out
    # Which rods: the tight axis at 70 degrees lies nearest to rods 2 and 5.
    assert "2 and 5" in ran.out


def test_without_a_survey_there_are_strokes_and_pitches(run, taps):
    ran = run("listen", taps)
    assert ran.code == 0
    assert len([line for line in ran.out.splitlines() if " Hz" in line]) >= 3
    assert "Round the rim" not in ran.out
    # Of several strokes no single lowest tone is spoken of; figures have one decimal alike.
    assert re.search(r"The middle one of the lowest tones of \d strokes", " ".join(ran.out.split()))
    strokes = re.findall(r"at +[\d.]+ s +([\d.]+) Hz", ran.out)
    assert len(strokes) >= 3
    assert all(re.fullmatch(r"\d+\.\d", hz) for hz in strokes)
    assert max(map(len, ran.out.splitlines())) <= 100


def test_strokes_can_be_given_their_rods(run, survey, taps):
    ran = run("listen", taps, survey, "--drum", "tom", "--rods", "1,2,0,4,5,6")
    assert ran.code == 0
    assert "Left out by hand" in ran.out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--drum", "tom", "--rods", "1,two"), "not a list of rods"),
        (("--drum", "tom", "--head", "top"), "not one of the words"),
        (("--drum", "tom", "--stage", "later"), "not one of the words"),
        ((), "which drum was tapped"),
        (("--drum", "kettle"), "no drum of that name"),
        (("--drum", "tom", "--first", "7"), "no such rod"),
    ],
)
def test_a_slip_is_one_line_and_exit_code_2(words, says, run, survey, taps):
    ran = run("listen", taps, survey, *words)
    assert ran.code == 2
    assert says in ran.err
    assert ran.err.strip().count("\n") == 0


def test_silence_is_said_and_the_exit_code_is_1(run, tmp_path):
    quiet = tmp_path / "quiet.wav"
    quiet.write_bytes(wav_bytes(np.zeros(44_100)))
    ran = run("listen", quiet)
    assert ran.code == 1
    assert "silence" in ran.err


def test_a_file_that_is_not_there_or_no_sound_is_refused(run, tmp_path):
    gone = run("listen", tmp_path / "gone.wav")
    assert gone.code == 2
    assert "there is no such file" in gone.err
    text = tmp_path / "notes.txt"
    text.write_text("tap")
    assert run("listen", text).code == 2


def test_a_scheme_is_heard_before_and_after(run, survey, tmp_path):
    one = drum("tom", girth=955, depth=203, heads=1)
    wish = '\n[drums.tom.wish]\nwant = "second head"\n'
    survey.write_text(f'format = 1\n[job]\nnumber = "1"\n{one}{wish}')
    ran = run("hear", survey, "--drum", "tom", "--to", tmp_path / "sounds")
    assert ran.code == 0
    assert "A sketch" in ran.out
    written = sorted((tmp_path / "sounds").glob("*.wav"))
    assert len(written) == 4
    with wave.open(str(written[0])) as opened:
        assert opened.getnframes() > 44_100
    assert run("hear", survey, "--drum", "tom", "--scheme", "99", "--to", tmp_path / "x").code == 2


def test_the_worked_job_s_recordings_can_be_listened_to(run, tmp_path):
    ran = run("demo", "--sounds", tmp_path / "sounds")
    assert ran.code == 0
    names = {path.name for path in (tmp_path / "sounds").glob("*.wav")}
    assert "low-tom-rim-before.wav" in names
    assert all(name in ran.out for name in names)
    heard = run("listen", tmp_path / "sounds" / "low-tom-one-tap.wav")
    assert heard.code == 0
    assert "Its lowest tone" in heard.out
