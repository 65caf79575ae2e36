"""How much the package's own map asks for at once: the first line, and everything only where people get hurt.

The numbers are the trade's: a crew that is given twenty inspections for one long pedal ticks them unread.
"""

import json
from collections.abc import Iterable
from itertools import product
from pathlib import Path

import pytest

from making import Pen
from shuntbook.fold.report import findings_of
from shuntbook.report.entry import parse_entry
from shuntbook.setup.car_map import CarMap, read_car_map
from shuntbook.setup.defaults import first_map
from shuntbook.setup.faults import Faults
from shuntbook.setup.folder import default_car_map
from shuntbook.setup.looks import usual_looks
from shuntbook.setup.words import CONDITIONS, job_key, split_key
from small_event import small_setup

CAR_MAP = default_car_map()
OF_A_SYMPTOM, OF_A_FINDING, PLACES = 6, 8, 10
EVERYTHING = ["rolled", "heavy-hit", "hard-landing", "towed-out", "puncture-driven"]
"""Symptoms after which everything whose failure hurts people is looked at."""
LOST = [("wheel", "broken"), ("wheel", "missing")]
VECTOR = Path(__file__).parents[2] / "schemas" / "vectors" / "queue" / "a-corner-by-the-usual-map.json"
ANYWHERE = [*CAR_MAP.zones, ""]


def the_first_map() -> CarMap:
    read = read_car_map(first_map(), Faults())
    assert read is not None
    return read.with_fixed_groups_of(read)


def shown_by(car_map: CarMap, zone: str, component: str, condition: str) -> set[str]:
    """Return the keys that a finding brings besides its own."""
    rules = [rule for rule in car_map.knock_on_by_component.get(component, []) if condition in rule.conditions]
    same = {job_key(zone, one) for rule in rules for one in rule.same_zone if car_map.lists(zone, one)}
    also = {key for rule in rules for name in rule.also for key in car_map.placed(name, zone)}
    return (same | also) - {job_key(zone, component)}


def critical(car_map: CarMap, keys: Iterable[str]) -> set[str]:
    return {key for key in keys if car_map.safety_critical(*split_key(key))}


def places(keys: Iterable[str]) -> set[str]:
    return {split_key(key)[0] for key in keys}


FINDINGS = [(z.zone, c, condition) for z in CAR_MAP.zones.values() for c in z.components for condition in CONDITIONS]


@pytest.mark.parametrize("symptom", [name for name in CAR_MAP.symptoms if name not in EVERYTHING])
def test_a_symptom_asks_for_at_most_six_keys_wherever_it_was_felt(symptom: str) -> None:
    assert max(len(set(CAR_MAP.checks_of(symptom, zone))) for zone in ANYWHERE) <= OF_A_SYMPTOM


def test_a_finding_asks_for_at_most_eight_keys_besides_its_own() -> None:
    usual = [(z, c, n) for z, c, n in FINDINGS if (c, n) not in LOST]
    crowded = [one for one in usual if len(shown_by(CAR_MAP, *one)) > OF_A_FINDING]
    assert crowded == []
    assert any(len(shown_by(CAR_MAP, *one)) > OF_A_FINDING - 2 for one in usual), "the rules are gone"


@pytest.mark.parametrize(("symptom", "zone"), list(product(EVERYTHING, ANYWHERE)))
def test_what_hurts_people_is_never_left_out(symptom: str, zone: str) -> None:
    first, now = the_first_map(), set(CAR_MAP.checks_of(symptom, zone))
    assert critical(first, first.checks_of(symptom, zone)) <= now
    assert len(places(now)) <= PLACES


@pytest.mark.parametrize(("component", "condition"), LOST)
def test_a_broken_or_lost_wheel_keeps_every_part_that_it_had(component: str, condition: str) -> None:
    first = the_first_map()
    for zone in (zone.zone for zone in CAR_MAP.zones.values() if zone.kind == "corner"):
        now = shown_by(CAR_MAP, zone, component, condition)
        assert critical(first, shown_by(first, zone, component, condition)) <= now
        assert len(places(now)) <= PLACES


def test_a_bent_rim_a_bent_arm_and_a_long_pedal_are_few_inspections_at_few_places() -> None:
    queue = json.loads(VECTOR.read_bytes())["queue"]
    looked_at = [job["job"] for job in queue["jobs"] if job["action"] == "inspect"]
    assert {"front-left/hub-and-bearing", "front-left/brake-hose", "front-left/arm-pick-up-points"} <= set(looked_at)
    assert "engine-bay/master-cylinders-and-reservoir" in looked_at
    assert len(looked_at) <= 15
    assert len(places(looked_at)) <= 4


@pytest.mark.parametrize("corner", [zone.zone for zone in CAR_MAP.zones.values() if zone.kind == "corner"])
def test_so_they_are_at_each_corner(corner: str) -> None:
    pen, setup = Pen("small-2026"), small_setup(car_map=None)
    entry = parse_entry(
        json.dumps(pen.filed(f"{corner}/wheel bent", f"{corner}/lower-arm bent", symptoms=["long-pedal"])).encode()
    )
    unknown = {
        finding.key for finding in findings_of([entry], setup.car_map, setup.event) if finding.condition == "unknown"
    }
    assert len(unknown) <= 15
    assert len(places(unknown)) <= 4


def test_each_check_says_where_it_is_made_and_stands_in_one_group() -> None:
    rows = [(group, row) for group, checks in usual_looks().items() for row in checks]
    assert [(group, row.check) for group, row in rows if row.at not in ("air", "off", "ground")] == []
    assert len({row.check for _, row in rows}) == len(rows)


@pytest.mark.parametrize("group", ["brake", "steering", "wheel-hold", "fuel", "throttle"])
def test_no_pass_counts_without_the_check_that_finds_what_kills(group: str) -> None:
    assert any(row.must for row in usual_looks()[group])


def test_a_step_that_a_teams_rate_table_lacks_is_left_out_of_the_packages_own_map() -> None:
    setup = small_setup(car_map=None)
    assert set(setup.rates.access) == {"car-on-stands", "wheel-off", "bonnet-up"}
    assert setup.car_map.inspect_access("brake-hose") == ("car-on-stands", "wheel-off")
    assert setup.car_map.inspect_access("main-hoop") == ()
    assert CAR_MAP.inspect_access("main-hoop") == ("padding-and-trim-off",)
    assert setup.car_map.inspect_access("harness") is None
