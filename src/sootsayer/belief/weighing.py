"""What a piece of evidence was worth: its weight, and the word for it."""

from __future__ import annotations

import math

from sootsayer.catalogue import Said, say, shown

# Kass & Raftery 1995, the Bayes factor column; its 2 ln BF column disagrees at the edges.
# A value on an edge takes the weaker word.
EDGES = (3.0, 20.0, 150.0)
BARE = "not worth more than a bare mention"
WORDS = (BARE, "positive", "strong", "very strong")


def weight(with_it: float, without_it: float) -> float:
    """The odds of a probability with the evidence over those without, inverted if below 1.

    Infinite where one of the two is settled (0 or 1) and the other not. Raises ValueError
    unless both lie in [0, 1].
    """
    if not (0.0 <= with_it <= 1.0 and 0.0 <= without_it <= 1.0):
        raise ValueError(f"no weight from {with_it} and {without_it}")
    over, under = with_it * (1.0 - without_it), without_it * (1.0 - with_it)
    if over == under:
        return 1.0
    small, large = sorted((over, under))
    return large / small if small > 0.0 else math.inf


def word(weight: float) -> str:
    """The words of Kass & Raftery (1995) for a weight of 1 or more; raises ValueError below 1."""
    if not weight >= 1.0:
        raise ValueError(f"a weight is 1 or more, not {weight}")
    return WORDS[sum(weight > edge for edge in EDGES)]


def word_said(word: str) -> Said:
    """A word of the scale as it is shown; a verdict and its record hold the word itself."""
    return say(WORDS[WORDS.index(word)]) if word in WORDS else shown(word)
