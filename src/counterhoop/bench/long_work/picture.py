"""Show a page of a paper as a picture."""

from __future__ import annotations

from io import BytesIO

from counterhoop.bench.long_work.results import Paper, Preview
from counterhoop.errors import BadInput

LEAST_WIDE_PX = 120
MOST_WIDE_PX = 1600
MOST_PIXELS = 6_000_000
"""A strip for a roll may be two metres long; its picture is made narrower rather than larger."""


def picture_of(paper: Paper, *, page: int, wide_px: int) -> Preview:
    """Return the picture of one page, or a drawing as it is.

    Parameters
    ----------
    paper : Paper
        A PDF or an SVG drawing.
    page : int
        From 1.
    wide_px : int
        Width that is wanted; kept between 120 and 1600, and 6 million pixels at the most.

    Raises
    ------
    BadInput
        For a page that is not there, or a paper that cannot be shown.
    """
    if paper.media_type == "image/svg+xml":
        _there(page, pages=1)
        return Preview(media_type=paper.media_type, content=paper.content, page=1, pages=1)
    if paper.media_type != "application/pdf":
        raise BadInput(
            "there is no picture of that paper", given=paper.name, wanted="a PDF or a drawing"
        )
    return _page(paper.content, page=page, wide_px=min(max(wide_px, LEAST_WIDE_PX), MOST_WIDE_PX))


def _page(pdf: bytes, *, page: int, wide_px: int) -> Preview:
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        pages = len(document)
        _there(page, pages=pages)
        shown = document[page - 1]
        wide, high = shown.get_size()
        scale = min(wide_px / wide, (MOST_PIXELS / (wide * high)) ** 0.5)
        out = BytesIO()
        shown.render(scale=scale).to_pil().save(out, "PNG")
    finally:
        document.close()
    return Preview(media_type="image/png", content=out.getvalue(), page=page, pages=pages)


def _there(page: int, *, pages: int) -> None:
    if not 1 <= page <= pages:
        raise BadInput("no such page", where="page", given=page, wanted=f"1 to {pages}")
