"""What a job is offered at: from its schemes, its parts and the log to quote, yes and bill."""
