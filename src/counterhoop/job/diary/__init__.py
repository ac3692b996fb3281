"""The plan of the shop in anyone's calendar: what is promised, worked, cured and expected.

``entry`` is one line of the diary, ``of_plan`` writes the lines of a plan, ``carry_on`` holds them
against the lines that were given out before, and ``calendar`` puts them into an iCalendar file.
Times are the workshop's own, without a zone: nine o'clock is nine o'clock at the bench. Where the
clocks change in between, a cure that is told of ends an hour off.
"""
