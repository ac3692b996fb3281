"""The thread table: held against its own names, and every name found."""

from __future__ import annotations

import math
import re

import pytest

from counterhoop.errors import BadInput
from counterhoop.quantities.thread_name import parse_thread_name
from counterhoop.standards.threads import Thread, all_threads, find_thread

WANTED = [
    *("M3", "M4", "M5", "M6", "M6x0.75", "M8", "M8x1"),
    *("8-32", "10-24", "10-32", "12-24", "12-28", "1/4-20", "1/4-28", "7/32-24", "7/32-32"),
    *("5/32 BSW", "3/16 BSW", "7/32 BSW", "1/4 BSW", "3/16 BSF", "7/32 BSF", "1/4 BSF"),
    *("0BA", "2BA", "4BA", "6BA"),
]


def each(form: str) -> list[Thread]:
    return [thread for thread in all_threads() if thread.form.name == form]


@pytest.mark.parametrize("name", WANTED)
def test_the_threads_of_drums_are_there(name: str) -> None:
    thread = find_thread(name)
    assert name in (thread.designation, *thread.also)


@pytest.mark.parametrize("thread", all_threads(), ids=lambda thread: thread.designation)
def test_every_name_of_a_row_is_spelt_right_and_finds_it(thread: Thread) -> None:
    for name in (thread.designation, *thread.also):
        assert parse_thread_name(name) == name
        assert find_thread(name) is thread


def test_no_name_and_no_thread_stands_twice() -> None:
    names = [name for t in all_threads() for name in (t.designation, *t.also)]
    assert len(names) == len(set(names))
    sizes = [(t.form.name, t.major_mm, t.pitch_mm) for t in all_threads()]
    assert len(sizes) == len(set(sizes))


@pytest.mark.parametrize("thread", each("iso metric"), ids=lambda thread: thread.designation)
def test_metric_rows_measure_what_their_names_say(thread: Thread) -> None:
    major, _, pitch = thread.designation[1:].partition("x")
    assert thread.major_mm == float(major)
    if pitch:
        assert thread.pitch_mm == float(pitch)
        assert thread.note == "fine"
    else:
        assert f"{thread.designation}x{thread.pitch_mm:g}" in thread.also
        assert thread.note == "coarse"


@pytest.mark.parametrize("thread", each("unified"), ids=lambda thread: thread.designation)
def test_inch_rows_measure_what_their_names_say(thread: Thread) -> None:
    """Number sizes: D = 0.060 in + 0.013 in x number (ASME B1.1 series; rule from memory)."""
    found = re.fullmatch(r"(?:(\d+)|(\d+)/(\d+))-(\d+)( UN[CF])?", thread.designation)
    assert found
    number, top, bottom, per_inch, _ = found.groups()
    inches = 0.060 + 0.013 * int(number) if number else int(top) / int(bottom)
    assert thread.major_mm == pytest.approx(25.4 * inches, abs=1e-9)
    assert thread.pitch_mm == pytest.approx(25.4 / int(per_inch), abs=1e-12)
    assert thread.threads_per_inch == int(per_inch)


def test_published_majors_in_mm() -> None:
    """Source: trfastenings.com, UNC table (majors 0.1640, 0.2160, 0.2500 in)."""
    for name, major_in in (("8-32", 0.1640), ("12-24", 0.2160), ("1/4-20", 0.2500)):
        assert find_thread(name).major_mm == pytest.approx(25.4 * major_in, abs=1e-9)


def test_flanks() -> None:
    """Source: ISO 68-1 and ASME B1.1, BS 84, BS 93."""
    angles = {thread.form.name: thread.angle_deg for thread in all_threads()}
    assert angles == {"iso metric": 60.0, "unified": 60.0, "whitworth": 55.0, "ba": 47.5}
    assert math.tan(math.radians(30)) == pytest.approx(0.57735, abs=1e-5)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("12-26", "12-24 UNC, 12-28 UNF"),
        ("12-24 UNF", "12-24 UNC, 12-28 UNF"),
        ("M6x0.8", "M6, M6x0.75"),
        ("M60", "not in the table"),
        ("20BA", "not in the table"),
        ("3/8 BSW", "not in the table"),
        ("7/32-28", "7/32 BSF"),
        ("12/24", '"12-24" for number 12'),
        (24, "in quotes"),
    ],
)
def test_what_is_not_there_is_refused_with_what_is(text: object, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        find_thread(text, where="rod.thread")
    assert says in str(caught.value)
    assert str(caught.value).startswith("rod.thread: ")
