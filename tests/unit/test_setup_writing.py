"""TOML files that the server writes from cells: what changed is changed, and all else stays to the byte."""

import tomllib

import pytest

from shuntbook.kit.errors import BadSetup
from shuntbook.setup.writing import CellFile, CellRow, written
from small_event import EVENT, small_setup

BASE = """# Our event.
event = "e"
timezone = "Europe/Vienna"   # the officials' clock
motto = "dry and fast"

[[cars]]
car = "41"

[[stages]]
stage = "SS1"   # in the wood
km = 9.40
surface = "gravel"

# The long one.
[[stages]]
stage = "SS2"
km = 14.2

[[services]]
service = "A"
after = ""
arrive = 2026-06-13T10:20:00+02:00
minutes = 30

[tools]
tape = ["race tape"]   # any
seal = []

[regulations]
late_limit_minutes = 15
"""
REST = 'motto = "dry and fast"\n'
TOP = {"event": "e", "timezone": "Europe/Vienna"}
SS1, SS2 = {"stage": "SS1", "km": "9.4"}, {"stage": "SS2", "km": "14.2"}
SERVICE = {"service": "A", "arrive": "2026-06-13 10:20", "minutes": "30"}


def made(base: str = BASE, **tables: list[dict[str, str] | CellRow]) -> str:
    """The text that the server writes where these tables differ from what BASE says."""
    usual: dict[str, list[dict[str, str] | CellRow]] = {
        "event": [TOP],
        "cars": [{"car": "41"}],
        "stages": [CellRow(SS1, 'surface = "gravel"\n'), SS2],
        "services": [SERVICE],
        "tools": [{"action": "tape", "tools": "race tape"}, {"action": "seal"}],
        "regulations": [{"late_limit_minutes": "15"}],
    }
    rows = {
        name: tuple(row if isinstance(row, CellRow) else CellRow(row) for row in found)
        for name, found in (usual | tables).items()
    }
    return written("event.toml", CellFile(base, rows, REST)).decode()


def changed_lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if line not in BASE.splitlines()]


def test_cells_that_say_the_same_leave_every_byte() -> None:
    assert made() == BASE


def test_one_changed_cell_changes_one_line() -> None:
    text = made(stages=[CellRow(SS1 | {"km": "9.55"}, 'surface = "gravel"\n'), SS2])
    assert text == BASE.replace("km = 9.40", "km = 9.55")


def test_a_row_added_at_the_end_and_one_taken_out_leave_the_others_and_their_comments() -> None:
    first = CellRow(SS1, 'surface = "gravel"\n')
    more = made(stages=[first, SS2, {"stage": "SS3", "km": "7"}])
    assert tomllib.loads(more)["stages"][2] == {"stage": "SS3", "km": 7}
    assert all(line in more for line in BASE.splitlines())
    less = made(stages=[first])
    assert [one["stage"] for one in tomllib.loads(less)["stages"]] == ["SS1"]
    assert "# in the wood" in less


def test_rows_in_another_order_keep_what_they_say() -> None:
    text = made(stages=[SS2, CellRow(SS1, 'surface = "gravel"\n')])
    assert [one["stage"] for one in tomllib.loads(text)["stages"]] == ["SS2", "SS1"]
    assert tomllib.loads(text)["stages"][1]["surface"] == "gravel"


def test_a_row_that_is_renamed_is_the_one_in_its_place() -> None:
    text = made(stages=[CellRow(SS1 | {"stage": "SS1A"}, 'surface = "gravel"\n'), SS2])
    assert text == BASE.replace('stage = "SS1"', 'stage = "SS1A"')


def test_what_is_emptied_goes_and_what_said_nothing_stays() -> None:
    text = made(regulations=[{"advice_on_road": "true"}])
    assert tomllib.loads(text)["regulations"] == {"advice_on_road": True}
    assert 'after = ""' in text


def test_values_by_name_come_and_go() -> None:
    text = made(tools=[{"action": "tape", "tools": "race tape; knife"}, {"action": "swap", "tools": "jack"}])
    assert tomllib.loads(text)["tools"] == {"tape": ["race tape", "knife"], "swap": ["jack"]}


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        ("2026-06-13 10:20", "2026-06-13T10:20:00+02:00"),
        ("2026-01-10 9:05", "2026-01-10T09:05:00+01:00"),
        ("2026-06-13T10:20:00+05:30", "2026-06-13T10:20:00+05:30"),
    ],
)
def test_a_service_s_time_is_the_event_s_own_clock(cell: str, said: str) -> None:
    # Central European time: +01:00 in winter, +02:00 in summer (EU Directive 2000/84/EC).
    text = made(services=[SERVICE | {"arrive": cell}])
    assert tomllib.loads(text)["services"][0]["arrive"].isoformat() == said


@pytest.mark.parametrize(
    ("table", "cells", "odd"),
    [
        ("stages", {"stage": "SS1", "km": "far"}, "km"),
        ("stages", {"stage": "SS1", "km": "9" * 5000}, "km"),
        ("services", SERVICE | {"arrive": "soon"}, "arrive"),
        ("services", SERVICE | {"arrive": "2026-06-31 10:00"}, "arrive"),
        ("services", SERVICE | {"parc_ferme_after": "perhaps"}, "parc_ferme_after"),
    ],
)
def test_a_cell_that_does_not_read_as_its_kind_is_written_as_typed(table: str, cells: dict[str, str], odd: str) -> None:
    text = made(stages=[cells]) if table == "stages" else made(services=[cells])
    assert tomllib.loads(text)[table][0][odd] == cells[odd]


def test_a_file_that_was_not_there_is_written_whole() -> None:
    rows = {"event": (CellRow({"event": "small-2026"}),), "cars": (CellRow({"car": "41"}),)}
    text = written("event.toml", CellFile("", rows)).decode()
    assert tomllib.loads(text) == {"event": "small-2026", "cars": [{"car": "41"}]}


def test_tables_by_name_are_written_as_a_car_map_has_them() -> None:
    zone = CellRow({"zone": "roof", "kind": "roof", "people": "1", "components": "skin;vent"})
    rows = {"car_map": (CellRow({"safety_groups": "fuel"}),), "zones": (zone,)}
    text = written("car_map.toml", CellFile("", rows))
    assert small_setup(car_map=text).car_map.zones["roof"].components == ("skin", "vent")


def test_quantities_and_minutes_are_written_as_the_reader_has_them() -> None:
    agreement = {"agreement": "a", "car": "41", "customer": "C", "included": "rim*2;hose*0.5", "excess": "1500.50"}
    task = {"task": "fuel", "minutes": "1;2.5;4"}
    rows = {
        "event": (CellRow({"event": "small-2026"}),),
        "agreements": (CellRow(agreement),),
        "cars": (CellRow({"car": "41"}),),
        "routine": (CellRow(task),),
    }
    event = small_setup(event=written("event.toml", CellFile("", rows))).event
    assert {part: str(qty) for part, qty in event.agreements[0].included.items()} == {"rim": "2", "hose": "0.5"}
    assert (str(event.agreements[0].excess), [str(one) for one in event.routine[0].minutes]) == (
        "1500.50",
        ["1", "2.5", "4"],
    )


@pytest.mark.parametrize("base", ["x = ", "deep = " + "[" * 20_000, "x = " + "9" * 5000, "#" * 600_000])
def test_a_text_that_can_not_be_read_is_a_fault_with_what_to_do(base: str) -> None:
    with pytest.raises(BadSetup, match="download the draft"):
        written("event.toml", CellFile(base, {}))


def test_a_file_that_is_none_of_a_set_up_s_toml_files_is_refused() -> None:
    for name in ("notes.toml", "van.csv"):
        with pytest.raises(BadSetup, match="not a TOML file of a set-up"):
            written(name, CellFile("", {}))


def test_an_odd_but_valid_text_still_says_what_the_cells_say() -> None:
    odd = 'event = "e"\nstages = [{stage = "SS1", km = 1}, {stage = "SS2", km = 2}]\ncars = [{car = "41"}]\n'
    rows = {
        "event": (CellRow({"event": "e"}),),
        "cars": (CellRow({"car": "41"}),),
        "stages": (CellRow({"stage": "SS2", "km": "2"}), CellRow({"stage": "SS1", "km": "1.5"})),
    }
    said = tomllib.loads(written("event.toml", CellFile(odd, rows)).decode())
    assert said["stages"] == [{"stage": "SS2", "km": 2}, {"stage": "SS1", "km": 1.5}]


def test_the_small_event_goes_through_without_a_change() -> None:
    event = small_setup(event=EVENT).event
    rows = {
        "event": (CellRow({"event": event.event, "name": event.name, "timezone": event.timezone}),),
        "cars": tuple(CellRow({"car": car}) for car in event.cars),
        "people": tuple(CellRow({"person": one.person, "roles": ";".join(one.roles)}) for one in event.people),
        "stages": tuple(CellRow({"stage": one.stage, "km": str(one.km)}) for one in event.stages),
        "services": tuple(
            CellRow({"service": one.service, "after": one.after, "minutes": str(one.minutes)}) for one in event.services
        ),
    }
    assert written("event.toml", CellFile(EVENT.decode(), rows)) == EVENT
