"""The rulebook's part of the belief network: observables, leads, and the whole of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.belief.network import Fault, Lead, Network, Observable, Seen
from sootsayer.belief.noisy import own_strength
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import channels_behind, evidence_targets, members_of


def observable_for(
    model: Model, family_id: str, speaker: str, channels: Sequence[str] | None = None
) -> Observable:
    """The family as its speaking member sees it (`family_id` may be a finding without one).

    The member's own evidence block stands instead of the family's if there is one. Hiders
    come in the order of `nearest first` of the channels that the reading came through;
    `channels` names those, None takes all that the speaker's signals may come through. A
    fault of another channel hides nothing. Raises KeyError for a family without evidence.
    """
    through = None if channels is None else tuple(channels)

    def make() -> Observable:
        block = speaker if speaker in model.evidence else family_id
        channels = channels_behind(model, speaker) if through is None else through
        return _observable(model, family_id, block, channels)

    return remembered(model, ("observable", family_id, speaker, through), make)


def lead_strengths(model: Model) -> tuple[Lead, ...]:
    """Every `leads to` with its own strength, 1 - (1 - leads)/(1 - prior as written)."""
    return remembered(model, "leads", lambda: tuple(_leads(model)))


def _leads(model: Model) -> Iterator[Lead]:
    for cause in model.faults.values():
        for name, leads in sorted(cause.leads_to.items()):
            if name in model.faults:
                yield Lead(cause.id, name, own_strength(leads, model.faults[name].prior))


def whole_network(model: Model) -> Network:
    """All faults at their written priors, and every family with evidence, through any channel."""
    return Network(
        faults=tuple(Fault(each.id, each.kind, each.prior) for each in model.faults.values()),
        leads=lead_strengths(model),
        observables=tuple(
            _observable(model, name, name, channels_behind(model, *members_of(model, name)))
            for name in evidence_targets(model)
        ),
    )


def hiders_in_order(model: Model, channels: Sequence[str]) -> tuple[str, ...]:
    """The faults in `nearest first` of these channels, each once."""
    order: dict[str, None] = {}
    for name in channels:
        if name in model.channels:
            order.update(dict.fromkeys(model.channels[name].nearest_first))
    return tuple(order)


def _observable(model: Model, family_id: str, block: str, channels: Sequence[str]) -> Observable:
    evidence = model.evidence[block]
    hiders = [
        model.faults[name]
        for name in hiders_in_order(model, channels)
        if name in model.faults and family_id in model.faults[name].hides
    ]
    return Observable(
        id=family_id,
        otherwise=evidence.otherwise,
        seen=tuple(
            Seen(fault, spread)
            for fault, spread in evidence.seen_with.items()
            if fault in model.faults
        ),
        hidden_by=tuple(Seen(hider.id, hider.hides[family_id]) for hider in hiders),
    )
