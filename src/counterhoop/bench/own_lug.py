"""A lug that no book has: its entry from a few measures, or from what its row already says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.folders.folder import Kept, drawer
from counterhoop.bench.folders.kinds import BOOK
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.fittings.read_book import read_book
from counterhoop.quantities.day import say_day
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.store.save import Conflict

WOOD_ROUND_MM = 6.0
"""What a base covers beyond its outermost hole, where nobody measured the base (common practice,
no source)."""
LEAST_WIDE_MM = 20.0
PLAY_MM = 1.0
"""A lug's hole over its screw (common practice, no source)."""
REACH_MM, ROD_LINE_MM, FREE_DEPTH_MM = 20.0, 10.0, 20.0
"""An ordinary cast lug (common practice, no source)."""
THREAD = "12-24"
"""The usual thread of tension rods (common practice, no source)."""
GUESSED = "Guessed, not measured"
MOST_TRIES = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class LugMeasured:
    """What was measured of a lug, as typed; whatever is empty is guessed, and the entry says so.

    Attributes
    ----------
    name : str
        What it is called.
    screws : str
        How many hold it.
    apart : str
        Between the middles of two neighbours.
    hole : str
        The holes in the shell.
    shape : str
        "rounded", "rectangle" or "disc".
    width, height : str
        Of the base; a disc has only its width.
    thread : str
        That the rod goes into.
    both : bool
        Whether it serves both heads.
    """

    name: str
    screws: str = "2"
    apart: str = ""
    hole: str = ""
    shape: str = "rounded"
    width: str = ""
    height: str = ""
    thread: str = ""
    both: bool = False


def lug_of_row(row: Mapping[str, Any], *, name: str) -> LugMeasured:
    """Return what a row of lugs as written says of its lug.

    Raises
    ------
    BadInput
        When its holes are not written yet, or cannot be read.
    """
    listed = row.get("near", row.get("down"))
    heights = [parse_length(one, where="near").mm for one in _texts(listed)]
    sizes = _texts(row.get("hole"))
    if not heights or not sizes:
        raise BadInput(
            "the holes of a lug make its entry", where="near" if not heights else "hole",
            wanted="how far down its holes are, and how wide",
        )  # fmt: skip
    apart_mm = (max(heights) - min(heights)) / max(len(heights) - 1, 1)
    return LugMeasured(
        name=name,
        screws=str(len(heights)),
        apart=_mm(apart_mm) if len(heights) > 1 else "",
        hole=sizes[0],
        both=row.get("head") == "both",
    )


def lug_called(drum: str) -> str:
    """Return what a lug is called that nobody has named.

    Examples
    --------
    >>> lug_called("small tom")
    'lug of the small tom'
    """
    return f"lug of the {drum}"


def lug_entry(measured: LugMeasured, *, source: str) -> dict[str, Any]:
    """Return the entry for a fittings book.

    Parameters
    ----------
    source : str
        Where the figures come from, such as "measured at this bench on 17 May 2030".

    Raises
    ------
    BadInput
        For a measure that cannot be read, or one that contradicts another; ``where`` is the
        attribute of ``LugMeasured``.
    """
    if not measured.name.strip():
        raise BadInput("what you call it", where="name", wanted="a name, such as the maker's")
    count = _count(measured.screws)
    hole_mm = parse_length(measured.hole, where="hole", allow_zero=False).mm
    apart_mm = parse_length(measured.apart, where="apart", allow_zero=False).mm if count > 1 else 0
    guessed = []
    downs = [(place - (count - 1) / 2) * apart_mm for place in range(count)]
    over_mm = hole_mm / 2 + WOOD_ROUND_MM
    high_mm, wide_mm = (count - 1) * apart_mm + 2 * over_mm, max(2 * over_mm, LEAST_WIDE_MM)
    if measured.width:
        wide_mm = parse_length(measured.width, where="width", allow_zero=False).mm
    if measured.height and measured.shape != "disc":
        high_mm = parse_length(measured.height, where="height", allow_zero=False).mm
    if not measured.width or not (measured.height or measured.shape == "disc"):
        guessed.append("base")
    if measured.shape == "disc":
        high_mm = wide_mm = wide_mm if measured.width else max(high_mm, wide_mm)
    if not measured.thread:
        guessed.append("thread")
    guessed += ["how far it stands out", "rod line", "mouth", "free depth"]
    entry: dict[str, Any] = {
        "name": " ".join(measured.name.split()),
        "kind": "long lug" if measured.both else "lug",
        "source": source,
        "says": f"{GUESSED}: {', '.join(guessed)}.",
        "base": _base(measured.shape, wide_mm=wide_mm, high_mm=high_mm),
        "holes": [
            {"down": _mm(down), "hole": measured.hole, "screw": _mm(_screw_mm(hole_mm))}
            for down in downs
        ],
        "reach": _mm(REACH_MM),
        "rod_line": _mm(ROD_LINE_MM),
        "free_depth": _mm(min(FREE_DEPTH_MM, high_mm)),
        "thread": measured.thread or THREAD,
    }
    if measured.both:
        ends = ((-high_mm / 2, "batter"), (high_mm / 2, "resonant"))
        entry["mouths"] = [{"down": _mm(down), "toward": toward} for down, toward in ends]
    else:
        entry["mouth"] = _mm(-high_mm / 2)
    _try(entry, measured)
    return entry


def write_own_lug(shop: Workshop, measured: LugMeasured, *, how: str, by: str) -> str:
    """Write a lug into the workshop's own book and return its name there.

    Parameters
    ----------
    how : str
        How its figures came about: "measured at this bench", "made from the holes of the small
        tom"; the day is put behind it.

    Raises
    ------
    BadInput
        When a measure cannot be read, or the workshop's book has one of that name.
    """
    entry = lug_entry(measured, source=f"{how} on {say_day(shop.now().astimezone())}")
    name = str(entry["name"])
    for _ in range(MOST_TRIES):
        kept = drawer(shop).get(BOOK, Kept())
        listed = [one for one in kept.table.get("fitting", []) if isinstance(one, dict)]
        if any(str(one.get("name", "")).casefold() == name.casefold() for one in listed):
            raise BadInput(
                "your book has a fitting of that name", where="name", given=name,
                wanted="another name, or choose that one for the row",
            )  # fmt: skip
        body = {**kept.table, "fitting": [*kept.table.get("fitting", []), entry]}
        change = Change(kind=BOOK, value=body, based_on=kept.number)
        if not isinstance(write_down(shop, None, change, by=by), Conflict):
            return name
    raise CannotDo("Others write in the fittings book just now: try it once more.")


def guessed_in(books: Mapping[str, Any], names: Sequence[str]) -> tuple[str, ...]:
    """Return which fittings of these names are guessed in the workshop's own book."""
    wanted = {name.casefold() for name in names}
    return tuple(
        str(one["name"])
        for one in books.get("fitting", [])
        if isinstance(one, dict)
        and str(one.get("name", "")).casefold() in wanted
        and str(one.get("says", "")).startswith(GUESSED)
    )


def _try(entry: dict[str, Any], measured: LugMeasured) -> None:
    """Let the book's own rules read the entry, and say the fault at the measure it comes from."""
    import tomli_w

    try:
        read_book(tomli_w.dumps({"fitting": [entry]}), name="")
    except BadInput as fault:
        where = next(
            (ours for theirs, ours in _COMES_FROM if theirs in fault.where and ours), "name"
        )
        raise BadInput(
            fault.what, where=where, given=getattr(measured, where), wanted=fault.wanted,
            step=fault.step,
        ) from fault  # fmt: skip


_COMES_FROM = (
    ("holes", "apart"),
    ("base", "width"),
    ("thread", "thread"),
    ("mouth", "height"),
)


def _base(shape: str, *, wide_mm: float, high_mm: float) -> dict[str, str]:
    match shape:
        case "disc":
            return {"shape": "disc", "diameter": _mm(wide_mm)}
        case "rectangle":
            return {"shape": "rectangle", "width": _mm(wide_mm), "height": _mm(high_mm)}
        case "rounded":
            corner = min(wide_mm, high_mm) / 2
            return {
                "shape": "rounded", "width": _mm(wide_mm), "height": _mm(high_mm),
                "corner": f"{int(corner * 10) / 10:g} mm",
            }  # fmt: skip
    raise BadInput("no such outline", where="shape", given=shape, wanted="rounded or rectangle")


def _count(text: str) -> int:
    if text.strip() not in ("1", "2", "3", "4"):
        raise BadInput(
            "how many screws hold it", where="screws", given=text or None, wanted="1 to 4"
        )
    return int(text)


def _screw_mm(hole_mm: float) -> float:
    return hole_mm - PLAY_MM if hole_mm > 2 * PLAY_MM else hole_mm / 2


def _mm(value_mm: float) -> str:
    return print_mm(value_mm, resolution_mm=CALIPER_MM)


def _texts(value: object) -> list[str]:
    listed = value if isinstance(value, list) else [] if value is None else [value]
    return [one for one in listed if isinstance(one, str) and one.strip()]
