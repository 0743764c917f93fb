"""What can be typed: the English ways and those of the language, never two things at once."""

from __future__ import annotations

from itertools import combinations

import pytest

from sootsayer.catalogue import OWN, speaking
from sootsayer.commands.asking import commands
from sootsayer.commands.heard import folded, heard, one_of, pattern, says, word_said, words_heard
from sootsayer.console import heard_texts as h
from sootsayer.tongues import tongues
from tests.french import FRENCH

# Ways that are listened for at the same moment.
TOGETHER = {
    "alone": [ways for ways, _ in commands._ALONE],
    "with more": [ways for ways, _ in commands._WITH_MORE],
    "yes or no": [h.YES, h.NO, h.DO_NOT_KNOW, h.NOT_FITTED, h.CANNOT, h.LATER],
    "slip or again": [h.SLIP, h.AGAIN, h.NEVER_MIND, h.ENDS],
    "codes": [h.COMPLETE, h.PARTIAL, h.NO_CODES],
    "monitors": [h.RUN, h.NOT_RUN, h.MONITORS_UNKNOWN],
    "sources": [*h.SOURCE.values()],
    "how often": [*h.WORDS_OF.values()],
    "compared": [h.AT_LEAST, h.AT_MOST, h.ABOVE, h.BELOW, h.OUTSIDE, h.BETWEEN],
    "file": [h.YES, h.NO, h.SHOW_TEXT, h.BACK_TO, h.STOP],
}


@pytest.mark.parametrize("language", tongues())
@pytest.mark.parametrize("moment", sorted(TOGETHER))
def test_nothing_means_two_things(language: str, moment: str) -> None:
    """Of what is listened for at one moment, no way is that of another thing too."""
    with speaking(language):
        for one, other in combinations(TOGETHER[moment], 2):
            assert not heard(one) & heard(other), (one, other)


@pytest.mark.parametrize("language", tongues())
def test_a_longer_way_is_not_cut_short(language: str) -> None:
    """`not between` is no `not`: of comparisons the one that is written is found."""
    with speaking(language):
        ways = {way: each for each in TOGETHER["compared"] for way in heard(each)}
        for way, meant in ways.items():
            first = next(each for each in TOGETHER["compared"] if _begins(way, each))
            assert first == meant, way


def _begins(typed: str, ways: str) -> bool:
    import re

    return re.match(f"(?:{pattern(ways)})", typed, re.IGNORECASE) is not None


def test_english_is_understood_in_every_language() -> None:
    """Whoever types English in a French session is understood; accents never matter."""
    with speaking("fr", FRENCH):
        assert says("yes", h.YES)
        assert says("OUI", h.YES)
        assert says("reponses", h.ANSWERS)
        assert says("Réponses ", h.ANSWERS)
        assert not says("oui oui", h.YES)
        assert one_of("Mano", h.SOURCE) == "gauge"
        assert one_of("client", h.SOURCE) == "customer"
    assert not says("oui", h.YES)
    assert OWN == "en"


def test_folding() -> None:
    """Capitals, accents, ligatures and the form of an apostrophe."""
    assert folded("  Prés  d’ŒUVRE ") == "pres d'oeuvre"
    assert words_heard("| tr/min | l' |") == {"tr", "min", "l"}


def test_words_by_themselves_and_as_they_are_said() -> None:
    """A declared word is meant by its id and by its word; what is said comes first."""
    words = ("none", "gradual", "sudden")
    said = {"none": "aucune", "gradual": "progressive", "sudden": "brutale"}
    assert word_said("Progressive", words, said) == ["gradual"]
    assert word_said("gradual", words, said) == ["gradual"]
    assert word_said("pro", words, said) == ["gradual"]
    assert word_said("b", words, said) == ["sudden"]
    assert word_said("", words, said) == []
    assert word_said("open", ("shut", "open"), {"shut": "open", "open": "ouverte"}) == ["shut"]
