"""What the page of the day says first of what was just written."""

from __future__ import annotations

from collections.abc import Iterator

from counterhoop.bench.promise.bench_now import BenchNow, bench_now
from counterhoop.bench.today.after import line_of
from counterhoop.bench.today.what import what_was
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.web.look.say import capfirst
from counterhoop.web.today_desk import per_of
from counterhoop.web.today_words import line_says


def said_of(
    shop: Workshop, *, line: int = 0, down: int = 0, photographs: int = 0
) -> tuple[str, ...]:
    """Return sentences on lines of the log and photographs; nothing for what is not there.

    Parameters
    ----------
    line : int
        The line that was written.
    down : int
        The line that was put down for it.
    photographs : int
        How many were kept.
    """
    said = [*_kept(photographs)]
    if line or down:
        try:
            bench = bench_now(shop)
        except BadInput:
            return tuple(said)
        said += [*_line(shop, bench, down, first="Put down, as hands are one pair: ")]
        said += [*_line(shop, bench, line)]
    return tuple(said)


def _kept(photographs: int) -> Iterator[str]:
    if photographs:
        many = "One photograph lies" if photographs == 1 else f"{photographs} photographs lie"
        yield f"{many} in the job."


def _line(shop: Workshop, bench: BenchNow, entry: int, *, first: str = "") -> Iterator[str]:
    if not entry:
        return
    try:
        one = line_of(shop, entry)[-1].working
    except BadInput:
        return
    what = what_was(bench, one)
    of = f", {what.drum.name}" if what else ""
    per = what.operation.per if what else per_of(one.operation)
    name = f"{one.operation}{of}: {line_says(one, per=per)}."
    yield first + name if first else capfirst(name)
