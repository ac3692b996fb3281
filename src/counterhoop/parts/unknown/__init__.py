"""What an unknown part may be, and what to measure next."""
