"""What the workshop keeps: job folders, every version of what was written, photographs, copies.

The only room that speaks SQL. It has no clock: whoever saves says when and at which bench.
"""
