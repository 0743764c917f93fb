"""The sentences of the page for an assessor."""

from __future__ import annotations

ID = "assessor"  # not said
TITLE = "Record {number}: {case}"
UNDER = "{vehicle}. Kept {time} by {by}; judged as of {moment}, entry {entry}. Sootsayer {program}."
FOOT = (
    "Made from record {number}, digest {digest}. It tells what was known, weighed and said on that "
    "day; it is no signature and no expert opinion."
)

KNOWN = "What was known when, and what it did to the confidence"
KNOWN_HOW = (
    "Each entry is judged with the rulebook of that day and what had been entered until then, "
    "nothing later. Behind an answer: each confidence without it, and with it."
)
NOT_AGAIN = "It cannot be judged again entry by entry: {why}. What follows is as it was kept."
ENTRY = "Entry {number}, {time}, {by}, {source}"
ENTRY_CORRECTS = "Entry {number}, {time}, {by}, {source}; it corrects entry {corrects}"
ENTRY_BARE = "Entry {number}, {time}, {by}"
WORK_DONE = "Work done: {work}"
NOTE = "Note: {note}"
CLOSED = "The case was closed."
ANSWER = "{answer}. {moved}"
ANSWER_TYPED = "{label}: {typed}"
CODES = "Trouble codes: {codes}"
NO_CODES = "Trouble codes: none stored"
IDLE = "Moved by less than a point: {answers}"
ENTRY_MOVED = "All of it together: {moved}"
MOVED = "{label} {before}, then {after}"
DRIVE = "May it be driven? {before}, then {after}"
PERMISSION = "{label}: {before}, then {after}"
NO_ENTRIES = "Nothing had been entered."

ADVISED = "What was advised"
ALLOWED = "What was permitted, and the readings it rested on"
ALLOWED_ONE = "{does}: {state}"
REASON = {
    "does-not-hold": "Forbids it: {locks}",
    "unknown": "Not known: {locks}",
    "unproven-instrument": "Rests on an instrument that was not proven: {locks}",
    "too-close": "Too close to its limit to tell: {locks}",
    "too-old": "Read too long before: {locks}",
    "holds": "Held: {locks}",
}
LOCK = "{says} ({readings})"
LOCK_BARE = "{says}"
READING = "{label} {typed}, entry {entry}"
WORK = "Work, in its order"
WORK_ONE = "{label}: {state}"
NEXT = "Proposed next: {does}"
NOTHING_NEXT = "No further check was proposed."
CAUTIONS = "Cautions that went with it"
CAUTION = "{of}:"

DECIDED = "What the technician decided otherwise"
AS_ADVISED = "As advised."
NOT_ASKED = "That was not asked."
OTHERWISE = "{what}. Why: {why}"
NO_WHY = "not said"

CAME = "What was done, and what came of it (learned later)"
NOTHING_CAME = "No outcome was recorded."
OUTCOME = "Record {number}, {time}, by {by}: {faults}."
CONFIRMED = "confirmed {faults}"
NONE_FOUND = "no fault was found"
CURED = "Cured by {works}."
PROVED = "Proved by {proof}."
NOT_PROVED = "Not proved."
DONE = "Work done, {time}, {by}: {work}."

RESTS = "What this page rests on"
AGAIN = {
    "same": "Given again with the rulebook of that day the verdict is the same, byte for byte.",
    "differs": "Given again with the rulebook of that day the verdict is NOT the same.",
    "not-replayable": "The verdict cannot be given again: {why}.",
}
DIGEST = "{what}: {digest}"
RECORD, LOGIC, WORDS, CASE = "Record", "Rulebook, logic", "Rulebook, words", "Case file"
WITHHELD = (
    "{count} name, plate or chassis number was left out of the texts when it was kept.",
    "{count} names, plates or chassis numbers were left out of the texts when it was kept.",
)
