"""What a drum sounds like before it is heard: heads, the air with them, the modes of both."""
