"""What the dated command prints: when a drum was made, and what there is to look at."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from counterhoop.bench.evidence.drum_features import years_of
from counterhoop.cli.text import wrapped
from counterhoop.evidence.words import dated_words, origin_words

if TYPE_CHECKING:
    from counterhoop.evidence.dated import Dated
    from counterhoop.evidence.reference import Reference


def dated_text(found: Dated) -> str:
    """Say when a drum was made, part by part, with the odds beneath."""
    first, *rest = dated_words(found)
    lines = [*wrapped(first, indent=0), *(text for one in rest for text in wrapped(one, indent=2))]
    if found.origins:
        lines += ["", "Is it all of one piece?"]
    for one in found.origins:
        lines += wrapped(f"{one.part}: {origin_words(one)}", indent=2)
    lines += ["", "The year, with odds of"]
    lines += [f"  {100 * odds:.0f} %: {span}" for odds, span in found.spans.items()]
    return "\n".join(lines)


def known_text(reference: Reference, *, family: str = "") -> str:
    """List families, lines, features and forms with their years."""
    if family:
        reference.lines_of(family)
    families = (family,) if family else reference.families
    return "\n".join(line for one in families for line in _family(reference, one)).rstrip()


def _family(reference: Reference, family: str) -> Iterator[str]:
    yield f"{family}: {', '.join(line.name for line in reference.lines_of(family))}"
    for feature in reference.features:
        forms = [one for one in reference.values if (one.family, one.feature) == (
            family, feature.name)]  # fmt: skip
        if forms:
            yield f"  {feature.name}: {feature.look}"
        for value in forms:
            only = f" ({' and '.join(value.lines)} only)" if value.lines else ""
            yield f"    {value.name}: {years_of(value)}{only}"
    numbers = sorted(
        (one for one in reference.serials if one.family == family),
        key=lambda one: (one.prefix, one.number),
    )
    if numbers:
        first, last = numbers[0].written, numbers[-1].written
        yield f"  serial numbers: {len(numbers)} dated, {first} to {last}"
    yield ""
