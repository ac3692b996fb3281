"""Files spoilt at random are read or refused with one line; nothing else is ever raised."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file.gate import survey_bytes
from counterhoop.shell.survey_file.read import read_survey

EVERYTHING = (Path(__file__).parent / "data" / "everything.toml").read_text()
NASTY = (
    *(
        '""',
        '"0 mm"',
        '"-1 mm"',
        '"nan"',
        '"1e9 mm"',
        '"9999 mm"',
        '"lug 99"',
        '"hole 1"',
        '"vent"',
    ),
    *("0", "-1", "1e308", "nan", "inf", "true", "[]", "[[]]", "{}", "2026-01-01", "10:00:00"),
    *(
        '"360 deg"',
        '"1/0 in"',
        '"\\u0000"',
        "[{}]",
        '[1, "2 mm"]',
        '"batter lug 1 + 900 mm"',
        "0x7f",
    ),
    *(
        '"0, 0.1, 0.25, 0 mm"',
        '"0,1 0,2 mm"',
        '"353 353.5 in"',
        '["1 mm", "2 mm"]',
        '"-1, 9, 0, 0 mm"',
    ),
    *('"24 tpi"', '"18 C"', '"55 %"', '"flat"', '"45 with back-cut"', '"blue ripple"', '"9 EUR"'),
    *('{ a = { b = "1 mm" } }', '"bracket"', '"opposite vent bush"', "'''x'''", '"5 mm" # x'),
)


def read_bytes(content: bytes) -> bool:
    """Read a file; tell whether it was good."""
    try:
        read_survey(survey_bytes(content, name="kit.toml"), name="kit.toml")
    except BadInput as fault:
        line = str(fault)
        assert line
        assert "\n" not in line
        return False
    return True


def spoil_value(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    with_value = [number for number, line in enumerate(lines) if " = " in line]
    number = chance.choice(with_value)
    lines[number] = lines[number].split(" = ")[0] + " = " + chance.choice(NASTY)
    return "\n".join(lines)


def spoil_line(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    first, second = chance.randrange(len(lines)), chance.randrange(len(lines))
    kind = chance.randrange(3)
    if kind == 0:
        del lines[first]
    elif kind == 1:
        lines.insert(second, lines[first])
    else:
        lines[first], lines[second] = lines[second], lines[first]
    return "\n".join(lines)


def spoil_sign(text: str, chance: random.Random) -> str:
    place = chance.randrange(len(text))
    sign = chance.choice("\"'[]{}=.,#\\\n\0 \t0a-é\u2028\ufeff")
    return text[:place] + sign + text[place + chance.randrange(2) :]


def spoil_word(text: str, chance: random.Random) -> str:
    words = [
        '"batter"',
        '"resonant"',
        "mm",
        "deg",
        "along",
        "near",
        "lug",
        '"6 mm"',
        "down",
        "hole",
        "gaps",
        "heights",
        "dial",
        "radii",
        "across",
        '"flat"',
        "pitch",
        "over",
    ]
    return text.replace(chance.choice(words), chance.choice(words), chance.randrange(1, 9))


SPOILERS: tuple[Callable[[str, random.Random], str], ...] = (
    spoil_value,
    spoil_line,
    spoil_sign,
    spoil_word,
)


def count_good(*, rounds: int, seed: int) -> int:
    chance = random.Random(seed)
    good = 0
    for _ in range(rounds):
        text = EVERYTHING
        for _ in range(chance.randrange(1, 4)):
            text = chance.choice(SPOILERS)(text, chance)
        good += read_bytes(text.encode("utf-8", errors="surrogatepass"))
    return good


def test_a_file_spoilt_at_random_is_read_or_refused() -> None:
    good = count_good(rounds=150, seed=20)
    assert 0 < good < 150, "some must pass and some must not, or nothing was tried"


@pytest.mark.full
@pytest.mark.parametrize("seed", range(10))
def test_a_file_spoilt_at_random_is_read_or_refused_many_times(seed: int) -> None:
    assert 0 < count_good(rounds=1000, seed=1000 + seed) < 1000


@given(st.binary(max_size=200))
def test_bytes_at_random_are_refused(content: bytes) -> None:
    assert not read_bytes(content)


NAMES = (
    *("wall", "size", "kind", "surface", "depth", "tape", "wood", "air.humidity"),
    *("air.temperature", "round.batter.across", "round.batter.dial", "round.resonant.radii"),
    *("edges.batter.gaps", "edges.resonant.heights", "edges.batter.profile.cut"),
    *("fit.batter.collar", "finish_plan.true_batter", "finish_plan.wrap"),
)
NUMBERS = st.text(alphabet="0123456789.,;/- '\"minctpfl%", max_size=40)


@given(st.text(max_size=40) | NUMBERS, st.sampled_from(NAMES))
def test_text_at_random_in_any_place_is_read_or_refused(text: str, name: str) -> None:
    quoted = "".join(f"\\U{ord(sign):08x}" for sign in text if not 0xD800 <= ord(sign) < 0xE000)
    lines = ['format = 1\n[job]\nnumber = "1"\n[drums.a]\ncircumference = "951 mm"']
    fields = {"wall": '"5 mm"', "depth": '"203 mm"', name: f'"{quoted}"'}
    lines += [f"{field} = {value}" for field, value in fields.items()]
    read_bytes("\n".join(lines).encode())
