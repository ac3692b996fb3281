"""Places along: degrees, the tape, and from lugs, holes, marks and named fittings."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.quantities.place_along import (
    AtDegrees,
    FromMark,
    OnTape,
    PlaceAlong,
    parse_place_along,
)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("90 deg", AtDegrees(along_deg=90.0)),
        ("22½°", AtDegrees(along_deg=22.5)),
        ("360 deg", AtDegrees(along_deg=0.0)),
        ("412 mm on the tape", OnTape(tape_mm=412.0)),
        ("412 mm", OnTape(tape_mm=412.0)),
        ('16 1/4" on the tape', OnTape(tape_mm=412.75)),
        ("0 mm", OnTape(tape_mm=0.0)),
        ("lug 3", FromMark(mark="lug", number=3)),
        ("Lug 3 + 12 mm", FromMark(mark="lug", number=3, offset_mm=12.0)),
        ("lug 3+12mm", FromMark(mark="lug", number=3, offset_mm=12.0)),
        ("lug 3 - 1/2 in", FromMark(mark="lug", number=3, offset_mm=-12.7)),
        ("lug 3 − 3.0 mm", FromMark(mark="lug", number=3, offset_mm=-3.0)),
        ("batter lug 3", FromMark(mark="lug", number=3, head="batter")),
        (
            "resonant lug 2 + 5 deg",
            FromMark(mark="lug", number=2, head="resonant", offset_deg=5.0),
        ),
        ('hole 7 - 3/8"', FromMark(mark="hole", number=7, offset_mm=-9.525)),
        ("vent", FromMark(mark="vent")),
        ("the badge + 30 mm", FromMark(mark="badge", offset_mm=30.0)),
        ("seam - 5 deg", FromMark(mark="seam", offset_deg=-5.0)),
        ("opposite lug 3", FromMark(mark="lug", number=3, opposite=True)),
        ("opposite the vent + 1 cm", FromMark(mark="vent", opposite=True, offset_mm=10.0)),
        ("tom bracket", FromMark(mark="named", name="tom bracket")),
        ("floor leg 2 + 20 mm", FromMark(mark="named", name="floor leg 2", offset_mm=20.0)),
        ("butt-2 + 5 mm", FromMark(mark="named", name="butt-2", offset_mm=5.0)),
    ],
)
def test_reads(text: str, place: PlaceAlong) -> None:
    read = parse_place_along(text)
    assert read == place
    assert read.as_written == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("90", '"90 deg" or "90 mm on the tape"'),
        ("412", 'wanted "412 mm on the tape"'),
        (90, "without its unit"),
        ("", "nothing is written"),
        ("lug", "which lug?"),
        ("lug three", "place of a lug or a hole"),
        ("lug 3.5", "place of a lug or a hole"),
        ("lug 3 12 mm", "place of a lug or a hole"),
        ("lug 0", "there is no lug 0"),
        ("lug 3 + 5", '"lug 3 + 5 mm"'),
        ("lug 3-12 mm", '"lug 3 - 12 mm"'),
        ("lug 3 + 5 mn", 'Did you mean "mm"?'),
        ("lag 3", 'Did you mean "lug"?'),
        ("battr lug 3", 'Did you mean "batter"?'),
        ("vnet + 3 mm", 'Did you mean "vent"?'),
        ("bagde", 'Did you mean "badge"?'),
        ("batter hole 3", '"hole 3"'),
        ("370 deg", "more than a full turn"),
        ("-30 deg", '"330 deg"'),
        ("-5 mm", "below zero"),
        ("20 m", "impossible for a drum"),
        ("5 furlongs", "neither an angle nor a length"),
        ("ninety deg", "cannot be read as a place"),
        ("???", "cannot be read as a place"),
    ],
)
def test_refuses_with_what_to_write(text: object, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_place_along(text, where="bracket.along")
    assert says in str(caught.value)
    assert str(caught.value).startswith("bracket.along: ")


def test_only_the_fittings_that_are_there_can_be_named() -> None:
    names = ["Tom bracket", "butt-2"]
    read = parse_place_along("tom bracket - 3 mm", names=names)
    assert read == FromMark(mark="named", name="tom bracket", offset_mm=-3.0)
    with pytest.raises(BadInput, match='Did you mean "Tom bracket"'):
        parse_place_along("tom braket", names=names)
    with pytest.raises(BadInput, match="nothing here is called"):
        parse_place_along("strainer", names=names)
    with pytest.raises(BadInput, match="nothing here is called"):
        parse_place_along("strainer", names=[])


def test_mark_in_words() -> None:
    place = parse_place_along("opposite resonant lug 2 + 5 deg")
    assert isinstance(place, FromMark)
    assert place.mark_words == "opposite resonant lug 2"


@given(number=st.integers(1, 20), tenths=st.integers(0, 2000), back=st.booleans())
def test_an_offset_is_exact(number: int, tenths: int, back: bool) -> None:
    text = f"lug {number} {'-' if back else '+'} {tenths / 10} mm"
    place = parse_place_along(text)
    assert isinstance(place, FromMark)
    assert place.offset_mm == (-tenths / 10 if back else tenths / 10)


@given(st.text(alphabet='lugvent batrson0123456789+-./"°degm', max_size=24))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        place = parse_place_along(text)
    except BadInput:
        return
    assert place.as_written == text
