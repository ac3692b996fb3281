"""Put papers into one file to carry away."""

from __future__ import annotations

import zipfile
from collections.abc import Mapping
from io import BytesIO

WRITTEN = (1980, 1, 1, 0, 0, 0)
"""The first time that the format can say: the same papers give the same bytes on any day."""
PLAIN_FILE = 0o644 << 16
UNIX = 3


def zipped(files: Mapping[str, bytes]) -> bytes:
    """Return a ZIP file of papers by their names, in the order given."""
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            entry = zipfile.ZipInfo(name, date_time=WRITTEN)
            entry.create_system = UNIX
            entry.external_attr = PLAIN_FILE
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, content)
    return out.getvalue()
