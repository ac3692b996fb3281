"""The templates, and the words that all of them know."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from jinja2 import Environment, PackageLoader, StrictUndefined

from counterhoop.bench.rule_words import rule_words
from counterhoop.web.answered_once import FIELD, new_mark
from counterhoop.web.look.say import capfirst, clock, day, length, moment
from counterhoop.web.look.static_files import static
from counterhoop.web.look.ways import WAYS

if TYPE_CHECKING:
    from counterhoop.bench.change.found import FoundOnDrum
    from counterhoop.bench.folders.folder import KeptDrum


@lru_cache
def templates() -> Environment:
    """Return the templates; made once.

    All text is escaped, and a name that a page forgot to pass is a fault, not a blank.
    """
    made = Environment(
        loader=PackageLoader("counterhoop.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters |= {"capfirst": capfirst, "clock": clock, "day": day, "moment": moment}
    made.globals |= {"static": static, "ways": WAYS, "length": length, "rule_words": rule_words}
    made.globals |= {"once_field": FIELD, "new_mark": new_mark, "found_on": _found_on}
    made.globals["p"] = made.get_template("pieces.html").module
    return made


def _found_on(drum: KeptDrum) -> FoundOnDrum:
    """Return what was found on a drum; the first page does without what that loads."""
    from counterhoop.bench.change.found import found_on

    return found_on(drum)
