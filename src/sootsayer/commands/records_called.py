"""What to call the things in records that are given again: asked of all rulebooks at hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from sootsayer.catalogue import language
from sootsayer.console.records_called import Called, called_by, called_in, called_then

if TYPE_CHECKING:
    from sootsayer.ledger.folder import Ledger
    from sootsayer.ledger.model import Record
    from sootsayer.ledger.replay_model import Replayed, Today
    from sootsayer.rulebook.model import Model
    from sootsayer.rulebook.shop import Shop


def called_of(
    ledger: Ledger, results: Sequence[tuple[Record, Replayed, Today | None]], shop: Shop | None
) -> Called:
    """A record in the language in force as it called things itself, then as its rulebook does;
    else as today's rulebook does in that language, which older ones may not have. Raises Refused.
    """
    from sootsayer.commands.records_given import rebuilt_of_today
    from sootsayer.ledger.parts import part
    from sootsayer.ledger.replaying import language_of

    judged = [record for record, _, today in results if today is not None]
    if not judged:
        return Called()
    own = [record for record in judged if language_of(record) == language()]
    others = [record for record in judged if language_of(record) != language()]
    today = rebuilt_of_today(shop, language()).rulebook.model
    return called_by(
        *(called_then(part(record.body, "verdict")) for record in own),
        called_in([*_models(ledger, own), today, *_models(ledger, others)]),
        *(called_then(part(record.body, "verdict")) for record in others),
    )


def _models(ledger: Ledger, records: Sequence[Record]) -> Iterator[Model]:
    """The rulebooks that the records were made with, each once, as far as they can be read."""
    from sootsayer.ledger.replaying import CannotReplay, rebuilt_of

    seen: set[int] = set()
    for record in records:
        try:
            model = rebuilt_of(ledger, record).rulebook.model
        except CannotReplay:
            continue
        if id(model) not in seen:
            seen.add(id(model))
            yield model
