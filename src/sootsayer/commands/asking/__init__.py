"""The questionnaire without its terminal: a state and a typed line make the next state."""
