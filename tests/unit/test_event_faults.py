"""Event and car map: each fault is named by file, line and key."""

import pytest

from shuntbook.kit.errors import BadSetup, Fault
from shuntbook.setup.folder import default_car_map, read_setup
from shuntbook.setup.looks import ListedCheck, looks_in_force
from shuntbook.setup.words import FIXED_GROUPS
from small_event import CAR_MAP, EVENT, small_files, small_setup


def faults(**changed: bytes | None) -> list[Fault]:
    with pytest.raises(BadSetup) as caught:
        small_setup(**changed)
    return caught.value.faults


def line_of(text: bytes, words: bytes) -> int:
    return text[: text.index(words)].count(b"\n") + 1


# (what is replaced, by what, key of the fault, a word of what it says)
EVENT_FAULTS = [
    (b'event = "small-2026"', b'event = "small/2026"', "event", "slash"),
    (b'event = "small-2026"', b"event = 2026", "event", "not text"),
    (b'"Europe/Vienna"', b'"Europe/Nowhere"', "timezone", "IANA"),
    (b'event = "small-2026"', b'event = "small-2026"\nkind = "parade"', "kind", "not one of rally, school"),
    (b'event = "small-2026"', b'event = "small-2026"\nemergency = 112', "emergency", "put it in quotes"),
    (b'car = "42"', b'car = "41"', "cars.car", "twice"),
    (b'car = "42"', b'car = "4/2"', "cars.car", "slash"),
    (b'person = "p-anni"', b'person = "p-bodo"', "people.person", "twice"),
    (b'roles = ["inspector"]', b'roles = ["scrutineer"]', "people.roles", "not one of driver"),
    (b'roles = ["inspector"]', b'roles = "inspector"', "people.roles", "list of names"),
    (b'stage = "SS2"', b'stage = "SS1"', "stages.stage", "twice"),
    (b"km = 12.5", b"km = -3", "stages.km", "below 0"),
    (b"km = 12.5", b'km = "far"', "stages.km", "not a number"),
    (b'service = "B"', b'service = "A"', "services.service", "twice"),
    (b'after = "SS2"', b'after = "SS9"', "services.after", "not a stage of this event"),
    (b"minutes = 20", b"minutes = 20\nparc_ferme_after = 1", "services.parc_ferme_after", "neither true nor false"),
    (b"minutes = 20", b"minutes = 0", "services.minutes", "below 1"),
    (b"minutes = 20", b"minutes = 20.5", "services.minutes", "whole number"),
    (b"minutes = 20", b"minutes = true", "services.minutes", "not a number"),
    (b"minutes = 20", b"minutes = 20\narrive = 2026-05-16T13:02:00", "services.arrive", "offset"),
]


@pytest.mark.parametrize(("old", "new", "key", "what"), EVENT_FAULTS)
def test_a_fault_of_the_event_names_its_line_and_key(old, new, key, what):
    text = EVENT.replace(old, new)
    (fault,) = [fault for fault in faults(event=text) if fault.column == key]
    line = line_of(EVENT, old) + new.count(b"\n")
    assert (fault.file, fault.row) == ("event.toml", line)
    assert what in fault.what


PLACE = b'[[places]]\nstage = "SS2"\nkm = 1.5\nlat = 48.1\nlon = -16.4\n'


@pytest.mark.parametrize(
    ("old", "new", "key", "what"),
    [
        (b'"SS2"', b'"SS9"', "places.stage", "not a stage of this event"),
        (b"km = 1.5", b"km = 99", "places.km", "not on SS2"),
        (b"lat = 48.1\n", b"", "places.lat", "missing"),
        (b"lat = 48.1", b"lat = 91", "places.lat", "above 90"),
        (b"lon = -16.4", b"lon = -180.5", "places.lon", "below -180"),
    ],
)
def test_a_place_of_the_road_book_lies_on_its_stage_and_on_the_globe(old, new, key, what):
    assert small_setup(event=EVENT + PLACE).event.places[0].stage == "SS2"
    (fault,) = faults(event=EVENT + PLACE.replace(old, new))
    assert (fault.file, fault.column) == ("event.toml", key)
    assert what in fault.what


@pytest.mark.parametrize(
    ("addition", "key"),
    [
        (b"[regulations]\nlate_penalty_s_per_minute = -1\n", "regulations.late_penalty_s_per_minute"),
        (b"[regulations]\nadvice_on_road = 1\n", "regulations.advice_on_road"),
        (b'[[routine]]\ntask = "fuel"\nminutes = [3, 2, 1]\n', "routine.minutes"),
        (b'[[routine]]\ntask = "fuel"\nminutes = [1, 2]\n', "routine.minutes"),
        (b"[[routine]]\nminutes = [1, 2, 3]\n", "routine.task"),
    ],
)
def test_a_fault_of_regulations_or_routine_names_its_key(addition, key):
    (fault,) = faults(event=EVENT + addition)
    assert (fault.file, fault.column) == ("event.toml", key)
    assert fault.row > EVENT.count(b"\n")


# (what is replaced, by what, line it is looked for at, key, a word of what it says)
MAP_FAULTS = [
    (b'kind = "end"', b'kind = "nose"', "zones.front-end.kind", "not one of corner"),
    (b"people = 2\ncomponents = [\"wheel\", \"hub\"", b"people = 0\ncomponents = [\"wheel\", \"hub\"",
     "zones.front-left.people", "below 1"),
    (b'"badge"]', b'"badge", "lamp"]', "zones.front-end.components", "twice"),
    (b'"badge"]', b'"bad/ge"]', "zones.front-end.components", "slash"),
    (b'["marked", "bent", "loose"]', b'["marked", "dented"]', "components.tie.conditions", "'dented' is not one of"),
    (b'["marked", "bent", "loose"]', b'["bent", "bent"]', "components.tie.conditions", "twice"),
    (b'checks = ["front-left/brake-hose", "front-right/brake-hose"]', b"checks = []", "symptoms.long-pedal.checks",
     "must make the crew check something"),
    (b'"front-left/brake-hose", "front', b'"brake-hose", "front', "symptoms.long-pedal.checks", "not zone/component"),
    (b'also = ["front-end/bumper"', b'also = ["bumper"', "knock_on.also", "not zone/component"),
    (b'component = "hub"', b'component = "hu/b"', "knock_on.component", "slash"),
    (b'safety_groups = ["restraint"]', b"safety_groups = [1]", "safety_groups", "list of names"),
    (b'group = "cage"', b"group = 7", "components.main-hoop.group", "not text"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "key", "what"), MAP_FAULTS)
def test_a_fault_of_the_car_map_names_its_line_and_key(old, new, key, what):
    text = CAR_MAP.replace(old, new)
    assert text != CAR_MAP
    (fault,) = faults(car_map=text)
    assert fault.column == key
    assert (fault.file, fault.row) == ("car_map.toml", line_of(CAR_MAP, old))
    assert what in fault.what


@pytest.mark.parametrize(
    ("header", "name"),
    [(b"[zones.front-end]", b'[zones."front/end"]'), (b"[components.tie]", b'[components."ti/e"]'),
     (b"[symptoms.long-pedal]", b'[symptoms."long/pedal"]')],
)  # fmt: skip
def test_a_slash_in_a_name_of_the_car_map_is_a_fault_at_its_header(header, name):
    text = CAR_MAP.replace(header, name)
    found = faults(car_map=text)
    assert (found[0].file, found[0].row) == ("car_map.toml", line_of(text, name))
    assert "slash" in found[0].what


RESOURCE = b'\n[[resources]]\nresource = "stands"\ncount = 1\nheld_by = ["car-on-stands"]\n'
LOOK = b'\n[[looks]]\ngroup = "brake"\ncheck = "Bare"\n'


@pytest.mark.parametrize(
    ("addition", "key", "what"),
    [
        (RESOURCE + RESOURCE, "resources.resource", "twice"),
        (RESOURCE.replace(b"= 1", b"= -1"), "resources.count", "below 0"),
        (RESOURCE.replace(b'["car-on-stands"]', b'"car-on-stands"'), "resources.held_by", "list of names"),
        (b'\n[tools]\ntape = "race tape"\n', "tools.tape", "list of names"),
        (LOOK + LOOK, "looks.check", "stands twice"),
        (LOOK.replace(b'check = "Bare"', b""), "looks.check", "missing"),
    ],
)
def test_a_fault_of_resources_or_tools_names_its_key(addition, key, what):
    assert [fault.column for fault in faults(event=EVENT + addition) if what in fault.what] == [key]


def test_resources_and_tools_are_read():
    event = small_setup(event=EVENT + RESOURCE + b'\n[tools]\ntape = ["race tape"]\n').event
    assert [(r.resource, r.count, r.held_by) for r in event.resources] == [("stands", 1, ("car-on-stands",))]
    assert event.tools == {"tape": ("race tape",)}


def test_a_team_s_own_check_list_takes_the_place_of_its_group_s_usual_one():
    own = small_setup(event=EVENT + LOOK + LOOK.replace(b"Bare", b"Pedal firm")).event.looks
    assert own == {"brake": (ListedCheck("Bare"), ListedCheck("Pedal firm"))}
    assert looks_in_force(own)["brake"] == own["brake"]
    assert looks_in_force(own)["cage"] == looks_in_force({})["cage"]


def test_a_check_says_whether_it_is_a_must_and_where_it_is_made():
    (check,) = small_setup(event=EVENT + LOOK + b'must = true\nat = "ground"\n').event.looks["brake"]
    assert check == ListedCheck("Bare", must=True, at="ground")
    (fault,) = faults(event=EVENT + LOOK + b'at = "roof"\n')
    assert fault.column == "looks.at" and "not one of air, off, ground" in fault.what


def test_a_team_s_own_list_has_its_own_musts_group_by_group():
    own = small_setup(event=EVENT + LOOK).event
    assert (own.must_checks("brake"), small_setup().event.must_checks("brake")) == (
        frozenset(),
        {"Bled where it was open; pedal held hard 30 s, both ends and nipple dry"},
    )
    assert own.must_checks("steering") == small_setup().event.must_checks("steering") != frozenset()
    assert own.must_checks(None) == frozenset()


SIDE = b"[zones.front-left]\n"


@pytest.mark.parametrize(
    ("text", "column", "what"),
    [
        (CAR_MAP.replace(SIDE, SIDE + b'across = "moon"\n'), "zones.front-left.across", "not a zone of this map"),
        (CAR_MAP.replace(SIDE, SIDE + b'across = "front-right"\n'), "zones.front-left.across", "name each other"),
        (CAR_MAP + b"[zones.here]\n", "zones.here.zone", "names no zone"),
        (CAR_MAP + b"[zones.across]\n", "zones.across.zone", "names no zone"),
        (
            CAR_MAP.replace(b'label = "Tie"\n', b'label = "Tie"\ninspect_access = ["roof-off"]\n'),
            "components.tie.inspect_access",
            "not in rates/access.csv",
        ),
    ],
)
def test_sides_and_steps_that_are_none_are_faults(text, column, what):
    (fault,) = faults(car_map=text)
    assert (fault.file, fault.column) == ("car_map.toml", column)
    assert what in fault.what


def test_a_step_that_the_rate_table_lacks_is_named_in_its_row_of_the_map():
    said = b'inspect_access = ["roof-off"]'
    text = CAR_MAP.replace(b'label = "Tie"\n', b'label = "Tie"\n' + said + b"\n")
    (fault,) = faults(car_map=text)
    assert fault.row == line_of(text, said)


def test_every_safety_group_of_the_usual_car_map_has_a_check_list():
    groups = FIXED_GROUPS | default_car_map().safety_groups | {"other"}
    assert set(looks_in_force({})) == groups


def test_a_toml_syntax_error_names_its_line():
    text = EVENT.replace(b'car = "42"', b"car = 42.")
    (fault,) = faults(event=text)
    assert (fault.file, fault.row) == ("event.toml", line_of(EVENT, b'car = "42"'))
    assert "not valid TOML" in fault.what


def test_a_broken_event_and_a_broken_map_are_named_together():
    found = faults(event=b"event = \n", car_map=b"zones = \n", van=b"part\n")
    assert {fault.file for fault in found} == {"event.toml", "car_map.toml", "van.csv"}


@pytest.mark.parametrize("empty", [b"", b"\n", b"# to be written\n", b"\xef\xbb\xbf"])
def test_an_empty_file_is_a_fault_with_a_name(empty):
    assert [(fault.file, fault.column) for fault in faults(event=empty)] == [("event.toml", "event")]
    assert [(fault.file, fault.column) for fault in faults(car_map=empty)] == [("car_map.toml", "zones")]


def test_text_that_is_not_utf8_is_a_fault():
    (fault,) = faults(event=EVENT.replace(b"Small", b"Sm\xe4ll"))
    assert "not UTF-8" in fault.what


def test_a_folder_without_an_event_says_so():
    files = small_files()
    del files["event.toml"]
    with pytest.raises(BadSetup) as caught:
        read_setup(files)
    assert str(caught.value) == "event.toml: this file is missing; an event folder starts with it"


def test_bom_and_crlf_are_read_the_same():
    changed = b"\xef\xbb\xbf" + EVENT.replace(b"\n", b"\r\n")
    assert small_setup(event=changed).event == small_setup().event


def test_what_is_left_out_has_the_usual_figures():
    event = small_setup().event
    # FIA rally sporting regulations, from memory: 10 s late, 60 s early, 15 minutes at one control, 30 in all.
    rules = event.regulations
    assert (rules.late_penalty_s_per_minute, rules.early_penalty_s_per_minute) == (10, 60)
    assert (rules.late_limit_minutes, rules.total_late_limit_minutes) == (15, 30)
    assert rules.advice_on_road is False
    assert event.services[0].in_and_out_minutes == 0
    assert event.people[0].name == "p-toma"


@pytest.mark.parametrize("what", [Fault("a.csv", 3, "b", "c"), Fault("a.csv", 0, "", "c")])
def test_a_fault_reads_as_a_sentence_with_its_place(what):
    assert str(what) in ("a.csv, row 3, b: c", "a.csv: c")
