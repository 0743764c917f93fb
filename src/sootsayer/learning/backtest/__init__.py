"""What a pack would have changed: closed cases judged with it and without it."""
