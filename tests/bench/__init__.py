"""Measurements, not tests: `python -m tests.bench` prints ratios. Nothing here is collected."""
