"""Geometry on the shell laid flat: places, surfaces, outlines, webs, cover, the cylinder."""
