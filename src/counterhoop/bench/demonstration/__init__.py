"""The invented job that comes with the program: its survey, its folder and its recordings."""
