"""What a shell completes on the command line: the table, and a script for each shell."""
