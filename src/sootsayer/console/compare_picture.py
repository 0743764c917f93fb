"""Before and after as one self-contained SVG: no script, no reference to anything else."""

from __future__ import annotations

from sootsayer.casework.logs.flow import FlowPicture
from sootsayer.catalogue import say
from sootsayer.console import compare_texts as t
from sootsayer.console.readings_picture import document, flow_part
from sootsayer.console.vocabulary import round_said


def compare_picture(
    flow: FlowPicture, case: str, from_round: str, to_round: str, *, brief: bool = False
) -> str:
    """The SVG, whole; `brief`: to stand in a small place with its words beside it."""
    rounds = {"from_round": round_said(from_round), "to_round": round_said(to_round)}
    title = say(t.PICTURE_TITLE, case=case, **rounds)
    if brief:
        return document(title, None, flow_part(flow, 0.0, brief=True), 380)
    return document(title, say(t.PICTURE_CAPTION), flow_part(flow, 80.0), 490)
