"""Proofs beside a shop's overrides: a proof is held to the numbers that it was written for.

A pack's proof shows its rule at the threshold. Where a shop has moved that number, the proof does
not come out any more, and nothing is wrong: neither the pack nor the shop could mend it.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from sootsayer.documents.nodes import Place
from sootsayer.judgement.proofs import ProofFailed, failed_proofs
from sootsayer.rulebook.compiled import read_rulebook, rulebook_of
from sootsayer.rulebook.loading import Reading


def failed_as_written(
    reading: Reading, folders: Sequence[Path], failed: list[ProofFailed]
) -> list[ProofFailed]:
    """Of the proofs that fail: those that fail without the overrides too, and those that stand in
    the packs that override, which know of them."""
    overriding = {Path(each.place.file).name for each in reading.desk.overrides}
    if not failed or not overriding:
        return failed
    written = read_rulebook([file for file in _files(folders) if file.name not in overriding])
    if written.problems or written.program is None:
        return failed
    slots = {each.slot for each in failed}
    still = {_spot(each.place) for each in failed_proofs(rulebook_of(written.model), slots)}
    return [
        each
        for each in failed
        if Path(each.place.file).name in overriding or _spot(each.place) in still
    ]


def _files(folders: Sequence[Path]) -> list[Path]:
    return [
        file
        for folder in folders
        for file in (sorted(folder.glob("*.yaml")) if folder.is_dir() else [folder])
    ]


def _spot(place: Place) -> tuple[str, int, int]:
    return Path(place.file).name, place.line, place.column
