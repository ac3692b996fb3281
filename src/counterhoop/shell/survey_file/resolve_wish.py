"""Wishes become the records that schemes are made from."""

from __future__ import annotations

import math
from typing import Any

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.place_along import PlaceAlong
from counterhoop.shell.drum import Drum
from counterhoop.shell.survey_file.models_wish import (
    BackToFactoryWritten,
    KitSnareWritten,
    MoveWritten,
    OtherLugsWritten,
    PutOnWritten,
    SecondHeadWritten,
    ShortenWritten,
    TakeOutWritten,
)
from counterhoop.shell.survey_file.resolve_along import PlaceFinder
from counterhoop.shell.survey_file.resolve_height import Heights
from counterhoop.shell.survey_file.resolve_shell import ENDS
from counterhoop.shell.wish import (
    BackToFactory,
    KitSnare,
    Move,
    OtherLugs,
    Pattern,
    PutOn,
    SecondHead,
    Shorten,
    TakeOut,
    Wish,
)

AnyWish = (
    SecondHeadWritten
    | OtherLugsWritten
    | BackToFactoryWritten
    | TakeOutWritten
    | PutOnWritten
    | MoveWritten
    | ShortenWritten
    | KitSnareWritten
)


def resolve_wish(
    written: AnyWish, *, drum: Drum, finder: PlaceFinder, heights: Heights, where: str
) -> Wish:
    """Return one wish, its labels checked against the drum.

    Raises
    ------
    BadInput
        When it names a fitting that is not on the drum, or cannot be wished of this drum.
    """
    if isinstance(written, SecondHeadWritten):
        if drum.heads == 2:
            raise BadInput(
                "a second head for a drum that has two",
                where=f"{where}.want",
                given=written.want,
                wanted="a drum that is written down with one head",
            )
        return SecondHead(
            long_lugs=written.long_lugs,
            patterns=written.patterns or tuple(Pattern),
            **_given(lug=written.lug, hoop=written.hoop),
        )
    if isinstance(written, OtherLugsWritten):
        heads: tuple[End, ...] = ENDS if written.heads == "both" else (written.heads,)
        return OtherLugs(lug=written.lug, heads=heads, count=written.lugs, hoop=written.hoop or "")
    if isinstance(written, BackToFactoryWritten):
        return BackToFactory()
    if isinstance(written, TakeOutWritten):
        labels = tuple(
            _label(label, drum=drum, where=f"{where}.fittings[{index}]")
            for index, label in enumerate(written.fittings, 1)
        )
        return TakeOut(labels=labels, plate=written.plate or "")
    if isinstance(written, PutOnWritten):
        return _put_on(written, drum=drum, finder=finder, heights=heights, where=where)
    if isinstance(written, MoveWritten):
        return Move(
            label=_label(written.fitting, drum=drum, where=f"{where}.fitting"),
            near=_place(
                written.along,
                written.down,
                written.from_edge,
                finder=finder,
                heights=heights,
                where=where,
            ),
            **_mm(free_along=written.free_along, free_down=written.free_down),
        )
    return _cut(written, drum=drum, where=where)


def _put_on(
    written: PutOnWritten, *, drum: Drum, finder: PlaceFinder, heights: Heights, where: str
) -> PutOn:
    if (written.along is None) != (written.down is None):
        raise BadInput(
            "half a place",
            where=where,
            wanted='along and down together, along = "90 deg", down = "85 mm", or neither',
        )
    near = None
    if written.along is not None and written.down is not None:
        near = _place(
            written.along,
            written.down,
            written.from_edge,
            finder=finder,
            heights=heights,
            where=where,
        )
    replaces = ""
    if written.replaces is not None:
        replaces = _label(written.replaces, drum=drum, where=f"{where}.replaces")
    label = written.label or ""
    missing = {f.label.casefold() for f in drum.everything if f.missing}
    if near is None and not replaces and label.casefold() not in missing:
        raise BadInput(
            "where does it go?",
            where=where,
            wanted="along and down, or replaces, the fitting that makes room, "
            "or the label of a missing fitting",
        )
    there = {f.label.casefold(): f for f in drum.everything if not f.missing}
    if label.casefold() in there and label.casefold() != replaces.casefold():
        raise BadInput(
            "something on this drum is called so already",
            where=f"{where}.label",
            given=label,
            wanted="a label of its own, or replaces with this one",
        )
    return PutOn(
        fitting=written.fitting,
        label=label,
        near=near,
        replaces=replaces,
        turned_deg=written.turned.deg if written.turned else 0.0,
        **_mm(free_along=written.free_along, free_down=written.free_down),
    )


def _cut(written: ShortenWritten | KitSnareWritten, *, drum: Drum, where: str) -> Wish:
    least_mm = drum.depth_mm - math.hypot(drum.depth_cos_mm, drum.depth_sin_mm)
    if written.depth.mm >= least_mm:
        raise BadInput(
            "not shallower than the drum is",
            where=f"{where}.depth",
            given=written.depth.as_written,
            wanted=f"less than {round(least_mm, 1):g} mm",
        )
    free = _mm(free=written.free)
    if isinstance(written, ShortenWritten):
        return Shorten(depth_mm=written.depth.mm, end=written.end, **free)
    return KitSnare(
        depth_mm=written.depth.mm,
        end=written.end,
        count=written.lugs,
        **free,
        **_given(lug=written.lug, strainer=written.strainer, butt=written.butt),
    )


def _given(**fields: str | None) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}


def _mm(**fields: Length | None) -> dict[str, Any]:
    return {f"{name}_mm": value.mm for name, value in fields.items() if value is not None}


def _label(label: str, *, drum: Drum, where: str) -> str:
    labels = {fitting.label.casefold(): fitting.label for fitting in drum.everything}
    found = labels.get(" ".join(label.split()).casefold())
    if found is None:
        raise BadInput(
            "nothing on this drum is called so",
            where=where,
            given=label,
            wanted="a fitting by the label it has in this file",
            step=did_you_mean(label, labels.values()),
        )
    return found


def _place(
    along: PlaceAlong,
    down: Length,
    from_edge: str,
    *,
    finder: PlaceFinder,
    heights: Heights,
    where: str,
) -> Place:
    along_deg = finder.find(along, where=f"{where}.along")
    down_mm = heights.down_mm(
        down.mm,
        from_edge=from_edge,
        along_deg=along_deg,
        where=f"{where}.down",
        given=down.as_written,
    )
    return Place(along_deg, down_mm)
