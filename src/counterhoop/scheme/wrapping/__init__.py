"""New wrap for the drums of a job: pieces, sheets, seams, glue, and whether heads still go on."""

from counterhoop.scheme.wrapping.kit import wrap_plans, wraps_wanted
from counterhoop.scheme.wrapping.plan import DrumWrap, PieceToCut, SeamAdvice, WrapPlan

__all__ = ["DrumWrap", "PieceToCut", "SeamAdvice", "WrapPlan", "wrap_plans", "wraps_wanted"]
