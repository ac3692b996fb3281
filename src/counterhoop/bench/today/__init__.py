"""Work as hands do it: picked up, put down, typed after, asked about, put right.

``hands`` picks up and puts down for one pair of hands, whatever bench it is written at; ``after``
types a time that nobody clocked and puts a line of the log right; ``asks`` says which times must
be asked about; ``on_the_day`` gathers what a day holds, ``so_far`` what a drum has taken.
"""
