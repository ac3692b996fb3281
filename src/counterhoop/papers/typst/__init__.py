"""Set documents: data as data, drawings as bytes, the shipped typeface, the same bytes again."""
