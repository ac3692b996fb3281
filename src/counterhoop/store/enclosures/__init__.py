"""Photographs and sounds: told by their content, freed of their position, kept by their hash."""
