"""Does anything notice? Each mutation against the packs' proofs and the stated expectations.

`python -m tests.cases.mutating [N]`: all mutations, or N drawn with a fixed seed; what nothing
notices is listed, and the share noticed of each kind.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from random import Random

from sootsayer.engine.program import NegativeCycle
from sootsayer.judgement.proofs import failed_proofs
from sootsayer.judgement.verdict import Verdict
from sootsayer.judgement.workings import Workings
from sootsayer.learning.expected import Expected, differences
from sootsayer.rulebook.compiled import Rulebook, rulebook_of
from sootsayer.rulebook.model import Model
from tests.cases.again import believed_again, permitted_again
from tests.cases.demonstrated import Demonstrated, all_demonstrated, told, verdict_of, worked_out
from tests.cases.mutations import Mutation, mutations
from tests.laws.making_cases import rulebook

SEED = 5
NETWORK = {"link dropped", "hides dropped"}  # no proof tells of these,
ACTIONS = {"interlock removed"}  # and no finding hangs on them
BROKEN = "it could not be compiled"


@dataclass(frozen=True, slots=True)
class Stated:
    """One stage of a case, what is expected there, and what the whole rulebook says of it."""

    shown: Demonstrated
    expected: Expected
    work: Workings
    verdict: Verdict

    def speaks(self, family: str) -> bool:
        return any(f.id == family and f.speaker is not None for f in self.verdict.families)

    def names(self, ids: Iterable[str]) -> int:
        """How many of the ids the expectation itself names: such a case is tried first."""
        text = repr(self.expected)
        return sum(f"'{each}'" in text for each in ids)

    def judged_again(self, mutation: Mutation, book: Rulebook) -> Verdict:
        """The verdict of the damaged rulebook."""
        if mutation.kind in NETWORK:
            return believed_again(self.work, self.verdict, book, mutation.family)
        if mutation.kind in ACTIONS:
            return permitted_again(self.work, self.verdict, book)
        return verdict_of(self.shown.case, self.expected, book)


@cache
def stated() -> tuple[Stated, ...]:
    """Every stage of every case; each must be as expected before a mutation says anything."""
    found = []
    for shown in all_demonstrated():
        for expected in shown.expected:
            work = worked_out(shown.case, expected, rulebook())
            verdict = told(work, expected)
            wrong = differences(expected, verdict)
            assert not wrong, f"{expected.place}: {wrong[0]}"
            found.append(Stated(shown, expected, work, verdict))
    return tuple(found)


@cache
def model() -> Model:
    return rulebook().model


@cache
def every() -> tuple[Mutation, ...]:
    return tuple(mutations(model()))


def noticed_by(mutation: Mutation) -> str | None:
    """The proof, or the case and field, that a mutation is noticed by; None where by nothing."""
    try:
        book = rulebook_of(mutation.on(model()))
    except (NegativeCycle, ValueError):
        return BROKEN
    if mutation.kind not in NETWORK | ACTIONS:
        failed = failed_proofs(book)
        if failed:
            return f"proof {failed[0].place}"
    return next(_cases(mutation, book), None)


def _cases(mutation: Mutation, book: Rulebook) -> Iterator[str]:
    tried = [each for each in stated() if mutation.family is None or each.speaks(mutation.family)]
    for each in sorted(tried, key=lambda one: -one.names(mutation.at)):
        found = differences(each.expected, each.judged_again(mutation, book))
        if found:
            yield f"case {each.shown.case.id}: {found[0].what}"


def drawn(count: int) -> list[int]:
    """The numbers of so many mutations, the same at every run, in an order of chance: what is
    known of the first is a fair sample of all."""
    return Random(SEED).sample(range(len(every())), min(count, len(every())))


def _noticed(number: int) -> str | None:
    return noticed_by(every()[number])


def run(numbers: list[int], workers: int = 2) -> Iterator[tuple[int, str | None]]:
    """What noticed each mutation, on several processors, as it becomes known."""
    with ProcessPoolExecutor(workers) as pool:
        yield from zip(numbers, pool.map(_noticed, numbers, chunksize=4), strict=True)


def survivors(found: dict[int, str | None]) -> list[Mutation]:
    return [every()[number] for number, by in found.items() if by is None]


def shares(found: dict[int, str | None]) -> dict[str, tuple[int, int]]:
    """Kind to how many were noticed and how many there were."""
    total = Counter(every()[number].kind for number in found)
    left = Counter(each.kind for each in survivors(found))
    return {kind: (total[kind] - left[kind], total[kind]) for kind in sorted(total)}


def main(arguments: list[str]) -> None:
    found: dict[int, str | None] = {}
    for number, by in run(drawn(int(arguments[0]) if arguments else len(every()))):
        found[number] = by
        if by is None:
            print(f"{len(found)}: {every()[number].name}", flush=True)
    print()
    for kind, (noticed, total) in shares(found).items():
        print(f"{kind}: {noticed} of {total} noticed ({100 * noticed / total:.1f} %)")


if __name__ == "__main__":
    main(sys.argv[1:])
