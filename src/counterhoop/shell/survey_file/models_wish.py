"""What is wanted of a drum, as a person writes it."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BeforeValidator, Field, PlainValidator, WithJsonSchema

from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length
from counterhoop.shell.survey_file.field import (
    Along,
    Height,
    Lean,
    Size,
    Written,
    YesNo,
    one_of,
    one_word_of,
    whole_field,
)
from counterhoop.shell.survey_file.models_hole import End, Short
from counterhoop.shell.survey_file.shown import shown
from counterhoop.shell.wish import Pattern

Count: TypeAlias = Annotated[
    int, whole_field(least=2, most=40, noun="a number of lugs", word="lug")
]


class SecondHeadWritten(Written):
    """A second head on a single-headed drum."""

    want: Literal["second head"]
    lug: Short | None = None
    long_lugs: Annotated[tuple[Short, ...], Field(max_length=40)] = ()
    patterns: (
        Annotated[
            tuple[Annotated[Pattern, one_of(Pattern)], ...], Field(min_length=1, max_length=4)
        ]
        | None
    ) = None
    hoop: Short | None = None


class OtherLugsWritten(Written):
    """Other lugs than the ones it has."""

    want: Literal["other lugs"]
    lug: Short
    heads: Annotated[
        Literal["both", "batter", "resonant"], one_word_of("both", "batter", "resonant")
    ] = "both"
    lugs: Count | None = None
    hoop: Short | None = None


class BackToFactoryWritten(Written):
    """Everything back as it left the factory."""

    want: Literal["back to factory"]


class TakeOutWritten(Written):
    """Take fittings off, by their labels."""

    want: Literal["take out"]
    fittings: Annotated[tuple[Short, ...], Field(min_length=1, max_length=60)]
    plate: Short | None = None


class PutOnWritten(Written):
    """Put a fitting on, or put a missing one back."""

    want: Literal["put on"]
    fitting: Short
    label: Short | None = None
    along: Along | None = None
    down: Height | None = None
    from_edge: End = "batter"
    replaces: Short | None = None
    free_along: Height | None = None
    free_down: Height | None = None
    turned: Lean | None = None


class MoveWritten(Written):
    """Move a fitting to another place."""

    want: Literal["move"]
    fitting: Short
    along: Along
    down: Height
    from_edge: End = "batter"
    free_along: Height | None = None
    free_down: Height | None = None


class ShortenWritten(Written):
    """Cut the shell down to about a depth."""

    want: Literal["shorten"]
    depth: Size
    end: End = "resonant"
    free: Height | None = None


class KitSnareWritten(Written):
    """A deep marching snare becomes a kit snare."""

    want: Literal["kit snare"]
    depth: Size
    end: End = "resonant"
    free: Height | None = None
    lug: Short | None = None
    lugs: Count | None = None
    strainer: Short | None = None
    butt: Short | None = None


WishWritten: TypeAlias = Annotated[
    SecondHeadWritten
    | OtherLugsWritten
    | BackToFactoryWritten
    | TakeOutWritten
    | PutOnWritten
    | MoveWritten
    | ShortenWritten
    | KitSnareWritten,
    Field(discriminator="want"),
]


def _one_or_several(given: Any) -> Any:
    return (given,) if isinstance(given, dict) else given


class _EitherWay:
    """Say in the schema that one table will do where a list of tables may stand."""

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> Any:
        schema = handler(core)
        return {"anyOf": [schema, schema["items"]]}


Wishes: TypeAlias = Annotated[
    tuple[WishWritten, ...],
    Field(max_length=20),
    BeforeValidator(_one_or_several),
    _EitherWay(),
]


FLAT = "flat"


def _comes_off(given: object) -> object:
    if isinstance(given, str) and given.strip().casefold() == FLAT:
        return FLAT
    try:
        return parse_length(given)
    except BadInput as fault:
        raise BadInput(
            fault.what,
            given=shown(given),
            wanted=f'what comes off, such as "1 mm", or "{FLAT}" for what its readings say',
        ) from fault


ComesOff: TypeAlias = Annotated[
    Any,
    PlainValidator(_comes_off),
    WithJsonSchema(
        {
            "type": "string",
            "description": f'what comes off, or "{FLAT}": as much as the edge\'s readings say',
            "examples": ["1 mm", FLAT],
        }
    ),
]


class TruingWritten(Written):
    """How edges are trued by their readings."""

    least: Annotated[Literal["most", "total"], one_word_of("most", "total")] = "most"
    parallel: YesNo = False
    fresh: Height | None = None


class FinishPlanWritten(Written):
    """What happens to the outside, and what comes off the edges before anything is measured."""

    kind: Annotated[
        Literal["stays", "clear lacquer", "paint", "new wrap"],
        one_word_of("stays", "clear lacquer", "paint", "new wrap"),
    ] = "stays"
    thickness: Size | None = None
    wrap: Short | None = None
    true_batter: ComesOff | None = None
    true_resonant: ComesOff | None = None
    truing: TruingWritten | None = None
