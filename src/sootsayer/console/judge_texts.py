"""The sentences of the page that draws a verdict, each a whole template."""

from __future__ import annotations

HEADER = "{case}: {vehicle}, as of entry {entry} ({time}, round {round})"
HEADER_NO_ROUND = "{case}: {vehicle}, as of entry {entry} ({time})"
HEADER_EMPTY = "{case}: {vehicle}, nothing entered yet"
TORN = "The last line of the case file is not whole and was left out."
INEXACT = "The case is too wide to reckon exactly: each confidence is approximate."

DRIVE = "May it be driven? {answer}"
CAUTION = "Caution: {caution}"
# By `Reason`: with the facts it rests on, and bare.
REASON = {
    "does-not-hold": ("Not so: {says} ({grounds})", "Not so: {says}"),
    "unknown": ("Not known: {says} ({grounds})", "Not known: {says}"),
    "unproven-instrument": (
        "Rests on an instrument that is not proven: {says} ({grounds})",
        "Rests on an instrument that is not proven: {says}",
    ),
    "too-close": (
        "Too close to its limit to tell: {says} ({grounds})",
        "Too close to its limit to tell: {says}",
    ),
    "too-old": ("Read too long ago: {says} ({grounds})", "Read too long ago: {says}"),
    "not-needed": ("Not needed here: {says} ({grounds})", "Not needed here: {says}"),
    "holds": ("Holds: {says} ({grounds})", "Holds: {says}"),
}

KNOW = "What we know"
WHY = "Why: what speaks for (+) and against (-)"
NEXT = "What next"
WHY_CUT = "Why: what speaks for (+) and against (-), {shown} of {count} faults; all: --more"
NEXT_CUT = "What next ({shown} of {count} open checks; all: --more)"
NEXT_ONLY_SHUT = "What next ({shut} more stay open; all: --more)"
NEXT_SHUT = "What next ({shown} of {count} open checks, {shut} more stay open; all: --more)"

KIND = {
    "measurement": "Measurement: {label}, {confidence}.",
    "condition": "Condition: {label}, {confidence}.",
    "cause": "Cause: {label}, {confidence}.",
}
KIND_NONE = {
    "measurement": "Measurement: no fault of this kind, {confidence}.",
    "condition": "Condition: no fault of this kind, {confidence}.",
    "cause": "Cause: no fault of this kind, {confidence}.",
}
RUNNER_UP = "after it {label}, {confidence}"
WELL = "The readings show a filter that is well, through proven instruments."
NOT_WELL = "Not to be said that the filter is well: {because}."
CHANNEL_IS = "instrument {state} ({label})"
IN_THE_WAY = {
    "no-reading": "nothing has been read of it",
    "fault-likely": "a fault of the filter is too likely",
}
NOT_WELL_BARE = "Not to be said that the filter is well."

FOR = "For {label}:"
AGAINST = "Against {label}:"
NOTHING_FOR = "For {label}: nothing entered, only how common it is."
NOTHING_AGAINST = "Against {label}: nothing entered."
WEIGHED = "{label}:"
WEIGHED_FOR = "{label}, with nothing against:"
WEIGHED_AGAINST = "Against {label}:"
WEIGHED_NOT = "{label}: nothing entered for or against, only how common it is."
WEIGHED_CUT = "{label} (+ {plus} of {pluses}, - {minus} of {minuses}):"
WEIGHED_FOR_CUT = "{label} (+ {plus} of {pluses}), with nothing against:"
WEIGHED_AGAINST_CUT = "Against {label} (- {minus} of {minuses}):"
NOTHING = "No finding speaks for or against any fault yet."
WORTH = "{worth}: {says} ({grounds})"
WORTH_BARE = "{worth}: {says}"
FINDING_TRUE = "{says}"
FINDING_FALSE = "{says}: no"
FINDING_LEVEL = "{says}: {level}"
# One and many of what was left out of a list; where there is a heading, it counts instead.
LEFT_REASONS = ("and {count} more reason: --more", "and {count} more reasons: --more")
LEFT_INSTRUMENTS = ("and {count} more instrument: --more", "and {count} more instruments: --more")

GROUND = "{typed}, entry {entry}"
GROUND_FULL = "entry {entry}, line {line}: {label} ({slot}) {typed}, {source}, round {round}"
GROUND_FULL_NO_ROUND = "entry {entry}, line {line}: {label} ({slot}) {typed}, {source}"
GROUNDS_MORE = "{grounds} and {count} more"

SET_ASIDE = "{channel}: distrusted, so this is not counted: {findings}."
SET_ASIDE_FAILED = "{channel}: distrusted ({tests}), so this is not counted: {findings}."
SET_ASIDE_ONE = "{says} (would be: {would_be})"
CHANNEL = {
    "proven": "{label}: proven.",
    "unproven": "{label}: not proven yet.",
    "corrected": "{label}: corrected, its zero of {zero} is taken off.",
    "distrusted": "{label}: distrusted.",
}
PROVEN = "Instruments proven: {labels}."
CHANNEL_FAILED = "{label}: distrusted, because of: {tests}."
CHANNEL_AWAITS = "{label}: not proven yet; still to be tested: {tests}."
CORRECTED_BARE = "{label}: corrected, its zero is taken off."

OPEN = "{does} ({minutes} min); bears on: {tells}"
SHUT = "{label}: {absence} (entry {entry}), so this stays open."
SHUT_NO_CHECK = "{label}: no check of this rulebook gives it."
NOTHING_OPEN = "Nothing is open that a check of this rulebook would tell."
PERMISSION = "{does}: {state}."
PERMISSION_ID = "{does} ({action}): {state}."
PERMISSION_BECAUSE = "{does}: {state}. {reason}."
# The last line of the short page.
MORE = "Everything: --more. Reasons: sootsayer why {case} {thing}"

# The full page.
FINDINGS = "Findings"
FINDING_UNKNOWN = "{says}: not known"
FINDING_AWAITS = "could still be decided by: {slots}"
FINDING_BORDERLINE = "borderline, within its error of a limit; levels from the lowest: {shares}"
FINDING_ASIDE = "set aside: {channel} is distrusted; would be: {would_be}"
RULE = "rule {id} at {file}:{line}, revision {revision}"
FAMILIES = "Families: which finding speaks"
FAMILY = "{label}: {speaker} speaks"
FAMILY_SILENT = "{label}: nothing speaks yet"
FAMILY_DISAGREE = "{label}: {speaker} speaks; beyond tolerance from it: {others}"
LIMITS = "Limits used"
LIMIT = {
    "vehicle": "{label} ({id}), this vehicle's own",
    "shop": "{label} ({id}), the shop's own",
    "pack": "{label} ({id}), from the pack",
}
FAULT_ID = "{label} ({id})"
FAULT_RANGE = "{label}, between {low} and {high}"
FAULT_WORTH = "{without} without it, {with_it} with it; odds changed {weight}-fold"
FAULT_ASIDE = "Set aside, would speak of it: {findings}"
FAULT_MISSING = "Nothing speaks yet of: {families}"
CANDIDATES = "Candidates: sets of faults that together explain what was found"
CANDIDATE_NONE = "no fault"
LEFT_OUT = "all other sets together"
PERMISSIONS = "Permissions"
HURTS = "If this is wrong it can hurt: {hurts}"
LOCK_AWAITS = "waits for: {slots}"
WOULD_CLEAR = "would settle it: {checks}"
NAMED = "Not awaited, only named: {reason}"
REFUSED = "Comparison refused: {why}"
INSTRUMENTS = "Instruments"
RULEBOOK = "Rulebook: logic {logic}, words {words}. Sootsayer {program}."
