"""Set a document with Typst and tell the print dialogue to leave its size alone."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from importlib.resources import as_file, files
from io import BytesIO
from typing import Any

from counterhoop.errors import CannotDo

TEMPLATES = "counterhoop.papers.typst"
FONTS = "counterhoop.papers"


def set_pdf(
    template_name: str, data: Mapping[str, Any], *, title: str,
    images: Mapping[str, str] | None = None,
    kept: bool = False, lang: str = "en",
) -> bytes:  # fmt: skip
    """Set a packaged template with data and SVG drawings to PDF.

    Parameters
    ----------
    template_name : str
        A file of ``templates`` without its ending ("template", "check_sheet").
    data : mapping
        Anything that JSON can say; the template reads it as data, never as source.
    title : str
        Title of the document.
    images : mapping of str to str
        SVG drawings by name; the template shows one with ``drawing("name", alt: ..)``.
    kept : bool
        Whether it must open in twenty years: then it is written to PDF/A-2a (ISO 19005-2) as well
        as to PDF/UA-1 (ISO 14289-1), which every paper is and which refuses a picture without
        words. Its data say its day: ``kept-on``, year, month and day.
    lang : str
        Language of the text.

    Returns
    -------
    bytes
        The same for the same input, byte for byte. Print dialogues start at actual size
        (viewer preference PrintScaling none, ISO 32000-1 table 150).
    """
    import typst

    inputs = {"data": json.dumps({**data, "title": title, "lang": lang}, sort_keys=True)}
    inputs |= {f"svg-{name}": svg for name, svg in (images or {}).items()}
    with (
        as_file(files(TEMPLATES) / "templates") as folder,
        as_file(files(FONTS) / "fonts") as fonts,
    ):
        try:
            made = typst.compile(
                str(folder / f"{template_name}.typ"), root=str(folder), font_paths=[str(fonts)],
                ignore_system_fonts=True, format="pdf", sys_inputs=inputs,
                pdf_standards=["ua-1", "a-2a"] if kept else ["ua-1"], timestamp=0,
            )  # fmt: skip
        except (typst.TypstError, RuntimeError) as error:
            said = str(error).strip().splitlines()[0][:200]
            raise CannotDo(f"the paper {template_name!r} could not be set: {said}") from error
    return actual_size(made)


def actual_size(pdf: bytes) -> bytes:
    """Return the document with PrintScaling none; tags, language and metadata are kept.

    The window shows the title and not the name of the file: PDF/UA-1 asks for it (ISO 14289-1,
    7.1, DisplayDocTitle, from memory).
    """
    quick = _told(pdf)
    return quick if quick is not None else _written_again(pdf)


def _told(pdf: bytes) -> bytes | None:
    """Add the preference to the catalogue in place, where that moves no object; else nothing.

    The catalogue must be the last object and the file must end in one plain cross-reference table
    (ISO 32000-1, 7.5.4 and 7.5.5), as Typst writes it: only the place of that table changes then.
    """
    head, tail = pdf[: (cut := pdf.rfind(b"endstream") + 1)], pdf[cut:]
    ended = re.search(
        rb"\nxref\n0 \d+\n(.*)\ntrailer\n.*\nstartxref\n(\d+)\n%%EOF\s*$", tail, re.DOTALL
    )
    catalogue = re.search(rb"\d+ 0 obj\n<</Type/Catalog[^\n]*/ViewerPreferences<<([^<>]*)>>", tail)
    if ended is None or catalogue is None or b"/PrintScaling" in catalogue[1]:
        return None
    titled = b"/DisplayDocTitle true" in catalogue[1]
    table = int(ended[2])
    last = max(int(line[:10]) for line in ended[1].splitlines())
    if cut + catalogue.start() != last or cut + ended.start() + 1 != table:
        return None
    more = b"/PrintScaling/None" if titled else b"/PrintScaling/None/DisplayDocTitle true"
    at, place = catalogue.start(1), ended.start(2)
    told = [
        head,
        tail[:at],
        more,
        tail[at:place],
        b"%d" % (table + len(more)),
        tail[ended.end(2) :],
    ]
    return b"".join(told)


def _written_again(pdf: bytes) -> bytes:
    from pypdf import PdfWriter
    from pypdf.generic import BooleanObject, NameObject

    writer = PdfWriter(clone_from=BytesIO(pdf))
    writer.pdf_header = "%PDF-1.7"
    preferences: Any = writer.create_viewer_preferences()
    preferences.print_scaling = "/None"
    preferences[NameObject("/DisplayDocTitle")] = BooleanObject(True)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()
