"""The picture of the weeks: a row for each drum, hands dark, cures hatched, one drawing for all."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from counterhoop.papers.drawing.lettering import CAP_SHARE, box_of, width_mm
from counterhoop.papers.drawing.records import Drawing, Layer, Line, Path, Pen, Stroke, Text
from counterhoop.papers.weeks_calendar import Calendar
from counterhoop.quantities.day import MONTHS, say_day

ROW_MM, HEAD_MM, LEGEND_MM, LABEL_MM = 8.0, 9.5, 8.0, 46.0
HANDS_MM, CURE_MM = (0.9, 3.8), (4.4, 7.2)
"""Where in a row hands and cures lie, from its upper line."""
FIGURE_MM, NAME_MM = 3.2, 3.4
LEAST_BAR_MM = 0.7
THIN, GRID = Pen(weight="dimension"), Pen(weight="fine", dash="dotted")
DATE, NOW = Pen(weight="outline"), Pen(weight="hole", dash="chain")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A stretch in which hands are at work, or something is left alone to cure."""

    begins: dt.datetime
    ends: dt.datetime
    kind: Literal["hands", "cure"]
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumWeeks:
    """One drum: its bars, the days on which something for it comes, the day it is promised."""

    job: str
    drum: str
    bars: tuple[Bar, ...] = ()
    comes: tuple[dt.date, ...] = ()
    promised: dt.date | None = None

    @property
    def name(self) -> str:
        """Job and drum."""
        return f"{self.job} · {self.drum}"


def draw_weeks(
    rows: Sequence[DrumWeeks], *, calendar: Calendar, now: dt.datetime | None = None,
    name: str = "weeks",
) -> Drawing:  # fmt: skip
    """Draw the weeks.

    Parameters
    ----------
    rows : sequence of DrumWeeks
        From the top down.
    calendar : Calendar
        Which days, how wide.
    now : datetime, optional
        Marked by a line through all rows.
    name : str
        Begins every ident.
    """
    low = HEAD_MM + ROW_MM * len(rows)
    strokes: list[Stroke] = [*_head(calendar, low_mm=low)]
    for number, row in enumerate(rows):
        strokes += _row(row, calendar, top_mm=HEAD_MM + ROW_MM * number, name=f"{name}-{number}")
    if now is not None and calendar.begins <= now < calendar.ends:
        at = LABEL_MM + calendar.x_mm(now)
        strokes.append(_upright(at, HEAD_MM - 1.5, low, pen=NOW, ident=f"{name}-now"))
    wide = LABEL_MM + calendar.wide_mm + 0.5
    legend = _legend(low, right_mm=wide, now=now is not None)
    bottom = max(box_of(stroke)[3] for stroke in legend if isinstance(stroke, Text))
    strokes += legend
    last = calendar.first + dt.timedelta(days=calendar.days - 1)
    return Drawing(
        left_mm=0.0, top_mm=0.0, width_mm=wide, height_mm=bottom + 1.5, strokes=tuple(strokes),
        title=f"The weeks from {say_day(calendar.first)} to {say_day(last)}",
        says=" ".join(row_says(row, calendar) for row in rows) or "Nothing is planned.",
    )  # fmt: skip


def row_says(row: DrumWeeks, calendar: Calendar) -> str:
    """Say a row in words: on which days hands are at it, what cures until when, what comes."""
    shown = [bar for bar in row.bars if bar.ends > calendar.begins and bar.begins < calendar.ends]
    hands = sorted({bar.begins.date() for bar in shown if bar.kind == "hands"})
    said = [f"at the bench on {_days_said(hands)}"] if hands else []
    said += [
        f"{bar.says or 'curing'} until {_days_said([bar.ends.date()])}"
        for bar in shown
        if bar.kind == "cure"
    ]
    if coming := [day for day in row.comes if day in calendar.each()]:
        said.append(f"something comes on {_days_said(coming)}")
    if row.promised is not None:
        said.append(f"promised for {_days_said([row.promised])}")
    return f"{row.name}: {'; '.join(said) or 'nothing in these weeks'}."


def _days_said(days: Sequence[dt.date]) -> str:
    """Say days with a month for each run of them: "4, 5 and 9 March"."""
    by_month: dict[str, list[str]] = {}
    for day in days:
        by_month.setdefault(MONTHS[day.month - 1], []).append(str(day.day))
    return "; ".join(f"{', '.join(found)} {month}" for month, found in by_month.items())


def _head(calendar: Calendar, *, low_mm: float) -> Iterator[Stroke]:
    for number, day in enumerate(calendar.each()):
        left, right = (LABEL_MM + edge for edge in calendar.edges_mm[number : number + 2])
        monday = day.weekday() == 0
        if number == 0 or monday:
            month = f"{day.day} {MONTHS[day.month - 1]} {day.year}"
            if number == 0 or calendar.days - number > 2:
                yield _words(left + 1.0, 3.2, month if monday else f"from {month}", bold=True)
        top = 0.0 if monday else HEAD_MM - 4.5
        yield _upright(left, top, low_mm, pen=THIN if monday or not number else GRID)
        if day in calendar.closed:
            box = ((left, HEAD_MM), (right, HEAD_MM), (right, low_mm), (left, low_mm))
            yield Path(
                layer=Layer.SHADOW, points=box, pen=Pen(ink="none"), fill="ink", fill_share=0.08
            )
        elif right - left > 4.0:
            middle = (left + right) / 2.0
            yield _words(middle, HEAD_MM - 1.6, str(day.day), anchor="middle")
    right = LABEL_MM + calendar.wide_mm
    yield _upright(right, 0.0, low_mm, pen=THIN)
    yield _across(HEAD_MM, right)


def _row(row: DrumWeeks, calendar: Calendar, *, top_mm: float, name: str) -> Iterator[Stroke]:
    middle = top_mm + (ROW_MM + CAP_SHARE * NAME_MM) / 2.0
    yield _words(0.0, middle, _fitted(row.name, LABEL_MM - 2.0), size_mm=NAME_MM)
    yield _across(top_mm + ROW_MM, LABEL_MM + calendar.wide_mm)
    for kind, (upper, lower) in (("cure", CURE_MM), ("hands", HANDS_MM)):
        for number, bar in enumerate(_joined(row.bars, kind)):
            if bar.ends <= calendar.begins or bar.begins >= calendar.ends:
                continue
            left, right = (LABEL_MM + calendar.x_mm(at) for at in (bar.begins, bar.ends))
            right = max(right, left + LEAST_BAR_MM)
            yield _bar(
                left, right, top_mm + upper, top_mm + lower, kind=kind,
                ident=f"{name}-{kind}-{number}", title=bar.says,
            )  # fmt: skip
    for day in row.comes:
        if day in calendar.each():
            at = LABEL_MM + calendar.x_mm(dt.datetime.combine(day, dt.time()))
            yield _arrival(at + 1.5, top_mm + 0.7, ident=f"{name}-comes")
    if row.promised in calendar.each() and row.promised is not None:
        after = dt.datetime.combine(row.promised + dt.timedelta(days=1), dt.time())
        at = LABEL_MM + calendar.x_mm(after)
        yield from _promise(at, top_mm, ident=f"{name}-promised")


def _joined(bars: Sequence[Bar], kind: str) -> list[Bar]:
    """Return the bars of one kind, those that overlap as one, so that no hatching lies twice."""
    joined: list[Bar] = []
    for bar in sorted((bar for bar in bars if bar.kind == kind), key=lambda bar: bar.begins):
        last = joined[-1] if joined else None
        if last is not None and bar.begins < last.ends:
            joined[-1] = Bar(
                begins=last.begins, ends=max(last.ends, bar.ends), kind=bar.kind,
                says=f"{last.says}; {bar.says}",
            )  # fmt: skip
        else:
            joined.append(bar)
    return joined


def _bar(
    left: float, right: float, top: float, low: float, *, kind: str, ident: str = "",
    title: str = "",
) -> Path:  # fmt: skip
    points = ((left, top), (right, top), (right, low), (left, low))
    hands = kind == "hands"
    return Path(
        layer=Layer.READING, points=points, pen=THIN, hatched=not hands, ident=ident, title=title,
        fill="ink" if hands else "none", fill_share=1.0 if hands else 0.0,
    )  # fmt: skip


def _arrival(x: float, top: float, *, ident: str = "") -> Path:
    points = ((x - 1.3, top), (x + 1.3, top), (x, top + 2.6))
    return Path(layer=Layer.NOTE, points=points, pen=Pen(weight="hole"), ident=ident)


def _promise(x: float, top: float, *, ident: str = "") -> Iterator[Stroke]:
    yield Line(
        layer=Layer.NOTE, x1_mm=x, x2_mm=x, y1_mm=top + 0.5, y2_mm=top + ROW_MM - 0.5, pen=DATE,
        ident=ident,
    )  # fmt: skip
    flag = ((x, top + 0.5), (x - 3.2, top + 1.9), (x, top + 3.3))
    yield Path(layer=Layer.NOTE, points=flag, pen=THIN, fill="ink", fill_share=1.0)


def _legend(top_mm: float, *, right_mm: float, now: bool) -> list[Stroke]:
    """Explain the marks, in as many lines as their words need."""
    samples: list[tuple[str, float, Callable[[float, float], Iterable[Stroke]]]] = [
        ("hands at work", 7.0, lambda x, y: [_bar(x, x + 7.0, y - 2.8, y, kind="hands")]),
        (
            "left to cure, dry or soak",
            7.0,
            lambda x, y: [_bar(x, x + 7.0, y - 2.8, y, kind="cure")],
        ),
        ("something comes", 2.6, lambda x, y: [_arrival(x + 1.3, y - 2.8)]),
        ("promised", 3.4, lambda x, y: _promise(x + 3.2, y - 5.4)),
    ]
    if now:
        samples.append(("now", 1.0, lambda x, y: [_upright(x + 0.5, y - 5.0, y + 1.2, pen=NOW)]))
    strokes: list[Stroke] = []
    x, y = 0.0, top_mm + LEGEND_MM
    for said, wide_mm, sample in samples:
        ends = x + wide_mm + 2.0 + width_mm(said, size_mm=FIGURE_MM)
        if ends > right_mm and x > 0.0:
            x, y, ends = 0.0, y + LEGEND_MM, ends - x
        strokes += [*sample(x, y), _words(x + wide_mm + 2.0, y - 0.2, said)]
        x = ends + 7.0
    return strokes


def _fitted(text: str, wide_mm: float) -> str:
    """Return as much of a name as its column holds."""
    if width_mm(text, size_mm=NAME_MM) <= wide_mm:
        return text
    while text and width_mm(f"{text}…", size_mm=NAME_MM) > wide_mm:
        text = text[:-1]
    return f"{text.rstrip()}…"


def _upright(x: float, top: float, low: float, *, pen: Pen, ident: str = "") -> Line:
    return Line(layer=Layer.SCALE, x1_mm=x, x2_mm=x, y1_mm=top, y2_mm=low, pen=pen, ident=ident)


def _across(y: float, right: float) -> Line:
    return Line(layer=Layer.SCALE, x1_mm=0.0, x2_mm=right, y1_mm=y, y2_mm=y, pen=THIN)


def _words(
    x: float, y: float, said: str, *, size_mm: float = FIGURE_MM, bold: bool = False,
    anchor: Literal["start", "middle", "end"] = "start",
) -> Text:  # fmt: skip
    return Text(
        layer=Layer.NOTE, x_mm=x, y_mm=y, text=said, size_mm=size_mm, bold=bold, anchor=anchor
    )
