"""The shell laid flat as a part of a page: inks by class, holes that can be reached and named."""
