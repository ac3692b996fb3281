"""When a drum was made, and whether it is all of one piece: what is seen against dated spans."""
