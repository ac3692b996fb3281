"""Job folders: how a survey file lies in the store as documents, and becomes one again.

A folder keeps its job, and for each drum the survey, the wish, the choice, the yes and the ticks,
every one with its own history. What is written may be half done.
"""
