"""Counterhoop: from the survey of an old drum to schemes, a hole list and full-size templates."""

__version__ = "0.1.0"
