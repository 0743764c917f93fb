"""Before and after as one self-contained SVG: no script, no reference to anything else."""

from __future__ import annotations

from sootsayer.casework.logs.flow import FlowPicture
from sootsayer.catalogue import say
from sootsayer.console import compare_texts as t
from sootsayer.console.readings_picture import document, flow_part


def compare_picture(
    flow: FlowPicture, case: str, from_round: str, to_round: str, *, brief: bool = False
) -> str:
    """The SVG, whole; `brief`: to stand in a small place with its words beside it."""
    title = say(t.PICTURE_TITLE, case=case, from_round=from_round, to_round=to_round)
    if brief:
        return document(title, None, flow_part(flow, 0.0, brief=True), 380)
    return document(title, say(t.PICTURE_CAPTION), flow_part(flow, 80.0), 490)
