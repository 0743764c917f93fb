"""Confidence: an exact noisy-OR/noisy-MAX network. Pure: numbers in, numbers out."""
