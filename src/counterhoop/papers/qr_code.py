"""A link as a square that a phone's camera opens."""

from __future__ import annotations

from counterhoop.errors import BadInput

QUIET = 4
"""Modules left white round the code: ISO/IEC 18004, 9.1 (from memory)."""
LEAST_MODULE_MM = 0.4
"""Finer squares ask for a good printer and a steady hand: common practice, no source."""


def qr_svg(link: str, *, wide_mm: float) -> str:
    """Draw a link as a QR code with its white border, to fill a square.

    Parameters
    ----------
    link : str
        What the phone opens.
    wide_mm : float
        Side of the square on paper, border included.

    Raises
    ------
    BadInput
        When the link is so long that its squares would be too small for a phone.

    Examples
    --------
    >>> qr_svg("https://bench.local/piece/12", wide_mm=26.0).startswith("<svg")
    True
    """
    import segno

    try:
        code = segno.make_qr(link, error="m")
    except segno.DataOverflowError:
        raise BadInput(
            "the link is too long for any code", where="label", given=link, wanted="a shorter one"
        ) from None
    across = code.symbol_size(border=QUIET)[0]
    if wide_mm / across < LEAST_MODULE_MM:
        raise BadInput(
            "the link is too long for its code", where="label", given=link,
            wanted=f"a code of {across * LEAST_MODULE_MM:.0f} mm, or a shorter link",
        )  # fmt: skip
    drawn: str = code.svg_inline(
        border=QUIET, dark="#000", light="#fff", omitsize=True, svgclass=None, lineclass=None
    )
    return drawn.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"', 1)
