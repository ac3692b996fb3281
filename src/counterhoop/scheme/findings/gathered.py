"""Findings that say the same of several holes or lugs, said once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from counterhoop.errors import Finding
from counterhoop.scheme.findings.wording import both, holes_named


def gathered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Say once what is alike: same code, grade and figure, at several holes, lugs or fittings.

    For lists that a person reads; a drawing that marks each place wants them all.

    Parameters
    ----------
    findings : iterable of Finding
        As a check returns them.

    Returns
    -------
    tuple of Finding
        In the order of the first of each sort; the first speaks and names the others.

    Examples
    --------
    >>> from counterhoop.errors import Grade
    >>> alike = [
    ...     Finding(code="hole-near-edge", grade=Grade.STOP, measured=9.0,
    ...             says=f"Hole {n} leaves 9.0 mm to the batter edge; your rule is 12.0.",
    ...             where=f"hole {n}", holes=(n,))
    ...     for n in (1, 3, 5)
    ... ]
    >>> [one] = gathered(alike)
    >>> print(one.says)
    Hole 1 leaves 9.0 mm to the batter edge; your rule is 12.0. The same at holes 3 and 5.
    >>> one.holes
    (1, 3, 5)
    """
    groups: dict[object, list[Finding]] = {}
    for finding in findings:
        figure = None if finding.measured is None else round(finding.measured, 1)
        # What is said of a whole end names its own stations or its own head: none is like another.
        end = finding.where if finding.where.endswith((" edge", " end")) else ""
        key = (finding.code, finding.grade, finding.too_close, figure, finding.limit, finding.rule)
        groups.setdefault((*key, end), []).append(finding)
    return tuple(_one(group) for group in groups.values())


def _one(group: list[Finding]) -> Finding:
    first, rest = group[0], group[1:]
    places = list(dict.fromkeys(f.where for f in rest if f.where and f.where != first.where))
    if not rest or not places:
        return first
    numbers = tuple(dict.fromkeys(n for f in rest for n in f.holes))
    if all(f.where == f"hole {f.holes[0]}" for f in group if f.holes) and numbers:
        more = f" The same at {holes_named(numbers, most=8)}."
    elif len(places) > 4:
        more = f" The same at {both([*places[:3], f'{len(places) - 3} more'])}."
    else:
        more = f" The same at {both(places)}."
    return replace(
        first,
        says=first.says + more,
        where=both([first.where, *places]),
        holes=tuple(dict.fromkeys(n for f in group for n in f.holes)),
    )
