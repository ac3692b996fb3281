"""Fields of the survey file as they are written: every one is read when the file is."""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from collections.abc import Callable
from enum import StrEnum
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, ConfigDict, Discriminator, PlainValidator, Tag, WithJsonSchema

from counterhoop.errors import BadInput
from counterhoop.quantities.air import Percent, Temperature, parse_percent, parse_temperature
from counterhoop.quantities.angle import Angle, parse_angle
from counterhoop.quantities.duration import Duration, parse_duration
from counterhoop.quantities.film_thickness import FilmThickness, parse_film_thickness
from counterhoop.quantities.force import Force, parse_force
from counterhoop.quantities.length import Length, parse_length
from counterhoop.quantities.money import Money, parse_money
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.pitch import parse_pitch
from counterhoop.quantities.place_along import PlaceAlong, parse_place_along
from counterhoop.quantities.readings_row import ReadingsRow, parse_readings
from counterhoop.quantities.size import DrumSize, parse_size
from counterhoop.quantities.thread_name import parse_thread_name
from counterhoop.quantities.thread_pitch import parse_thread_pitch
from counterhoop.quantities.turn_of_rod import Turn, parse_turn
from counterhoop.quantities.weight import Weight, parse_weight
from counterhoop.shell.survey_file.shown import Bare, listed, plain_only, shown

T = TypeVar("T")
W = TypeVar("W", bound=StrEnum)

MOST_LISTED = 400
"""Most entries in any one list of the file."""
_ENDS_IN_UNIT = r"[A-Za-z\u00b0\"'\u2032\u2033\u2019\u201d]\.?\s*$"


class Written(BaseModel):
    """Any table of the file: nothing in it that is not known, nothing changed later."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True)


def _quantity(
    read: Callable[[object], T],
    *,
    noun: str,
    example: str,
    says: str = "",
    pattern: str = _ENDS_IN_UNIT,
) -> tuple[PlainValidator, WithJsonSchema]:
    def checked(given: object) -> T:
        plain_only(given, noun=noun, example=example)
        return read(given)

    description = f"{noun}, {says}" if says else noun
    schema = {
        "type": "string",
        "description": description,
        "examples": [example],
        "pattern": pattern,
    }
    return PlainValidator(checked), WithJsonSchema(schema)


def _above_zero(given: object) -> Length:
    return parse_length(given, allow_zero=False)


def _either_way(given: object) -> Length:
    return parse_length(given, allow_negative=True)


def _tone_text(given: object) -> str:
    """Return a pitch as it was written: notes are read once the job's own A is known."""
    return parse_pitch(given).as_written


_size = _quantity(_above_zero, noun="a length", example="41.5 mm", says="above zero")
_height = _quantity(parse_length, noun="a length", example="41.5 mm", says="zero or more")
_offset = _quantity(
    _either_way, noun="a length", example="-3 mm", says="below zero is to the left or up"
)
_angle = _quantity(parse_angle, noun="an angle", example="22.5 deg")
_time = _quantity(parse_duration, noun="a time", example="25 min")
_money = _quantity(parse_money, noun="an amount", example="28.50 GBP")
_warmth = _quantity(parse_temperature, noun="a temperature", example="18 C")
_damp = _quantity(parse_percent, noun="a humidity", example="55 %", pattern=r"[%A-Za-z]\.?\s*$")
_pitch = _quantity(parse_thread_pitch, noun="a pitch", example="24 tpi")
_film = _quantity(parse_film_thickness, noun="a thickness of film", example="10 mil")
_weight = _quantity(parse_weight, noun="a weight", example="41 g")
_pull = _quantity(parse_force, noun="a force", example="400 N")
_turn = _quantity(
    parse_turn, noun="a turn", example="1/8", says="below zero is looser", pattern="[0-9]"
)
_thread = _quantity(parse_thread_name, noun="a thread", example="12-24 UNC", pattern="[0-9A-Za-z]")
_tone = _quantity(
    _tone_text,
    noun="a pitch",
    example="A2",
    says="a note or Hz",
    pattern=r"[A-Ga-g]|[Hh][Zz]",
)
_drum_size = _quantity(parse_size, noun="a drum's size", example="14 in dia x 5.5 in deep")

Size = Annotated[Length, _size[0], _size[1]]
Height = Annotated[Length, _height[0], _height[1]]
Offset = Annotated[Length, _offset[0], _offset[1]]
Lean = Annotated[Angle, _angle[0], _angle[1]]
Time = Annotated[Duration, _time[0], _time[1]]
Amount = Annotated[Money, _money[0], _money[1]]
Warmth = Annotated[Temperature, _warmth[0], _warmth[1]]
Damp = Annotated[Percent, _damp[0], _damp[1]]
Pitch = Annotated[Length, _pitch[0], _pitch[1]]
FilmRead = Annotated[FilmThickness, _film[0], _film[1]]
WeightRead = Annotated[Weight, _weight[0], _weight[1]]
Pull = Annotated[Force, _pull[0], _pull[1]]
RodTurn = Annotated[Turn, _turn[0], _turn[1]]
ThreadName = Annotated[str, _thread[0], _thread[1]]
ToneText = Annotated[str, _tone[0], _tone[1]]
SizeInWords = Annotated[DrumSize, _drum_size[0], _drum_size[1]]


def _row(*, negative: bool = False, zero: bool = True) -> tuple[PlainValidator, WithJsonSchema]:
    def read(given: object) -> ReadingsRow:
        if not isinstance(given, str | list | tuple):
            raise BadInput(
                "a row of readings belongs here",
                given=shown(given),
                wanted='them in one text with the unit at its end, such as "0, 0.1, 0.25, 0 mm"',
            )
        return parse_readings(given, allow_negative=negative, allow_zero=zero)

    text = {
        "type": "string",
        "description": "readings in order, one unit at the end",
        "examples": ["0, 0.1, 0.25, 0 mm", "11 63/64, 12, 12 1/64 in"],
        "pattern": _ENDS_IN_UNIT,
    }
    one = {"type": "string", "pattern": _ENDS_IN_UNIT}
    several = {"type": "array", "items": one, "minItems": 1, "maxItems": MOST_LISTED}
    return PlainValidator(read), WithJsonSchema({"anyOf": [text, several]})


_sizes, _heights, _offsets = _row(zero=False), _row(), _row(negative=True)
SizesRead = Annotated[ReadingsRow, _sizes[0], _sizes[1]]
HeightsRead = Annotated[ReadingsRow, _heights[0], _heights[1]]
OffsetsRead = Annotated[ReadingsRow, _offsets[0], _offsets[1]]


def _place(given: object) -> PlaceAlong:
    plain_only(given, noun="a place along", example="22.5 deg")
    return parse_place_along(given)


Along = Annotated[
    PlaceAlong,
    PlainValidator(_place),
    WithJsonSchema(
        {
            "type": "string",
            "description": "a place along: degrees, mm on the tape, or from a lug or a mark",
            "examples": ["22.5 deg", "412 mm on the tape", "lug 3 + 12 mm"],
            "pattern": "[A-Za-z0-9\u00b0\"'\u2032\u2033\u2019\u201d]",
        }
    ),
]


def text_field(*, most: int = 200, empty: bool = False, lines: bool = False) -> Any:
    """Return the validators of a text of at most so many characters."""

    def read(given: object) -> str:
        if not isinstance(given, str):
            raise BadInput("words in quotes belong here", given=shown(given), wanted="a text")
        text = given.strip()
        if not text and not empty:
            raise BadInput("nothing is written here", given=given, wanted="a text")
        if len(text) > most:
            raise BadInput(f"too long, {len(text)} characters", wanted=f"at most {most}")
        for sign in text:
            if unicodedata.category(sign) in ("Cc", "Cs") and not (lines and sign in "\n\t"):
                raise BadInput(
                    f"a sign that cannot be printed (U+{ord(sign):04X})", wanted="plain text"
                )
        return text

    schema: dict[str, object] = {"type": "string", "maxLength": most}
    if not empty:
        schema["pattern"] = r"\S"
    return _Both(PlainValidator(read), WithJsonSchema(schema))


def _name(given: object) -> str:
    if not isinstance(given, str) or not given.isprintable() or not 0 < len(given) <= 80:
        raise BadInput("not a name", wanted="one line of at most 80 characters")
    if given != " ".join(given.split()):
        raise BadInput("a name with spaces too many", wanted="single spaces, none at its ends")
    return given


class _Both:
    """Two annotations handed over as one: the validator and what the schema says of it."""

    def __init__(self, validator: PlainValidator, schema: WithJsonSchema) -> None:
        self.validator = validator
        self.schema = schema

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> Any:
        return self.validator.__get_pydantic_core_schema__(source, handler)

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> Any:
        return self.schema.__get_pydantic_json_schema__(core, handler)


Name = Annotated[
    str,
    PlainValidator(_name),
    WithJsonSchema({"type": "string", "minLength": 1, "maxLength": 80}),
]


def one_of(kind: type[W]) -> Any:
    """Return the validators of one of the words of an enumeration, upper and lower case alike."""
    words = tuple(word.value for word in kind)

    def read(given: object) -> W:
        return kind(_word(given, words))

    return _Both(PlainValidator(read), WithJsonSchema({"type": "string", "enum": list(words)}))


def one_word_of(*words: str) -> Any:
    """Return the validators of one of these words, upper and lower case alike."""

    def read(given: object) -> str:
        return _word(given, words)

    return _Both(PlainValidator(read), WithJsonSchema({"type": "string", "enum": list(words)}))


def _word(given: object, words: tuple[str, ...]) -> str:
    if not isinstance(given, str):
        raise BadInput("one word in quotes belongs here", given=shown(given), wanted=listed(words))
    plain = " ".join(given.split()).casefold()
    for word in words:
        if word.casefold() == plain:
            return word
    raise BadInput(
        "not one of the words known here",
        given=given,
        wanted=listed(words),
        step=did_you_mean(given[:80], words),
    )


def whole_field(*, least: int, most: int, noun: str, word: str = "") -> Any:
    """Return the validators of a count; with ``word`` also written "8 lugs"."""
    example = f'{max(least, min(most, 8))}{f""" or "8 {word}s" """.rstrip() if word else ""}'

    def read(given: object) -> int:
        number: object = given
        if word and isinstance(given, str):
            found = re.fullmatch(rf"\s*([0-9]{{1,4}})\s+{word}s?\s*", given)
            number = int(found[1]) if found else given
        if isinstance(number, bool) or not isinstance(number, int):
            raise BadInput(f"not {noun}", given=shown(given), wanted=f"a whole number, {example}")
        if not least <= number <= most:
            raise BadInput(
                f"impossible as {noun}", given=shown(given), wanted=f"from {least} to {most}"
            )
        return number

    schema: dict[str, object] = {"type": "integer", "minimum": least, "maximum": most}
    if word:
        text = {"type": "string", "pattern": rf"^\s*[0-9]{{1,4}}\s+{word}s?\s*$"}
        schema = {"anyOf": [schema, text]}
    return _Both(PlainValidator(read), WithJsonSchema(schema))


def _yes_no(given: object) -> bool:
    if not isinstance(given, bool):
        raise BadInput("yes or no belongs here", given=shown(given), wanted="true or false")
    return given


YesNo = Annotated[bool, PlainValidator(_yes_no), WithJsonSchema({"type": "boolean"})]


def _day(given: object) -> dt.date:
    if isinstance(given, dt.date) and not isinstance(given, dt.datetime):
        day = given
    elif isinstance(given, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", given.strip()):
        try:
            day = dt.date.fromisoformat(given.strip())
        except ValueError:
            raise BadInput(
                "there is no such day", given=given, wanted="year-month-day, 2026-11-02"
            ) from None
    else:
        raise BadInput(
            "not a date that reads one way only",
            given=shown(given),
            wanted="year-month-day, such as 2026-11-02",
        )
    if not 1900 <= day.year <= 2200:
        raise BadInput("a year that cannot be", given=Bare(day.isoformat()), wanted="a recent day")
    return day


Day = Annotated[
    dt.date,
    PlainValidator(_day),
    WithJsonSchema({"type": "string", "format": "date", "examples": ["2026-11-02"]}),
]


def by_shape(given: object) -> str:
    """Tell a list, a table and a single reading apart, so that each gets its own complaint."""
    if isinstance(given, list | tuple):
        return "several"
    return "table" if isinstance(given, dict) else "one"


OneOrSeveral = Annotated[
    Annotated[Size, Tag("one")] | Annotated[tuple[Size, ...], Tag("several")],
    Discriminator(lambda given: "several" if by_shape(given) == "several" else "one"),
]
OneSeveralOrTable = Annotated[
    Annotated[Size, Tag("one")]
    | Annotated[tuple[Size, ...], Tag("several")]
    | Annotated[dict[str, Size], Tag("table")],
    Discriminator(by_shape),
]
