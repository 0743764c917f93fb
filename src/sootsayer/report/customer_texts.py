"""The sentences of the customer's page: everyday words, and never a per cent."""

from __future__ import annotations

ID = "customer"  # not said
TITLE = "Your vehicle: {vehicle}"
UNDER = "Visit {case}, {date}."
UNDER_SHOP = "{shop}. Visit {case}, {date}."
FOOT = (
    "This page says what was found and measured on the day, in plain words. It is no promise. The "
    "technician who signs decides. Signed: ____________________"
)

DRIVE = "May it be driven?"
DRIVE_UNKNOWN = "Still to be known, or read too long ago: {says}"
CAUTION = "Please note:"

WRONG = "What was wrong"
WRONG_NOTHING = "Nothing that was read or told points to a fault."
CONFIRMED = "Found and confirmed: {label}."
KIND = {
    "measurement": "A measurement misled: {label}. That is {confidence}.",
    "condition": "Filter and exhaust: {label}. That is {confidence}.",
    "cause": "What it comes from: {label}. That is {confidence}.",
}
NO_CAUSE = "What it comes from was not found."
WELL_NOW = "As it stands now, instruments that were tested show a filter that is as it should be."
NOT_WELL_NOW = "That the filter is well again is not shown yet."

SURE = "How sure we are"
OF_TEN = {
    "almost certain": "Almost certain: of ten such vehicles at most one would be otherwise.",
    "very likely": "Very likely: of ten such vehicles eight or nine have it.",
    "likely": "Likely: of ten such vehicles six or seven have it.",
    "about even": "About even: as many such vehicles have it as do not.",
}
ONLY_CONFIRMED = "It was found by hand and confirmed."
NOTHING_SURE = "No fault stands out enough to name it."
INEXACT = "The case is a wide one, so these words are rougher than usual."

DONE = "What was done"
DONE_NOTHING = "It was looked at and measured. No work is entered."
WORK = "{work}, {date}"
HELPED = {
    "worked": (
        "It helped: what the exhaust has to push against fell {share}, and the filter now reads as "
        "it should."
    ),
    "partly": (
        "It helped in part: what the exhaust has to push against fell {share}. That all is well is "
        "not shown."
    ),
    "not-shown": "Measured before and after, it is not shown that it helped.",
    "worse": "Measured before and after, it is worse than it was.",
    "refused": "Before and after could not be compared fairly, so it is not shown that it helped.",
}
SHARES = (
    (0.07, "to less than a tenth"),
    (0.15, "to about a tenth"),
    (0.22, "to about a fifth"),
    (0.29, "to about a quarter"),
    (0.42, "to about a third"),
    (0.58, "to about half"),
    (0.71, "to about two thirds"),
    (0.9, "to about three quarters"),
    (9e9, "a little"),
)
"""Up to this share, the words."""
FELL = "clearly"
NOT_COMPARED = "There are no measurements from before and after to compare."

COST = "What it cost"
COST_WORK = "{work}: usually {low} to {high} {currency}."
COST_WORK_ONE = "{work}: usually {low} {currency}."
COST_UNKNOWN = "{work}: no price is entered here."
COST_INVOICE = "The invoice counts."
COST_NOTHING = "No work is entered, so there is no price. The invoice counts."

KEEP = "How it stays good"
KEEP_CAUSE = "{label} ({confidence}): until this is put right, the filter fills up again."
KEEP_OIL = "Have the oil level looked at: cleaning the filter by driving can leave fuel in the oil."
KEEP_NOTHING = "Nothing was found that would bring it back soon."
KEEP_UNKNOWN = "What it comes from was not found, so it may come back after the work."
KEEP_LAMP = "Do not wait when the filter lamp comes on: early, an ordinary drive is often enough."

BACK = "When to come back"
BACK_AFTER = "After about {km} km, to measure again."
BACK_DAYS = "After about {days}, to measure again."
BACK_BOTH = "After about {km} km or {days}, whichever comes first, to measure again."
BACK_USUAL = "After about 50 km and after 300 to 500 km, to measure again."
BACK_RETURNS = "As it is driven now the filter may be full again after {low} to {high} km."
BACK_RETURNS_FROM = "As it is driven now the filter may be full again after {low} km or more."
BACK_AT_ONCE = (
    "At once, and without driving on, with a red lamp, burning smell or smoke, or an engine that "
    "revs by itself."
)

NOT_CHECKED = "What was not checked"
NOT_KNOWN = "{label}: not known."
NOT_POSSIBLE = "{label}: could not be read."
INSTRUMENT = "{label}: not fully tested, so it may still mislead."
MISSING = "{label}: not looked at."
MORE = "And {count} more; the page for the file names them."
NOTHING_LEFT = "Nothing that would have told more was left out."
