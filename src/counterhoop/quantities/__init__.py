"""Read and print lengths, angles, sizes, places, thread names, money and time as a bench does.

Whoever reads a quantity keeps what was written; whoever prints one never shows more than the
instrument gave. Nothing outside this room converts units.
"""
