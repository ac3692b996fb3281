"""Heads, pitches and listening, joined for one drum and for a kit."""
