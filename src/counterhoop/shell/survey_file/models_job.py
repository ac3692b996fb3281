"""The whole survey file, format 1, as a person writes it."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import ConfigDict, Field, PlainValidator, WithJsonSchema

from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length
from counterhoop.shell.drum import DrumKind, Material
from counterhoop.shell.survey_file.field import (
    Along,
    Amount,
    Day,
    Height,
    Name,
    OneSeveralOrTable,
    Size,
    SizeInWords,
    Time,
    Written,
    one_of,
    one_word_of,
    text_field,
    whole_field,
)
from counterhoop.shell.survey_file.models_choice import ChosenWritten
from counterhoop.shell.survey_file.models_hole import (
    End,
    FittingWritten,
    Holes,
    InsideWritten,
    MarkWritten,
    Note,
    RowWritten,
    Short,
    Tool,
)
from counterhoop.shell.survey_file.models_readings import (
    AirWritten,
    EdgesWritten,
    FitsWritten,
    RoundsWritten,
    Threads,
    Wood,
)
from counterhoop.shell.survey_file.models_tuning import KitWritten, TuningWritten
from counterhoop.shell.survey_file.models_wish import FinishPlanWritten, Wishes
from counterhoop.shell.survey_file.models_wrap import WrapWritten
from counterhoop.shell.survey_file.shown import shown

DIAMETER_TAPE = "diameter tape"


def _tape(given: object) -> object:
    if isinstance(given, str) and " ".join(given.split()).casefold() == DIAMETER_TAPE:
        return DIAMETER_TAPE
    try:
        return parse_length(given)
    except BadInput as fault:
        raise BadInput(
            fault.what,
            given=shown(given),
            wanted=f'how thick the tape is, such as "0.25 mm", or "{DIAMETER_TAPE}"',
        ) from fault


TapeWord: TypeAlias = Annotated[
    Any,
    PlainValidator(_tape),
    WithJsonSchema(
        {
            "type": "string",
            "description": 'how thick the tape is, or "diameter tape"',
            "examples": ["0.25 mm", DIAMETER_TAPE],
        }
    ),
]
SkinWord: TypeAlias = Annotated[
    Literal["bare wood", "over the old finish"], one_word_of("bare wood", "over the old finish")
]


class JobWritten(Written):
    """Whose work it is and who measured."""

    number: Annotated[str, text_field(most=40)]
    client: Annotated[str, text_field(most=120, empty=True)] = ""
    owner: Annotated[str, text_field(most=120, empty=True)] = ""
    date: Day | None = None
    measured_by: Annotated[str, text_field(most=120, empty=True)] = ""
    units: Annotated[Literal["mm", "in"], one_word_of("mm", "in")] = "mm"
    tape: TapeWord | None = None
    air: AirWritten | None = None
    story: Annotated[str, text_field(most=4000, empty=True, lines=True)] = ""
    book: Annotated[tuple[Short, ...], Field(max_length=20)] = ()


class MatchWritten(Written):
    """Drums that must match each other."""

    drums: Annotated[tuple[Short, ...], Field(min_length=2, max_length=40)]


CodeLine: TypeAlias = Annotated[str, text_field(most=160)]


class ApprovalWritten(Written):
    """A recorded yes to permanent changes, and whether it was taken back."""

    drum: Short
    who: Short
    when: Day
    how: Short
    covers: Short
    scheme: Annotated[int, whole_field(least=1, most=999, noun="a scheme's number")] | None = None
    lines: Annotated[tuple[CodeLine, ...], Field(max_length=1000)] = ()
    taken_back: Day | None = None
    taken_back_how: Annotated[str, text_field(most=120, empty=True)] = ""


class FinishWritten(Written):
    """The finish as found."""

    kind: Annotated[
        Literal["wrap", "lacquer", "paint", "bare"],
        one_word_of("wrap", "lacquer", "paint", "bare"),
    ]
    thickness: Height | None = None
    nitrate: Annotated[Literal["maybe", "no"], one_word_of("maybe", "no")] | None = None
    says: Note = ""


class RingWritten(Written):
    """A glued reinforcement inside one end."""

    end: End
    wide: Size
    thick: Size


class SeamWritten(Written):
    """The wrap's overlap: its two sides, or its middle and how wide it is."""

    model_config = ConfigDict(populate_by_name=True)

    from_: Along | None = Field(default=None, alias="from")
    to: Along | None = None
    along: Along | None = None
    overlap: Size | None = None


class LineWritten(Written):
    """A ply seam, a crack, a ring's joint or a lifted ply: a line down the shell."""

    model_config = ConfigDict(populate_by_name=True)

    kind: Annotated[
        Literal["ply seam", "crack", "ring joint", "lifted ply"],
        one_word_of("ply seam", "crack", "ring joint", "lifted ply"),
    ]
    along: Along
    from_: Height | None = Field(default=None, alias="from")
    to: Height | None = None
    says: Note = ""


class BedWritten(Written):
    """A snare bed's middle on the resonant edge."""

    along: Along
    wide: Height | None = None
    flat: Height | None = None
    deep: Height | None = None


class HoopsWritten(Written):
    """Hoops by head, named as in the fittings book."""

    batter: Short | None = None
    resonant: Short | None = None


class DrumWritten(Written):
    """One drum as found, and what is wanted of it."""

    says: Note = ""
    kind: Annotated[DrumKind, one_of(DrumKind)] = DrumKind.TOM
    material: Annotated[Material, one_of(Material)] = Material.WOOD
    size: SizeInWords | None = None
    heads: Annotated[int, whole_field(least=1, most=2, noun="a number of heads")] = 2
    circumference: OneSeveralOrTable | None = None
    diameters: Annotated[tuple[Size, ...], Field(min_length=1, max_length=60)] | None = None
    surface: SkinWord = "over the old finish"
    tape: TapeWord | None = None
    read_with: Tool = "rule"
    wall: Size
    depth: OneSeveralOrTable
    wood: Wood | None = None
    plies: Annotated[int, whole_field(least=1, most=60, noun="a number of plies")] | None = None
    finish: FinishWritten | None = None
    rings: Annotated[tuple[RingWritten, ...], Field(max_length=2)] = ()
    edges: EdgesWritten = EdgesWritten()
    round: RoundsWritten = RoundsWritten()
    fit: FitsWritten = FitsWritten()
    threads: Threads = ()
    air: AirWritten | None = None
    seam: SeamWritten | None = None
    lines: Annotated[tuple[LineWritten, ...], Field(max_length=60)] = ()
    beds: Annotated[tuple[BedWritten, ...], Field(max_length=2)] = ()
    inside: Annotated[tuple[InsideWritten, ...], Field(max_length=60)] = ()
    hoops: HoopsWritten = HoopsWritten()
    rows: Annotated[tuple[RowWritten, ...], Field(max_length=8)] = ()
    fittings: Annotated[tuple[FittingWritten, ...], Field(max_length=60)] = ()
    holes: Holes = ()
    marks: Annotated[tuple[MarkWritten, ...], Field(max_length=200)] = ()
    wish: Wishes = ()
    finish_plan: FinishPlanWritten = FinishPlanWritten()
    chosen: ChosenWritten | None = None
    tuning: TuningWritten | None = None


def _rule(given: object) -> str | float:
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        raise BadInput("one figure belongs here", given=shown(given), wanted='such as "6 mm"')
    return given


RuleFigure: TypeAlias = Annotated[
    Any, PlainValidator(_rule), WithJsonSchema({"type": ["string", "number"]})
]
Pieces: TypeAlias = Annotated[int, whole_field(least=0, most=100_000, noun="a number of pieces")]


class SurveyWritten(Written):
    """A survey file."""

    model_config = ConfigDict(title="Survey file")

    format: Literal[1]
    job: JobWritten
    rules: dict[Name, RuleFigure] = Field(default_factory=dict)
    prices: dict[Name, Amount] = Field(default_factory=dict)
    minutes: dict[Name, Time] = Field(default_factory=dict)
    cure: dict[Name, Time] = Field(default_factory=dict)
    stock: dict[Name, Pieces] = Field(default_factory=dict)
    wraps: Annotated[dict[Name, WrapWritten], Field(max_length=40)] = Field(default_factory=dict)
    match: Annotated[tuple[MatchWritten, ...], Field(max_length=40)] = ()
    kit: KitWritten | None = None
    approval: Annotated[tuple[ApprovalWritten, ...], Field(max_length=200)] = ()
    drums: Annotated[dict[Name, DrumWritten], Field(min_length=1, max_length=40)]
