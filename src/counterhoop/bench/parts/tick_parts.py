"""Tick what came off, while another bench ticks other lines of the same drum."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from counterhoop.bench.folders.kinds import STRIPPED
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.parts.stripped import COUNTED, KIND, Stripped, counted_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind
from counterhoop.parts.strip_down import CORD, HEAD, Expected
from counterhoop.parts.ticked import Counted, Stage
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved

Line = tuple[str, str]
"""Place and piece."""
Counts = Mapping[Stage, int]
KEPT_DRY: Final = frozenset(
    {HEAD, CORD, Kind.WIRES, Kind.GASKET, Kind.GROMMET, Kind.VENT, Kind.BADGE}
)
"""Kinds that nobody puts in a soak: film, cord, rubber, felt, lacquered badges. Common practice, no
source; a wood hoop is held out by its name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """One press that ticks many lines at once.

    Attributes
    ----------
    stage : Stage
        What is ticked.
    count : int
        How many pieces that comes to in all.
    """

    stage: Stage
    count: int


def is_soaked(line: Expected) -> bool:
    """Tell whether a piece is one that goes into the soak."""
    return line.sort.kind not in KEPT_DRY and not line.sort.piece.startswith("wood ")


def presses_for(lines: Iterable[Counted], *, soak: bool = True) -> tuple[Press, ...]:
    """Return what can be ticked of all these lines with one press, in the order of the work.

    Parameters
    ----------
    lines : iterable of Counted
        Of one place, or of one sort.
    soak : bool
        Whether soaking is offered here: it is done sort by sort.

    Returns
    -------
    tuple of Press
        Only that they are found while one of them is not counted.
    """
    counted = tuple(lines)
    pressed = []
    stages = [Stage.FOUND]
    if all(one.found is not None for one in counted):
        stages += [Stage.SOAKED, Stage.DRY, Stage.REFITTED] if soak else [Stage.REFITTED]
    for stage in stages:
        then = [(one, pressed_to(one, stage)) for one in counted]
        if any(counts for _, counts in then):
            total = sum(counts.get(stage, _now(one, stage)) for one, counts in then)
            pressed.append(Press(stage=stage, count=total))
    return tuple(pressed)


def pressed_to(one: Counted, stage: Stage) -> Counts:
    """Return the counts that a press makes of a line; nothing where it changes none.

    What the survey says is gone is not found by a press, and nothing goes back on while it is wet.
    """
    line, found = one.expected, one.found or 0
    sound = found - one.spoilt
    if stage is Stage.FOUND:
        all_there = not line.lost and (one.found is None or found < line.count)
        return {Stage.FOUND: line.count} if all_there else {}
    if stage is Stage.SOAKED:
        waits = is_soaked(line) and one.refitted == 0 and one.dry == 0 and one.soaked < sound
        return {Stage.SOAKED: sound} if waits else {}
    if stage is Stage.DRY:
        return {Stage.DRY: one.soaked} if one.wet else {}
    ready = not one.wet and one.refitted < min(sound, line.count)
    return {Stage.REFITTED: min(sound, line.count)} if ready else {}


def _now(one: Counted, stage: Stage) -> int:
    return {
        Stage.FOUND: one.found or 0, Stage.SPOILT: one.spoilt, Stage.SOAKED: one.soaked,
        Stage.DRY: one.dry, Stage.REFITTED: one.refitted,
    }[stage]  # fmt: skip


def chosen_lines(
    stripped: Stripped, *, places: Collection[str] = (), piece: str = ""
) -> tuple[Counted, ...]:
    """Return the lines of some places, or of a sort of piece.

    Raises
    ------
    BadInput
        When the drum has none: its survey was changed since.
    """
    found = tuple(
        one
        for one in stripped.counted
        if one.expected.place in places or (piece and one.expected.sort.piece == piece)
    )
    if not found:
        raise _gone(where="parts", given=", ".join(places) or piece)
    return found


def tick_parts(
    shop: Workshop, job_id: str, drum_id: str, *, stripped: Stripped,
    ticks: Mapping[Line, Counts], based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    """Tick lines, on top of what other benches ticked meanwhile.

    Parameters
    ----------
    stripped : Stripped
        The drum's list as it is now.
    ticks : mapping of (place, piece) to counts
        What is to stand there from now on; stages that are not named stay as they are, and a line
        without any is as if nobody had counted it.
    based_on : int
        The revision that the page showed, 0 before the first.

    Returns
    -------
    Saved or Conflict
        ``Conflict`` when another bench ticked one of these very lines otherwise: ``mine`` is what
        theirs says with my ticks in it.

    Raises
    ------
    BadInput
        For counts that contradict each other ("more soaked than the 2 found").
    """
    now = {(one.expected.place, one.expected.sort.piece): one for one in stripped.counted}
    for key in ticks:
        if key not in now:
            raise _gone(where=key[0], given=key[1])
    lines = {key: _line(now[key], counts) for key, counts in ticks.items()}

    def same(seen: Json, newest: Json) -> bool:
        return all(_at(seen, key) == _at(newest, key) for key in ticks)

    def put(_seen: Json, base: Json) -> Json:
        counted = {
            place: dict(pieces) for place, pieces in _table(_table(base).get(COUNTED)).items()
        }
        for key, line in lines.items():
            if (before := stripped.carried.get(key)) is not None:
                counted.get(before[0], {}).pop(before[1], None)
            counted.setdefault(key[0], {}).pop(key[1], None)
            if line:
                counted[key[0]][key[1]] = line
        return {**_table(base), COUNTED: {place: of for place, of in counted.items() if of}}

    _need_sense(stripped, put(None, {}), ticks)
    change = ThingChange(kind=STRIPPED, drum=drum_id, based_on=based_on, same=same, put=put)
    done = write_thing(shop, job_id, change, by=by)
    return replace(done, mine=put(None, done.theirs.body)) if isinstance(done, Conflict) else done


def _line(one: Counted, counts: Counts) -> dict[str, Any]:
    """Return a line as it is written: stages without any are left out, but not that none came."""
    if not counts:
        return {}
    before = {stage: _now(one, stage) for stage in Stage if one.found is not None}
    whole = {s.value: n for s, n in (before | dict(counts)).items() if n or s is Stage.FOUND}
    return {KIND: one.expected.sort.kind, **whole}


def _gone(*, where: str, given: str) -> BadInput:
    return BadInput(
        "that is not on this drum's list any more", where=where, given=given,
        step="Open the page again",
    )  # fmt: skip


def _need_sense(stripped: Stripped, body: Json, ticks: Mapping[Line, Counts]) -> None:
    said = {f"{place}, {piece}" for place, piece in ticks}
    for fault in counted_of(stripped.expected, _table(body)).faults:
        if fault.where in said:
            raise fault


def _at(body: Json, key: Line) -> Any:
    return _table(_table(_table(body).get(COUNTED)).get(key[0])).get(key[1])


def _table(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}
