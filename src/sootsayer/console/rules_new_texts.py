"""What `rules new` asks and says, each a whole template."""

from __future__ import annotations

HELLO = (
    "Teach it something that you have seen. At most nine questions; nothing is written before "
    "the last. Enter takes what stands in [ ]; ? explains; back goes one back; stop leaves."
)
# Answers that Enter may stand for, as they are shown; others are ids.
DEFAULTS = {
    "none": "none",
    "yes": "yes",
    "no": "no",
    "rarely": "rarely",
}
DEFAULT = "   [{default}]"
PROMPT = "> "
NOTHING_WRITTEN = "Nothing was written."
LEFT = "Left. Nothing was written."

SEES = "What do you see? One sentence, as you would tell a colleague."
SEES_HELP = (
    "It becomes the finding: what is so, not what it means. Such as: "
    "There is soot at the clamp of the front hose."
)
SEES_SHORT = "a sentence has at least two words"
SEES_SHORT_NEXT = "write what you see, such as: There is soot at the front clamp"
SEES_LONG = "that is longer than {most} characters"
SEES_LONG_NEXT = "leave out what it means; that comes later"

FACT = "How do you know it: which reading, look or answer? Some words of it, or new."
FACT_HELP = (
    "If the program knows the reading already, a word of its name finds it (rest pressure), a "
    "trouble code is typed as it is (P2463). Write new for what it never asked before."
)
FACT_FOUND = "These are near:"
FACT_LINE = "{number}  {label} ({slot})"
FACT_PICK = "Which of them? Its number, other words, or new."
FACT_NONE = 'nothing is called anything like "{words}"'
FACT_NONE_NEXT = "try one other word of it, or write new"
FACT_NUMBER = "there is no number {number} in the list"
FACT_NUMBER_NEXT = "write a number from 1 to {most}, other words, or new"
FACT_TAKEN = "Taken: {label} ({slot})."
FACT_READERS = "Rules that look at it already: {rules}."

NEW_KIND = "What does one answer: 1 yes or no, 2 one of some words, 3 a number?"
NEW_KIND_HELP = "Yes or no is the surest: two people then see the same."
NEW_KIND_NEXT = "write 1 for yes or no, 2 for one of some words, 3 for a number"
NEW_WORDS = "Which words? With commas between, the harmless one first."
NEW_WORDS_HELP = "Such as: none, a little, a lot."
NEW_WORDS_FEW = "there must be two words at least, each once"
NEW_WORDS_NEXT = "write them with commas between: none, a little, a lot"
NEW_UNIT = "A number of what? Its unit and how far it can go: 0 to 200 mbar."
NEW_UNIT_HELP = "Without a unit: 0 to 20. Readings outside are refused as slips."
NEW_UNIT_NOT = 'that is no range: "{typed}"'
NEW_UNIT_NEXT = "write the lowest, the word to, the highest, and the unit: 0 to 200 mbar"
NEW_NAME = "What is asked, in a few words? It stands on the sheet and in lists."
NEW_NAME_HELP = "Such as: Soot at the clamp of the front hose."
NEW_DOES = "What does one do to know it? One sentence, as on a job card."
NEW_DOES_HELP = "Such as: Look at the clamp of the front hose with a lamp."
NEW_WHERE = "Where: 1 at the counter, 2 with the scan tool, 3 hands on?"
NEW_WHERE_HELP = "It decides when it is proposed: counter first, hands on last."
NEW_WHERE_NEXT = "write 1 for counter, 2 for scan tool, 3 for hands on"
NEW_MINUTES = "How many minutes does it take?"
NEW_MINUTES_HELP = "From starting it to knowing it, with what it takes to get there."
NEW_MINUTES_NOT = "that is no number of minutes from 0.5 to 600"
NEW_MINUTES_NEXT = "write a number, such as 5"
NEW_CAUTION = "Can it hurt anybody? Write the caution, or none."
NEW_CAUTION_HELP = (
    "Hot exhaust (300 to 700 C), moving belts, fumes, a vehicle on stands, hot oil or fuel. "
    "It is shown each time that the check is proposed."
)
NEW_CAUTION_HANDS = "What is done hands on at an exhaust or engine can hurt: none is not enough"
NEW_CAUTION_HANDS_NEXT = "write a caution, such as: Let the exhaust cool first; gloves"

VALUE_NUMBER = "From what value does it count? Such as: above {example}, or between 3 and 6."
VALUE_NUMBER_HELP = (
    "Write above, at least, below or at most and a number, between two numbers, or outside two "
    "numbers. Without a unit it is in {unit}. It can lie from {low} to {high}."
)
VALUE_NOT = 'that says no number to compare with: "{typed}"'
VALUE_NOT_NEXT = "write above, at least, below or at most, then a number: above {example}"
VALUE_RANGE = "{value} lies outside what it can be at all ({low} to {high} {unit})"
VALUE_RANGE_NEXT = "write a number from {low} to {high}"
VALUE_ALWAYS = "it would be so of everything that can be read, or of nothing"
VALUE_ALWAYS_NEXT = "write a number that divides them"
VALUE_ORDER = "the first number must be the lower one"
VALUE_WORDS = "Which answer means it? {words}"
VALUE_WORDS_HELP = "One of them, or some with commas between; not all of them."
VALUE_WORDS_NOT = "that is none of: {words}"
VALUE_WORDS_NEXT = "write one or some of them, with commas between, not all"
VALUE_YES_NO = "Which answer means it: yes or no?"
VALUE_YES_NO_HELP = "The finding is true when this was answered."

FAULT = "Which fault is it seen with? Some words of it."
FAULT_MORE = "Another fault that it is seen with? Some words, or none."
FAULT_HELP = (
    "Name each fault with which it is seen more often than without; a missing one makes the "
    "others too sure. Write new for a fault that the program does not know."
)
FAULT_NONE = 'no fault is called anything like "{words}"'
FAULT_NONE_NEXT = "try one other word of it (hose, soot, sensor), or write new"
FAULT_LINE = "{number}  {label} ({fault})"
FAULT_PICK = "Which of them? Its number, other words, or new."
FAULT_TWICE = '"{fault}" is named already'
FAULT_TWICE_NEXT = "name another, or write none"
NEW_FAULT = "What is the fault called? A few words."
NEW_FAULT_HELP = "Such as: Front hose rubs on the shield."
NEW_FAULT_KIND = "What is it: 1 an instrument that lies, 2 a state of the filter, 3 a cause?"
NEW_FAULT_KIND_HELP = "A cause is why the filter got so; a state is what is wrong with it now."
THREE_NEXT = "write 1, 2 or 3"
NEW_FAULT_PRIOR = "How often do vehicles with a filter complaint have it? A word or 3 of 100."
OFTEN = "How often is it seen with that fault alone? {words}, or 7 of 9."
OFTEN_HELP = (
    "always 97, usually 85, often 60, sometimes 30, rarely 8, never 1 of 100. Or counted: 7 of "
    "9; or 70 %."
)
OFTEN_NOT = '"{typed}" does not say how often'
OFTEN_NOT_NEXT = "write always, usually, often, sometimes, rarely, never, 7 of 9 or 70 %"
OFTEN_DOUBT = "{typed} leaves no room for doubt"
OFTEN_DOUBT_NEXT = "write one more on the other side (9 of 10), always, or never"
OTHERWISE = "How often is it seen when none of these faults is there? A word, or 1 of 20."
OTHERWISE_HELP = (
    "In vehicles that came in with a filter complaint and have none of the faults that you "
    "named. If you do not know: rarely."
)
OTHERWISE_MORE = "it is then no rarer than with {fault} ({often})"
OTHERWISE_MORE_NEXT = "write less than that, or go back"

KNOW = "How do you know: 1 our own cases, 2 common practice, 3 memory, 4 a publication?"
KNOW_HELP = "It stands beside each number, so that a later reader knows what it is worth."
KNOW_NEXT = "write 1, 2, 3 or 4"
SOURCE = "Which publication? Title and page."
SOURCE_HELP = "So that somebody else can look it up."
SOURCE_CASES = "How many cases, and of when? Such as: nine cases of 2031."
SOURCE_CASES_HELP = "So that the number can be counted again."

SOURCE_NAMED = "cases {cases}"

CASES = "Which cases of yours show it? Their ids with commas, or none."
CASES_HELP = "Their readings become proofs. There are: {cases}."
CASES_NOT = 'there is no case "{case}" here'
CASES_NOT_NEXT = "write ids of {folder}, or none"
CASES_SILENT = "{case} has no such reading ({slot})"
CASES_SILENT_NEXT = "leave it out, or write none"
CASES_SAY = "{case}: {value}, so the rule says {truth}."
CASES_ALL_NO = "By these cases the rule would not be so; look at its value again (back)."

APART = "The same reading decides {rule} too ({says}). Why does yours count apart?"
APART_HELP = (
    "One observation counts once. If yours sees the same thing, go back: it belongs to that "
    "rule. If it sees something else in the reading, say what."
)

NAME = "Its name, for other rules and for you."
NAME_HELP = "Lower-case words with hyphens; it begins with shop- and is final."
NAME_NOT = '"{name}" cannot be a name'
NAME_NOT_NEXT = "write lower-case words joined by hyphens, such as shop-soot-at-clamp"
NAME_TAKEN = '"{name}" is taken'
NAME_TAKEN_NEXT = "write another name"

WHERE_SHOP = "You have no shop's folder yet, where your rules and cases are kept. Make one where?"
WHERE_SHOP_HELP = "A folder that upgrades never touch; shop.yaml, packs and cases stand in it."
SHOP_NOT = "{folder} cannot be used: {why}"
SHOP_NOT_NEXT = "name another folder"

TRIED = "Proofs made: {count}. They come out, and nothing contradicts the rules in force."
TRIED_NOT = "As it stands it does not fit the rules in force:"
TRIED_NEXT = "Go back and change it."
BESIDE = "It differs from {rule}: with {case} only one of them is so."
SHALL = "Write this to {file}: yes, no, or show the file first?"
SHALL_HELP = "No goes back one question; stop leaves without writing."
SHALL_NEXT = "write yes, no or show"
WRITTEN = "Written: {file}"
CHECKED = "Checked with the rules in force: {errors}, {warnings}."
REPLAYED = (
    "It would have changed {changed} of {count} verdict.",
    "It would have changed {changed} of {count} verdicts.",
)
REPLAYED_NONE = "There is no closed case in {folder} yet to try it on."
REPLAYED_BROKEN = (
    "{count} file there could not be read as a case.",
    "{count} files there could not be read as cases.",
)
CHANGED_LEAD = "{case}: of the kind {kind} {after} leads instead of {before}{judged}."
CHANGED_DRIVE = "{case}: driving on: {after} instead of {before}."
CHANGED_PERMIT = "{case}: {action}: {after} instead of {before}."
BETTER, WORSE = ", as was confirmed", ", against what was confirmed"
CHANGED_MORE = ("and {count} more change", "and {count} more changes")
NEXT = "Its page: sootsayer rules show {name}{shop}"
NEXT_CHECK = "After a change of the file, try it again: sootsayer rules check{shop}"
NEXT_BACKTEST = "More on closed cases, with intervals: sootsayer rules backtest {file}{shop}"
SHOP_OPTION = " --shop {folder}"
TOOK = "From the first question to a proven rule: {minutes}."
MINUTES = ("{count} minute", "{count} minutes")
UNDER_ONE = "under a minute"

NOBODY = "there is no terminal to ask at and no file of answers"
NOBODY_NEXT = "run it in a terminal, or give --answers FILE"
NOT_TAKEN = "{place}: this answer was not taken: {what}"
NOT_TAKEN_NEXT = "nothing was written; {instead}"
ENDED = "the answers end before the last question: {question}"
ENDED_NEXT = "nothing was written; add the answers that are missing"
CANNOT = "{file} cannot be written: {why}"
CANNOT_NEXT = "check the folder and its rights; the rule stands above, to be copied"
