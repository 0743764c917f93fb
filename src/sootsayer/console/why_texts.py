"""The sentences of the page that answers why, each a whole template."""

from __future__ import annotations

HEADER = "{case}, as of entry {entry}: why {thing}"
KNOW = "What we know"
WHY = "Why"
NEXT = "What next"
DETAILS = "In detail"

# By `ThingKind`: what it is and how it stands.
THING = {
    "slot": "{label} ({thing}): {value}.",
    "signal": "{label} ({thing}) is read at points, each a thing of its own.",
    "code": "{label}: {value}.",
    "finding": "The finding {thing}: {label}: {value}.",
    "family": "The family {thing}, {label}: {value}.",
    "channel": "The instrument {thing}, {label}: {value}.",
    "fault": "The fault {thing}: {label}, {value}.",
    "interlock": "The interlock {thing}: {label}: {value}.",
    "action": "The action {thing}: {label}: {value}.",
    "limit": "The limit {thing}, {label}: {value}.",
    "check": "The check {thing}: {label}.",
    "remedy": "The remedy {thing}: {label}: {value}.",
}
MISSING = {
    "not asked": "It has not been asked or read.",
    "do not know": "The answer was: do not know.",
    "cannot": "It cannot be read or looked at.",
    "not fitted": "This vehicle does not have it.",
    "derived": "It is derived, and what it is derived from is not known.",
    "set aside": "It was read, but its instrument is distrusted.",
    "codes not counted": "The list of codes is not complete, or its monitor has not run.",
}
# The same, short, within another sentence.
MISSING_SHORT = {
    "not asked": "not known (not asked)",
    "do not know": "not known (do not know)",
    "cannot": "not known (cannot)",
    "not fitted": "not fitted",
    "derived": "not known",
    "set aside": "set aside",
    "codes not counted": "not known (codes not counted)",
}
BORDERLINE = "It is borderline: the reading lies within its error of a limit."
SET_ASIDE_BARE = "Set aside, because {channel} is distrusted (sootsayer why {case} {id})."
SET_ASIDE_SLOT = (
    "Set aside, because {channel} is distrusted (sootsayer why {case} {id}); it was read as "
    "{would_be}."
)
SET_ASIDE = (
    "Set aside, because {channel} is distrusted (sootsayer why {case} {id}); it would say: "
    "{would_be}."
)
NOT_APPLIES = "It does not apply to this vehicle, so it is neither asked for nor counted:"
MAYBE_APPLIES = "Whether it applies is not known:"
APPLIES = "It applies to this vehicle, because:"

# A test: what was seen against what the rule asks for. By `Op`, `one of`, `known`, `graded`.
TEST = {
    "below": "{label} is {seen}; asked for: below {a}",
    "at most": "{label} is {seen}; asked for: at most {a}",
    "above": "{label} is {seen}; asked for: above {a}",
    "at least": "{label} is {seen}; asked for: at least {a}",
    "between": "{label} is {seen}; asked for: from {a} to {b}",
    "outside": "{label} is {seen}; asked for: below {a} or above {b}",
    "one of": "{label} is {seen}; asked for: {words}",
    "known": "{label} is {seen}; asked for: any value",
    "graded": "{label} is {seen}; levels {words}, from the lowest, cut at {cuts}",
}
TEST_OTHER = "{label} is {seen}; asked for: {op}"
MARK_TRUE = "yes  "
MARK_FALSE = "no   "
MARK_OPEN = "open "
JOINT = {
    "all": "all of these",
    "any": "any of these",
    "not": "not this",
}
JOINT_AT_LEAST = "at least {count} of these"
OPERAND_LIMIT = "{number} (limit {names})"
OPERAND_SLOT = "{number} (from {names})"
OPERAND_OPEN = "a number not known ({names})"
WORD_OR = " or "

RULE = "Rule: {id} at {file}:{line}, revision {revision}."
RULE_BASIS = "Rule: {id} at {file}:{line}, revision {revision}. Basis: {basis}."
PLACE = "Written at {file}:{line}."
PLACE_BASIS = "Written at {file}:{line}. Basis: {basis}."
RESTS_ON = "It rests on:"
NO_GROUNDS = "It rests on nothing entered."

FOR = "For it:"
AGAINST = "Against it:"
NO_FOR = "Nothing entered speaks for it."
NO_AGAINST = "Nothing entered speaks against it."
WEIGHT = "{said}: odds {weight}-fold"
WEIGHT_SHARES = "{said}: odds {weight}-fold, {without} without it, {with_it} with it"
RANK = "It is number {rank} of its kind; that there is none of the kind is {none}."
PRIOR = "Before any finding: {prior}, as the rulebook writes it."
PRIOR_SHIFTED = "Before any finding: {now}; {prior} as the rulebook writes it, shifted by facts."
SHIFT = {
    True: "odds times {times}, because:",
    False: "odds times {times} does not apply, because:",
    None: "odds times {times} would apply, but it is not known whether:",
}
ASIDE = "Set aside, would speak of it: {findings}"
MISSING_FAMILIES = "Nothing speaks yet of: {families}"
RANGE = "The case is too wide to reckon exactly: between {low} and {high}."

CHANNEL_FAILED = "Distrusted, because of: {tests}"
CHANNEL_AWAITS = "Still to be tested: {tests}"
CHANNEL_ZERO = "Its zero of {zero} is taken off."
FAMILY_SPEAKER = "{speaker} speaks for it."
FAMILY_SILENT = "Nothing speaks for it yet."
FAMILY_OTHERS = "Beyond tolerance from that: {others}"
LIMIT_FROM = {
    "vehicle": "It is this vehicle's own.",
    "shop": "It is the shop's own.",
    "pack": "It is the pack's; a vehicle's own figure is better.",
}
HOLDING = ("{count} interlock holds; see below.", "{count} interlocks hold; see below.")
CHECK = "Takes {minutes} min, {where}."
HURTS = "If this is wrong it can hurt: {hurts}"
CAUTION = "Caution: {caution}"
NAMED = "Not awaited, only named: {reason}"

WORK_STATE = {
    "permitted": "nothing entered forbids it; the technician decides",
    "not-yet-clear": "not yet clear",
    "forbidden": "forbidden as things stand",
}
WORK_RULED_OUT = "it does not apply to this vehicle"
WORK_CURES = "Cures {label} in {share} of 100; that fault is here {confidence}."
WORK_TIME = "Takes {minutes}; its price is not known."
WORK_PRICE = "Takes {minutes}, and costs {price}."
WORK_BY = "Done by: {does} ({action})"
WORK_HOW = "Its steps and cautions: sootsayer plan {case} --more"
WORK_FREE = "No interlock of it stands open."
WORK_CLEARS = "What would settle what it waits for:"

COULD_CHANGE = "What is not known and could change it:"
UNKNOWN = "{label} ({slot}): {missing}"
UNKNOWN_CHECK = "{does} ({check}, {minutes} min)"
UNKNOWN_AGAIN = "the same check tells it ({check})"
UNKNOWN_NO_CHECK = "no check of this rulebook gives it"
NOTHING_UNKNOWN = "Nothing that is still unknown could change it."
SET_ASIDE_NEXT = "Once the instrument is mended or proven, a new reading could change it."
# What the cheapest check could change: `what` is one of the texts below.
WOULD_CHANGE = "Cheapest check that could change {what}: {does} ({check}, {minutes} min)"
WOULD_CHANGE_STEP = (
    "Cheapest checks that could change {what}: first {does} ({check}), then {then}; "
    "{minutes} min in all"
)
CHANGES = {
    "measurement": "what leads among the instruments",
    "condition": "what leads among the conditions",
    "cause": "what leads among the causes",
    "several": "what leads",
    "action": "what is permitted",
    "both": "what leads and what is permitted",
}
CORRECTABLE = "Only a correction of an entry, or a new round of readings, could change it."

# By `Relation`: the heading over a list of other things.
RELATION = {
    "feeds": "It reads:",
    "reads": "It is read by:",
    "speaks for": "Findings that bear on it:",
    "bears on": "Faults that it bears on:",
    "member": "Its findings, the best first:",
    "family": "Its family:",
    "caused by": "What can lead to it:",
    "leads to": "What it can lead to:",
    "hides": "What it can hide:",
    "hidden by": "What can hide it:",
    "tests": "What tests it:",
    "tested": "The instrument that it tests:",
    "needs": "What it needs:",
    "done by": "What it is done by:",
    "cures": "What it cures:",
    "cured by": "Work that cures it:",
    "used by": "Work that is done by it:",
    "needed by": "Actions that need it:",
    "gives": "What it tells:",
    "given by": "Checks that tell it:",
    "read at": "Read at:",
}
UNLIKELY = (
    "and {count} more, below 5 %",
    "and {count} more, each below 5 %",
)
UNLIKELY_ALL = ("{count} fault, below 5 %", "{count} faults, each below 5 %")
SURE = "{word}, {number}"
LINK = "{label} ({id}): {value}"
LINK_ACTION = "{label} ({id}): {value}; its caution: sootsayer why {case} {id}"
LINK_BARE = "{label} ({id})"

OVERRIDDEN = (
    "The shop's own number ({keys}): {now} in place of {was}. {why}. Written at {file}:{line}."
)
SHOP_LINK = "The shop's own evidence: {says}. Written at {file}:{line}."
