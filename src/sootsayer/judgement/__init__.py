"""The one road: judge(case, rulebook, now) gives a verdict with all its grounds, as data."""
