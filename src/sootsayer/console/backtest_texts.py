"""The sentences of a backtest, each a whole template."""

from __future__ import annotations

HEADER = "Backtest of {pack}, without it and with it: {cases}"
REPLACES = "It stands in for {file}, which is not touched."
TAKEN_OUT = "It is in force already: here it is taken out on the one side."

LOOSER = (
    "LOOSER: {count} permission. Look at it before the pack counts.",
    "LOOSER: {count} permissions. Look at each before the pack counts.",
)
LOOSER_HEAD = ("action", "without it", "with it")
IN_CASES = ("in {count} case: {cases}", "in {count} cases: {cases}")
ACCEPTED = "accepted by name"
NOT_ACCEPTED = "Accept one by name if you mean it: --accept {action}"
STRICTER = (
    "Stricter: {count} permission",
    "Stricter: {count} permissions",
)
NO_LOOSER = "No permission becomes looser in these cases."

KNOW = (
    "What we know: {changed} of {count} verdict would change",
    "What we know: {changed} of {count} verdicts would change",
)
NOTHING = "What we know: no verdict would change, of {count}"
NO_RULES = "The pack changes no rule: the logic is the same with it and without it."
LEADS = "another leading fault"
FINDINGS = "another finding"
ASKED = "another check asked first"
NUMBERS = "a confidence moved at all"

WHY = "Why: the rules that have a hand in it"
HOW = {
    "new": "{rule} (new, {where})",
    "gone": "{rule} (gone, {where})",
    "changed": "{rule} (changed, {where})",
}
RULE_AT = "{file}:{line}"
MORE_RULES = (
    "{count} more rule differs",
    "{count} more rules differ",
)

OUTCOME = "Against what was confirmed in {n}: leading faults that were right, in %, 95 %"
OUTCOME_HEAD = ("kind", "without it", "with it", "better", "worse")
KINDS = {
    "measurement": "measurement",
    "condition": "condition",
    "cause": "cause",
}
SHARE = "{share}, {low}-{high}"
SIDES = "Of {n} that changed sides {better} are better: {low} to {high} % (95 %, Wilson)."
SQUARED = "Mean squared distance to what was so: {before} without it, {after} with it."

NEXT = "What next"
NEXT_LOOSER = "Read the cases above: sootsayer judge CASE. Then accept by name, or mend the pack."
NEXT_MORE = "--more names more cases and rules; --every-entry tries every entry of each."
