"""The first session on a case as it stands."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from sootsayer.casework.case_file import case_of
from sootsayer.casework.no_entries import parse_case
from sootsayer.commands.asking.rounds import newest_round
from sootsayer.commands.asking.sheet import sheet_slots
from sootsayer.commands.asking.state import Session, Setting
from sootsayer.judgement.judge import judge


def begun(
    setting: Setting, data: bytes, now: datetime, *, by: str = "tech-1", from_sheet: bool = False
) -> Session:
    """The session on the bytes of a case file. Raises documents.Refused."""
    case = case_of(parse_case(data, setting.file), setting.model)
    verdict = judge(case, setting.rulebook, now=now, shop=setting.shop)
    session = Session(setting, data, case, verdict, by, newest_round(case))
    return replace(session, queue=sheet_slots(session)) if from_sheet else session
