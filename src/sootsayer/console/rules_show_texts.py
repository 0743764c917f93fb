"""The sentences of the handbook, each a whole template."""

from __future__ import annotations

# What a thing is, by the section of packs that declares it.
KIND = {
    "point": "Point",
    "channel": "Instrument",
    "signal": "Signal",
    "quantity": "Computed quantity",
    "check": "Check",
    "limit": "Limit",
    "finding": "Finding",
    "family": "Family",
    "fault": "Fault",
    "action": "Action",
    "interlock": "Interlock",
    "remedy": "Remedy",
    "retired": "Retired id",
    "code": "Trouble code",
}
USER_KIND = {
    "signal": "signal",
    "quantity": "quantity",
    "check": "check",
    "finding": "finding",
    "fault": "fault",
    "action": "action",
    "interlock": "interlock",
    "remedy": "remedy",
}
SECTION = {
    "faults": "Faults",
    "findings": "Findings",
    "families": "Families",
    "checks": "Checks",
    "signals": "Signals",
    "channels": "Channels",
    "limits": "Limits",
    "interlocks": "Interlocks",
    "actions": "Actions",
    "remedies": "Remedies",
    "points": "Points",
    "retired": "Retired",
}
OF_KIND = {"measurement": "Measurement.", "condition": "Condition.", "cause": "Cause."}
TITLE = "{kind} {id}: {label}"
TITLE_BARE = "{kind} {id}"

# Headings of the parts.
SAYS = "What it says"
HOW_WE_KNOW = "How we know"
PROOFS = "Proofs"
USED = "Who uses it"
READ = "How it is read"
SEEN = "What it is seen with"
SHOWS = "What shows it"
LEADS = "What it comes from and leads to"
CURED = "What mends it"
DONE = "How it is done"
AFTER = "What comes after"
CASES = "In cases"

TRUE_WHEN = "True when {sentence}."
HOLDS_WHEN = "Holds when {sentence}."
LEVEL_FIRST = "{level}: {slot} below {high}"
LEVEL = "{level}: {slot} from {low} to below {high}"
LEVEL_LAST = "{level}: {slot} from {low}"
APPLIES = "Only where {sentence}; else it is left out."
APPLIES_FINDING = "Only where {sentence}; else it stays unknown."
IN_ROUND = "It keeps to the readings of the round {round}."
TESTS = "It tests the instrument {channel}: true distrusts it."
CORRECTS = "It tests the instrument {channel}: true takes {slot} off as its zero."
ACQUITS = "It may say that the filter is well, through proven instruments, at: {levels}."
APART = "It counts apart from findings on the same readings: {why}"
FAMILY = "It speaks for the family {family}, number {rank} of {of}."
NOT_WHEN = "Where it does not hold: {text}."
WITHIN = "Its readings count for {minutes} min."
ASK = "While it is unknown ask: {checks}."

BASIS = "{kind}"
BASIS_SOURCE = "{kind}: {source}"
BASIS_NOTE = "{basis} ({note})"
REVISION = "Revision {revision}, written at {file}:{line}."
PLACE = "Written at {file}:{line}."
OVERRIDDEN = "The shop's own number ({keys}): {now} in place of {was}. {why}."

PROOF = "given {given}: {then}"
PROOF_CODES = "given {given}, codes {codes}: {then}"
NOTHING_GIVEN = "nothing"
NO_CODES = "none"

USER = "{what} {id}"
GIVEN_BY = "Given by the check {check}: {does}"
GIVEN_BY_WITH_CARE = "Given by the check {check}: {does}. Caution: {caution}"
NOT_GIVEN = "No check gives it."
FROM_HEADER = "The header of a case gives it."
FAULT_LINK = "{often} with {fault} ({label})"
OTHERWISE = "{often} otherwise, with none of these"
HIDES = "hidden by {fault} ({label}): then {often}"
PRIOR_CONDITION = "Its share where none of its causes is present: {often}."
PRIOR = "Its share among vehicles taken in with a filter complaint: {often}."
SHIFT = "Odds times {times} when {sentence}."
SEEN_IN = "{finding} ({label}): {often}; otherwise {otherwise}"
HIDES_IT = "hides {finding}: then {often}"
LEADS_TO = "leads to {fault} ({label}): {often}"
CAUSED_BY = "comes from {fault} ({label}): {often}"
FILLS = "The filter fills with {what} again while a cause is left."
CURES = "{remedy} ({label}): {often}"
NO_CURE = "No remedy of this rulebook mends it."

MINUTES = "{minutes} min, {where}."
TOOLS = "Tools: {tools}."
CAUTION = "Caution: {caution}"
BY_ACTION = "By the action {actions}: only while that is permitted."
GIVES = "Gives {slots}."
SIGNAL_NUMBER = "A number in {unit}, possible {low} to {high}, step {step}, error {error}."
SIGNAL_OPEN = "A number in {unit}, step {step}, error {error}."
SIGNAL_CHOICE = "One of: {choices}."
SIGNAL_YES_NO = "Yes or no."
LASTS = {"visit": "Known once for the whole visit.", "round": "Of its round only."}
POINTS = "Read at: {points}."
CHANNEL_OF = "Through the instrument {channel} ({source})."
ANY_SOURCE = "any source"
ASKS = "Asked: {asks}"
HOW = "How: {how}"
SHOWN_AS = "Shown by instruments as: {names}."
FORMULA = "Computed by {formula} from {takes}."
DEFAULT = "{value} {unit}; a vehicle's own figure or the shop's stands before it."
MEMBERS = "Members, the best first: {members}."
LEVELS = "Levels: {levels}."
PROVEN_BY = "Proven when all of these are false: {findings}."
NEAREST = "What can hide here, the nearest first: {faults}."
HURTS = "If this is wrong it can hurt: {hurts}."
NEEDS = "needs {interlock}: {says}"
HEEDS = "heeds {interlock}: {says}"
STATE = "{state}, when {count} of these are blocked: {interlocks}"
CONDITIONS = "{conditions}"
CURES_FAULT = "cures {fault} ({label}): {often}"
WORK_MINUTES = "{low} to {high} min of work."
WORK_MINUTES_ONE = "{low} min of work."
PARTS = "Parts {low} to {high}, in the shop's currency."
NEEDS_MENDED = "It does not cure while this is there: {faults}."
COVERS_UP = "It would only cover up: {faults}."
STEP = "{number}. {does}"
STEP_CAUTION = "{number}. {does} (caution: {caution})"
STOP_WHEN = "Stop when: {text}"
THEN = "{text}"
VERIFY = "Verified by {slots}."
VOIDS = "It makes unproven again: {channels}."
RECHECK_KM = "Look again after {km} km."
RECHECK_DAYS = "Look again after {days}."
RECHECK_BOTH = "Look again after {km} km or {days}, whichever comes first."
TELL = "Tell the customer: {text}"
SUCCESSOR = 'Write "{id}" instead. {why}'
NO_SUCCESSOR = "Nothing follows it. {why}"

FIRED = (
    "True in {count} of {of} case: {cases}.",
    "True in {count} of {of} cases: {cases}.",
)
LEVELLED = (
    "{level} in {hits} of {count} case: {cases}.",
    "{level} in {hits} of {count} cases: {cases}.",
)
FIRED_NOWHERE = (
    "Not true in the {count} case.",
    "Not true in any of {count} cases.",
)
RIGHT = (
    "Of {count} closed case in which it was so, {right} had a fault that it speaks for.",
    "Of {count} closed cases in which it was so, {right} had a fault that it speaks for.",
)
CONFIRMED = (
    "Confirmed in {hits} of {count} closed case: {cases}.",
    "Confirmed in {hits} of {count} closed cases: {cases}.",
)
LED = (
    "It led its kind in {count} closed case, and was confirmed in {right} of it.",
    "It led its kind in {count} closed cases, and was confirmed in {right} of them.",
)
NO_CLOSED = "No closed case speaks of it yet."
UNREADABLE = (
    "{count} case file could not be read and is not counted.",
    "{count} case files could not be read and are not counted.",
)

# The list of everything.
LIST_HEAD = (
    "{count} pack; sootsayer rules show ID has the page of each thing below.",
    "{count} packs; sootsayer rules show ID has the page of each thing below.",
)
LIST_ITEM = "{id}: {label}"

NO_THING = 'the rulebook has nothing called "{thing}"'
NEAR = "{near} All ids: sootsayer rules show"
ALL_IDS = "see the ids: sootsayer rules show"
