"""The day to promise: the plan worked many times over, with the luck that hours have.

``so_far`` is what a job has taken already, ``luck`` draws what its work takes, and ``workings``
works the plan with each draw. ``ends_of_days`` and ``finish_at`` read days and minutes from that,
``promise`` finds the first day by which enough workings are done, ``still`` says how likely the
dates are that were given already, and ``came_in`` who would wait if one more drum came in.
``words`` says it. All of it is as good as the hours that the work is thought to take.
"""
