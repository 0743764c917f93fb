"""A rulebook checked in one run: read, proven, reviewed, its translations and its coverage."""

from __future__ import annotations

from collections.abc import Iterable, Sequence, Set
from dataclasses import replace
from pathlib import Path

from sootsayer.catalogue import language as in_force
from sootsayer.catalogue import say, say_count
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused
from sootsayer.engine.reading import limits_of
from sootsayer.judgement.checked import Checked, Counted
from sootsayer.judgement.coverage import Facts, coverage
from sootsayer.judgement.proofs import ProofFailed, failed_proofs, proofs_by_slot
from sootsayer.learning.as_written import failed_as_written
from sootsayer.rulebook.compiled import Rulebook, read_rulebook, rulebook_of
from sootsayer.rulebook.loading import Reading
from sootsayer.rulebook.review.all_reviews import review
from sootsayer.rulebook.review.remark import Concern, Decided, Decision, Remark, Weight
from sootsayer.rulebook.shop import Shop
from sootsayer.rulebook.shop_fit import fitted
from sootsayer.rulebook.words import WordsReport, report, texts_of
from sootsayer.rulebook.words_files import OWN, languages, load_words


def check_rulebook(
    folders: Sequence[Path],
    words: Sequence[Path] = (),
    shop: Shop | None = None,
) -> Checked:
    """Check every pack in the folders, the translations in `words`, and the shop's own numbers.

    Raises nothing of its own.
    """
    reading = read_rulebook(folders)
    limits, misfits = _limits(reading, shop)
    found = review(reading, limits)
    remarks = [_as_read(problem) for problem in (*reading.problems, *misfits)]
    proven, failed = _proofs(reading, folders)
    remarks += [_failed(reading, each) for each in failed]
    remarks += found.remarks
    remarks += _words(reading, words)
    rulebook = reading.rulebook
    return Checked(
        _counted(reading),
        tuple(sorted(remarks, key=_order)),
        (*proven, *found.decisions),
        () if rulebook is None else coverage(rulebook),
        reading.whole,
        tuple(sorted(reading.desk.lines)),
        reading.desk.unread,
        rulebook,
    )


def _limits(reading: Reading, shop: Shop | None) -> tuple[dict[str, float], tuple[Problem, ...]]:
    """The shop's own limits in the units of the packs, and what does not fit the rulebook."""
    if shop is None or reading.desk.problems:
        return {}, ()
    try:
        own = fitted(shop, reading.model).limits
    except Refused as refused:
        return {}, refused.problems
    return {name: each.value for name, each in own.items()}, ()


def covered_by_cases(checked: Checked, cases: Iterable[Facts]) -> Checked:
    """The same with what is shown by proofs and cases together."""
    if checked.rulebook is None:
        return checked
    return replace(checked, shown=coverage(checked.rulebook, cases))


def only_in(checked: Checked, packs: Sequence[str]) -> Checked:
    """The same with the remarks that stand in these files or folders, and all errors."""
    named = [Path(each).absolute() for each in packs]

    def is_named(remark: Remark) -> bool:
        file = Path(remark.problem.place.file).absolute()
        return any(file == each or each in file.parents for each in named)

    kept = (r for r in checked.remarks if r.weight is Weight.ERROR or is_named(r))
    return replace(checked, remarks=tuple(kept))


_WEIGHTS = list(Weight)


def _order(remark: Remark) -> tuple[int, bool, bool, Place, str]:
    """What others follow from first; then what was read, then what was worked out, by place."""
    weight = _WEIGHTS.index(remark.weight)
    read = remark.concern is Concern.READING
    return weight, not remark.problem.first, not read, remark.problem.place, remark.problem.what


def _as_read(problem: Problem) -> Remark:
    return Remark(Concern.READING, Weight.ERROR, problem.place.file, problem)


def _counted(reading: Reading) -> Counted:
    model = reading.model
    return Counted(
        len(reading.packs), len(model.findings), len(model.faults),
        sum(len(block.seen_with) for block in model.evidence.values()),
        sum(len(proofs) for _, proofs in proofs_by_slot(model)),
    )  # fmt: skip


def _proofs(reading: Reading, folders: Sequence[Path]) -> tuple[list[Decision], list[ProofFailed]]:
    """Each rule with proofs: whether all come out. Of refused packs, only what was read whole."""
    if reading.program is None:
        return [], []
    rulebook = reading.rulebook or rulebook_of(reading.model)
    whole = {slot for slot, _ in proofs_by_slot(reading.model) if _whole(rulebook, slot)}
    failed = [each for each in failed_proofs(rulebook, whole) if each.slot in whole]
    failed = failed_as_written(reading, folders, failed)
    wrong = {each.slot for each in failed}
    decisions = [
        Decision(
            Concern.PROOFS,
            slot,
            say("its proofs come out"),
            Decided.DISPROVEN if slot in wrong else Decided.PROVEN,
        )
        for slot, proofs in proofs_by_slot(reading.model)
        if proofs and slot in whole
    ]
    return decisions, failed


def _whole(rulebook: Rulebook, slot: str) -> bool:
    program, model = rulebook.program, rulebook.model
    if slot not in program.definitions:
        return False
    cone = program.cone((slot,))
    facts = [each for each in cone if each not in program.definitions]
    rules = [program.definitions[each] for each in cone if each in program.definitions]
    return all(
        each.partition("@")[0] in model.signals or each.startswith("code:") for each in facts
    ) and all(limit in model.limits for rule in rules for limit in limits_of(rule))


def _failed(reading: Reading, proof: ProofFailed) -> Remark:
    lines = reading.desk.lines.get(proof.place.file, ())
    line = lines[proof.place.line - 1] if 0 < proof.place.line <= len(lines) else ""
    expected, found = proof.expected or "unknown", proof.found or "unknown"
    problem = Problem(
        proof.place,
        say(
            'this proof of "{slot}" does not come out: it says {expected}, the rule says {found}',
            slot=proof.slot,
            expected=expected,
            found=found,
        ),
        say("mend the rule, or write `then: {found}`", found=found),
        line,
    )
    return Remark(Concern.PROOFS, Weight.ERROR, proof.slot, problem)


def _words(reading: Reading, folders: Sequence[Path]) -> list[Remark]:
    """Stale, unknown and missing translations of the packs that are checked.

    That words are missing is told of packs that have some in a language, and of all packs in the
    language in force: a shop that speaks English need not translate what it has learned.
    """
    checked = {text.pack for text in texts_of(reading.model).values()}
    remarks: list[Remark] = []
    for language in languages(folders):
        if language == OWN:
            continue
        try:
            words = load_words(folders, language)
        except Refused as refused:
            remarks += [Remark(Concern.WORDS, Weight.ERROR, language, p) for p in refused.problems]
            continue
        spoken = checked if language == in_force() else {each.pack for each in words.translations}
        told = _only(report(reading.model, words), checked, spoken)
        for each in told.stale:
            what = say(
                'this translates an older text of "{id}", {field}: it is stale',
                id=each.id,
                field=each.field,
            )
            instead = say("translate the text as it is now, and write its digest under `of`")
            remarks.append(_word(Weight.WARNING, language, each.place, what, instead))
        for each in told.unknown:
            what = say(
                'there is no text "{field}" of "{id}" to translate', field=each.field, id=each.id
            )
            instead = say("leave it out")
            remarks.append(_word(Weight.WARNING, language, each.place, what, instead))
        if told.missing:
            first = told.missing[0]
            what = say_count(
                "{count} text has no words in {language}, this one",
                "{count} texts have no words in {language}, the first is this one",
                count=len(told.missing),
                language=language,
            )
            instead = say("the original is shown meanwhile")
            remarks.append(_word(Weight.NOTE, language, first.place, what, instead))
    return remarks


def _only(told: WordsReport, checked: Set[str], spoken: Set[str]) -> WordsReport:
    """What is told of these packs; words of packs that are not looked at are no one's mistake."""
    return WordsReport(
        told.stale,
        tuple(text for text in told.missing if text.pack in spoken),
        tuple(each for each in told.unknown if each.pack in checked),
    )


def _word(weight: Weight, language: str, place: Place, what: str, instead: str) -> Remark:
    return Remark(Concern.WORDS, weight, language, Problem(place, what, instead))
