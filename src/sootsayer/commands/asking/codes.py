"""A list of trouble codes as it is told: `codes P2463 P0401 complete, monitors run`.

What the line leaves out and what decides whether a code counts as absent is asked, each once.
"""

from __future__ import annotations

import re
from dataclasses import replace

from sootsayer.casework.model import CodeList
from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.asking.state import CodesDraft
from sootsayer.commands.asking.values import NotUsable
from sootsayer.commands.heard import pattern, says
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.documents.nodes import Place
from sootsayer.physics.typed_numbers import read_typed, ungrouped
from sootsayer.physics.units import UnitError, convert

_CODE = re.compile(r"[PBCU][0-9A-F]{4}")
_LOOKS_LIKE_CODE = re.compile(r"[pbcu]?[0-9a-f]{4}", re.IGNORECASE)
_MOST_KM, _MOST_WARM_UPS = 10_000_000, 100_000


def told_codes(text: str) -> CodesDraft | NotUsable:
    """A list as typed behind the word `codes`."""
    draft, rest = _extras(text)
    if isinstance(draft, NotUsable):
        return draft
    codes: list[str] = []
    none = False
    for word in re.findall(r"[^\s,;]+", rest):
        upper = word.upper()
        if _CODE.fullmatch(upper):
            codes.append(upper)
        elif says(word, h.COMPLETE) or says(word, h.PARTIAL):
            draft = replace(draft, complete=says(word, h.COMPLETE))
        elif says(word, h.NO_CODES):
            none = True
        elif not says(word, h.FILL):
            near = upper if _LOOKS_LIKE_CODE.fullmatch(word) else ""
            instead = say(t.CODE_NEXT_LETTER, code=f"P{near[-4:]}") if near else say(t.CODE_NEXT)
            return NotUsable(say(t.NO_CODE, text=word[:40]), instead)
    if not codes and not none:
        return NotUsable(say(t.NO_CODES), say(t.NO_CODES_NEXT))
    return replace(draft, codes=tuple(sorted(set(codes))))


def _extras(text: str) -> tuple[CodesDraft | NotUsable, str]:
    """What is told beside the codes, and the text without it."""
    draft, text = CodesDraft(()), ungrouped(text)
    found = re.search(_monitors(), text, re.IGNORECASE)
    if found:
        run = True if found["run"] else False if found["not_run"] else None
        draft, text = replace(draft, monitors=run, monitors_said=True), _without(text, found)
    found = re.search(rf"([0-9]+)\s*(?:{pattern(h.WARM_UPS)})\b", text, re.IGNORECASE)
    if found:
        count = int(found[1][:12])
        if count > _MOST_WARM_UPS:
            return NotUsable(say(t.NO_WARM_UPS, text=found[0]), say(t.NO_WARM_UPS_NEXT)), text
        draft, text = replace(draft, warm_ups=count, warm_ups_said=True), _without(text, found)
    found = re.search(rf"([0-9][0-9.,]*)\s*(km|{pattern(h.MILES)})\b", text, re.IGNORECASE)
    if found:
        km = distance(found[0])
        if isinstance(km, NotUsable):
            return km, text
        draft, text = replace(draft, distance_km=km, distance_said=True), _without(text, found)
    return draft, text


def _monitors() -> str:
    """`monitors have run`, `monitor not run`, `monitors unknown`."""
    states = (
        f"(?P<not_run>{pattern(h.NOT_RUN)})|(?P<run>{pattern(h.RUN)})|{pattern(h.MONITORS_UNKNOWN)}"
    )
    return rf"\b(?:{pattern(h.MONITORS)})\s+(?:(?:{pattern(h.HAVE)})\s+)?(?:{states})(?!\w)"


def _without(text: str, found: re.Match[str]) -> str:
    return text[: found.start()] + " " + text[found.end() :]


def distance(text: str) -> float | NotUsable:
    """Kilometres since the last clearing."""
    try:
        number = read_typed(text)
        km = convert(number.value, number.unit or "km", "km")
    except UnitError as error:
        return NotUsable(shown(error.what), shown(error.instead))
    if not 0 <= km <= _MOST_KM:
        return NotUsable(say(t.NO_DISTANCE, text=text[:40]), say(t.NO_DISTANCE_NEXT))
    return km


def still_to_ask(draft: CodesDraft) -> Said | None:
    """The next question about the list; None where enough is told."""
    if draft.complete is None:
        return say(t.ASK_COMPLETE)
    if not draft.complete:
        return None
    if not draft.monitors_said:
        return say(t.ASK_MONITORS)
    if draft.monitors is not None:
        return None
    if not draft.distance_said:
        return say(t.ASK_DISTANCE)
    if draft.distance_km is not None and not draft.warm_ups_said:
        return say(t.ASK_WARM_UPS)
    return None


def told_more(draft: CodesDraft, text: str) -> CodesDraft | NotUsable:
    """The draft with the answer to what `still_to_ask` asks."""
    unknown = says(text, h.DO_NOT_KNOW)
    if draft.complete is None:
        if says(text, h.COMPLETE) or says(text, h.YES):
            return replace(draft, complete=True)
        if says(text, h.PARTIAL) or says(text, h.NO) or unknown:
            return replace(draft, complete=False)
        return NotUsable(say(t.NOT_YES_NO_BARE, text=text[:40]), say(t.ASK_COMPLETE))
    if not draft.monitors_said:
        told = True if says(text, h.YES) or says(text, h.RUN) else None
        told = False if says(text, h.NO) or says(text, h.NOT_RUN) else told
        if told is not None or unknown:
            return replace(draft, monitors=told, monitors_said=True)
        return NotUsable(say(t.NOT_YES_NO_BARE, text=text[:40]), say(t.ASK_MONITORS))
    if not draft.distance_said:
        km = None if unknown else distance(text)
        return (
            km if isinstance(km, NotUsable) else replace(draft, distance_km=km, distance_said=True)
        )
    digits = re.sub(rf"\s*(?:{pattern(h.WARM_UPS)})$", "", " ".join(text.split()), flags=re.I)
    if unknown:
        return replace(draft, warm_ups_said=True)
    if digits.isascii() and digits.isdigit() and len(digits) < 7 and int(digits) <= _MOST_WARM_UPS:
        return replace(draft, warm_ups=int(digits), warm_ups_said=True)
    return NotUsable(say(t.NO_WARM_UPS, text=text[:40]), say(t.NO_WARM_UPS_NEXT))


def as_code_list(draft: CodesDraft) -> CodeList:
    return CodeList(
        complete=bool(draft.complete),
        codes=draft.codes,
        place=Place("", 1, 1),
        monitors_run=draft.monitors,
        distance_km=draft.distance_km,
        warm_ups=draft.warm_ups,
    )
