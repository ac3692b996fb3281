"""What was found on the way: written down, into the survey, and what it changes for the client.

``found`` is the record, ``write_found`` writes it and what the planner reads of it, ``changed``
says what differs since the client's yes and what that costs, ``answer`` keeps what the client says
to it, ``agreed`` gives the invoice what was agreed.
"""
