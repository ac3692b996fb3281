"""What a client says yes to: every change of a scheme, permanent, hidden or reversible, with its
place and what it does to the drum; what differs from what was agreed; the note on what was found.

A yes is kept as ``shell.approval.Approval``: its code and the lines that the code was drawn from.
"""
