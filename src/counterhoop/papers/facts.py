"""What all papers that are read say alike: title block, lengths, money, names as they print."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from typing import Literal

from counterhoop import __version__
from counterhoop.development.shape import HoleShape, Oval, Rectangle, Round
from counterhoop.papers.drawing.view import between_said
from counterhoop.papers.job_facts import JobFacts, title_facts
from counterhoop.papers.sheets import PaperSize, sheet_of
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import Money, print_money
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM, print_inch, print_mm
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import HolePlan
from counterhoop.shell.job import Job
from counterhoop.shell.shop_rules import ShopRules, default_rules

Fact = tuple[str, str]
SIZE_DENOMINATOR = 64
PLACE_DENOMINATOR = 32
"""Finest marks that sizes and places are printed to: a caliper in 64ths, a rule in 32nds."""


def sheet_for(paper: str) -> PaperSize:
    """Return the sheet that lists are set on: Letter where templates are, A4 otherwise.

    Examples
    --------
    >>> sheet_for("roll").name, sheet_for("letter").name
    ('A4', 'Letter')
    """
    return sheet_of("Letter" if paper.strip().casefold() == "letter" else "A4")


def said_code(scheme: Scheme) -> str:
    """Return the code that a yes is given to; none where nothing needs one."""
    return scheme.code if scheme.code and scheme.permanent else "none"


def say_rules(rules: ShopRules) -> str:
    """Say which limits were worked to.

    Examples
    --------
    >>> say_rules(default_rules().overridden({"web_mm": 5.0})).split(",")[1]
    ' 1 changed by the workshop'
    """
    standard = default_rules()
    changed = sum(getattr(rules, f.name) != getattr(standard, f.name) for f in fields(ShopRules))
    said = f"version {__version__}"
    return f"{said}, {changed} changed by the workshop" if changed else f"{said}, as shipped"


def facts_of(job: Job, *, drum: str = "", approved: str = "") -> JobFacts:
    """Return what all papers of a job share, for one drum or for the kit."""
    return JobFacts(
        job=job.number,
        client=job.client,
        drum=drum,
        date=say_day(job.date),
        measured_by=job.measured_by,
        units=job.units,
        rules_version=say_rules(job.rules),
        approved=approved,
    )


def block_of(job: Job, scheme: Scheme, *, what: str, scale: str = "") -> tuple[Fact, ...]:
    """Return the cells of the title block of a paper on one drum's scheme."""
    facts = facts_of(job, drum=scheme.drum, approved=scheme.approval)
    flat = scheme.layout.flat
    return (
        *title_facts(facts, flat=flat, what=what, scale=scale),
        ("depth", between_said(*flat.depths_mm(), say=Lengths(job.units).length)),
        ("scheme", f"{scheme.number}. {scheme.title}"),
        ("code of permanent changes", said_code(scheme)),
    )


def foot_facts(job: Job, *, what: str, drum: str = "") -> tuple[Fact, ...]:
    """Return what stands at the foot of every sheet."""
    return (("Job", f"job {job.number}"), ("Drum", drum), ("Paper", what))


@dataclass(frozen=True, slots=True)
class Lengths:
    """Prints lengths the way the person at the bench reads them."""

    units: Literal["mm", "in"] = "mm"

    def cell(self, value_mm: float, *, resolution_mm: float = TAPE_MM) -> Fact:
        """Return the millimetres of a cell and, for who reads inches, the inches beside them.

        Examples
        --------
        >>> Lengths("in").cell(203.0), Lengths().cell(203.04)
        (('203', '8 in'), ('203', ''))
        >>> Lengths("in").cell(0.15, resolution_mm=0.05), Lengths("in").cell(0.0)
        (('0.15', ''), ('0', '0 in'))
        """
        said = print_mm(value_mm, resolution_mm=resolution_mm, with_unit=False)
        if self.units == "mm":
            return (said, "")
        fine = SIZE_DENOMINATOR if resolution_mm < TAPE_MM else PLACE_DENOMINATOR
        beside = print_inch(value_mm, denominator=fine)
        # A rule has no mark for so little: 0 in beside it would read as nothing.
        return (said, "" if beside == "0 in" and float(said) else beside)

    def length(self, value_mm: float, *, resolution_mm: float = TAPE_MM) -> str:
        """Print a length with its unit in running words.

        Examples
        --------
        >>> Lengths("in").length(203.2), Lengths().length(203.2)
        ('203 mm (8 in)', '203 mm')
        """
        said, beside = self.cell(value_mm, resolution_mm=resolution_mm)
        return f"{said} mm ({beside})" if beside else f"{said} mm"

    def size(self, shape: HoleShape | None) -> Fact:
        """Return a hole's size in words; sizes are read with a caliper.

        Examples
        --------
        >>> Lengths().size(Round(6.0)), Lengths("in").size(Round(6.35))
        (('6.0 dia', ''), ('6.4 dia', '1/4 in'))
        """
        if shape is None:
            return ("–", "")
        if isinstance(shape, Round):
            said, beside = self.cell(shape.diameter_mm, resolution_mm=CALIPER_MM)
            return (f"{said} dia", beside)
        if isinstance(shape, Rectangle):
            first, second, beside = self._two(shape.along_mm, shape.down_mm)
            return (f"{first} along, {second} down", beside)
        first, second, beside = self._two(shape.width_mm, shape.length_mm)
        name = "oval" if isinstance(shape, Oval) else "slot"
        return (f"{name} {first} wide, {second} long, lies {shape.lies}", beside)

    def _two(self, first_mm: float, second_mm: float) -> tuple[str, str, str]:
        one, one_in = self.cell(first_mm, resolution_mm=CALIPER_MM)
        two, two_in = self.cell(second_mm, resolution_mm=CALIPER_MM)
        return one, two, f"{one_in.removesuffix(' in')} and {two_in}" if one_in else ""

    def diameter(self, value_mm: float) -> str:
        """Print a diameter in running words."""
        said, beside = self.size(Round(value_mm))
        return f"{said} ({beside})" if beside else said


def say_money(minor: int | None, *, currency: str) -> str:
    """Print money; what nobody knows says so."""
    return "not known" if minor is None else print_money(Money(minor=minor, currency=currency))


def count(number: int, noun: str) -> str:
    """Print a count with its noun.

    Examples
    --------
    >>> count(1, "hole"), count(3, "hole")
    ('1 hole', '3 holes')
    """
    return f"{number} {noun}{'' if number == 1 else 's'}"


def listed(words: Sequence[str]) -> str:
    """Join words as one says them.

    Examples
    --------
    >>> listed(["lugs", "rods", "hoop"])
    'lugs, rods and hoop'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def numbers(holes: Iterable[HolePlan | int]) -> str:
    """Print hole numbers, runs of three or more as "4 to 9".

    Examples
    --------
    >>> numbers([7, 1, 2, 3, 9])
    '1 to 3, 7, 9'
    """
    found = sorted({h if isinstance(h, int) else h.number for h in holes})
    runs: list[list[int]] = []
    for number in found:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said = []
    for run in runs:
        said += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(n) for n in run]
    return ", ".join(said)


def holes_said(holes: Iterable[HolePlan | int]) -> str:
    """Print "hole 4" or "holes 4 and on"."""
    found = list(holes)
    return f"hole{'' if len(found) == 1 else 's'} {numbers(found)}"


def labels(names: Iterable[str], *, numbered: bool = True) -> str:
    """Print labels of fittings, those that differ by their number together.

    Parameters
    ----------
    names : iterable of str
        Labels as they stand on the drum.
    numbered : bool
        Whether the numbers are printed, or only how many there are.

    Examples
    --------
    >>> labels(["lug 1", "lug 2", "lug 3", "badge"])
    'lugs 1 to 3 and badge'
    >>> labels(["lug 1", "lug 2", "lug 3", "badge"], numbered=False)
    '3 lugs and badge'
    """
    groups: dict[str, list[int]] = {}
    for name in names:
        word, _, tail = name.rpartition(" ")
        if word and tail.isascii() and tail.isdigit():
            groups.setdefault(word, []).append(int(tail))
        else:
            groups.setdefault(name, [])
    said = []
    for word, found in groups.items():
        if not found:
            said.append(word)
        elif numbered:
            said.append(f"{word}{'' if len(found) == 1 else 's'} {numbers(found)}")
        else:
            said.append(word if len(found) == 1 else f"{len(found)} {word}s")
    return listed(said)
