"""Reads the vectors of a PDF page with pdfium: paths in millimetres from the upper left corner."""

from __future__ import annotations

import ctypes
import math
import re
from dataclasses import dataclass

import numpy as np
import pypdfium2 as pdfium
import pypdfium2.raw as raw

MM = 25.4 / 72.0


@dataclass(frozen=True)
class PdfPath:
    """One path; ``points`` are its corners and control points."""

    points: tuple[tuple[float, float], ...]
    curves: int

    @property
    def box(self) -> tuple[float, float, float, float]:
        xs, ys = [p[0] for p in self.points], [p[1] for p in self.points]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def middle(self) -> tuple[float, float]:
        left, top, right, bottom = self.box
        return (left + right) / 2, (top + bottom) / 2

    @property
    def size(self) -> tuple[float, float]:
        left, top, right, bottom = self.box
        return right - left, bottom - top


def page_paths(page: pdfium.PdfPage) -> list[PdfPath]:
    """Every path of a page, those in nested forms too, with all matrices applied."""
    high = page.get_height()
    found: list[PdfPath] = []

    def walk(handle: object, matrix: np.ndarray, of_form: bool) -> None:
        count = raw.FPDFFormObj_CountObjects if of_form else raw.FPDFPage_CountObjects
        get = raw.FPDFFormObj_GetObject if of_form else raw.FPDFPage_GetObject
        for index in range(count(handle)):
            item = get(handle, index)
            kind = raw.FPDFPageObj_GetType(item)
            m = raw.FS_MATRIX()
            raw.FPDFPageObj_GetMatrix(item, m)
            own = np.array([[m.a, m.c, m.e], [m.b, m.d, m.f], [0, 0, 1]])
            if kind == raw.FPDF_PAGEOBJ_FORM:
                walk(item, matrix @ own, True)
            elif kind == raw.FPDF_PAGEOBJ_PATH:
                points, curves = [], 0
                for s in range(raw.FPDFPath_CountSegments(item)):
                    segment = raw.FPDFPath_GetPathSegment(item, s)
                    x, y = ctypes.c_float(), ctypes.c_float()
                    raw.FPDFPathSegment_GetPoint(segment, x, y)
                    px, py, _ = matrix @ own @ np.array([x.value, y.value, 1.0])
                    points.append((px * MM, (high - py) * MM))
                    curves += raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_BEZIERTO
                found.append(PdfPath(tuple(points), curves))

    walk(page.raw, np.eye(3), False)
    return found


def page_words(page: pdfium.PdfPage) -> str:
    """All text of a page without any white space: turned text comes in pieces."""
    return re.sub(r"\s+", "", page.get_textpage().get_text_range())


def round_paths(paths: list[PdfPath]) -> list[PdfPath]:
    """Paths that are whole circles: as wide as high, of four curves."""
    return [
        p
        for p in paths
        if p.curves in (12, 4) and math.isclose(*p.size, abs_tol=0.02) and p.size[0] > 1.0
    ]


def rendered(page: pdfium.PdfPage, *, dpi: int = 600) -> np.ndarray:
    """Darkness of a page, 0 white to 1 black, as pdfium draws it in grey."""
    picture = page.render(scale=dpi / 72.0, grayscale=True).to_numpy()
    return 1.0 - picture.reshape(picture.shape[0], picture.shape[1]).astype(float) / 255.0


def sheets_of(document: pdfium.PdfDocument) -> list[int]:
    """Pages that show a part of the shell; the first ones say how to use them."""
    return [i for i in range(len(document)) if "checkbaracross" in page_words(document[i])]
