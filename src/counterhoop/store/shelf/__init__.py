"""The shelf: pieces as written, how they moved, and how they are found again."""
