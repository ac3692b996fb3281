"""The survey file: read it, check it, publish its schema, write a new one to fill in."""
