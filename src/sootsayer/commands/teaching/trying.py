"""A pack tried before it is written: read, proven and reviewed with the rules in force."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from sootsayer.judgement.checked import Checked
from sootsayer.learning.checked import check_rulebook
from sootsayer.rulebook.review.remark import Remark, Weight


@dataclass(frozen=True, slots=True)
class Tried:
    """What the check says of the pack, and the rulebook with it, as long as it is right."""

    checked: Checked
    remarks: tuple[Remark, ...]

    @property
    def errors(self) -> tuple[Remark, ...]:
        return tuple(each for each in self.remarks if each.weight is Weight.ERROR)


def tried(text: str, name: str, folders: list[Path]) -> Tried:
    """The pack beside those in force, in a folder that is gone afterwards."""
    with TemporaryDirectory(prefix="sootsayer-") as made:
        file = Path(made) / f"{name}.yaml"
        file.write_text(text, encoding="utf-8", newline="\n")
        checked = check_rulebook([*folders, Path(made)])
        mine = [
            each
            for each in checked.remarks
            if each.weight is Weight.ERROR or each.problem.place.file == str(file)
        ]
        return Tried(checked, tuple(mine))
