"""Papers that were given out, under running numbers without gaps; none is ever changed."""
