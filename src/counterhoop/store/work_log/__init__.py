"""What was worked on, when, at which bench: rows that are only ever added to."""
