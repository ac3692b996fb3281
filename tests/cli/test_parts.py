"""The parts of a survey file in words."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

SNARE = Path(str(files("counterhoop.bench").joinpath("demonstration", "lone-snare.toml")))


def test_what_comes_off_and_what_is_wanted(run):
    """By hand: the strainer is gone; its scheme puts it back, its screws and washers lack."""
    ran = run("parts", SNARE)
    assert ran.code == 0
    lines = [line.strip() for line in ran.out.splitlines()]
    assert lines[0].startswith("school snare: ")
    lugs = "1 × Corvane round short lug; 2 × screw 10-24 x 5/8 in; 2 × screw washer 14"
    assert f"batter lugs 1 to 8, each: {lugs}" in lines
    assert any(line.startswith("strainer, gone: ") for line in lines)
    wanted = lines[lines.index("Wanted, before anything is counted:") + 1 :]
    assert wanted[:3] == [
        "2 × screw 10-24 x 5/8 in: strainer (2)",
        "2 × screw washer 14: strainer (2)",
        "1 × Corvane lever strainer: new under the scheme",
    ]
    assert run("parts", SNARE, "--drum", "no such drum").code == 2
