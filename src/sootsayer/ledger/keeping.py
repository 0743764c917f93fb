"""A record's body: the verdict as it was given, with everything to give it again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sootsayer import __version__
from sootsayer.casework import case_file
from sootsayer.casework.case_file import case_of, refuse_other_format
from sootsayer.casework.model import Case
from sootsayer.casework.moments import write_moment
from sootsayer.casework.no_entries import parse_case
from sootsayer.documents.characters import text_of
from sootsayer.judgement import verdict_json
from sootsayer.judgement.judge import judge
from sootsayer.ledger import seal
from sootsayer.ledger.canonical import digest_of
from sootsayer.ledger.case_kept import until_entry
from sootsayer.ledger.gathering import Sources, Texts
from sootsayer.ledger.parts import VERDICT, mappings, part
from sootsayer.ledger.rebuilding import Rebuilt, case_again
from sootsayer.ledger.withholding import Pattern, withhold
from sootsayer.rulebook import pack_file, shop_file, words_files


@dataclass(frozen=True, slots=True)
class Decided:
    """What the technician decided otherwise than advised, and why."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Given:
    """A verdict that can be kept: `text` is the case without people, `withheld` how often
    somebody was left out, `digest` that of the case file as it stood, `told` the verdict."""

    case: Case
    text: bytes
    withheld: int
    digest: str
    now: datetime
    sources: Sources
    told: Mapping[str, Any]


def read_whole(data: bytes, file: str, rebuilt: Rebuilt) -> Case:
    """The case as its file says, with the places of the file. Raises Refused."""
    document = parse_case(data, file)
    refuse_other_format(document)
    return case_of(document, rebuilt.rulebook.model)


def give(
    data: bytes,
    file: str,
    rebuilt: Rebuilt,
    sources: Sources,
    *,
    now: datetime,
    as_of: int | None,
    patterns: Sequence[Pattern],
) -> Given:
    """Judge the case as it will be kept, so that what is kept gives the verdict again.

    Raises Refused: an id of the case names somebody.
    """
    until = text_of(until_entry(data, as_of, file), file).encode("utf-8")
    kept = withhold(until, file, patterns)
    case = case_again(kept.text, rebuilt, file)
    verdict = judge(case, rebuilt.rulebook, now=now, shop=rebuilt.shop, planning=True)
    told = verdict_json.as_json(verdict)
    return Given(case, kept.text, kept.times, digest_of(data), now, sources, told)


def verdict_body(
    given: Given, *, at: datetime, by: str, decided: Sequence[Decided] | None
) -> dict[str, object]:
    """The body of a record. `decided`: None where nobody was asked, empty where it was as
    advised."""
    sources, told = given.sources, given.told
    return {
        "kind": VERDICT,
        "at": write_moment(at),
        "by": by,
        "program": __version__,
        "formats": {
            "record": seal.FORMAT,
            "case": case_file.FORMAT,
            "pack": pack_file.FORMAT,
            "shop": shop_file.FORMAT,
            "verdict": verdict_json.FORMAT,
            "words": words_files.FORMAT,
        },
        "case": {
            "id": given.case.id,
            "vehicle": given.case.vehicle.label,
            "entries": len(given.case.entries),
            "digest": given.digest,
            "text": given.text.decode("utf-8"),
            "withheld": given.withheld,
        },
        "judged_at": write_moment(given.now),
        "language": sources.language,
        "rulebook": {
            **part(told, "rulebook"),
            "packs": _digests(sources.packs),
            "translations": _digests(sources.words),
        },
        "shop": _shop(sources, told),
        "verdict": told,
        "cautions": cautions(told),
        "decided": None if decided is None else [{"what": d.what, "why": d.why} for d in decided],
    }


def _shop(sources: Sources, told: Mapping[str, object]) -> dict[str, object] | None:
    if sources.settings is None:
        return None
    return {
        "digest": told["shop"],
        "settings": digest_of(sources.settings),
        "packs": _digests(sources.shop_packs),
        "translations": _digests(sources.shop_words),
    }


def _digests(texts: Texts) -> dict[str, str]:
    return {name: digest_of(text) for name, text in texts.items()}


def cautions(told: Mapping[str, object]) -> list[dict[str, str]]:
    """Every caution that the verdict and its plan carry, once: of what, and its words."""
    found: dict[tuple[str, str], None] = {}
    for each in mappings(told.get("permissions")):
        found[(str(each.get("action")), str(each.get("caution")))] = None
    for each in mappings(told.get("next_checks")):
        found[(str(each.get("id")), str(each.get("caution")))] = None
    for each in mappings(told.get("plan")):
        for one in (
            *mappings(part(each, "how").get("cautions")),
            *mappings(part(each, "how").get("steps")),
        ):
            of = one.get("action") or each.get("remedy")
            found[(str(of), str(one.get("caution") or ""))] = None
    return [{"of": of, "caution": caution} for of, caution in found if caution]
