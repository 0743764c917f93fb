"""The sentences of the page for the file."""

from __future__ import annotations

ID = "file"  # not said
TITLE = "For the file: {case}"
UNDER = "{vehicle}. As of entry {entry}, {time}, round {round}. {story}"
UNDER_NO_ROUND = "{vehicle}. As of entry {entry}, {time}. {story}"
FOOT = "Made {made} by sootsayer {program}. The technician decides. Signed: ____________________"
TORN = "The last line of the case file is not whole and was left out."

READINGS = "Readings and conditions, who and when"
ENTRY = "{number}, {time}, {by}, {source}: {facts}"
FACT = "{slot} {typed}"
ABSENT = "{slot}: {absence}"
CODES = "codes ({read}): {codes}"
CODES_NONE = "none"
COMPLETE, PARTIAL = "complete", "partial"
CORRECTS = "corrects {number}"
WORK = "work: {work}"
NOTE = "note: {note}"
OUTCOME = "outcome: {faults}; cured by {works}; proved by {proof}"
ROUND = "Round {round}"
NO_ROUND = "Between rounds"
NO_ENTRIES = "Nothing is entered."
POINTS = "Points: {points}"
POINT = "{point}: {conditions}"
DIFFER = "{label}: {source} {typed}, {other_source} {other}; the {source} counts."

INSTRUMENTS = "Instruments"
INSTRUMENT = "{label}: {state}"
INSTRUMENT_ZERO = "{label}: {state}, zero of {zero} taken off"
INSTRUMENT_FAILED = "{label}: {state}, failed: {tests}"

FINDINGS = "What follows, by which rule and revision"
FINDING = "{says}: {level} ({rule})"
FINDING_ASIDE = "{says}: set aside, would be {would_be} ({rule})"
BORDERLINE = "{level}, borderline"
RULE = "{file}:{line} {revision}"
MORE_FINDINGS = "And {count} more that weigh less: sootsayer judge {case} --more"
NO_FINDING = "No finding is true or graded."

CONFIDENCE = "Confidence"
FAULT = "{label}: {percent} ({rule})"
FAULT_RANGE = "{label}: {percent}, between {low} and {high} ({rule})"
NONE = "No {kind} fault: {percent}"
CANDIDATE = "Together: {faults}: {percent}"
NO_FAULT = "no fault"

COMPARED = "Before and after: {from_round}, {to_round}"
CAPTION = (
    "mbar, zero taken off, brought to the flow and heat of {to_round}; ± two standard deviations"
)
HEAD = ("Point", "Before", "After", "Change", "Left", "More than noise")
YES, NO = "yes", "no"
REFUSED = "{label}, not compared: {why}"
PICTURE = (
    "Pressure in mbar, zero taken off, against flow in m3/h at the viscosity of 200 C. 1 is "
    "{from_round}, 2 is {to_round}. Dashed: where levels begin."
)

ALLOWED = "Permissions, and the cautions that were shown"
PERMISSION = "{action}: {state}"
PERMISSION_BECAUSE = "{action}: {state}; {reason}"
CAUTION = "{action}:"

NUMBERS = "Numbers that are not the rulebook's own"
LIMIT = "{label}: {value}, {origin}"
ORIGIN = {"vehicle": "this vehicle's own", "shop": "the shop's own"}
OVERRIDE = "{what}: {was} is {now} here; {why} ({rule})"

OPEN = "What was not checked"
DIGESTS = "Digests"
DIGEST = "{what}: {digest}"
RECORDS_HEAD = "Records, head (record {number})"
RECORDS_BROKEN = "Records: the last one does not hold; see sootsayer records verify"
RULEBOOK, WORDS, SHOP, CASE = "Rulebook, logic", "Rulebook, words", "Shop settings", "Case file"
