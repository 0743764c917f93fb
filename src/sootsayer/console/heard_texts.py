"""What can be typed, each thing with its ways, between bars.

A translation has its own ways, as many as it wants; the English ones are understood beside them in
every language. Accents and capitals never matter. The bars also keep these texts apart from words
that are shown.
"""

YES = "| yes | y | true |"
NO = "| no | n | false |"
DO_NOT_KNOW = "| do not know | don't know | dont know | not known | unknown | dk |"
NOT_FITTED = "| not fitted |"
CANNOT = "| cannot | can not | can't | cant |"
BECAUSE = "| because |"
WHYS = "| no tool | no access | refused |"
LATER = "| later | l |"
NOTHING = "| - | do not know | don't know | dk | unknown | not known |"

# Asked about an earlier line.
SLIP = "| slip | s | correct | correction |"
AGAIN = "| again | a | new | read again |"
NEVER_MIND = "| never mind | nevermind | cancel |"
ENDS = "| done | quit | exit |"

# Naming a fact. SMALL: words that tell no signal from another; AT stands before a point.
AT = "| at | @ |"
RPM = "| rpm |"
SMALL = (
    "| the | a | an | of | over | at | on | in | to | from | by | for | is | it | its | be | "
    "with | has | was | when | and | or | that |"
)
SOURCE = {
    "scan": "| scan |",
    "gauge": "| gauge |",
    "technician": "| technician |",
    "customer": "| customer |",
}

# Commands of the questionnaire.
HELP_ALL = "| ?? | help |"
BACK = "| back | b |"
BACK_TO = "| back |"
SHOW = "| show |"
MORE = "| more |"
ANSWERS = "| answers |"
OPEN = "| open |"
FACTS = "| facts |"
SHEET = "| sheet |"
ENTER_SHEET = "| enter sheet |"
ROUND = "| round |"
GO_ON = "| go on |"
ON = "| on |"
DONE = "| done | quit | stop | q | exit |"
GO = "| go |"
CHANGE = "| change |"
FORGET = "| forget |"
NOTE = "| note |"
CODES = "| codes |"
WORK = "| work |"
BY = "| by |"
ALL = "| all |"
ALL_WINDOWS = "| all |"
WHY = "| why |"
AGAIN_FACT = "| again |"

# A list of trouble codes.
COMPLETE = "| complete | completely | all | whole |"
PARTIAL = "| partial | partly | part |"
NO_CODES = "| none | empty | no |"
FILL = "| read | list | codes | and | the | since | clearing | monitors | monitor | have |"
MONITORS = "| monitors | monitor |"
HAVE = "| have |"
RUN = "| run |"
NOT_RUN = "| not run |"
MONITORS_UNKNOWN = "| unknown |"
WARM_UPS = "| warm-ups | warm-up | warm ups | warm up | warmups | warmup |"
MILES = "| mi | miles |"

# Choosing a case.
NEW = "| new |"
READ = "| read |"
TAKE = "| take | take over |"

# Teaching a rule. DULL: words that say nothing in an id.
DULL = "| a | an | the | is | are | of | at | in | on | there | and | to | it |"
NONE = "| none |"
STOP = "| stop |"
SHOW_TEXT = "| show |"
WORDS_OF = {
    "always": "| always |",
    "usually": "| usually |",
    "often": "| often |",
    "sometimes": "| sometimes |",
    "rarely": "| rarely |",
    "never": "| never |",
}
AT_LEAST = "| at least | from | >= | not below |"
AT_MOST = "| at most | up to | <= | not above |"
ABOVE = "| above | over | more than | higher than | > |"
BELOW = "| below | under | less than | lower than | < |"
OUTSIDE = "| outside | not between |"
BETWEEN = "| between |"
JOINS_TWO = "| and | to | or |"
TO = "| to |"
OF = "| of | out of | in |"
PER_CENT = "| % | percent | per cent |"
