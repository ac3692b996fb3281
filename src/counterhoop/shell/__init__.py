"""The vocabulary: drum, shell, hole, row, shadow, fitting placed, reading; what a survey says."""
