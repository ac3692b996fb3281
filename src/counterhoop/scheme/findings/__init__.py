"""Checks over a layout: what stops it, what wants care, what is worth a note."""

from counterhoop.scheme.findings.all_checks import Checked, check, look_over, margin_mm
from counterhoop.scheme.findings.catalogue import CatalogueEntry, catalogue
from counterhoop.scheme.findings.gathered import gathered

__all__ = [
    "CatalogueEntry",
    "Checked",
    "catalogue",
    "check",
    "gathered",
    "look_over",
    "margin_mm",
]
