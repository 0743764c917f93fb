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
from sootsayer.console import ask_texts as t
from sootsayer.documents.nodes import Place
from sootsayer.physics.units import UnitError, convert, read_number

_CODE = re.compile(r"[PBCU][0-9A-F]{4}")
_LOOKS_LIKE_CODE = re.compile(r"[pbcu]?[0-9a-f]{4}", re.IGNORECASE)
_COMPLETE = {"complete", "completely", "all", "whole"}
_PARTIAL = {"partial", "partly", "part"}
_NOTHING = {"none", "empty", "no"}
_FILL = {"read", "list", "codes", "and", "the", "since", "clearing", "monitors", "monitor", "have"}
_KM = re.compile(r"([0-9][0-9.,]*)\s*(km|mi|miles)\b", re.IGNORECASE)
_WARM = re.compile(r"([0-9]+)\s*warm[- ]?ups?\b", re.IGNORECASE)
_MONITORS = re.compile(r"\bmonitors?\s+(?:have\s+)?(not\s+run|run|unknown)\b", re.IGNORECASE)
_DO_NOT_KNOW = {"do not know", "don't know", "dk", "unknown", "not known"}
_MOST_KM, _MOST_WARM_UPS = 10_000_000, 100_000


def told_codes(text: str) -> CodesDraft | NotUsable:
    """A list as typed behind the word `codes`."""
    draft, rest = _extras(text)
    if isinstance(draft, NotUsable):
        return draft
    codes: list[str] = []
    none = False
    for word in re.findall(r"[^\s,;]+", rest):
        upper, folded = word.upper(), word.casefold()
        if _CODE.fullmatch(upper):
            codes.append(upper)
        elif folded in _COMPLETE | _PARTIAL:
            draft = replace(draft, complete=folded in _COMPLETE)
        elif folded in _NOTHING:
            none = True
        elif folded not in _FILL:
            near = upper if _LOOKS_LIKE_CODE.fullmatch(word) else ""
            instead = say(t.CODE_NEXT_LETTER, code=f"P{near[-4:]}") if near else say(t.CODE_NEXT)
            return NotUsable(say(t.NO_CODE, text=word[:40]), instead)
    if not codes and not none:
        return NotUsable(say(t.NO_CODES), say(t.NO_CODES_NEXT))
    return replace(draft, codes=tuple(sorted(set(codes))))


def _extras(text: str) -> tuple[CodesDraft | NotUsable, str]:
    """What is told beside the codes, and the text without it."""
    draft = CodesDraft(())
    found = _MONITORS.search(text)
    if found:
        word = " ".join(found[1].casefold().split())
        run = {"run": True, "not run": False}.get(word)
        draft, text = replace(draft, monitors=run, monitors_said=True), _without(text, found)
    found = _WARM.search(text)
    if found:
        count = int(found[1][:12])
        if count > _MOST_WARM_UPS:
            return NotUsable(say(t.NO_WARM_UPS, text=found[0]), say(t.NO_WARM_UPS_NEXT)), text
        draft, text = replace(draft, warm_ups=count, warm_ups_said=True), _without(text, found)
    found = _KM.search(text)
    if found:
        km = distance(found[0])
        if isinstance(km, NotUsable):
            return km, text
        draft, text = replace(draft, distance_km=km, distance_said=True), _without(text, found)
    return draft, text


def _without(text: str, found: re.Match[str]) -> str:
    return text[: found.start()] + " " + text[found.end() :]


def distance(text: str) -> float | NotUsable:
    """Kilometres since the last clearing."""
    try:
        number = read_number(text)
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
    folded = " ".join(text.casefold().split())
    unknown = folded in _DO_NOT_KNOW
    if draft.complete is None:
        if folded in _COMPLETE | {"yes", "y"}:
            return replace(draft, complete=True)
        if folded in _PARTIAL | {"no", "n"} or unknown:
            return replace(draft, complete=False)
        return NotUsable(say(t.NOT_YES_NO_BARE, text=text[:40]), say(t.ASK_COMPLETE))
    if not draft.monitors_said:
        told = {"yes": True, "y": True, "run": True, "no": False, "n": False, "not run": False}
        if folded in told or unknown:
            return replace(draft, monitors=told.get(folded), monitors_said=True)
        return NotUsable(say(t.NOT_YES_NO_BARE, text=text[:40]), say(t.ASK_MONITORS))
    if not draft.distance_said:
        km = None if unknown else distance(text)
        return (
            km if isinstance(km, NotUsable) else replace(draft, distance_km=km, distance_said=True)
        )
    digits = folded.removesuffix("warm-ups").strip()
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
