"""Writes docs/handbook/ from the shipped packs: a page for each, and the list of them.

After a change of a pack: `python -m tests.commands.handbook`.
"""

from __future__ import annotations

from pathlib import Path

from sootsayer.console.article import book_of
from sootsayer.console.handbook import articles_in, markdown
from sootsayer.documents.yaml_source import read_document
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.shipped import shipped_rules

FOLDER = Path(__file__).parents[2] / "docs" / "handbook"
MADE = "<!-- Written from the packs by `python -m tests.commands.handbook`. -->"
TOP = f"""\
# The handbook

{MADE}

Every shipped rule in sentences: what it says, how we know, its proofs, and who uses it. The same
for the rules in force in your shop, with the cases in which each was so:
`sootsayer rules show ID`.

| pack | about |
|---|---|
"""


def pages() -> dict[str, str]:
    """The name of each page to its text."""
    book = book_of(load_rulebook([shipped_rules()]).model)
    found: dict[str, str] = {}
    rows = []
    for file in sorted(shipped_rules().glob("*.yaml")):
        title = read_document(file).root["title"]
        articles = list(articles_in(book, file.stem))
        text = getattr(title, "text", file.stem)
        things = "".join(f"{markdown(article)}\n" for article in articles)
        found[f"{file.stem}.md"] = f"# {text}\n\n{MADE}\n\nThe pack `{file.stem}`.\n\n{things}"
        rows.append(f"| [{file.stem}]({file.stem}.md) | {text} |\n")
    found["index.md"] = TOP + "".join(rows)
    return {name: text.rstrip() + "\n" for name, text in found.items()}


def refresh() -> None:
    """Write every page, and remove those of packs that are gone."""
    FOLDER.mkdir(exist_ok=True)
    made = pages()
    for old in FOLDER.glob("*.md"):
        if old.name not in made:
            old.unlink()
    for name, text in made.items():
        (FOLDER / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    refresh()
