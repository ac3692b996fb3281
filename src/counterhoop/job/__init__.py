"""Hours, price, date, yes and record: what a scheme becomes between a workshop and its client."""
