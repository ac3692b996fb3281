"""What all work of one job has in common: a hard shell, a bad day, a client who rings."""

from __future__ import annotations

SHARED_SPREAD = 0.15
"""Sigma of the logarithm of the factor that all work of one job shares.

Two jobs in three lie within 15 % of the sum of their operations for this cause alone (common
practice, no source). Sums of independent hours are too narrow without it.
"""
