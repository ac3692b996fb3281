"""The same jobs for the person's own programs: JSON in and out, a token instead of a cookie."""
