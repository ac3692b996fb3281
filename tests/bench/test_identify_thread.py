"""A screw told from what is typed of it: the answer in a few lines, a slip in one."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.bench.identify_thread import identify
from counterhoop.errors import BadInput


def test_a_plain_answer() -> None:
    """12-24: 0.216 in, 24 to the inch, 60 degrees (ASME B1.1); No. 16 leaves 72 per cent."""
    said = identify("5.40 mm", over="10.6 mm", flanks="60").splitlines()
    assert said[0] == "Read: outside 5.40 mm, 10 threads over 10.6 mm, flanks 60 deg."
    assert said[1] == "It is almost surely 12-24 UNC."
    assert said[3] == "12-24 UNC: 5.5 mm over the crests, 24 to the inch, 60 degrees."
    assert said[4] == "Looks like it and is not: 7/32-24, 7/32 BSW."
    assert "tap 4.5 mm, No. 16 or 11/64 in (72, 72 and 82 % of thread; 100 % is 3/4" in said[5]
    assert len(said) == 6


@pytest.mark.parametrize(
    ("outside", "over"),
    [("5.40 mm", "10.58 mm"), ("0.2126 in", "0.4165 in"), ("212.6 thou", "416.5 thou")],
)
def test_any_unit_says_the_same(outside: str, over: str) -> None:
    first = identify(outside, over=over, flanks="60 deg").splitlines()[1]
    assert first == "It is almost surely 12-24 UNC."


def test_a_slip_in_counting() -> None:
    """Nine threads of 24 to the inch are 9.525 mm."""
    assert "as 9 it fits 12-24 UNC" in identify("5.4 mm", over="9.525 mm", flanks="60")


def test_a_blade_for_the_pitch() -> None:
    said = identify("6.30 mm", pitch="20 tpi").splitlines()
    assert said[1] == "This reading cannot tell 1/4-20 UNC and 1/4 BSW apart."
    assert said[2].startswith("Hold the blades")
    assert "BSW: " not in " ".join(said[3:])


def test_a_diameter_alone_is_not_enough() -> None:
    assert "A diameter alone names no thread" in identify("4.95 mm")


def test_what_is_written_coarsely_is_not_read_finely() -> None:
    """5.4 mm may be 5.44: a 7/32 worn by 2 per cent (5.445) comes into question as well."""
    assert "7/32-24" not in identify("5.40 mm", over="10.6 mm").splitlines()[1]
    assert "7/32-24" in identify("5.4 mm", over="10.6 mm").splitlines()[1]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"outside": ""}, "outside: nothing is written here"),
        ({"outside": "5.4"}, "outside: no unit"),
        ({"outside": "54 mm"}, "outside: impossible as the outside of a drum's screw"),
        ({"outside": "5.4 mm", "over": "106 mm"}, "over: no screw of that size"),
        ({"outside": "5.4 mm", "pitch": "24"}, "pitch: threads to the inch, or millimetres?"),
        ({"outside": "5.4 mm", "pitch": "24 tpi", "over": "10 mm"}, "pitch: its pitch is written"),
        ({"outside": "5.4 mm", "flanks": "6"}, "flanks: no screw has such flanks"),
        ({"outside": "5.4 mm", "flanks": "sharp"}, "flanks: cannot be read as one angle"),
        ({"outside": "5.4 mm", "over": "10 mm", "threads": 0}, "threads: count the threads"),
    ],
)
def test_a_slip_is_said_in_one_line(typed: dict[str, object], says: str) -> None:
    with pytest.raises(BadInput) as caught:
        identify(**typed)
    line = str(caught.value)
    assert line.startswith(says)
    assert "\n" not in line


@given(
    outside=st.floats(1.5, 16.0),
    length=st.floats(0.05, 12.0),
    threads=st.integers(1, 20),
    flanks=st.sampled_from(["", "47.5", "55 deg", "60°"]),
)
def test_it_answers_or_says_why_not(
    outside: float, length: float, threads: int, flanks: str
) -> None:
    try:
        said = identify(
            f"{outside:.2f} mm", over=f"{length:.2f} mm", threads=threads, flanks=flanks
        )
    except BadInput:
        return
    assert said.startswith("Read: outside ")
    assert "change both for a pair" in said
