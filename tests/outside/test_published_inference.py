"""Published inference examples (sources beside each check). "From memory": the tables were
not read in the source; the arithmetic is exact all the same."""

from __future__ import annotations

import math

import pytest

from sootsayer.belief.contributions import without_each
from sootsayer.belief.inference import infer, posteriors
from sootsayer.belief.network import Fault, Kind, Lead, Network, Observable, Seen
from sootsayer.belief.noisy import level_spread, own_strength
from sootsayer.belief.weighing import weight, word

NO, YES = (1.0, 0.0), (0.0, 1.0)


def binary(p: float) -> tuple[float, float]:
    return (1.0 - p, p)


def shown(
    key: str,
    otherwise: float,
    seen: dict[str, float] | None = None,
    hidden_by: dict[str, float] | None = None,
) -> Observable:
    return Observable(
        key,
        binary(otherwise),
        tuple(Seen(fault, binary(p)) for fault, p in (seen or {}).items()),
        tuple(Seen(fault, binary(p)) for fault, p in (hidden_by or {}).items()),
    )


@pytest.mark.parametrize(
    ("present", "p"),
    [
        ("", 0.0),
        ("M", 0.9),
        ("F", 0.8),
        ("FM", 0.98),
        ("C", 0.4),
        ("CM", 0.94),
        ("CF", 0.88),
        ("CFM", 0.988),
    ],
)
def test_b1_noisy_or_fever(present: str, p: float) -> None:
    """B1. Russell & Norvig, AIMA, noisy-OR fever (from memory): no leak, inhibitions .6 .2 .1."""
    fever = shown("fever", 0.0, {"C": 0.4, "F": 0.8, "M": 0.9})
    assert level_spread(fever, set(present))[1] == pytest.approx(p, abs=1e-15)


def alarm(burglary_rings: float, otherwise: float) -> Network:
    return Network(
        (Fault("B", Kind.CAUSE, 0.001), Fault("A", Kind.CONDITION, otherwise)),
        (Lead("B", "A", own_strength(burglary_rings, otherwise)),),
        (shown("J", 0.05, {"A": 0.90}), shown("M", 0.01, {"A": 0.70})),
    )


def test_b2_alarm_calls() -> None:
    """B2. Pearl 1988; AIMA's numbers: P(burglary | both call) = .284171835364.

    Burglary and earthquake do not combine as noisy-OR there (.95 for both, not .957), so the
    earthquake's two states are two networks, weighed by how probable the calls are in each.
    """
    calls = {"J": YES, "M": YES}
    over = under = 0.0
    for p_quake, rings, otherwise in ((0.002, 0.95, 0.29), (0.998, 0.94, 0.001)):
        p = posteriors(alarm(rings, otherwise), calls)["B"]
        without = otherwise * 0.90 * 0.70 + (1 - otherwise) * 0.05 * 0.01
        probable = p_quake * without * 0.999 / (1 - p)  # Bayes: of the calls, in this state
        over += probable * p
        under += probable
    assert over / under == pytest.approx(0.284171835364, abs=1e-12)


def test_b2_explaining_away() -> None:
    """B2. AIMA: P(burglary | alarm) .373551228; with an earthquake too, .003268424."""
    over = under = 0.0
    for p_quake, rings, otherwise in ((0.002, 0.95, 0.29), (0.998, 0.94, 0.001)):
        bell = shown("alarm", otherwise, {"B": rings})
        network = Network((Fault("B", Kind.CAUSE, 0.001),), (), (bell,))
        p = posteriors(network, {"alarm": YES})["B"]
        if p_quake < 0.5:
            assert p == pytest.approx(0.003268424, abs=5e-10)
        probable = p_quake * otherwise * 0.999 / (1 - p)
        over += probable * p
        under += probable
    assert over / under == pytest.approx(0.373551228, abs=5e-10)


def asia(p_smoker: float, otherwise: float, either: float, p_tub: float) -> Network:
    """Dyspnoea, with bronchitis settled: `either` of tuberculosis and cancer shows alike, which
    hiders can say exactly (the first one present replaces the rest)."""
    return Network(
        (
            Fault("S", Kind.CAUSE, p_smoker),
            Fault("T", Kind.CONDITION, p_tub),
            Fault("L", Kind.CONDITION, 0.01),
        ),
        (Lead("S", "L", own_strength(0.1, 0.01)),),
        (shown("dyspnoea", otherwise, hidden_by={"T": either, "L": either}),),
    )


def asia_answer(p_tub: float) -> tuple[float, float, float]:
    """P(T), P(L), P(bronchitis) given dyspnoea; bronchitis' states are two networks."""
    total = tub = cancer = bronchitis = 0.0
    for with_it, given_smoker, given_not, otherwise, either in (
        (True, 0.6, 0.3, 0.8, 0.9),
        (False, 0.4, 0.7, 0.1, 0.7),
    ):
        p_state = (given_smoker + given_not) / 2
        network = asia(given_smoker / 2 / p_state, otherwise, either, p_tub)
        found = infer(network, {"dyspnoea": YES})
        clear = infer(network, {}).none[Kind.CONDITION]
        probable = p_state * otherwise * clear / found.none[Kind.CONDITION]
        total += probable
        tub += probable * found.posteriors["T"]
        cancer += probable * found.posteriors["L"]
        bronchitis += probable * with_it
    return tub / total, cancer / total, bronchitis / total


def test_b3_asia() -> None:
    """B3. Lauritzen & Spiegelhalter 1988 (tables from memory): after a visit, with dyspnoea."""
    tub, cancer, bronchitis = asia_answer(0.05)
    assert tub == pytest.approx(0.087751, abs=5e-7)
    assert cancer == pytest.approx(0.099525, abs=5e-7)
    assert bronchitis == pytest.approx(0.811402, abs=5e-7)


def test_b3_naive_sums_are_wrong() -> None:
    """B3. A sum of weights gives the visit no weight against bronchitis (alone it has none), so
    it stays where dyspnoea put it: too high by .02, for it misses the explaining away."""
    naive = asia_answer(0.01 * 0.05 + 0.99 * 0.01)[2]
    assert naive - asia_answer(0.05)[2] > 0.02


def test_b4_explaining_away() -> None:
    """B4. Fenton, QMUL notes (Martin's .50 inferred): strike .131274, both late .547284."""
    network = Network(
        (Fault("strike", Kind.CAUSE, 0.1),),
        (),
        (shown("martin", 0.50, {"strike": 0.68}), shown("norman", 0.1, {"strike": 0.8})),
    )
    assert posteriors(network, {"martin": YES})["strike"] == pytest.approx(0.131274, abs=5e-7)
    both = posteriors(network, {"martin": YES, "norman": YES})["strike"]
    assert both == pytest.approx(0.547284, abs=5e-7)


def test_b5_weights_of_normalised_hypotheses_do_not_add() -> None:
    """B5. Johnson 1986, Artificial Intelligence: exact .858896 .110429 .030675; the sum of
    weights says .813953 of the first. Hypothesis 1 is fault a, 2 is b without a, 3 neither."""
    network = Network(
        (Fault("a", Kind.CAUSE, 0.5), Fault("b", Kind.CAUSE, 0.6)),
        (),
        (
            shown("e1", 0.5, hidden_by={"a": 0.8, "b": 0.2}),
            shown("e2", 0.1, hidden_by={"a": 0.7, "b": 0.6}),
        ),
    )
    found = infer(network, {"e1": YES, "e2": YES})
    sets = {one.faults: one.probability for one in found.candidates}
    first = sets["a",] + sets["a", "b"]
    assert first == pytest.approx(0.858896, abs=5e-7)
    assert sets["b",] == pytest.approx(0.110429, abs=5e-7)
    assert sets[()] == pytest.approx(0.030675, abs=5e-7)
    alone = [posteriors(network, {key: YES})["a"] for key in ("e1", "e2")]
    naive = math.prod(weight(p, 0.5) for p in alone)  # prior odds of a are 1
    assert naive / (1 + naive) == pytest.approx(0.813953, abs=5e-7)


@pytest.mark.parametrize(
    ("tp", "fn", "fp", "tn", "positive", "negative"),
    [
        (20, 10, 180, 1820, 7.407407, 0.366300),  # faecal occult blood, from memory
        (231, 27, 32, 54, 2.406250, 0.166667),  # Altman & Bland 1994, BMJ, from memory
    ],
)
def test_b6_a_weight_is_the_likelihood_ratio(
    tp: int, fn: int, fp: int, tn: int, positive: float, negative: float
) -> None:
    """B6. LR+ = sens/(1 - spec), LR- = (1 - sens)/spec: what a weight is with a single fault."""
    test = shown("test", fp / (fp + tn), {"f": tp / (tp + fn)})
    network = Network((Fault("f", Kind.CAUSE, 0.03),), (), (test,))
    prior = without_each(network, {"test": YES})["test"]["f"]
    after = {key: posteriors(network, {"test": key})["f"] for key in (YES, NO)}
    assert weight(after[YES], prior) == pytest.approx(positive, abs=5e-7)
    assert 1 / weight(after[NO], prior) == pytest.approx(negative, abs=5e-7)
    assert after[NO] < prior < after[YES]


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (1.0, "not worth more than a bare mention"),
        (3.0, "not worth more than a bare mention"),
        (math.nextafter(3.0, 4.0), "positive"),
        (20.0, "positive"),
        (20.0855, "strong"),  # e^3, the edge of the 2 ln BF column, which we do not use
        (148.41, "strong"),  # e^5
        (150.0, "strong"),
        (150.1, "very strong"),
        (math.inf, "very strong"),
    ],
)
def test_b7_words_of_kass_and_raftery(value: float, expected: str) -> None:
    """B7. Kass & Raftery 1995, the Bayes factor column; on an edge, the weaker word."""
    assert word(value) == expected


def test_b8_one_observation_counts_once() -> None:
    """B8. Prior .1, LR 8: once .470588, counted twice .876712 (arithmetic). One observable for
    a family gives the first; two observables would give the second."""
    fault = (Fault("f", Kind.CAUSE, 0.1),)
    first, second = (shown(key, 0.1, {"f": 0.8}) for key in ("x", "y"))
    once = posteriors(Network(fault, (), (first,)), {"x": YES})["f"]
    twice = posteriors(Network(fault, (), (first, second)), {"x": YES, "y": YES})["f"]
    assert once == pytest.approx(0.470588, abs=5e-7)
    assert twice == pytest.approx(0.876712, abs=5e-7)
