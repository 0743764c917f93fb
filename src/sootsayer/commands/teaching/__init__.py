"""The conversation that makes a rule of what somebody has seen."""
