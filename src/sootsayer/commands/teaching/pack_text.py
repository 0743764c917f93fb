"""The draft as a pack: small, commented, with proofs at and beside the threshold."""

from __future__ import annotations

import json
from collections.abc import Iterator

from sootsayer.catalogue import say
from sootsayer.catalogue_conventions import plain
from sootsayer.commands.heard import folded, words_heard
from sootsayer.commands.teaching.draft import Chosen, Counts, Draft, Linked
from sootsayer.commands.written import comment
from sootsayer.console import heard_texts as h
from sootsayer.engine.conditions import Op
from sootsayer.rulebook.model import Model, SignalKind

# Comments of the pack.
MADE = """\
{says}.
Made with `sootsayer rules new`. Change what you like, then run:
  sootsayer rules check"""
HOW_WE_KNOW = "How we know. Each rule and number below rests on this."
WHAT_IS_DONE = "What somebody does to know it, where, and how many minutes it takes."
FROM_WHAT = "From what value it counts; a vehicle's own figure stands before it."
COUNTS_ONCE = "One observation counts once; why it may count beside the other:"
AT_THE_NUMBER = "At the number itself, and one step beside it."
WHAT_CASES_READ = "What cases read."
NOT_READ = "Not read is not known."
WHAT_PRIOR_IS = "`prior`: its share among vehicles taken in with a filter complaint."
HOW_OFTEN = "How often with that fault alone; `otherwise`: with none of them."
# The label of a limit: what is seen, and from which side of the number on.
LIMIT_OF = {
    Op.BELOW: "{says}: below",
    Op.AT_MOST: "{says}: at most",
    Op.ABOVE: "{says}: above",
    Op.AT_LEAST: "{says}: at least",
    Op.BETWEEN: "{says}: between",
    Op.OUTSIDE: "{says}: outside",
}


def quoted(text: str) -> str:
    """A text as YAML, in quotes: whatever somebody types stays text."""
    return json.dumps(text, ensure_ascii=False)


def pack_text(draft: Draft, model: Model) -> str:
    """The pack's text; the draft is complete."""
    fact, counts = draft.fact, draft.counts
    assert fact is not None
    assert counts is not None
    uses = _uses(draft, model)
    text = (
        f"{comment(say(MADE, says=draft.says))}\n"
        f"pack: {draft.name}\nformat: 1\ntitle: {quoted(draft.says)}\n"
    )
    if uses:
        text += f"uses: [{', '.join(uses)}]\n"
    source = f", source: {quoted(draft.source)}" if draft.source else ""
    text += f"{comment(say(HOW_WE_KNOW))}\n"
    text += f"basis: {{kind: {draft.basis}{source}}}\n"
    parts = [
        *_signal(draft, fact), *_limits(draft, fact, counts), *_finding(draft, fact, counts),
        *_faults(draft), *_evidence(draft),
    ]  # fmt: skip
    return text + "".join(f"{line}\n" for line in parts)


def slot_of(draft: Draft) -> str:
    """The slot that decides it: the known one, or that of the new signal."""
    assert draft.fact is not None
    return draft.fact.slot or f"{draft.name}-seen"


def fault_id(draft: Draft, link: Linked) -> str:
    """The id of a linked fault; a new one is named after its label."""
    if link.fault:
        return link.fault
    name = slug(link.label)
    return f"{name}-fault" if name in {draft.name, *draft.taken} else name


def slug(text: str, words: int = 6) -> str:
    """`shop-` and the first words of a text, as an id: accents and letters of other alphabets are
    left out."""
    plain = "".join(c if c.isascii() and c.isalnum() else " " for c in folded(text))
    kept = [word for word in plain.split() if word not in words_heard(h.DULL)][:words]
    return "-".join(["shop", *(kept or ["rule"])])


def _uses(draft: Draft, model: Model) -> list[str]:
    assert draft.fact is not None
    packs = {model.faults[link.fault].pack for link in draft.links if link.fault}
    if draft.fact.pack:
        packs.add(draft.fact.pack)
    return sorted(packs)


def _signal(draft: Draft, fact: Chosen) -> Iterator[str]:
    new = fact.new
    if new is None:
        return
    lasts = "visit" if new.where == "counter" else "round"
    more: list[str] = []
    if new.possible is not None:
        low, high = (plain(end) for end in new.possible)
        more += [f"    unit: {new.unit or 'none'}", f"    possible: [{low}, {high}]", "    step: 1"]
    elif new.kind is SignalKind.CHOICE:
        more.append(f"    choices: [{', '.join(quoted(word) for word in new.words)}]")
    signal = slot_of(draft)
    yield "signals:"
    yield f"  {signal}:"
    yield f"    label: {quoted(new.label)}"
    yield f"    kind: {new.kind.value}"
    yield f"    lasts: {lasts}"
    yield from more
    yield "checks:"
    yield comment(say(WHAT_IS_DONE), 2)
    yield f"  {draft.name}-look:"
    yield f"    does: {quoted(new.does)}"
    yield f"    where: {new.where}"
    yield f"    minutes: {new.minutes}"
    yield f"    gives: [{signal}]"
    if new.caution:
        yield f"    caution: {quoted(new.caution)}"


def _limits(draft: Draft, fact: Chosen, counts: Counts) -> Iterator[str]:
    if counts.op is None:
        return
    yield "limits:"
    yield comment(say(FROM_WHAT), 2)
    for name, value in zip(_limit_names(draft, counts), counts.numbers, strict=True):
        unit = f" {fact.unit}" if fact.unit else ""
        label = say(LIMIT_OF[counts.op], says=draft.says)
        yield (f"  {name}: {{label: {quoted(label)}, default: {plain(value)}{unit}}}")


def _limit_names(draft: Draft, counts: Counts) -> list[str]:
    if len(counts.numbers) == 2:
        return [f"{draft.name}-low", f"{draft.name}-high"]
    return [f"{draft.name}-limit"]


def _finding(draft: Draft, fact: Chosen, counts: Counts) -> Iterator[str]:
    yield "findings:"
    yield f"  {draft.name}:"
    yield f"    says: {quoted(draft.says)}"
    yield f"    when: {_when(draft, fact, counts)}"
    if draft.apart:
        yield comment(say(COUNTS_ONCE), 4)
        yield f"    apart because: {quoted(draft.apart)}"
    yield "    proofs:"
    yield from _proofs(draft, fact, counts)


def _when(draft: Draft, fact: Chosen, counts: Counts) -> str:
    if fact.code:
        return f"{{code: {fact.code}}}"
    slot = slot_of(draft)
    if counts.op is not None:
        names = _limit_names(draft, counts)
        ends = names[0] if len(names) == 1 else f"[{', '.join(names)}]"
        return f"{{{slot}: {{{counts.op.value}: {ends}}}}}"
    if len(counts.words) == 1:
        return f"{{{slot}: {_word(fact, counts.words[0])}}}"
    return f"{{{slot}: {{one of: [{', '.join(_word(fact, w) for w in counts.words)}]}}}}"


def _word(fact: Chosen, word: str) -> str:
    return word if fact.kind is SignalKind.YES_NO else quoted(word)


def _proofs(draft: Draft, fact: Chosen, counts: Counts) -> Iterator[str]:
    if fact.code:
        yield f"    - {{given: {{}}, codes: [{fact.code}], then: true}}"
        yield "    - {given: {}, codes: [], then: false}"
    else:
        if counts.op is not None:
            yield comment(say(AT_THE_NUMBER), 4)
        for value in _tried(fact, counts):
            yield f"    - {_proof(draft, fact, counts, value)}"
        if draft.shown:
            yield comment(say(WHAT_CASES_READ), 4)
        for each in draft.shown:
            yield f"    - {_proof(draft, fact, counts, each.value)} # {each.case}"
    yield comment(say(NOT_READ), 4)
    yield "    - {given: {}, then: unknown}"


def _proof(draft: Draft, fact: Chosen, counts: Counts, value: float | str) -> str:
    said = plain(value) if isinstance(value, float) else _word(fact, value)
    truth = "true" if counts.holds(value) else "false"
    return f"{{given: {{{slot_of(draft)}: {said}}}, then: {truth}}}"


def _tried(fact: Chosen, counts: Counts) -> list[float | str]:
    """The thresholds and a step beside each, within what is possible; of words all of them."""
    if counts.op is None:
        return list(fact.words)
    step = fact.step or 1.0
    low, high = fact.possible or (float("-inf"), float("inf"))
    near = {round(n + d * step, 9) for n in counts.numbers for d in (-1, 0, 1)}
    inside = {value for value in near if low <= value <= high}
    middle = sum(counts.numbers) / len(counts.numbers)
    ends = {end for end in (low, high, middle) if abs(end) != float("inf")}
    truths = {counts.holds(value) for value in inside}
    # A step may reach beyond what is possible: then an end shows the other outcome.
    inside |= {end for end in ends if counts.holds(end) not in truths}
    return sorted(inside)


def _faults(draft: Draft) -> Iterator[str]:
    new = [link for link in draft.links if link.new is not None]
    if new:
        yield "faults:"
        yield comment(say(WHAT_PRIOR_IS), 2)
    for link in new:
        assert link.new is not None
        yield (
            f"  {fault_id(draft, link)}: {{label: {quoted(link.label)}, kind: {link.new.kind}, "
            f"prior: {link.new.prior}}}"
        )


def _evidence(draft: Draft) -> Iterator[str]:
    if not draft.links:
        return
    links = ", ".join(f"{fault_id(draft, link)}: {link.often}" for link in draft.links)
    yield "evidence:"
    yield comment(say(HOW_OFTEN))
    yield f"- finding: {draft.name}"
    yield f"  seen with: {{{links}}}"
    yield f"  otherwise: {draft.otherwise}"
