"""Whole templates of what the questionnaire says."""

from __future__ import annotations

# The question.
STAGE = {"counter": "at the counter", "scan": "with the scan tool", "hands-on": "hands on"}
GROUP = "{says}:"
CHECK = "{does}"
CHECK_RIGHT = "{stage}, {minutes} min"
CAUTION = "Caution: {caution}"
TOOLS = "Needs: {tools}"
ASKED = "{asks}"
LABELLED = "{label}"
POINT = "Read {point}: {conditions}."
CHOICE = "{number} {choice}"
PROMPT_NUMBER = "{slot} [{unit}] > "
PROMPT_COUNT = "{slot} [number] > "
PROMPT_CHOICE = "{slot} > "
PROMPT_YES_NO = "{slot} [yes, no] > "
PROMPT_CODES = "codes > "
PROMPT_FREE = "fact or command > "
PROMPT_WAITING = "  > "
PROMPT_CHANGE = "{slot}, was {typed} > "
CODES_DOES = "Read all trouble codes and freeze frames, and write them down before clearing any"
CODES_HOW = "Type: codes P2463 P0401 complete   or: codes none complete   or: codes P2463 partly"
CODES_CAUTION = (
    "Clearing codes can wipe learned values and regeneration counters; clear nothing yet"
)

# What became of an answer.
WRITTEN = "{slot} {typed}: written, entry {entry}."
WRITTEN_BACK = "{slot} {typed} ({back}): written, entry {entry}."
WRITTEN_ABSENT = "{slot} {absence}: written, entry {entry}."
WRITTEN_ABSENT_WHY = "{slot} {absence} ({why}): written, entry {entry}."
WRITTEN_CODES = "Trouble codes, list read {how}: {codes}; written, entry {entry}."
WRITTEN_NOTE = "Note written, entry {entry}."
WRITTEN_WORK = "Work {work} written, entry {entry}."
CORRECTED = "{slot} {typed} in place of {was}: entry {entry} corrects entry {root}."
TAKEN_BACK = "{slot} {was} taken back: entry {entry} corrects entry {root}."
PUT_OFF = "{label}: later."
BECAME = "that is {number} {unit}"
UNIT_TAKEN = "taken as {unit}"
NONE = "none"
COMPLETE = "completely"
PARTLY = "partly"
UNREAD = "not at all"
NOTE_CANNOT = "{slot} cannot: {why}"
NOTE_IMPLAUSIBLE = "{slot} {typed} was asked again ({why}) and confirmed"

# Where it leads.
LEADS = "{kind}: {label} {sure} {way}"
NO_LEADS = "{kind}: none yet {sure} {way}"
KIND = {"measurement": "Instrument", "condition": "Filter", "cause": "Cause"}
UP, DOWN, SAME, NEW = "up", "down", "=", "(was {label})"
NEW_NONE = "(was none)"
NOW = "{leads}"
FORBIDDEN = "Forbidden now: {does}. {because}"
FORBIDDEN_BARE = "Forbidden now: {does}."
CLEAR = "Nothing entered forbids it any more: {does}. The technician decides."
OPEN_AGAIN = "Not yet clear again: {does}."
DRIVE = "May it be driven? {answer}"
DRIVE_BECAUSE = "May it be driven? {answer} {because}"
CHANGED = "What this changed:"
CHANGED_LEAD = "{kind}: {before} -> {after}"
CHANGED_NOTHING = "What this changed: no leading fault and no permission."
SURE = "{label} {sure}"
SURE_NONE = "none yet {sure}"

# Stopping.
DANGER = "Stop here. {answer} {because}"
DANGER_NEXT = "Type go on to ask all the same, or done for the verdict."
ENOUGH = (
    "Nothing open is worth its minutes any more. The best that is left would tell {gain} bit in "
    "{minutes} min: {does}."
)
WORK_WAITS = "Before work some answers are still needed: {actions}. They are asked by: go {first}"
ENOUGH_NEXT = "Type go on to ask all the same, or done for the verdict."
ALL_ASKED = "Everything that can be asked with the tools at hand has been asked."
ALL_ASKED_NEXT = "Type done for the verdict, or enter any fact."

# The frame.
OPENED = "Case {case}: {vehicle}, {entries}."
ENTRIES = ("1 entry", "{count} entries")
NO_ENTRIES = "no entry yet"
PROGRESS = "{spent} min of checks done; at most {left} min more are worth it."
PROGRESS_DONE = "{spent} min of checks done."
HINT = "Answer, or enter any fact. ? explains the question, ?? lists what can be typed."
TORN = "The last line of the file had broken off and was left out; the next answer moves it aside."
KEPT = "The case is kept. To go on: sootsayer ask {case}"
UNPROVEN = "Not proven: {labels}."
OPEN_INTERLOCKS = "Not known, for driving: {says}."
NEXT = "Next: sootsayer {command}"
GREW = (
    "The case grew meanwhile: 1 entry by another hand. It was read again.",
    "The case grew meanwhile: {count} entries by another hand. It was read again.",
)
NOT_WRITTEN = "Not written: {why}. Nothing of this answer is kept; copy it:"
NOT_WRITTEN_LINE = "{line}"
NOT_WRITTEN_NEXT = "Put that right and answer again, or append the line to {file} yourself."
TAKEN_OVER = "{who} has taken over this case. Here it can only be read now; type show, or done."
READ_ONLY = "This session only reads: the answer was not written."

# What was typed and is none of it.
NOT_YES_NO = '{label}: "{text}" is neither yes nor no'
NOT_YES_NO_BARE = '"{text}" is neither yes nor no'
NOT_YES_NO_NEXT = "type yes or no, or: do not know, cannot, later, not fitted"
NO_CHOICE = '{label}: "{text}" is none of its words'
NO_CHOICE_NEXT = "type one of: {choices}; or its number; or: do not know, cannot, later"
SEVERAL_MEANT = '"{text}" may mean several things'
SEVERAL_MEANT_NEXT = "name one: {names}"
NO_FACT = '"{text}" names nothing that can be entered'
NO_FACT_NEXT = "type ?? for what can be typed, or: facts, for every name"
DID_YOU_MEAN = "did you mean: {near}?"
OR_FACT = "or the fact: {near}?"
NO_VALUE = "{label}: no value was typed"
NO_VALUE_NEXT = "type the value behind it, such as: {id} 24"
NOT_AT_POINT = "{label} is not read at {point}"
NOT_AT_POINT_NEXT = "it is read as: {known}"
TOO_LONG = "this line is too long"
TOO_LONG_NEXT = "enter a few facts at a time"
WHICH_POINT = "{label} {typed}: read at which point? {points}"
NOT_A_POINT = '"{text}" is none of its points'
NOTHING_ASKED = "no question is open"
NOTHING_ASKED_NEXT = "name the fact, such as: dp@idle 24 mbar; or type go on"
SLIP_OR_AGAIN = (
    "{slot} stands as {typed} (entry {entry}). Is the new value a slip put right, or was it "
    "read again? Type slip or again."
)
SLIP_OR_AGAIN_NEXT = "type slip or again, or: never mind"
NEVER_MIND = "Nothing was written."
DOUBT = (
    "{slot} {typed}: possible, but hardly true. {why} Is it really so? "
    "Type yes, or the right value."
)
DOUBT_PHYSICS = (
    "With what else was read, {label} comes out as {value} {unit}; "
    "from {low} to {high} would be believed."
)
DOUBT_PRESSURE = (
    "At the flow of this engine at this point that is about {times} times what a full filter shows."
)
DOUBT_AIR = "An engine of this size draws about {drawn} kg/h at this point, unboosted."
DOUBT_UNIT = "{slot} reads {typed}, {times} times as much or as little: another unit?"
DOUBT_END = "It is at the very end of what can be, {low} to {high} {unit}."
NO_CODE = '"{text}" is no trouble code'
NO_CODE_NEXT = "type them like P2463, with spaces between"
NO_CODE_NEXT_LETTER = "with its letter, such as {code}"
CODE_NEXT, CODE_NEXT_LETTER = NO_CODE_NEXT, NO_CODE_NEXT_LETTER
NO_CODES = "no code was named"
NO_CODES_NEXT = "type: codes P2463 P0401 complete, or: codes none complete"
NO_WARM_UPS = '"{text}" is no number of warm-ups'
NO_WARM_UPS_NEXT = "type a whole number, or: do not know"
NO_DISTANCE = '"{text}" is no distance driven'
NO_DISTANCE_NEXT = "type it like 420 km"
ASK_COMPLETE = "Was all of the list read, every control unit and every kind? Type yes or partly."
ASK_MONITORS = "Have all monitors run since codes were last cleared? Type yes, no or do not know."
ASK_DISTANCE = "How far was it driven since they were last cleared? Type km, or do not know."
ASK_WARM_UPS = "How many warm-ups since then? Type a number, or do not know."
NO_WORK = 'there is no work "{text}"'
NO_WORK_NEXT = "name a remedy: {known}"
NO_THING = 'nothing in this rulebook is called "{text}"'
NO_THING_NEXT = "type: facts, for every name; or: open, for the checks"
NOT_ANSWERED = "{slot} has no answer to change"
NOT_ANSWERED_NEXT = "enter it: {slot} and its value"
NO_BACK = "there is no earlier answer to go back to"
NO_BACK_NEXT = "type answers, to see all of them, and change NAME VALUE"
BAD_ID = '"{text}" is not in lower case with dashes'
BAD_ID_NEXT = "type it like {example}"
NO_NOTE_NEXT = "type: note and what is to be remembered"
ROUND_ASKED = (
    "Readings from here on belong to a new round of this case. Its name? Enter alone: {name}"
)
NO_NAME = "that is an answer, and no name of a round"
ROUND_OR_ENTER = "type a name like after-clean; Enter alone takes {name}"
ROUND_BEGUN = "Readings go into round {round} from here on."
ROUND_IS = "Readings go into round {round}."
BY_IS = "Answers are entered by {by}."
VERIFY = "To be read again after this work, like for like: {slots}."

WAITS = (
    "{does}: it waits for {count} answer, asked now.",
    "{does}: it waits for {count} answers, asked now one after another.",
)
WAITS_NOT = "{does}: {state}."

# Help.
HELP = (
    ("24 | 24 hPa | 0,9 kPa", "a number; without a unit it takes the one last used here"),
    ("gradual | 2 | yes", "a word, its number in the list, yes or no"),
    ("do not know", "the answer is not known; it is not asked again"),
    ("cannot: no tool", "it cannot be had (no tool, no access, refused); not asked again"),
    ("later", "asked again when the rest is done"),
    ("not fitted", "this vehicle does not have it"),
    ("dp 18 hPa at idle; oil level low", "any facts at any time, several on a line"),
    ("gauge: dp@2500 59 mbar", "whose reading it is: gauge, scan, technician, customer"),
    ("codes P2463 complete", "the trouble codes, read completely or partly"),
    ("change dp@idle 34 hPa", "put an answer right; forget dp@idle takes it back"),
    ("back", "the last answer again; go NAME jumps to a fact or check"),
    ("note TEXT", "something to be remembered"),
    ("work zero-sensor", "work that was done; round NAME begins a new round"),
    ("? | ? NAME", "what to do, why it asks, what each answer would change"),
    ("show | more | why NAME", "the verdict, all of it, the reasons of one thing"),
    ("answers | open | facts", "what was answered, what is open, every name"),
    ("facts lamp", "every name that has to do with a lamp"),
    ("go parked-regeneration", "asks what an action still waits for"),
    ("sheet | enter sheet", "the walk sheet; its answers one after another"),
    ("go on | done", "ask all the same; end with the verdict"),
)
# Of what is typed, the single words: they are shown as they are typed in the language in force.
HELP_WORD = {"later": "later", "back": "back"}
HELP_LINE = "{typed}"
HELP_MEANS = "{means}"
BECAUSE_DRIVING = "Why: the permission to drive waits for it ({says})."
BECAUSE_TELLS = "Why: it tells of: {tells}; expected to settle {gain} bit."
BECAUSE_WITH = "It tells that only together with: {checks}."
WOULD_CHANGE = "What each answer would change:"
WOULD_TOGETHER = "By itself it changes little; together with what belongs to it:"
FAMILY_LEVEL = "{family}: {level}"
ANY_NUMBER = "any number"
BELOW = "below {end} {unit}"
ABOVE = "from {start} {unit}"
BETWEEN = "{start} to {end} {unit}"
WOULD_LEAD = "{label} leads, {sure}"
WOULD_MOVE = "{label} {way} to {sure}"
WOULD_NONE = "{kind}: none leads, {sure}"
WOULD_BLOCK = "forbids: {does}"
WOULD_CLEAR = "nothing entered would forbid: {does}"
WOULD = "{answer}: {change}"
NO_CHANGE = "by itself hardly anything"
ANSWERS = "Answers of round {round} and of the account:"
ANSWER = "{slot} {typed} ({source}, entry {entry})"
NO_ANSWERS = "Nothing has been answered yet."
OPEN = "Open checks, the one worth most first:"
OPEN_ONE = "{does}"
OPEN_RIGHT = "{minutes} min"
NOTHING_OPEN = "No check is open."
NO_FACTS = 'No name of a fact has "{word}" in it. All of them: facts'
FACTS = "Everything that can be entered, by name:"
FACT = "{slots}: {label}"

# The sheet.
SHEET = "Walk sheet, case {case}: {vehicle}. Date ________"
SHEET_HOW = (
    "Write as shown, with the unit. Not to be had: write why. Enter it: sootsayer ask CASE, "
    "then enter sheet."
)
SHEET_CHECK = "{does}"
SHEET_LEFT = (
    "1 more open check found no room here: open lists it.",
    "{count} more open checks found no room here: open lists them.",
)
LEG = {
    "ask": "Ask and look",
    "cold": "Cold, before the engine is started",
    "key on": "Key on, engine stopped",
    "warm": "Engine warm, idling",
    "held speed": "Held speed",
    "hands on": "Hands on",
}
SHEET_NUMBER = "{slot} {blank} {unit}"
SHEET_TICK = "[ ] {choice}"
SHEET_WORD = "{slot}  {choices}"
SHEET_CODES = "codes  [ ] all read  [ ] partly  ______ ______ ______ ______ ______ ______"

NOTHING_TYPED = "Nothing was typed. Not known: dk. Put it off: later. End: done."

# A new case.
NEW_HEAD = "A new case. Enter alone or - leaves out what is not known."
NEW_LABEL = "What is it, without make, plate or name? For example: 2.0 L panel van"
NEW_ENGINE = "Displacement of the engine, in litres?"
NEW_CYLINDERS = "How many cylinders?"
NEW_FILTER = "Volume of the filter, in litres?"
NEW_ODOMETER = "Odometer, in km?"
NEW_FITTED = "Is this fitted: {name}? Yes or no."
NEW_FITTED_ASKS = "{asks} Yes or no."
NEW_PROMPT = "{key} > "
NO_LABEL = "a case needs to say what vehicle it is"
NO_LABEL_NEXT = "type it like: 2.0 L panel van"
NO_LITRES = '"{text}" is no volume here'
NO_LITRES_NEXT = "type litres, more than 0 and at most {most}"
NO_CYLINDERS = '"{text}" is no number of cylinders'
NO_CYLINDERS_NEXT = "type a whole number from 1 to 16"
BEGUN = "Case {case} begun: {file}"

# Which case.
OPEN_CASES = "Open cases in {folder}:"
OPEN_CASE = "{number}. {case}: {label}, {entries}"
OPEN_CASE_LAST = "{number}. {case}: {label}, {entries}, last {time}"
NO_OPEN_CASES = "No open case in {folder}."
UNREADABLE = "{file} cannot be read as a case: sootsayer judge {file} says why."
CHOOSE_NEW = "Type new for a new case; Enter alone leaves."
CHOOSE = "Its number or id, or new for a new case; Enter alone leaves."
NO_SUCH_CHOICE = '"{text}" is none of these'
NO_SUCH_CHOICE_NEXT = "type a number, an id, or new"
COPY_ASK = (
    "{case} is a demonstration case: nothing is ever written to it. "
    "Copy it to {file} and ask there? Type yes or no."
)
COPIED = "Copied to {file}."
BUSY = "{who} has this case open since {since}. Only one can write."
BUSY_ASK = "Type read to look only, take to take it over, Enter alone to leave."
TAKEN = "Taken over. {who} is told at the next answer, which is not written there."
READS = "This session reads only: show, more, why, open, sheet."
CANNOT_HOLD = (
    "Nothing can be written here: {why}. What you answer stays on the screen, to be copied."
)
