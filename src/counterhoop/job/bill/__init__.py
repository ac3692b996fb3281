"""What was agreed and done becomes an invoice; receipts, credit notes and the books' rows follow.

An invoice that was given out is never changed. Numbers come from outside, and so does the day.
"""
