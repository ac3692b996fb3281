"""Sheets of labels as long work."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource

if TYPE_CHECKING:
    from counterhoop.papers.bag_labels import Label
    from counterhoop.papers.label_sheet import LabelSheet


def make_labels(
    _source: JobSource, labels: tuple[Label, ...], sheet: LabelSheet, used: int, *,
    planned: bytes | None, progress: Callable[[str, float], None],
) -> Paper:  # fmt: skip
    """Set labels on sheets."""
    from counterhoop.papers.bag_labels import labels_pdf

    progress("Setting the labels", 0.0)
    content = labels_pdf(labels, sheet=sheet, used=used)
    return Paper(name="labels.pdf", media_type="application/pdf", content=content)
