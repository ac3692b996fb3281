"""Backups: one archive of everything, looking a store over, and the way back."""
