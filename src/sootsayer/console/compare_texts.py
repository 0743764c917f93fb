"""The sentences of before and after, each a whole template."""

from __future__ import annotations

HEADER = "{case}: {vehicle}, {from_round} and {to_round}"
DONE_BETWEEN = "Done in between: {works}."
WORK = "{work} (entry {entry})"
NO_WORK = "No work is entered between the two rounds."

KNOW = "What we know: each reading of {from_round} and {to_round}, like for like"
NOTHING_READ = "Neither round has a differential pressure with the engine running."
POINT = "Pressure {point}"
TWO_POINTS = "Pressure {point}, before {other}"
PAIR = "{before} → {now} mbar"
NUMBER = "{value} ± {band}"
DOWN = "Down by {by} ± {band} mbar"
UP = "Up by {by} ± {band} mbar"
TO_SHARE = "{change}, to {share} % ({low} to {high}): {real}."
NO_SHARE = "{change}: {real}."
REAL = "more than instruments and conditions explain"
NOISE = "no more than instruments and conditions explain"
BY_FLOW = "Brought to the flow and heat of {to_round}; shown were {before} and {after} mbar. {zero}"
RAW = "Compared as read, flow not known; shown were {before} and {after} mbar. {zero}"
ZERO = {
    (True, True): "The zero of each round is taken off.",
    (True, False): "One zero, of {from_round}, is taken off both.",
    (False, True): "One zero, of {to_round}, is taken off both.",
    (False, False): "No zero was read; a sound one is assumed.",
}
BAND = "± and the numbers in brackets: two standard deviations."

NOT_COMPARED = "Pressure {point}: not compared"
WAS = "{before} | {after} mbar"
UNLIKE = {
    "not-read-before": "It was not read in {from_round}.",
    "not-read-after": "It was not read in {to_round}.",
    "distrusted-before": "Its instrument was distrusted in {from_round}.",
    "distrusted-after": "Its instrument is distrusted in {to_round}.",
    "burning-before": "A regeneration was under way in {from_round}: its pressure says nothing.",
    "burning-after": "A regeneration was under way in {to_round}: its pressure says nothing.",
    "wet-before": "The filter was wet in {from_round}: a wet filter reads high.",
    "wet-after": "The filter is wet in {to_round}: a wet filter reads high.",
    "perhaps-wet": "Fluid went into the filter in between, and nobody said that it was dry again.",
    "other-egr": "EGR was in another state in each round.",
    "recirculation-unknown": (
        "It has low-pressure EGR, and how much that leads back is not known; nor is the flow then."
    ),
    "sensor-changed": "The sensor was worked on in between, without a zero in both rounds.",
    "other-instrument": "Two instruments, without a zero of both.",
    "cold-before": "Cold in {from_round}, hot in {to_round}: cold gas reads about half of hot.",
    "cold-after": "Not read hot in {to_round}: cold gas reads about half of hot.",
    "warmth-unknown-before": "How warm it was in {from_round} is not known.",
    "warmth-unknown-after": "How warm it was in {to_round} is not known.",
    "temperatures-apart": "The exhaust was not equally hot, and the flow is not known.",
    "other-speed": "The speeds differ, and the flow is not known.",
    "out-of-range": "A number lies outside what the physics holds for.",
}
FAILED = "Failed test: {tests}."
INSTEAD = "Read instead: {slots}."
TOO_LATE = (
    "{from_round} cannot be read again: judge {to_round} by itself, hot, with its zero and flow."
)

FIGURES = "Why: what the soot figures are worth"
FIGURE = {
    "soot-shown": "Modelled soot: a figure that is reckoned never shows a clean filter.",
    "soot-measured": "Soot from pressure: it comes from the same sensor, no second witness.",
    "soot-figure": (
        "Soot figure of unknown unit or scale: at best a model's trend. That the filter is clean "
        "does not follow."
    ),
}
FIGURE_PAIR = "{before} → {after} {unit}"
UNMOVED = {
    "soot-shown": (
        "It did not move while the pressure fell: a model falls only with a completed regeneration "
        "or a reset. That takes nothing from the fall of the pressure."
    ),
    "soot-measured": (
        "It did not move while the pressure fell: it follows after one hot run; if it does not, "
        "look for a fault of the sensor."
    ),
    "soot-figure": (
        "It did not move while the pressure fell: a model falls only with a completed regeneration "
        "or a reset."
    ),
}
WOULD_SHOW = (
    "What would show it: pressure at 2,500 rpm or on a pull, hot, with its zero and flow, through "
    "a proven instrument."
)

PICTURE = "Pressure against flow: 1 is {from_round}, 2 is {to_round}"
AXES = (
    "mbar, zero taken off, over m3/h at the viscosity of 200 C. Dots: a filter of that resistance"
)
LEVEL = "{letter}: from here {label}"
PICTURE_TITLE = "{case}: 1 is {from_round}, 2 is {to_round}"
PICTURE_CAPTION = (
    "Zero taken off. Bars: two standard deviations. Dashed: where each level begins. What it "
    "means, the page says."
)

NEXT = "What next"
HELPED = {
    "worked": (
        "It worked: the pressure is down to {share} %, more than chance explains, and the filter "
        "now reads normal through a proven instrument."
    ),
    "partly": (
        "Partly: the pressure is down to {share} %, more than chance explains, but {because}."
    ),
    "not-shown": "Not shown: {because}.",
    "worse": "Worse: the pressure is up to {share} %, more than chance explains.",
    "refused": "Refused: no reading of the two rounds may be compared.",
}
HELPED_NO_SHARE = {
    "partly": "Partly: the pressure is down, more than chance explains, but {because}.",
    "worse": "Worse: the pressure is up, more than chance explains.",
}
BECAUSE = {
    "still-restricted": "the filter is still {level}",
    "level-unknown": "how restricted it still is, is not known",
    "too-close": "what is left is too close to a limit to tell",
    "not-proven": "the instrument is not proven in {to_round}",
    "only-idle": "idle accuses a filter and never acquits it",
    "too-low": (
        "the pressure is now lower than a sound filter shows, as with a hose off or a broken core"
    ),
    "within-noise": "the change is no more than instruments and conditions explain",
    "points-disagree": "one reading fell and another rose",
    "nothing-compared": "nothing could be compared",
}
AND = "{first}; {second}"
RECHECK = "Read it again like this after about 50 km and after 300 to 500 km."
DO = {
    "level-unknown": (
        "Read it hot at 2,500 rpm with air, exhaust temperature and regeneration status."
    ),
    "too-close": "Read it again at 2,500 rpm or on a pull, with its flow.",
    "not-proven": "Prove the instrument in {to_round}: {tests}.",
    "not-proven-bare": "Prove the instrument in {to_round}: zero at rest, hoses, does it follow.",
    "only-idle": "Read it at a held 2,500 rpm or on a pull.",
    "too-low": "Look at the front hose and for soot at the tailpipe before anything else.",
    "points-disagree": (
        "Read all points again, one after the other; a false zero or an orifice does this."
    ),
}
REMAINS = "What remains"
ASH = "Ash: a filter full of it is {confidence}; no regeneration takes ash out."
ASH_UNKNOWN = "Ash: nothing says how much; no regeneration takes ash out."
CONDITION = "Condition: {label}, {confidence}."
CAUSE = "Cause: {label}, {confidence}. Until it is mended the soot comes back."
NO_CAUSE = "Cause: none found, {confidence} that there is none."
CAUSE_OPEN = "Cause: not known yet. Until it is found the soot comes back."
OIL_READ = "Oil: its level was read again in {to_round}."
OIL_OPEN = "Oil: read its level again; every regeneration can leave fuel in it."
