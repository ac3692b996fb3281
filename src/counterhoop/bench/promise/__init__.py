"""When everything on the bench will be done: what is left of each job, the plan of all of them.

``hours_open`` and ``promises`` are what people write: when the shop is open, what was promised,
what is on its way. ``drum_work`` makes pieces of work of a scheme's order of work and of the log,
``job_work`` gathers them with what a job waits for, and ``shop_plan`` has all open jobs planned
beside the pages. ``promise_of`` reads a day to promise from the plan, ``came_in`` who would wait
for one more job, ``what_waits``, ``todays_list``, ``weeks`` and ``diary`` tell it onward.
"""
