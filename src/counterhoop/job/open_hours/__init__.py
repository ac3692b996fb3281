"""When the shop is open: hours as typed, days off, and minutes of a plan to days and back.

All on the workshop's own clock, without zones: a day has 1440 minutes, also when the clocks
change. ``week`` reads hours and knows what a day has, ``minutes`` counts from the midnight with
which a plan begins.
"""
