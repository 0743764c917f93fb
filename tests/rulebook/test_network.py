"""The rulebook's part of the belief network."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.belief.inference import posteriors
from sootsayer.belief.network import Lead, Seen
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.network import lead_strengths, observable_for, whole_network
from sootsayer.rulebook.reads import channels_behind, evidence_targets, facts_behind
from tests.rulebook.bad_packs import GOLDEN

MODEL = load_rulebook([GOLDEN]).model


def test_own_strength_leaves_out_the_prior() -> None:
    """A lead of 0.6 over a prior of 0.1 has the strength 1 - 0.4/0.9."""
    (lead,) = lead_strengths(MODEL)
    assert lead == Lead("short-trips", "soot-overload", 1 - (1 - 0.6) / (1 - 0.1))


def test_a_family_is_seen_as_its_block_says() -> None:
    """A speaker without a block of its own sees what the family's block says."""
    observable = observable_for(MODEL, "restriction", "restriction-at-2500")
    assert observable.id == "restriction"
    assert observable.otherwise == pytest.approx((0.01, 0.90, 0.09))
    assert observable.seen == (Seen("soot-overload", (0.001, 0.099, 0.9)),)


def test_a_members_own_block_stands_instead() -> None:
    """While a member with a block of its own speaks, that block counts and the other does not."""
    observable = observable_for(MODEL, "restriction", "restriction-at-idle")
    assert observable.id == "restriction"
    assert observable.otherwise == pytest.approx((0.01, 0.80, 0.19))
    assert observable.seen == (Seen("soot-overload", (0.004, 0.396, 0.6)),)


def test_hiders_come_nearest_first() -> None:
    """Hiders stand in the order of their channel, not in that of their ids."""
    observable = observable_for(MODEL, "restriction", "restriction-at-2500")
    assert [each.fault for each in observable.hidden_by] == ["sensor-stuck", "hose-leaks"]
    assert observable.hidden_by[1].spread == pytest.approx((0.70, 0.22, 0.08))


def test_a_gauge_is_not_hidden_by_the_sensor() -> None:
    """A reading that came through another channel is hidden by none of this one's faults."""
    observable = observable_for(MODEL, "restriction", "restriction-at-2500", ("dp-gauge",))
    assert observable.hidden_by == ()


def test_a_finding_without_family_stands_for_itself() -> None:
    """A lone finding with evidence is an observable under its own id, false before true."""
    observable = observable_for(MODEL, "tried-too-often", "tried-too-often")
    assert observable.otherwise == pytest.approx((0.92, 0.08))
    assert [each.fault for each in observable.seen] == ["short-trips", "soot-overload"]
    assert observable.hidden_by == ()


def test_no_evidence_no_observable() -> None:
    """A finding that has no evidence cannot be asked for."""
    with pytest.raises(KeyError):
        observable_for(MODEL, "dp-not-zero", "dp-not-zero")


def test_whole_network_holds_everything_once() -> None:
    """All faults at their priors, each family once, and inference takes it as it is."""
    network = whole_network(MODEL)
    assert {each.id: each.prior for each in network.faults} == {
        "hose-leaks": 0.08,
        "sensor-stuck": 0.03,
        "short-trips": 0.3,
        "soot-overload": 0.1,
    }
    assert [each.id for each in network.observables] == ["restriction", "tried-too-often"]
    before = posteriors(network, {})
    after = posteriors(network, {"restriction": (0.0, 0.0, 1.0)})
    assert after["soot-overload"] > before["soot-overload"]


def test_what_a_finding_rests_on() -> None:
    """The facts and channels behind a finding are found through the findings that it names."""
    assert facts_behind(MODEL, "tried-too-often") == (
        "attempts",
        "code:P2463",
        "power-loss",
        "dp@idle",
        "dp@rest",
    )
    assert channels_behind(MODEL, "tried-too-often") == ("dp-gauge", "dp-sensor")
    assert evidence_targets(MODEL) == ("restriction", "tried-too-often")


def test_files_do_not_matter() -> None:
    """The network is that of the model, wherever its pack lies."""
    again = load_rulebook([Path(GOLDEN)]).model
    assert whole_network(again) == whole_network(MODEL)
