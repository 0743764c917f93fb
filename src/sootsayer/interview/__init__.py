"""What to ask next: which checks are open, what they would tell, and which is worth most."""
