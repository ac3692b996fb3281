"""What work takes: from the book's figure to this person's own.

The operations book says for each operation a quick, a usual and a slow figure. Every working that
is written down moves the figure for that operation toward the person who worked. A time that is
three times too long or too short is asked about before it counts in full. What a list of work
will take is said as quick, usual and slow, with one factor that all work of a job shares.
"""
