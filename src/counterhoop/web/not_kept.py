"""Why a file that was handed in was not kept."""

from __future__ import annotations

from typing import Final

from counterhoop.errors import BadInput

OTHER_FILES: Final = (
    "neither a photograph nor a sound that can be kept",
    "this is no photograph that can be read",
    "this is no recording",
    "this is no sound file that can be read",
)
"""What is found of a file that is of another kind than was asked for."""


def why_not_kept(fault: BadInput, *, other: str) -> str:
    """Return why a file was not kept, without the store's words for it.

    Parameters
    ----------
    fault : BadInput
        What keeping it came to.
    other : str
        What is said of a file of another kind.

    Examples
    --------
    >>> why_not_kept(BadInput("too large to keep", where="file", wanted="at most 50 MB"), other="")
    'too large to keep: wanted at most 50 MB'
    >>> why_not_kept(BadInput("this is no recording", given="a.txt"), other="choose a sound file")
    'choose a sound file'
    """
    if fault.what in OTHER_FILES:
        return other
    return str(BadInput(fault.what, wanted=fault.wanted))
