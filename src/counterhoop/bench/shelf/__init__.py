"""The shelf at the bench: pieces found, written, moved, labelled, held against a drum."""
