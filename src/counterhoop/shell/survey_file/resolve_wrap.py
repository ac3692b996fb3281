"""Wraps of the job: sheets, offcuts and how they are put on."""

from __future__ import annotations

from typing import Any

from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.shell.survey_file.faults import Faults
from counterhoop.shell.survey_file.models_wrap import WrapWritten
from counterhoop.shell.wrap_stock import Offcut, WrapStock

# Beyond these lies a slip of unit.
THICK_MM = (0.05, 5.0)
SHEET_MM = (100.0, 10_000.0)
OFFCUT_MM = (10.0, 10_000.0)
MOST_MM = {"kerf": 10.0, "overlap": 150.0, "edge_clear": 60.0}
SLOWEST_MIN = 600.0


def resolve_wraps(written: dict[str, WrapWritten], *, faults: Faults) -> dict[str, WrapStock]:
    """Return the wraps by their names in lower case; what cannot be is added to ``faults``."""
    found: dict[str, WrapStock] = {}
    seen: set[str] = set()
    for name, wrap in written.items():
        where, plain = f"wraps.{name}", name.casefold()
        try:
            if plain in seen:
                raise BadInput(
                    "two wraps of one name",
                    where=where,
                    given=name,
                    wanted="names that differ by more than capitals",
                )
            seen.add(plain)
            found[plain] = _wrap(name, wrap, where=where)
        except BadInput as fault:
            faults.add(fault)
    return found


def _wrap(name: str, wrap: WrapWritten, *, where: str) -> WrapStock:
    _within(wrap.thickness, THICK_MM, "the thickness of a wrap", where=f"{where}.thickness")
    for side in ("length", "width"):
        _within(getattr(wrap, side), SHEET_MM, f"the {side} of a sheet", where=f"{where}.{side}")
    for part, most_mm in MOST_MM.items():
        _within(getattr(wrap, part), (0.0, most_mm), f"an {part}", where=f"{where}.{part}")
    for pace in ("brushing", "laying"):
        time = getattr(wrap, pace)
        if time is not None and not 0.0 < time.minutes <= SLOWEST_MIN:
            raise BadInput(
                f"impossible as the time for {pace}",
                where=f"{where}.{pace}",
                given=time.as_written,
                wanted="minutes a square metre" if pace == "brushing" else "minutes a sheet",
            )
    for index, offcut in enumerate(wrap.offcuts, 1):
        for side in ("length", "width"):
            _within(
                getattr(offcut, side),
                OFFCUT_MM,
                f"the {side} of an offcut",
                where=f"{where}.offcuts[{index}].{side}",
            )
    names = [offcut.name.casefold() for offcut in wrap.offcuts]
    for index, one in enumerate(names):
        if one in names[:index]:
            raise BadInput(
                "two offcuts of one name",
                where=f"{where}.offcuts[{index + 1}].name",
                given=wrap.offcuts[index].name,
                wanted="a name of its own, as it is written on the piece",
            )
    stock = WrapStock(
        name=name,
        thickness_mm=wrap.thickness.mm,
        length_mm=wrap.length.mm,
        width_mm=wrap.width.mm,
        runs=wrap.runs,
        sheets=wrap.sheets,
        offcuts=tuple(
            Offcut(name=one.name, length_mm=one.length.mm, width_mm=one.width.mm)
            for one in wrap.offcuts
        ),
        price_minor=wrap.price.minor if wrap.price else None,
        glue=wrap.glue,
        **_given(wrap),
    )
    if stock.overlap_mm >= min(stock.length_mm, stock.width_mm):
        raise BadInput(
            "a sheet narrower than its own overlap",
            where=f"{where}.width",
            given=wrap.width.as_written,
            wanted="the sheet as it is sold, and the overlap of wrap on wrap",
        )
    return stock


def _within(size: Length | None, span: tuple[float, float], noun: str, *, where: str) -> None:
    if size is not None and not span[0] <= size.mm <= span[1]:
        raise BadInput(
            f"impossible as {noun.replace('_', ' ')}",
            where=where,
            given=size.as_written,
            wanted=f"from {span[0]:g} to {span[1]:g} mm",
            step="Look at the unit and the decimal point.",
        )


def _given(wrap: WrapWritten) -> dict[str, Any]:
    """Return what is written of those that have a usual figure."""
    lengths = {
        f"{part}_mm": getattr(wrap, part).mm for part in MOST_MM if getattr(wrap, part) is not None
    }
    if wrap.brushing is not None:
        lengths["brush_min_per_m2"] = wrap.brushing.minutes
    if wrap.laying is not None:
        lengths["lay_min"] = wrap.laying.minutes
    return lengths
