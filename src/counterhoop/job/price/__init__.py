"""What a job is offered for: lines that know where they come from, tax by a named rounding,
one price on the face, a ceiling that is not passed without a call, and the doubt beneath.

Rates are what the workshop types. Nothing here says what the law is: check what applies.
"""
