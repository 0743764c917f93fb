"""Files that are written for people to go on with, whatever language their comments are in."""

from __future__ import annotations

from sootsayer.casework.collector import text_of
from sootsayer.catalogue import Said, speaking
from sootsayer.commands.new_shop import new_shop
from sootsayer.commands.opened import load_rulebook
from sootsayer.commands.written import comment
from sootsayer.documents.yaml_source import parse_document
from sootsayer.rulebook.shipped import shipped_rules


class Longwinded:
    """A language that says everything on lines more than English, and in signs of YAML."""

    def one(self, template: str) -> str:
        return f"- x: [\n{template}\nformat: 9"

    def counted(self, one: str, many: str, count: int) -> str:
        return self.one(one if count == 1 else many)


def test_each_line_of_a_sentence_is_a_comment() -> None:
    """However many lines a sentence has, none of them is read as anything else."""
    assert comment(Said("one\n\n  two"), 2) == "  # one\n  #\n  #   two"


def test_a_new_shop_is_the_same_in_every_language() -> None:
    """The comments of a new shop.yaml are said; what is read of it is its format alone."""
    model = load_rulebook([shipped_rules()]).model
    with speaking("xx", Longwinded()):
        text = new_shop(model)
    assert "# - x: [\n# For people only.\n# format: 9\n# name: North Yard\n" in text
    root = parse_document(text.encode(), "shop.yaml").root
    assert list(root.items) == ["format"]
    assert text_of(root["format"]) == "1"
