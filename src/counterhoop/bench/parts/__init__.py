"""Parts of a job at the bench: what comes off a drum, what its scheme takes, what fits a place."""
