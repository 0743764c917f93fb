"""Ids that stand on the screen as words: who told it, why there is no value, stages, rounds, tools.

In cases, verdicts and rules they are ids, alike in every language; here is what a person sees. An
id that the program does not know (a shop's own tool, a round that somebody named) stands as it is.
"""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.catalogue import Said, say, shown

SOURCE = {
    "scan": "scan",
    "gauge": "gauge",
    "technician": "technician",
    "customer": "customer",
    "computed": "computed",
}
ABSENCE = {
    "not asked": "not asked",
    "do not know": "do not know",
    "cannot": "cannot",
    "not fitted": "not fitted",
}
WHERE = {"counter": "counter", "scan": "scan", "hands-on": "hands-on"}
KIND = {"measurement": "measurement", "condition": "condition", "cause": "cause"}
# Of permissions, of driving, of work and of findings, within another sentence.
STATE = {
    "clear": "clear",
    "blocked": "blocked",
    "not-yet-clear": "not yet clear",
    "permitted": "permitted",
    "forbidden": "forbidden",
    "may-be-driven": "may be driven",
    "workshop-only": "workshop only",
    "not-to-be-driven": "not to be driven",
    "not-to-be-started": "not to be started",
    "not-yet-known": "not yet known",
    "set-aside": "set aside",
    "unknown": "unknown",
}
# The same as they stand in lists and tables, and what no rule watches any more.
STATE_ID = {
    "clear": "clear",
    "blocked": "blocked",
    "not-yet-clear": "not-yet-clear",
    "may-be-driven": "may-be-driven",
    "workshop-only": "workshop-only",
    "not-to-be-driven": "not-to-be-driven",
    "not-to-be-started": "not-to-be-started",
    "not-yet-known": "not-yet-known",
    "not watched": "not watched",
}
HURT = {
    "people": "people",
    "fire": "fire",
    "burns": "burns",
    "engine": "engine",
    "filter": "filter",
}
BASIS = {
    "published": "published",
    "computed": "computed",
    "common practice": "common practice",
    "memory": "memory",
    "shop": "shop",
}
FREQUENCY = {
    "always": "always",
    "usually": "usually",
    "often": "often",
    "sometimes": "sometimes",
    "rarely": "rarely",
    "never": "never",
}
TRUTH = {"true": "true", "false": "false", "unknown": "unknown"}
FILLS = {"soot": "soot", "ash": "ash"}
ROUND = {
    "arrival": "arrival",
    "after-burn": "after-burn",
    "after-clean": "after-clean",
    "after-clearing": "after-clearing",
    "after-egr": "after-egr",
    "after-fill": "after-fill",
    "after-hose": "after-hose",
    "after-hoses": "after-hoses",
    "after-its-burn": "after-its-burn",
    "after-meter": "after-meter",
    "after-oil": "after-oil",
    "after-pipe": "after-pipe",
    "after-refitting": "after-refitting",
    "after-road-run": "after-road-run",
    "after-sensor": "after-sensor",
    "after-service": "after-service",
    "after-valve": "after-valve",
    "after-wiring": "after-wiring",
    "after-zero-sensor": "after-zero-sensor",
    "injectors-out": "injectors-out",
    "next-frost": "next-frost",
    "next-morning": "next-morning",
    "thawed": "thawed",
}
TOOL = {
    "battery charger": "battery charger",
    "block tester": "block tester",
    "borescope": "borescope",
    "compression gauge": "compression gauge",
    "cooling system tester": "cooling system tester",
    "current clamp or compression gauge": "current clamp or compression gauge",
    "dust mask": "dust mask",
    "extinguisher": "extinguisher",
    "filter paper": "filter paper",
    "gauge": "gauge",
    "gloves": "gloves",
    "goggles": "goggles",
    "hand pump": "hand pump",
    "infrared thermometer": "infrared thermometer",
    "lamp": "lamp",
    "leak-off bottles": "leak-off bottles",
    "lift or stands": "lift or stands",
    "mask": "mask",
    "measuring glass": "measuring glass",
    "mirror": "mirror",
    "multimeter": "multimeter",
    "opacity meter": "opacity meter",
    "particle counter": "particle counter",
    "port adapter": "port adapter",
    "rubber mallet": "rubber mallet",
    "sample jar": "sample jar",
    "sample kit": "sample kit",
    "scales": "scales",
    "scan tool": "scan tool",
    "scan tool with five readings a second": "scan tool with five readings a second",
    "smoke tester": "smoke tester",
    "thermometer without contact": "thermometer without contact",
    "vehicle data": "vehicle data",
    "wheel chocks": "wheel chocks",
}


def id_said(words: Mapping[str, str], thing: str) -> Said:
    """An id of one of these tables as a person sees it."""
    return say(words[thing]) if thing in words else shown(thing)


def source_id_said(source: str) -> Said:
    """Who or what told it, by its id."""
    return id_said(SOURCE, source)


def absence_said(absence: str) -> Said:
    """Why there is no value."""
    return id_said(ABSENCE, absence)


def where_said(where: str) -> Said:
    """The stage at which a check is done."""
    return id_said(WHERE, where)


def kind_said(kind: str) -> Said:
    """The kind of a fault."""
    return id_said(KIND, kind)


def state_said(state: str) -> Said:
    """A state of a permission, of driving, of work or of a finding."""
    return say(STATE[state]) if state in STATE else shown(state.replace("-", " "))


def basis_words_said(basis: str) -> Said:
    """How one knows: the kind, and behind a colon its source, as answers have it."""
    kind, _, source = basis.partition(": ")
    if not source:
        return id_said(BASIS, kind)
    return say("{kind}: {source}", kind=id_said(BASIS, kind), source=source)


def round_said(name: str) -> Said:
    """A round of readings."""
    return id_said(ROUND, name)


def tool_said(tool: str) -> Said:
    """A tool that a check needs."""
    return id_said(TOOL, tool)


def hurt_said(what: str) -> Said:
    """What an action can hurt."""
    return id_said(HURT, what)
