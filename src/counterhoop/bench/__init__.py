"""One function for each thing a person can do; the commands and the pages call only this."""
