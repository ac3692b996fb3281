"""When a drum was made: what was in use when, as the workshop keeps it, and what a drum shows."""
