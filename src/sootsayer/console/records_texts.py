"""The sentences about records, each a whole template."""

from __future__ import annotations

# Keeping.
ADVISED = "{case}: {vehicle}, as of entry {entry} ({time})"
ADVISED_EMPTY = "{case}: {vehicle}, nothing entered yet"
DRIVE = "May it be driven? {answer}"
LEADS = "{kind}: {label}, {confidence} ({percent})."
LEADS_NONE = "{kind}: no fault of this kind, {confidence} ({percent})."
KIND = {"measurement": "Measurement", "condition": "Condition", "cause": "Cause"}
FIRST_WORK = "First of the work: {label} ({state})."
NO_WORK = "No work is planned by this rulebook."
ASK_OTHERWISE = "Decided otherwise than advised? What (Enter: as advised): "
ASK_MORE = "Anything else otherwise (Enter: no): "
ASK_WHY = "Why: "
KEPT = "Kept as record {number}, by {by}, {time}."
DECIDED_NOTHING = "Decided: as advised."
DECIDED_UNASKED = "Whether it was decided otherwise was not asked."
DECIDED = "Decided otherwise: {what}. Why: {why}."
WITHHELD = (
    "Left out of it: {count} name, plate or chassis number.",
    "Left out of it: {count} names, plates or chassis numbers.",
)
TORN_CASE = "The last line of the case file is not whole and was left out."
TORN_SET_ASIDE = (
    "An unfinished line of an earlier writer ({count} byte) was set aside: {file}",
    "An unfinished line of an earlier writer ({count} bytes) was set aside: {file}",
)
CLOCK_BACK = "The record before is dated {later}: the clock runs behind, or did. Set it right."
HEAD = "Head of the records, for the job sheet (record {number}):"
# Verifying.
WHOLE = (
    "{count} record, and each names the one before: the ledger is whole.",
    "{count} records, and each names the one before: the ledger is whole.",
)
EMPTY = "The ledger is there and holds no record."
CLOSED_COUNT = (
    "Of {count} record only the digest is here, so its body is not checked.",
    "Of {count} records only the digests are here, so their bodies are not checked.",
)
HEAD_IS = "Its head (record {number}):"
ON_PAPER = "The digest on paper is that of record {number}."
ON_PAPER_LATER = (
    "The digest on paper is that of record {number}; {count} record came after it.",
    "The digest on paper is that of record {number}; {count} records came after it.",
)
NOT_ON_PAPER = (
    "No record of this ledger has the digest on paper. It is another ledger, its end was cut off, "
    "or it was written anew."
)
NOT_YET_SEEN = "The digest on paper was not found before that place."
BACK = "Record {number} is dated before the one before it: a clock ran backwards."
BACK_MORE = "And {count} more are dated so."
FLAW = {
    "changed": "Line {line}: record {number} was changed ({detail}).",
    "removed": "Line {line}: record {number} is missing here, up to record {detail}.",
    "moved": "Line {line}: record {number} should stand here, and stands later.",
    "inserted": "Line {line}: record {number} stands here again; it was inserted or moved.",
    "foreign": (
        "Line {line}: this record {number} does not belong behind the one before it: it is of "
        "another ledger, or the one before was written anew."
    ),
    "torn": (
        "Line {line}: the last line is not whole. A writer was stopped before this record was "
        "acknowledged, or the line was cut since; a digest on paper tells which."
    ),
    "text-lost": "Line {line}: record {number} rests on a text that is not as it was ({detail}).",
    "other-format": "Line {line}: this record has format {detail}, which is not known here.",
}
LOST = {
    "missing": "{digest} missing",
    "changed": "{digest} changed",
    "no digest": "{digest} no digest",
}
HELD_BEFORE = ("The {count} record before it holds.", "The {count} records before it hold.")
OTHER_FORMAT_NEXT = "Use the version of this program that wrote it."
TORN_NEXT = "The next `records keep` sets it aside and goes on behind record {number}."
# Listing.
NO_RECORDS = "No record here is so."
NO_LEDGER_YET = "No record was kept yet in {folder}."
NUMBER, DATE, CASE, VEHICLE, BY, WHAT = (
    "No.",
    "Kept",
    "Case",
    "Vehicle",
    "By",
    "What led, or was found",
)
OUTCOME_OF = "outcome of {number}: {faults}"
NOTHING_LED = "no fault led"
NO_FAULT_FOUND = "no fault"
BODY_CLOSED = "its body is not in this export"
LIST_MORE = (
    "And {count} older record: --all",
    "And {count} older records: --all",
)
UNREADABLE = (
    "{count} line cannot be read as a record: sootsayer records verify",
    "{count} lines cannot be read as records: sootsayer records verify",
)
# Replaying.
RECORD = "Record {number}: {case}, kept by {by}, {time}"
SAME = "With the rulebook of that day it is the same, byte for byte."
DIFFERS = "With the rulebook of that day and the same program it is NOT the same."
NOT_REPLAYABLE = "Not replayable: {why}."
WHY_NOT = {
    "closed": "only its digest is here, not its body",
    "text-lost": "a text that it rests on is missing or was changed ({detail})",
    "rulebook-refused": "this version cannot read the rulebook of that day any more ({detail})",
    "case-refused": "this version cannot read the case of that day any more ({detail})",
    "program": "version {detail} gave it, and this version reckons otherwise",
    "language": "it was given in the language {detail}, which this program does not speak here",
    "failed": "this version cannot judge it any more ({detail})",
}
WITH_VERSION = "It was given by sootsayer {then}; this is {now}. Install that version to replay it."
TODAY_SAME = "With today's rulebook it would say the same."
TODAY_EXACTLY = "Today's rulebook and settings are those of that day."
TODAY_CANNOT = "Today's rulebook cannot judge it: {why}"
TODAY = "With today's rulebook and settings it would differ"
MADE_BY = "made so by {changes}"
TOGETHER = "made so by several changes together"
TOO_MANY = "of {count} changes; too many to try each"
NOT_TRIED = "which change made it so cannot be tried: the rulebook of that day is not to be read"
MORE_DIFFERENCES = ("And {count} more that differs: --more", "And {count} more that differ: --more")
ALL_SAME = (
    "{count} verdict: the same, byte for byte, with the rulebook of its day.",
    "{count} verdicts: the same, byte for byte, with the rulebook of their day.",
)
ALL_DIFFER = ("{count} is NOT the same: {numbers}", "{count} are NOT the same: {numbers}")
ALL_NOT = ("{count} is not replayable: {numbers}", "{count} are not replayable: {numbers}")
ALL_NONE = "There is no verdict to replay."
TODAY_COUNTS = "With today's rulebook and settings, of {count}:"
COUNT = {
    "same": "would say the same",
    "drive": "would answer otherwise whether it may be driven",
    "looser": "would permit more",
    "stricter": "would permit less",
    "leading": "would have another fault leading",
    "confidence": "would differ in a confidence only",
    "other": "would differ in something else only",
    "cannot": "cannot be judged by today's rulebook",
}
COUNT_BY = "Made so by:"
COUNT_MORE = "and {count} more: --json"
COUNT_UNTRIED = "too many changes to try each"
COUNTED = "{count}: {said}"
NUMBERS_MORE = "{numbers} and {count} more"
DRIVE_ROW = "May it be driven?"
LEADS_ROW = "Leading {what}"
CONFIDENCE_ROW = "Confidence: {what}"
ROW = "{what}"
THEN_AND_TODAY = "{then}  {now}"
THEN, NOW = "then", "today"
NOTHING_LEADS = "no fault"
ABSENT = "not in it"
SECTION = {
    "signals": "signal",
    "points": "point",
    "channels": "instrument",
    "limits": "limit",
    "checks": "check",
    "findings": "finding",
    "families": "family",
    "faults": "fault",
    "evidence": "evidence of",
    "actions": "action",
    "interlocks": "interlock",
    "quantities": "quantity",
    "remedies": "remedy",
    "opening": "the opening questions",
    "customary_order": "the customary order",
    "shop": "the shop's",
    "shop limits": "the shop's limit",
    "shop ages": "the shop's age of",
    "shop prices": "the shop's price of",
    "shop times": "the shop's time of",
    "shop chances": "the shop's chances of",
}
SETTING = {
    "shop tools": "the shop's tools",
    "shop labour_rate": "the shop's labour rate",
    "shop currency": "the shop's currency",
}
OF_SECTION = "{section} {id}"
ALONE = frozenset({"opening", "customary_order"})  # there is one, so it needs no id
CHANCE = "{fault} {share}"
CHANGE = "{thing} ({was}, now {is_})"
CHANGE_NEW = "{thing} (new: {is_})"
CHANGE_GONE = "{thing} ({was}, now gone)"
# Outcome.
LED = "Record {number} had leading: {faults}."
NO_SUCH_FAULT = 'There is no fault "{fault}". {near}'
ASK_FAULTS = "Confirmed faults, by id, with commas (Enter: none was found): "
ASK_CURED = "Cured by which work, by id, with commas (Enter: none): "
ASK_PROVED = "Proved by (recheck, second opinion, ...; Enter: not proved): "
OUTCOME_KEPT = (
    "The outcome is entry {entry} of {file}, and record {number}, pointing back to {record}."
)
OUTCOME_THERE = (
    "The case has this outcome already (entry {entry}); record {number} points back to {record}."
)
# Exporting.
EXPORTED = (
    "{count} record is whole in the copy, {closed} are there as digests only.",
    "{count} records are whole in the copy, {closed} are there as digests only.",
)
EXPORT_NEXT = "Try it: sootsayer records verify --ledger {folder}"
NOBODY_KNOWN = "No people.yaml was found, so nobody's name could be looked for: --people FILE."
NOBODY_FOUND = (
    "Looked for {count} person of people.yaml: not found in it.",
    "Looked for {count} people of people.yaml: nobody was found in it.",
)
NAMES_FOUND = "record {number} names somebody ({what}), known from people.yaml of {case}"
NAMED = {"name": "name", "plate": "plate", "chassis number": "chassis number"}
NAMES_FOUND_NEXT = (
    "it was kept before that was written into people.yaml; export without it: name the others"
)
