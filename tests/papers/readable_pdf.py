"""What every document that is set says of itself, to a reader and to a printer."""

from __future__ import annotations

import io

from pypdf import PdfReader


def need_readable(pdf: bytes) -> None:
    """ISO 14289-1 (PDF/UA-1) and ISO 32000-1, table 150: title shown, language, no scaling."""
    reader = PdfReader(io.BytesIO(pdf))
    root = reader.trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert b"pdfuaid" in root["/Metadata"].get_data()
    assert reader.metadata is not None
    assert reader.metadata.title
