"""One file a step, named by its number and what it is for."""
