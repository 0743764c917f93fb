"""The sentences of the page that draws a plan, each a whole template."""

from __future__ import annotations

KNOW = "What we know"
WHY = "Why this order"
NEXT = "What next: the work, in this order"
NEXT_IF = "What next, only if something is wrong after all: the work, in this order"
NEXT_NO_NEED = "What next: no work"
NEXT_NOTHING = "What next: no work yet"
NEXT_PART = "What next: this mends a part already; what repairs the rest is not yet permitted"
OTHERS = "Permitted too, not first"
NOT_YET = "Not yet clear"
FORBIDDEN = "Forbidden here"
MORE_USEFUL = (
    "{count} other piece of work is for what is likely here, permitted or not: --more",
    "{count} other pieces of work are for what is likely here, permitted or not: --more",
)
MORE_WORK = (
    "{count} other piece of work is for faults that are unlikely here: --more",
    "{count} other pieces of work are for faults that are unlikely here: --more",
)
USELESS = "Would help against nothing that is likely here"

FAULT = "{label}: {confidence}."
NOTHING_WRONG = "What was entered calls for no work. That nothing is wrong: {confidence}."
NOTHING_UNPROVEN = (
    "What was entered calls for no work yet, but nothing here says that the filter is well."
)
SOME_NOTHING = "That nothing is wrong: {confidence}. The plan is for the case that something is."
BEYOND = "That the rulebook lists no work for what is wrong: {confidence}."
UNLISTED = "Faults in sets too rare to be listed are left out of the reckoning ({share} of 100)."
UNREACHED = "Nothing that may be done now mends it: {label}. It is mended by: {works}."
UNREACHED_BARE = "The rulebook has no work for it: {label}."
DECLINED = (
    "The customer wishes to have it removed or defeated. That is not done here, and in most "
    "countries such a vehicle may not be used on the road. The lawful way:"
)
DECLINED_WORK = "{label}: {price}."
DECLINED_ONCE = "{label}, once it is clear: {price}."
DECLINED_NOTHING = "No work is permitted yet; see what would clear it below."

NO_REMEDY = "The rulebook has no remedy that applies here."
METHOD = {
    "exact": "Ranked by what a lasting repair {takes} on average, every way to go on weighed.",
    "cost-over-probability": (
        "Ranked by cost over probability, which is the cheapest order here: each set of faults is "
        "mended by one piece of work."
    ),
    "heuristic": (
        "Ranked by a heuristic: there are too many ways to weigh each; a cheaper order may exist."
    ),
}
HEURISTIC_ONCE = "What it takes once clear is by a heuristic: a cheaper order may exist."
TAKES = {"cost": "costs", "time": "takes"}
BY_TIME = "Ranked by chance and time, because these prices are not known: {names}."
LABOUR_RATE = "the labour rate"
NEW_SHOP = "Prices go into the shop's own file: sootsayer plan --new-shop shop.yaml"
NO_HOLD = "At the lowest or the highest {measures} other work would come first: the order is close."
MEASURES = {"cost": "prices", "time": "times"}
LOOK = "Before any work: {does} ({minutes} min). That {gain}; it may put first: {first}."
OPENING = "{label}: if it were clear, that {gain}; to be settled: {checks} ({minutes} min)."
# What it gains, by whether it saves, and whether more is repaired.
SAVES = "saves {saving} on average"
SAVES_AND_MORE = "saves {saving} on average, and a lasting repair is {more} in 100 likelier"
COSTS_BUT_MORE = "costs {saving} more on average, but a lasting repair is {more} in 100 likelier"
OPENING_ONLY = "{label}: to be settled: {checks}."
SETTLE = "To be settled first, for {label} ({minutes} min):"
CHECK = "{does} ({minutes} min)."
THEN_CHECKS = "Then: {checks} (words and caution: sootsayer why {case} {check})."
OPENING_NO_CHECK = "no check of this rulebook settles it"

WORK = "{number}. {label}"
WORK_NAMED = "{number}. {label}, for what is less likely (chances, steps, cautions: --more)"
WORK_STATE = "{label} ({remedy})"
AGAIN = "{label} again"
WORK_AGAIN = "{number}. {label} again"
AFTER = "As long as it fails, then: {labels} (chances, steps, cautions: --more)."
ONLY_IF = (
    "Only if something is wrong after all would this come first: {labels} (chances, steps, "
    "cautions: --more)."
)
PARTS_TOO = "Permitted too, on a part: {labels} (steps and cautions: --more)."
PART_ONLY = "By itself it is no lasting repair."
ALONE = "Repairs it for good by itself: {confidence}."
CURES = "Cures {faults}."
CURE = "{label} in {share} of 100"
PRICE = "This work: {price}."
EXPECTED = "To a lasting repair, begun so: {expected} on average; still wrong then: {left}."
EXPECTED_ONCE = (
    "Once clear, to a lasting repair, begun so: {expected} on average; still wrong then: {left}."
)
MONEY = "{money} and {minutes}"
MONEY_DAYS = "{money}, {minutes} and {days} away"
TIME_ONLY = "{minutes}, price not known"
TIME_DAYS = "{minutes} and {days} away, price not known"
HIDES = "It would only cover up {label} ({confidence}): settle or mend that first."
MEND_FIRST = "Mend first, or it will not last: {label} ({confidence})."
LEAVES = "It leaves {label} ({confidence})."
RETURNS = "With that left it fills again ({label}) within {km}, by {rate}."
RETURNS_DAYS = (
    "With that left it fills again ({label}) within {km}, {days} as it is driven, by {rate}."
)
OWN_RATE = "this vehicle's own rate"
USUAL_RATE = "usual rates"

DOES = "{does}."
CAUTION = "Caution: {caution}"
CAUTION_OF = "Caution ({does}): {caution}"
STEP = "{number}) {does}"
STOP = "Stop when: {text}"
CONSUMES = "Used up: {text}"
OIL = "Oil afterwards: {text}"
RESETS = "Counters and learned values: {text}"
THEN = "Then: {text}"
VERIFY = "Verify with the same readings, like for like: {slots}."
VOIDS = "To be proven again afterwards: {channels}."
RECHECK_KM = "Look again after {km}."
RECHECK_DAYS = "Look again by {date}."
RECHECK_BOTH = "Look again after {km}, or by {date}, whichever comes first."
CUSTOMER = "Tell the customer: {text}"

WAITS = {
    "unknown": "Not known yet: {says}.",
    "unproven-instrument": "Rests on an instrument that is not proven: {says}.",
    "too-old": "Read too long ago: {says}.",
    "too-close": "Too close to its limit: {says}.",
}
BECAUSE = "Because: {reasons}."
LIST_CUT = "{parts}; and {count} more (--more)"
TECHNICIAN = "Nothing entered forbids this work; the technician decides."
MORE = "Every remedy and every reason: --more. The faults behind it: sootsayer judge {case}"
NUMBER_TO = "{lowest} to {highest} {unit}"
NUMBER_ONE = "{lowest} {unit}"
NUMBER_OPEN = "{lowest} {unit} or more"
