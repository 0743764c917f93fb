"""Vehicles made from physics, and what the instruments of a workshop show of them."""
