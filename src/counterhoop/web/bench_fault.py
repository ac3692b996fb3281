"""A fault as it is said on a page, where nobody writes names and equal signs."""

from __future__ import annotations

import re

from counterhoop.errors import BadInput

_ASSIGNED = re.compile(r"\b[a-z_]+ = (?=[\"\[{\d]|true|false)")
_TABLE = re.compile(r"a table \[[^\]]*\] with ")


def bench_fault(fault: BadInput) -> BadInput:
    """Return the same fault without the signs of the survey file.

    Examples
    --------
    >>> print(bench_fault(BadInput("where along is it?", wanted='along = "30 deg"')))
    where along is it?: wanted "30 deg"
    """
    return BadInput(
        fault.what,
        where=fault.where,
        given=fault.given,
        wanted=_plain(fault.wanted),
        step=_plain(fault.step),
    )


def _plain(text: str) -> str:
    return _ASSIGNED.sub("", _TABLE.sub("", text))
