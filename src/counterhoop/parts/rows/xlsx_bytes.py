"""Rows as an XLSX workbook of one sheet: every cell is text or a figure, none a formula.

Parts and names: ISO/IEC 29500-1:2016 (from memory). The same rows give the same bytes on any day.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from typing import IO, cast
from xml.sax.saxutils import escape, quoteattr

from counterhoop.parts.rows.csv_cell import Cell, runs
from counterhoop.parts.rows.held import Gathered
from counterhoop.parts.rows.row import letters

_WRITTEN = (1980, 1, 1, 0, 0, 0)
"""The first time that the archive's format can say."""
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATED = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_KINDS = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_NO_XML = re.compile("[\x00-\x08\x0b\x0c\r\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_LOOKS_ESCAPED = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_PLAIN, _HEADER, _TEXT, _QUOTED = range(4)

# Format 49 is text: a size such as 3-8 that is typed later does not become a day. The last style
# is that of a cell typed with an apostrophe, for text that begins like a formula.
_STYLES = (
    f'{_HEAD}<styleSheet xmlns="{_MAIN}"><fonts count="2"><font/><font><b/></font></fonts>'
    '<fills count="2"><fill><patternFill patternType="none"/></fill>'
    '<fill><patternFill patternType="gray125"/></fill></fills>'
    '<borders count="1"><border/></borders>'
    '<cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="4"><xf xfId="0"/>'
    '<xf xfId="0" fontId="1" applyFont="1" numFmtId="49" applyNumberFormat="1"/>'
    '<xf xfId="0" numFmtId="49" applyNumberFormat="1"/>'
    '<xf xfId="0" numFmtId="49" applyNumberFormat="1" quotePrefix="1"/></cellXfs>'
    '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>'
    "</styleSheet>"
)
_CONTENT = (
    f'{_HEAD}<Types xmlns="{_PACKAGE}/content-types">'
    '<Default Extension="rels"'
    ' ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    f'<Override PartName="/xl/workbook.xml" ContentType="{_KINDS}.sheet.main+xml"/>'
    f'<Override PartName="/xl/styles.xml" ContentType="{_KINDS}.styles+xml"/>'
    f'<Override PartName="/xl/sheet1.xml" ContentType="{_KINDS}.worksheet+xml"/></Types>'
)


def xlsx_bytes(rows: Iterable[Sequence[Cell]], *, sheet: str) -> bytes:
    """Return a workbook.

    Parameters
    ----------
    rows : iterable of sequences of cells
        The headers first.
    sheet : str
        What the sheet is called; signs that its name may not have are left out.
    """
    name = re.sub(r"[\[\]:*?/\\]", "", _NO_XML.sub("", sheet)).strip(" '")[:31] or "rows"
    out = Gathered()
    # An archive is written to anything with write and flush; the types ask for a whole file.
    with zipfile.ZipFile(cast("IO[bytes]", out), "w", zipfile.ZIP_DEFLATED) as archive:
        for path, text in (
            ("[Content_Types].xml", _CONTENT),
            ("_rels/.rels", _relations(("officeDocument", "xl/workbook.xml"))),
            ("xl/workbook.xml", _workbook(name)),
            (
                "xl/_rels/workbook.xml.rels",
                _relations(("worksheet", "sheet1.xml"), ("styles", "styles.xml")),
            ),
            ("xl/styles.xml", _STYLES),
        ):
            with archive.open(_entry(path), "w") as part:
                part.write(text.encode())
        with archive.open(_entry("xl/sheet1.xml"), "w") as part:
            for text in _sheet(rows):
                part.write(text.encode())
    return out.all()


def _entry(path: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(path, date_time=_WRITTEN)
    entry.create_system, entry.external_attr = 3, 0o644 << 16
    entry.compress_type = zipfile.ZIP_DEFLATED
    return entry


def _relations(*targets: tuple[str, str]) -> str:
    listed = "".join(
        f'<Relationship Id="r{number}" Type="{_RELATED}/{kind}" Target="{target}"/>'
        for number, (kind, target) in enumerate(targets, 1)
    )
    return f'{_HEAD}<Relationships xmlns="{_PACKAGE}/relationships">{listed}</Relationships>'


def _workbook(name: str) -> str:
    return (
        f'{_HEAD}<workbook xmlns="{_MAIN}" xmlns:r="{_RELATED}"><sheets>'
        f'<sheet name={quoteattr(name)} sheetId="1" r:id="r1"/></sheets></workbook>'
    )


def _sheet(rows: Iterable[Sequence[Cell]]) -> Iterator[str]:
    yield (
        f'{_HEAD}<worksheet xmlns="{_MAIN}"><sheetViews><sheetView workbookViewId="0">'
        '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>'
        "</sheetView></sheetViews><sheetData>"
    )
    for number, row in enumerate(rows, 1):
        cells = "".join(
            _cell(value, at=f"{letters(column)}{number}", header=number == 1)
            for column, value in enumerate(row)
        )
        yield f'<row r="{number}">{cells}</row>'
    yield "</sheetData></worksheet>"


def _cell(value: Cell, *, at: str, header: bool) -> str:
    if value is None or value == "":
        return ""
    if not isinstance(value, str):
        return f'<c r="{at}" s="{_PLAIN}"><v>{value!r}</v></c>'
    text = _LOOKS_ESCAPED.sub("_x005F_", value)
    text = _NO_XML.sub(lambda sign: f"_x{ord(sign[0]):04X}_", text)
    style = _HEADER if header else _QUOTED if runs(value) else _TEXT
    return (
        f'<c r="{at}" s="{style}" t="inlineStr"><is><t xml:space="preserve">{escape(text)}</t>'
        "</is></c>"
    )
