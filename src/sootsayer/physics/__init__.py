"""Pure functions of the trade's physics: units first."""
