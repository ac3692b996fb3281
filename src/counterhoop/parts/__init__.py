"""The shelf: pieces with what was measured on them, what an unknown one may be, what moves."""
