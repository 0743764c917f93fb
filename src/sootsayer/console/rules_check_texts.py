"""The sentences of the check of the rules, each a whole template."""

from __future__ import annotations

HEADER = "{packs}: {findings}, {faults}, {links}, {proofs}."
PACKS = ("{count} pack", "{count} packs")
FINDINGS = ("{count} finding", "{count} findings")
FAULTS = ("{count} fault", "{count} faults")
LINKS = ("{count} link", "{count} links")
PROOFS = ("{count} proof", "{count} proofs")
LOOKED_INTO = "What was looked into"
COVERAGE = "What proofs show"
MISSING = "What nothing shows"
NEXT = "What next"

# By `Concern`; the numbers stand at the right.
CONCERN = {
    "files, names and units": "Files, shape, names, units and numbers",
    "proofs come out": "The proofs of each rule come out",
    "rules can be true and false": "Each rule can be true, and can be false",
    "levels are reached, without gaps": "Each level is reached; none overlap",
    "what applies can apply": "What has an `applies when` can apply",
    "a check yields it": "Each finding is yielded by a check",
    "interlocks can be cleared": "Each interlock can be cleared",
    "rules say different things": "Rules on the same facts say different things",
    "links say something": "Each link says something",
    "faults are told apart": "Faults of a kind are told apart",
    "retired ids have a successor": "Retired ids have a successor",
    "translations are up to date": "Translations are up to date",
}
PROVEN = "{proven} proven"
NOT_ALL = "{proven} proven, {wrong} wrong"
NOT_DECIDED = "{proven} proven, {open} not decided"
ALL_THREE = "{proven} proven, {wrong} wrong, {open} not decided"
NOTHING_WRONG = "nothing wrong"
REMARKED = ("{count} remark", "{count} remarks")

SHOWN = "{shown} of {all} outcomes of rules and their tests are shown by {by} ({share})."
BY_PROOFS = "proofs"
BY_BOTH = "proofs and cases"
SHOWN_RULES = "Of the rules themselves {shown} of {all}, of tests inside them {inner} of {tests}."
LACKS = "{slot} {outcome}"
LACKS_TEST = "{slot}: {test}: {outcome}"
NOT_SHOWN = "never shown {outcomes}"
SHOWN_ALL = "Every outcome is shown."

WEIGHT = {"error": "error", "warning": "warning", "note": "note"}
REMARK = "{place}: {weight}: {what}"
MENDED = "  + {line}"
INSTEAD = "  → {instead}"
CASE = "    shown by: {case}"
CASE_PART = "{slot} {value}"
MORE = (
    "and {count} more; all of them are in --json.",
    "and {count} more; all of them are in --json.",
)
NOTHING = "Nothing is wrong."
COUNTED = "{errors}, {warnings}, {notes}."
ERRORS = ("{count} error", "{count} errors")
WARNINGS = ("{count} warning", "{count} warnings")
NOTES = ("{count} note", "{count} notes")
REFUSED = "Until the errors are mended, no case can be judged with these packs."
FAST = "{seconds} s."
