"""Rows of a spreadsheet in and out: read from bytes, mapped, tried before they are kept."""
