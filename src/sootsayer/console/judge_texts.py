"""The sentences of the page that draws a verdict, each a whole template."""

from __future__ import annotations

HEADER = "{case}: {vehicle}, as of entry {entry} ({time}, round {round})"
HEADER_NO_ROUND = "{case}: {vehicle}, as of entry {entry} ({time})"
HEADER_BARE = "{case}: {vehicle}, as of entry {entry}"
HEADER_EMPTY = "{case}: {vehicle}, nothing entered yet"
TORN = "The last line of the case file is not whole and was left out."
INEXACT = "The case is too wide to reckon exactly: each confidence is approximate."

DRIVE = "May it be driven? {answer}"
CAUTION = "Caution: {caution}"
# By `Reason`, and `when-not` where the rulebook has words for what does not hold; with the
# readings it rests on, and bare.
REASON = {
    "when-not": ("{when_not} ({grounds}).", "{when_not}."),
    "does-not-hold": ("Does not hold: {says} ({grounds}).", "Does not hold: {says}."),
    "unknown": (
        "Not known yet whether: {says} ({grounds}).",
        "Not known yet whether: {says}.",
    ),
    "unproven-instrument": (
        "Rests on an instrument that is not proven: {says} ({grounds}).",
        "Rests on an instrument that is not proven: {says}.",
    ),
    "too-close": (
        "Too close to its limit to tell: {says} ({grounds}).",
        "Too close to its limit to tell: {says}.",
    ),
    "too-old": ("Read too long ago: {says} ({grounds}).", "Read too long ago: {says}."),
    "not-needed": ("Not needed here: {says} ({grounds}).", "Not needed here: {says}."),
    "holds": ("Holds: {says} ({grounds}).", "Holds: {says}."),
}
READING = "{label}: {typed}, entry {entry}"
DRIVE_BECAUSE = "May it be driven? {answer} {because}"
READING_HELD = "{reading}; limit {limit}, {origin}"
LIMIT_ORIGIN = {
    "vehicle": "this vehicle's own",
    "shop": "the shop's own",
    "pack": "the rulebook's",
}
LIST_CUT = "{parts}; and {count} more"
DIFFER = "{label}: {source} {typed}, {other_source} {other}; the {source} counts."
LEFT_DIFFER = ("and {count} more that differs: --more", "and {count} more that differ: --more")

KNOW = "What we know"
WHY = "Why: what speaks for (+) and against (-)"
WHY_CUT = "Why: what speaks for (+) and against (-), the weightiest of it; all: --more"
NEXT = "What next: what is missing, the cheapest check first"
NEXT_CUT = "What next: {shown} of {count} open checks, the cheapest first; all: --more"
NEXT_ONLY_SHUT = (
    "What next ({count} more stays open; all: --more)",
    "What next ({count} more stay open; all: --more)",
)
NEXT_SHUT = (
    "What next: {shown} of {of} open checks, {count} more stays open; all: --more",
    "What next: {shown} of {of} open checks, {count} more stay open; all: --more",
)

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
NONE_UNPROVEN = "Condition: none shows yet, but unproven: {confidence}."
RUNNER_UP = "after it {label}, {confidence}."
WELL = "The readings show a filter that is well, through proven instruments."
NOT_WELL = "Nothing here says that the filter is well: {because}."
CHANNEL_IS = "instrument {state} ({label})"
IN_THE_WAY = {
    "no-reading": "nothing has been read of it",
    "reading-accuses": "its readings are not those of a sound filter",
    "fault-likely": "a fault of the filter is too likely",
}
NOT_WELL_BARE = "Nothing here says that the filter is well."

FOR = "For {label}:"
AGAINST = "Against {label}:"
NOTHING_FOR = "For {label}: nothing entered, only how common it is."
NOTHING_AGAINST = "Against {label}: nothing entered."
WEIGHED_NOT = "{label}: nothing entered for or against, only how common it is."
WEIGHED_FOR = "{label} (+ {plus} of {pluses}, nothing against)"
WEIGHED_AGAINST = "Against {label} (- {minus} of {minuses})"
WEIGHED = "{label} (+ {plus} of {pluses}, - {minus} of {minuses})"
WEIGHED_SLIGHT = "{label} (+ {plus} of {pluses}, all {minuses} against slight)"
WEIGHED_SLIGHT_ONE = "{label} (+ {plus} of {pluses}, the 1 against slight)"
NOTHING_LEADS = "No fault leads; what speaks for and against each: --more."
NOTHING = "No finding speaks for or against any fault yet."
WORTH = "{worth}: {says} ({grounds})"
WORTH_BARE = "{worth}: {says}"
FINDING_TRUE = "{says}"
FINDING_FALSE = "{says}: no"
FINDING_LEVEL = "{says}: {level}"
# One and many of what was left out of a list; where there is a heading, it counts instead.
LEFT_REASONS = ("and {count} more reason: --more", "and {count} more reasons: --more")

GROUND = "{typed}, entry {entry}"
GROUND_TWO = "{first} and {second}, entry {entry}"
GROUND_BARE = "entry {entry}"
CODES_ABSENT = "{count} codes not listed, entry {entry}"
GROUND_FULL = "entry {entry}, line {line}: {label} ({slot}) {typed}, {source}, round {round}"
GROUND_FULL_NO_ROUND = "entry {entry}, line {line}: {label} ({slot}) {typed}, {source}"
GROUNDS_MORE = "{grounds} and {count} more"

SET_ASIDE = "Set aside while {channel} is distrusted: {findings}."
SET_ASIDE_FAILED = "Set aside while {channel} is distrusted ({tests}): {findings}."
SET_ASIDE_ONE = "{says} (would say {would_be})"
CHANNEL = {
    "proven": "{label}: proven.",
    "unproven": "{label}: not proven yet.",
    "corrected": "{label}: corrected, its zero of {zero} is taken off.",
    "distrusted": "{label}: distrusted.",
}
PROVEN = "Instruments proven: {labels}."
UNPROVEN = "Instruments not proven yet: {labels}."
CHANNEL_FAILED = "{label}: distrusted, because of: {tests}."
CHANNEL_AWAITS = "{label}: not proven yet; still to be tested: {tests}."
CORRECTED_BARE = "{label}: corrected, its zero is taken off."

OPEN_SHORT = "Still open: {tells} ({minutes} min; with its caution: sootsayer why {case} {check})."
OPEN_BARE = "{does} ({minutes} min)."
OPEN = "{does} ({minutes} min). Still open: {tells}."
SHUT = "{label}: {absence} (entry {entry}), so this stays open."
SHUT_NO_CHECK = "{label}: no check of this rulebook gives it."
NOTHING_OPEN = "Nothing is open that a check of this rulebook would tell."
BLOCKED = "Blocked: {actions}. Reason and caution: why {first}."
PERMISSION = "{does}: {state}."
PERMISSION_ID = "{does} ({action}): {state}."
PERMISSION_BECAUSE = "{does}: {state}. {reason}"
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
LIMITS = "Limits used, and whose they are"
OVERRIDES = "Numbers of the shop's own in place of a pack's"
OVERRIDE = "{what}: {now} in place of {was}. {why}"
OVERRIDE_AT = "written at {file}:{line}"
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
REFUSED = "{label}, compared: refused. {why}"
INSTRUMENTS = "Instruments"
RULEBOOK = "Rulebook: logic {logic}, words {words}. Sootsayer {program}."

DECLINED = (
    "Removal or defeat is asked for: not done here. The lawful work: {works} (all of it: sootsayer "
    "plan {case})."
)
DECLINED_BARE = (
    "Removal or defeat is asked for: not done here. The lawful work: sootsayer plan {case}."
)
