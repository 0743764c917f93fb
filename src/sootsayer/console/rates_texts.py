"""The sentences of rates and calibration, each a whole template."""

from __future__ import annotations

HEADER = "Rates: {cases}"

CALIBRATION = (
    "What we know: whether confidence came true, in {count} leading fault",
    "What we know: whether confidence came true, in {count} leading faults",
)
PICTURE_HEAD = ("said", "mean", "came true", "0 %  | said  o came true  - 95 %    100 %")
TENTH = "{low}-{high} %"
CAME = "{share} % of {count}"
BRIER = (
    "Brier {score} = reliability {reliability} - resolution {resolution} + uncertainty "
    "{uncertainty} {sign} {within}"
)
OFF = "On average {error} points off. Over every fault of every case: Brier {every}."

NUMBERS = "Why: {against} of {count} numbers have cases against them; by chance about {by} would"
NO_NUMBERS = (
    "Why: no number has {fewest} cases yet that speak of it alone; {some} of {all} have any"
)
NONE_AGAINST = "Why: no number of {count} with enough cases has cases against it"
LINK = "{finding} with {fault}"
OTHERWISE = "{finding} otherwise"
HIDES = "{finding} hidden by {fault}"
LEVEL = "{level}"
COUNTED = "{count}/{n}"
WIDE = "{low}-{high}"
SAID = "{said} %"
HEAD = ("number", "pack", "counted", "95 %")
MORE_HEAD = ("level", "pack", "counted", "Jeffreys", "Wilson")
RATIOS = "ratio seen {seen}, not seen {missing}"
RATIO = "{value} ({low} to {high})"
NO_RATIO = "not known"
LEFT_OUT = "{count} left out: another listed fault was there too"
BECAUSE = "{because}"
AND_MORE = "and {count} more"

SELECTION = "Where selection bites: only checks that were asked were answered"
SELECTED = "{finding}: known in {with_share} % with {fault}, in {other_share} % else"
SELECTION_MEANS = "What is looked for where it is suspected counts too high there."
SELECTION_MORE = "and {count} more"

NEXT = "What next"
NEXT_DIFF = "--diff proposes numbers, with n. Nothing is applied: they change by your hand."
NEXT_NONE = "Confirm outcomes: the more closed cases, the more numbers can be counted."
NEXT_ONE = "--more shows every number; rules rates {example} one alone."

ONE_NONE = "No closed case says anything of {thing} yet."
