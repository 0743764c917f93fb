"""Sootsayer: fault isolation around the diesel particulate filter."""

__version__ = "0.1.0"
