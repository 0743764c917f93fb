"""Which case is meant: a file, else one of the shop's by its id, else a demonstration case."""

from __future__ import annotations

import errno
from dataclasses import dataclass
from pathlib import Path

from sootsayer.catalogue import say
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import short

SUFFIX = ".yaml"
PEOPLE = "people"  # stands beside cases, and is none
HERE = "cases"  # where cases are begun, and so found by their ids, if there is no shop
MOST_NAMED = 8  # of the demonstration cases, in a message

NO_CASE = 'there is no case "{case}"'
NO_FILE = 'there is no file "{case}"'
DID_YOU_MEAN = 'did you mean "{near}"? Demonstration cases: {known}'
THESE_EXIST = "give the path of a case file, or one of the demonstration cases: {known}"
NONE_EXIST = "give the path of a case file; no demonstration cases are installed"
AND_MORE = "{named}, and {more} more"
CHECK_PATH = "check the path; demonstration cases are named by their id alone: {known}"


@dataclass(frozen=True, slots=True)
class CaseFile:
    """Where a case is; messages name it as `shown_as`. `demonstration`: it came with sootsayer."""

    path: Path
    shown_as: str
    demonstration: bool


def demonstration_cases(folder: Path) -> list[str]:
    """The ids of the cases in the folder, sorted; empty where there is none."""
    return sorted(file.stem for file in folder.glob("*" + SUFFIX) if file.stem != PEOPLE)


def find_case(case: str, demonstrations: Path, own: Path | None = None) -> CaseFile:
    """The file that CASE names; `own`: the shop's cases. Raises Stop with what exists.

    Without a shop, cases that were begun in the folder `cases` here are found by their ids too;
    a demonstration case of the same id goes before them.
    """
    known = demonstration_cases(demonstrations)
    if own is None and case not in known:
        own = Path(HERE)
    theirs = [] if own is None else demonstration_cases(own)
    path = Path(case)
    if case and "\0" not in case and _names_a_file(case, path, known + theirs):
        return CaseFile(path, case, demonstration=False)
    if own is not None and case in theirs:
        return CaseFile(own / (case + SUFFIX), str(own / (case + SUFFIX)), demonstration=False)
    if case in known:
        return CaseFile(demonstrations / (case + SUFFIX), case + SUFFIX, demonstration=True)
    beside = Path(case + SUFFIX)  # screens name a case by its id, and so is its file mostly called
    if case and "\0" not in case and beside.name == str(beside) and _names_a_file(case, beside, []):
        return CaseFile(beside, str(beside), demonstration=False)
    raise _not_found(case, list(dict.fromkeys(theirs + known)))


def _names_a_file(case: str, path: Path, known: list[str]) -> bool:
    """A folder by a demonstration case's name does not stand in its way."""
    try:
        return path.exists() and not (case in known and path.is_dir())
    except OSError as trouble:
        if trouble.errno == errno.ENAMETOOLONG:
            return False
        raise


def _not_found(case: str, known: list[str]) -> Stop:
    named, more = ", ".join(known[:MOST_NAMED]), len(known) - MOST_NAMED
    list_of_known = say(AND_MORE, named=named, more=more) if more > 0 else named
    is_path = "/" in case or "\\" in case or case.endswith((SUFFIX, ".yml"))
    what = say(NO_FILE if is_path else NO_CASE, case=short(case))
    if not known:
        return Stop(what, say(NONE_EXIST))
    from difflib import get_close_matches

    near = get_close_matches(case[:100], known, n=1, cutoff=0.6)
    if near and not is_path:
        return Stop(what, say(DID_YOU_MEAN, near=near[0], known=list_of_known))
    return Stop(what, say(CHECK_PATH if is_path else THESE_EXIST, known=list_of_known))
