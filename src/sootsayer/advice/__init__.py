"""What is permitted, what to do, and whether it helped. Pure."""
