"""What the commands over an archive share: their options and their pages."""
