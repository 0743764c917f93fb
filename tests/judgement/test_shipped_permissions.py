"""What the shipped packs permit: burning and cleaning; nothing known, all, or one thing wrong.

What must hold is common practice of the trade; the soot per litre and the coolant temperature are
from memory.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import lru_cache
from pathlib import Path

import pytest

from sootsayer.advice.permissions import Permitted, Reason
from sootsayer.casework.case_file import read_case
from sootsayer.judgement.permissions import permissions
from sootsayer.judgement.verdict import InterlockSaid, PermissionSaid
from sootsayer.judgement.workings import work_out
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_cases, shipped_rules

BURN, CLEAN = "parked-regeneration", "clean-in-place"

SCAN = {
    "dp@rest": "0",
    "dp@idle": "6",
    "dp@2500": "30",
    "coolant@idle": "85",
    "regeneration-status": "not running",
    "exhaust-temperature@idle": "150",
    "soot-shown": "17",
    "soot-measured": "19",
    "exhaust-sensor-spread@cold-soak": "3",
    "open-faults": "none",
}
SAID = {
    "oil-level": "between marks",
    "oil-smells-of-fuel": "no",
    "oil-use": "little",
    "smoke": "none",
    "fire-signs": "no",
    "standing-in": "outdoors",
    "ground-below": "bare and dry",
    "weather-now": "nothing against it",
    "burnables-behind": "no",
    "people-clear": "yes",
    "technician-stays": "yes",
    "vehicle-held": "yes",
    "fuel-leak": "no",
    "coolant-level": "right",
    "runs-by-itself": "no",
    "red-lamp": "none",
    "fuel-level": "above a quarter",
    "battery-supported": "yes",
    "hose-holds-vacuum": "yes",
    "hose-blows-through": "yes",
    "counters-reset": "never",
    "cause-of-soot": "mended",
    "failed-burns": "0",
    "ceiling-looked-up": "yes",
}
FLUID = {
    "filter-warmth": "hand-warm or cold",
    "engine-now": "stopped",
    "filter-coating": "not NOx-reducing",
    "fluid-port": "upstream of the filter",
    "product-rated": "yes",
    "protection-worn": "yes",
    "how-it-stands": "on a lift",
    "oil-use": "little",
    "smoke": "none",
    "standing-in": "outdoors",
    "fire-signs": "no",
    "burnables-behind": "no",
    "vehicle-held": "yes",
    "fuel-leak": "no",
}


@lru_cache(maxsize=1)
def rulebook() -> Rulebook:
    return load_rulebook([shipped_rules()])


def weighed(
    folder: Path,
    action: str,
    scan: dict[str, str],
    said: dict[str, str],
    *,
    vehicle: str = "",
    limits: str = "soot-in-place-max: 24 g",
    codes: str = "",
    later: int = 0,
) -> PermissionSaid:
    """The permission for `action` after one visit, `later` minutes after its last entry."""
    at = "at: 2031-01-01T09:00+01:00, by: tech-1, round: arrival"
    lines = [
        f"- {{{at}, source: {source}, facts: {{{', '.join(f'{k}: {v}' for k, v in facts.items())}}}"
        f"{codes if source == 'scan' else ''}}}"
        for source, facts in (("scan", scan), ("technician", said))
        if facts
    ]
    head = f"case: made\nformat: 1\nvehicle: {{label: 2.0 L panel van{vehicle}}}\n"
    own = f"limits: {{{limits}}}\n" if limits else ""
    path = folder / "made.yaml"
    path.write_text(f"{head}{own}entries:\n" + "\n".join(lines) + "\n", encoding="utf-8")
    return of_case(path, action, later)


def of_case(path: Path, action: str, later: int = 0) -> PermissionSaid:
    case = read_case(path, rulebook().model)
    now: datetime = case.entries[-1].at + timedelta(minutes=later)
    work = work_out(case, rulebook(), now, None)
    return next(p for p in permissions(work) if p.action == action)


def lock(permission: PermissionSaid, name: str) -> InterlockSaid:
    return next(i for i in (*permission.interlocks, *permission.named) if i.id == name)


def without(facts: dict[str, str], *names: str) -> dict[str, str]:
    return {slot: value for slot, value in facts.items() if slot not in names}


def test_all_known_and_well_is_clear(tmp_path: Path) -> None:
    """With everything known and good nothing entered forbids burning or cleaning."""
    assert weighed(tmp_path, BURN, SCAN, SAID).state is Permitted.CLEAR
    assert weighed(tmp_path, CLEAN, {}, FLUID).state is Permitted.CLEAR


@pytest.mark.parametrize("slot", sorted(SCAN))
def test_a_burn_waits_for_every_reading(tmp_path: Path, slot: str) -> None:
    """Each reading left out takes the permission to burn away."""
    assert weighed(tmp_path, BURN, without(SCAN, slot), SAID).state is not Permitted.CLEAR


@pytest.mark.parametrize("slot", sorted(SAID))
def test_a_burn_waits_for_every_answer(tmp_path: Path, slot: str) -> None:
    """Each answer left out takes the permission to burn away."""
    assert weighed(tmp_path, BURN, SCAN, without(SAID, slot)).state is not Permitted.CLEAR


@pytest.mark.parametrize(
    ("slot", "value"),
    [
        ("oil-level", "above max"),
        ("oil-level", "low"),
        ("oil-smells-of-fuel", "yes"),
        ("oil-use", "above half a litre per 1000 km"),
        ("smoke", "blue"),
        ("fire-signs", "yes"),
        ("standing-in", "indoors"),
        ("ground-below", "something that burns"),
        ("burnables-behind", "yes"),
        ("technician-stays", "no"),
        ("fuel-level", "a quarter or less"),
        ("battery-supported", "no"),
        ("hose-holds-vacuum", "no"),
        ("cause-of-soot", "found but not mended"),
        ("failed-burns", "2"),
        ("tailpipe-soot", "yes"),
    ],
)
def test_one_bad_answer_forbids_a_burn(tmp_path: Path, slot: str, value: str) -> None:
    """Each thing that is wrong forbids burning, whatever else is well."""
    permission = weighed(tmp_path, BURN, SCAN, {**SAID, slot: value})
    assert permission.state is Permitted.BLOCKED


@pytest.mark.parametrize(
    ("slot", "value"),
    [
        ("coolant@idle", "55"),
        ("soot-shown", "25"),
        ("soot-measured", "25"),
        ("dp@rest", "18"),
        ("open-faults", "some"),
        ("exhaust-sensor-spread@cold-soak", "60"),
    ],
)
def test_one_bad_reading_forbids_a_burn(tmp_path: Path, slot: str, value: str) -> None:
    """Cold coolant, too much soot, an untrue sensor or an open fault forbids burning."""
    assert weighed(tmp_path, BURN, {**SCAN, slot: value}, SAID).state is Permitted.BLOCKED


def test_a_code_of_the_sensors_forbids_a_burn(tmp_path: Path) -> None:
    """A listed code that keeps the control from regenerating forbids; an unread list is named."""
    listed = weighed(tmp_path, BURN, SCAN, SAID, codes=", codes: {read: partial, list: [P0546]}")
    assert listed.state is Permitted.BLOCKED
    unread = weighed(tmp_path, BURN, SCAN, SAID)
    assert lock(unread, "no-code-that-prevents").state is Permitted.NOT_YET_CLEAR


@pytest.mark.parametrize(
    ("vehicle", "material", "grams", "reason"),
    [
        # 8 g per litre of silicon carbide on 2.8 L is 22.4 g, 4 g per litre of others 11.2 g.
        (", filter litres: 2.8", "silicon carbide", "18", Reason.HOLDS),
        (", filter litres: 2.8", "silicon carbide", "23", Reason.DOES_NOT_HOLD),
        (", filter litres: 2.8", "cordierite", "18", Reason.DOES_NOT_HOLD),
        (", filter litres: 2.8", "cordierite", "6", Reason.HOLDS),
        (", filter litres: 2.8", None, "18", Reason.UNKNOWN),
        (", filter litres: 2.8", None, "6", Reason.HOLDS),
        ("", "silicon carbide", "6", Reason.UNKNOWN),
        ("", None, "6", Reason.UNKNOWN),
        ("", None, "41", Reason.DOES_NOT_HOLD),
    ],
)
def test_grams_mean_nothing_without_the_filter(
    tmp_path: Path, vehicle: str, material: str | None, grams: str, reason: Reason
) -> None:
    """Without a figure of the vehicle's own, volume and material decide; unknown clears nothing."""
    said = {**SAID, "ceiling-looked-up": "no"}
    if material is not None:
        said["filter-material"] = material
    scan = {**SCAN, "soot-shown": grams, "soot-measured": grams}
    permission = weighed(tmp_path, BURN, scan, said, vehicle=vehicle)
    assert lock(permission, "soot-known-below-ceiling").reason is reason


def test_the_vehicles_own_figure_comes_first(tmp_path: Path) -> None:
    """A vehicle that is good for more says so; one that is good for less is believed as well."""
    more = {**SCAN, "soot-shown": "30", "soot-measured": "31"}
    high = weighed(tmp_path, BURN, more, SAID, limits="soot-in-place-max: 36 g")
    assert lock(high, "soot-known-below-ceiling").state is Permitted.CLEAR
    low = weighed(
        tmp_path,
        BURN,
        SCAN,
        {**SAID, "filter-material": "silicon carbide"},
        vehicle=", filter litres: 2.8",
        limits="soot-in-place-max: 15 g",
    )
    assert lock(low, "soot-known-below-ceiling").state is Permitted.BLOCKED


def test_blind_sensors_may_be_compared_hot(tmp_path: Path) -> None:
    """Where cold sensors cannot be judged, a comparison at a held speed does as well."""
    scan = without(SCAN, "exhaust-sensor-spread@cold-soak")
    hot = weighed(tmp_path, BURN, scan, {**SAID, "exhaust-sensors-agree-hot": "yes"})
    assert hot.state is Permitted.CLEAR


@pytest.mark.parametrize(("minutes", "name"), [(25, "coolant-warm"), (35, "somebody-stays")])
def test_a_permission_to_burn_ages(tmp_path: Path, minutes: int, name: str) -> None:
    """What was warm and watched half an hour ago is to be looked at again."""
    assert lock(weighed(tmp_path, BURN, SCAN, SAID), name).state is Permitted.CLEAR
    later = weighed(tmp_path, BURN, SCAN, SAID, later=minutes)
    assert lock(later, name).reason is Reason.TOO_OLD
    assert later.state is Permitted.NOT_YET_CLEAR


@pytest.mark.parametrize("slot", sorted(FLUID))
def test_cleaning_waits_for_every_answer(tmp_path: Path, slot: str) -> None:
    """Each answer left out takes the permission to clean away."""
    assert weighed(tmp_path, CLEAN, {}, without(FLUID, slot)).state is Permitted.NOT_YET_CLEAR


@pytest.mark.parametrize(
    ("slot", "value"),
    [
        ("filter-warmth", "hot"),
        ("engine-now", "running"),
        ("filter-coating", "NOx-reducing"),
        ("fluid-port", "drains to the turbocharger"),
        ("fluid-port", "none"),
        ("product-rated", "no"),
        ("protection-worn", "no"),
        ("smoke", "blue"),
        ("burnables-behind", "yes"),
        ("tailpipe-soot", "yes"),
        ("cause-of-soot", "found but not mended"),
    ],
)
def test_one_bad_answer_forbids_cleaning(tmp_path: Path, slot: str, value: str) -> None:
    """A hot filter, a coating that fluid ruins, a wrong port or bare eyes forbids cleaning."""
    assert weighed(tmp_path, CLEAN, {}, {**FLUID, slot: value}).state is Permitted.BLOCKED


def test_a_filter_that_cooled_is_felt_again(tmp_path: Path) -> None:
    """Hand-warm half an hour ago may be hot now."""
    later = weighed(tmp_path, CLEAN, {}, FLUID, later=25)
    assert lock(later, "filter-hand-warm").reason is Reason.TOO_OLD


@pytest.mark.parametrize("name", ["blocked-by-short-trips", "leaking-front-hose", "stuck-sensor"])
def test_no_burn_in_the_demonstrations(name: str) -> None:
    """Too loaded, behind a lying hose, or with a dead sensor: the filter is not burnt free."""
    permission = of_case(shipped_cases() / f"{name}.yaml", BURN)
    assert permission.state is Permitted.BLOCKED


def test_too_loaded_to_burn() -> None:
    """The full demonstration filter is above its vehicle's own ceiling, and the reason is said."""
    permission = of_case(shipped_cases() / "blocked-by-short-trips.yaml", BURN)
    ceiling = lock(permission, "soot-known-below-ceiling")
    assert ceiling.state is Permitted.BLOCKED
    assert ceiling.when_not == "There is more soot than this filter may burn in the vehicle"
    assert {ground.slot for ground in ceiling.grounds} & {"soot-shown", "soot-measured"}
