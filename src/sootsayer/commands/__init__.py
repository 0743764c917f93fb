"""One file per command: arguments, call, render, exit code."""
