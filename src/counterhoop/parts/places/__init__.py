"""Places on a drum: which fittings go on its holes, what they hide, and donors for what lacks."""
