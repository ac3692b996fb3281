"""Sheets of rows: put in, mapped, tried, taken; and handed out again."""
