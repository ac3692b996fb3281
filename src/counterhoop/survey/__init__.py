"""The state of a shell from its readings: round, flat, what to take off, how sure one can be."""
