"""A frame with two ruled scales, for what is no place on a shell: a spectrum, a fading sound."""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterhoop.papers.drawing.lettering import CAP_SHARE
from counterhoop.papers.drawing.records import Layer, Line, Pen, Stroke, Text

FIGURE_MM = 3.2
TICK_MM = 1.2
THIN = Pen(weight="dimension")
GRID = Pen(weight="fine", dash="dotted")


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """From where to where a scale goes, and its steps between figures.

    Attributes
    ----------
    low, high, step : float
        In what is plotted.
    unit : str
        Stands after the last figure.
    """

    low: float
    high: float
    step: float
    unit: str

    def figures(self) -> list[float]:
        """Return what is figured.

        Examples
        --------
        >>> Scale(low=60.0, high=500.0, step=100.0, unit="Hz").figures()
        [100.0, 200.0, 300.0, 400.0, 500.0]
        """
        first = math.ceil(self.low / self.step - 1e-9)
        last = math.floor(self.high / self.step + 1e-9)
        return [at * self.step for at in range(first, last + 1)]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlotFrame:
    """Where a plot lies on paper, and what its scales are; more is up and to the right.

    ``ruled`` draws a line across at each figure.
    """

    left_mm: float
    top_mm: float
    wide_mm: float
    high_mm: float
    across: Scale
    up: Scale
    ruled: bool = True

    @property
    def right_mm(self) -> float:
        """Its right rim."""
        return self.left_mm + self.wide_mm

    @property
    def bottom_mm(self) -> float:
        """Its lower rim."""
        return self.top_mm + self.high_mm

    def x_mm(self, value: float) -> float:
        """Return where a value lies along."""
        share = (value - self.across.low) / (self.across.high - self.across.low)
        return self.left_mm + self.wide_mm * min(max(share, 0.0), 1.0)

    def y_mm(self, value: float) -> float:
        """Return where a value lies up and down."""
        share = (value - self.up.low) / (self.up.high - self.up.low)
        return self.bottom_mm - self.high_mm * min(max(share, 0.0), 1.0)

    def strokes(self) -> tuple[Stroke, ...]:
        """Draw both scales with their figures."""
        found: list[Stroke] = [
            _line(self.left_mm, self.bottom_mm, self.right_mm, self.bottom_mm),
            _line(self.left_mm, self.top_mm, self.left_mm, self.bottom_mm),
        ]
        low = self.bottom_mm + TICK_MM + 0.8 + CAP_SHARE * FIGURE_MM
        across, up = self.across.figures(), self.up.figures()
        for value in across:
            x = self.x_mm(value)
            found.append(_line(x, self.bottom_mm, x, self.bottom_mm + TICK_MM))
            said = f"{value:g} {self.across.unit}" if value == across[-1] else f"{value:g}"
            found.append(_figure(x, low, said))
        for value in up:
            y = self.y_mm(value)
            found.append(_line(self.left_mm - TICK_MM, y, self.left_mm, y))
            if self.ruled and value > self.up.low:
                found.append(
                    Line(
                        layer=Layer.SCALE, x1_mm=self.left_mm, y1_mm=y, x2_mm=self.right_mm,
                        y2_mm=y, pen=GRID,
                    )
                )  # fmt: skip
            said = f"{value:g}".replace("-", "−")
            said = f"{said} {self.up.unit}" if value == up[-1] else said
            found.append(
                Text(
                    layer=Layer.SCALE, x_mm=self.left_mm - TICK_MM - 0.8,
                    y_mm=y + CAP_SHARE * FIGURE_MM / 2.0, text=said, size_mm=FIGURE_MM,
                    anchor="end",
                )
            )  # fmt: skip
        return tuple(found)


def round_step(reach: float, *, most: float = 9.0) -> float:
    """Return steps of 1, 2 or 5 and noughts, no more than ``most`` of them.

    Examples
    --------
    >>> round_step(760.0), round_step(2.2, most=5.0)
    (100.0, 0.5)
    """
    tens = 10.0 ** math.floor(math.log10(reach / most))
    return next(tens * part for part in (1, 2, 5, 10) if tens * part * most >= reach * (1 - 1e-9))


def _line(x1: float, y1: float, x2: float, y2: float) -> Line:
    return Line(layer=Layer.SCALE, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen=THIN)


def _figure(x: float, y: float, said: str) -> Text:
    return Text(layer=Layer.SCALE, x_mm=x, y_mm=y, text=said, size_mm=FIGURE_MM, anchor="middle")
