"""The package's own car map and sample rate table: complete, consistent, and right about what must be inspected.

Which components are cage, brake or steering is a hand list by trade knowledge (common practice, no source).
"""

from importlib.resources import files
from pathlib import Path

import pytest

from shuntbook.flow.load import rates_files
from shuntbook.setup.faults import Faults
from shuntbook.setup.folder import default_car_map
from shuntbook.setup.rates_files import read_rates
from shuntbook.setup.words import CONDITIONS, split_key

CAR_MAP = default_car_map()
DEFAULTS = Path(str(files("shuntbook"))) / "defaults"


def sample_rates():
    faults = Faults()
    read = read_rates(rates_files(DEFAULTS.joinpath("rates")), faults)
    assert faults.found == []
    return read


RATES = sample_rates()
HAND_LIST = {
    "cage": ["main-hoop", "front-legs", "door-bars", "roof-bars", "backstays", "cage-feet-and-bolts"],
    "brake": [
        "brake-disc", "brake-caliper", "brake-pads", "brake-hose", "brake-pipe-end", "brake-pipes-underfloor",
        "handbrake-lines", "master-cylinders-and-reservoir", "brake-servo", "pedal-box", "bias-adjuster",
        "handbrake-lever-and-cylinder",
    ],
    "steering": [
        "track-rod", "track-rod-end", "steering-arm", "toe-link", "steering-rack", "power-steering-pump-and-lines",
        "steering-wheel-and-boss", "steering-column-and-joints",
    ],
    "wheel-hold": ["studs-and-nuts", "hub-and-bearing", "upright", "lower-arm", "ball-joint", "strut"],
    "restraint": ["harness", "harness-anchors", "seat", "seat-mounts-and-rails", "helmets-and-head-restraints"],
    "fuel": ["fuel-tank", "fuel-pipes-underfloor", "fuel-rail-and-hoses", "filler-and-breather"],
    "fire": ["plumbed-extinguisher", "hand-extinguisher", "bulkhead", "battery-cut-off"],
    "throttle": ["throttle-and-linkage", "throttle-pedal"],
}  # fmt: skip
NO_SAFETY = ["mud-flap", "arch-liner", "tyre", "wheel", "wheel-sensor-and-lead"]


def test_the_map_covers_the_whole_car():
    assert set(CAR_MAP.zones) == {
        "front-left", "front-right", "rear-left", "rear-right", "front-end", "rear-end", "left-side", "right-side",
        "roof", "under-front", "under-middle", "under-rear", "engine-bay", "cabin", "boot",
    }  # fmt: skip
    assert len({name for zone in CAR_MAP.zones.values() for name in zone.components}) >= 120
    assert len(CAR_MAP.symptoms) >= 35


def test_every_component_of_a_zone_has_its_own_table_and_the_other_way_round():
    listed = {name for zone in CAR_MAP.zones.values() for name in zone.components}
    assert listed == set(CAR_MAP.components)


def test_every_check_and_knock_on_names_a_pair_that_the_map_lists():
    keys = [key for symptom in CAR_MAP.symptoms.values() for key in symptom.checks]
    keys += [key for rule in CAR_MAP.knock_on for key in rule.also]
    meant = {key: [CAR_MAP.placed(key, zone) for zone in CAR_MAP.zones] for key in keys}
    listed = {key: [split_key(one) for found in places for one in found] for key, places in meant.items()}
    assert [key for key, pairs in listed.items() if not pairs or not all(CAR_MAP.lists(*pair) for pair in pairs)] == []


def test_every_knock_on_rule_can_do_something():
    for rule in CAR_MAP.knock_on:
        homes = [zone for zone in CAR_MAP.zones.values() if rule.component in zone.components]
        assert homes, rule.component
        assert rule.conditions, rule.component
        assert rule.also or any(set(rule.same_zone) & set(zone.components) for zone in homes), rule.component


@pytest.mark.parametrize(("group", "component"), [(g, c) for g, names in HAND_LIST.items() for c in names])
def test_what_a_hit_can_make_deadly_is_in_its_group_and_safety_critical(group, component):
    assert CAR_MAP.group_of(component) == group
    homes = [zone for zone, value in CAR_MAP.zones.items() if component in value.components]
    assert homes
    assert all(CAR_MAP.safety_critical(zone, component) for zone in homes)


@pytest.mark.parametrize("component", NO_SAFETY)
def test_what_only_costs_time_is_not_safety_critical(component):
    assert CAR_MAP.group_of(component) is None
    assert not CAR_MAP.safety_critical("front-left", component)


def test_a_pair_that_the_map_does_not_list_is_safety_critical():
    assert CAR_MAP.safety_critical("roof", "mud-flap")
    assert CAR_MAP.safety_critical("unknown", "unknown")


def test_a_loose_track_rod_end_is_worse_than_a_bent_one():
    worse = CAR_MAP.severity("track-rod-end", "loose")
    assert worse > CAR_MAP.severity("track-rod-end", "bent")


def test_a_condition_outside_the_components_own_list_is_worse_than_all_of_it():
    for name, component in CAR_MAP.components.items():
        outside = [word for word in CONDITIONS[1:] if word not in component.conditions]
        ranks = [CAR_MAP.severity(name, word) for word in ("unknown", *component.conditions, *outside)]
        assert ranks == sorted(set(ranks)), name


def test_the_sample_rates_are_a_table_to_start_from():
    assert len(RATES.operations) >= 150
    assert RATES.currency.code == "EUR"
    assert len(RATES.access) >= 10
    assert len(RATES.checks) >= 3


def test_every_operation_is_about_a_component_and_zone_of_the_map():
    for component, condition, zone in RATES.operations:
        assert component in CAR_MAP.components, component
        if zone:
            assert CAR_MAP.lists(zone, component), f"{zone}/{component}"
        own = CAR_MAP.components[component].conditions
        assert not own or condition in own, f"{component} {condition}"


def test_every_look_by_group_is_for_a_group_of_the_map():
    groups = {component.group for component in CAR_MAP.components.values()}
    assert set(RATES.inspect_minutes_by_group) <= groups
    assert {"cage", "brake", "steering"} <= set(RATES.inspect_minutes_by_group)


def test_every_then_names_a_check_of_the_table():
    for operation in RATES.operations.values():
        assert set(operation.then) <= set(RATES.checks)


def test_what_comes_off_a_corner_is_followed_by_the_wheel_nuts_on_the_ground_by_somebody_else():
    check = RATES.checks["wheel-nut-torque"]
    assert (check.when, check.by) == ("on-ground", "other")
    for operation in RATES.operations.values():
        if operation.component == "wheel" and operation.action == "swap":
            assert "wheel-nut-torque" in operation.then


def test_the_sample_event_carries_the_same_rates():
    sample = rates_files(DEFAULTS.parent.parent.parent.joinpath("sample_reports/thornquell-2026/rates"))
    assert sample == rates_files(DEFAULTS.joinpath("rates"))


def test_every_operation_has_room_for_its_people_where_the_component_is():
    crowded = [
        (zone.zone, row.component, row.condition, row.mechanics)
        for row in RATES.operations.values()
        for zone in CAR_MAP.zones.values()
        if row.component in zone.components and row.zone in ("", zone.zone) and row.mechanics > zone.people
    ]
    assert crowded == []
