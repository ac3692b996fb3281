"""How pages look: the templates, what they may say, and what each browser chose for itself."""
