"""The sentences of the page on a live-data log."""

from __future__ import annotations

from sootsayer.casework.logs.model import RAISED_IDLE

HEAD = ("{file}: {count} row over {length}", "{file}: {count} rows over {length}")
BEGUN = "Recorded from {begun} by its own clock; SHA-256 {digest}"
NOT_DATED = "No date in it; SHA-256 {digest}"
COLUMNS = "Which column was taken for what"
COLUMN = '{role}: "{name}"'
COLUMN_UNIT = '{role}: "{name}" in {unit}'
COLUMN_WORDS = '{role}: "{name}", words of SAE J1979 parameter {pid}, in {unit}'
SCORE = "score {score}"
SAID = "as you said"
UNUSED = "Not used: {names}"
UNUSED_MORE = "Not used: {names}; and {count} more"
CORRECT = 'To correct one: --column {role}="Name of the column"'
WINDOWS = "Steady windows"
NO_WINDOWS = (
    "None: nothing in this log is held long enough. Stand still with the engine stopped, idle for "
    "a minute, hold 2,500 rpm for a minute."
)
WINDOW = "{point}, {length}, from {begins}"
BURNING = "a regeneration under way, {point}, {length}, from {begins}"
CHANNEL = "{role} {mean} {unit}"
SPREAD = "spread {spread}, drift {drift}, n {n}"
APART = "Kept apart: {why}"
DOUBT = "Mind: {doubt}"
FLOW = "Differential pressure against flow"
FLOW_AXES = "mbar up, m3/h at the viscosity of 200 C to the right; {marks}"
MARKS = "numbers are windows, . the fit, a letter where a level begins"
NO_FIT = "No picture: {why}"
NO_FLOW = "no window has differential pressure and flow both"
BAND = "{letter}: {label} from {slope} mbar per m3/h"
FIT = "Fit: {resistance} ± {sd} mbar per m3/h at 200 C, zero {zero} mbar"
FIT_NO_ZERO = "Fit: {resistance} ± {sd} mbar per m3/h at 200 C; no point tells the zero"
REMARK = "Mind: {remark}"
NEXT = "What next"
TAKE = "To enter windows as readings of round {round}: sootsayer readings {file} {case} --take 1,2"
NAME_CASE = "To enter windows as readings, name the case: sootsayer readings {file} CASE --take 1,2"
GIVES = "gives {facts}"
GIVES_NOTHING = "no rule in force asks for a reading in this state"

POINTS = {
    "rest": "at rest",
    "idle": "at idle",
    "cold-idle": "at idle, cold",
    RAISED_IDLE: "at raised idle",
    "1500": "held at 1,500 rpm",
    "2000": "held at 2,000 rpm",
    "2500": "held at 2,500 rpm",
    "3000": "held at 3,000 rpm",
    "pull": "on a firm pull",
    "road": "held at 90 km/h",
}
WRITTEN = (
    "{count} entry added to {file}, round {round}: windows {numbers}",
    "{count} entries added to {file}, round {round}: windows {numbers}",
)
