"""What is done to break the program: seeded bad input of every kind, through the real command line.

`python -m tests.fuzz KIND SEED` gives one input again; docs/explanation/hard-to-break.md tells
more.
"""
