"""Set-ups and rate tables sent by a manager: every fault named, all or nothing, everything calculated again."""

from importlib.resources import files as resources

import pytest

from phone import NOW
from sample_event import event_files
from shuntbook.flow import answers, diagnostics, uploads
from shuntbook.setup.folder import read_setup
from small_event import small_files

EVENT = "thornquell-2026"


def sample_texts(prefix: str = "") -> dict[str, str]:
    files = event_files("off")
    return {name.removeprefix(prefix): data.decode() for name, data in files.items() if name.startswith(prefix)}


@pytest.fixture
def put(client, join):
    headers = join("manager")
    return lambda path, files: client.put(f"/api/v1{path}", json={"files": files}, headers=headers)


def test_a_dearer_hour_changes_every_estimate_and_is_named_in_the_queue(put, phone, sample_store):
    before = phone().queue()
    rates = sample_texts("rates/")
    rates["rates.toml"] = rates["rates.toml"].replace("labour_per_hour = 58", "labour_per_hour = 116")
    taken = put("/rates", rates)
    assert (taken.status_code, taken.get_json()["events"]) == (200, [EVENT])
    after = phone().queue()
    assert after["rates"] == taken.get_json()["rates"] != before["rates"]
    assert [job["job"] for job in after["jobs"]] == [job["job"] for job in before["jobs"]]
    assert after["totals"]["mechanic_minutes"] == before["totals"]["mechanic_minutes"]
    assert after["totals"]["labour"] != before["totals"]["labour"]
    assert diagnostics.check(sample_store) == []


def test_an_old_rate_table_gives_its_old_costs_to_the_same_cents(put, phone):
    manager = phone("manager")
    before = manager.get(f"/events/{EVENT}/costs").get_json()
    rates = sample_texts("rates/")
    rates["rates.toml"] = rates["rates.toml"].replace("labour_per_hour = 58", "labour_per_hour = 116")
    put("/rates", rates)
    now = manager.get(f"/events/{EVENT}/costs").get_json()
    old = manager.get(f"/events/{EVENT}/costs?rates={before['rates']}").get_json()
    assert old == before != now
    assert manager.get(f"/events/{EVENT}/costs?rates={'0' * 64}").status_code == 404


def test_a_faulty_rate_table_changes_nothing_and_names_each_fault(put, phone):
    before = phone().queue()["hash"]
    rates = sample_texts("rates/")
    rates["parts.csv"] = rates["parts.csv"].replace("210.00", "-210.00", 1)
    rates["rates.toml"] = rates["rates.toml"].replace('"EUR"', '"EUX"')
    answer = put("/rates", rates)
    assert answer.status_code == 422
    places = {(fault["file"], fault["column"]) for fault in answer.get_json()["faults"]}
    assert {("rates/parts.csv", "unit_cost"), ("rates/rates.toml", "currency")} <= places
    assert phone().queue()["hash"] == before


def test_a_rate_table_that_fits_no_agreement_of_two_events_names_the_fault_of_each(put, sample_store):
    named = {}
    for event, part in (("first-2026", "rim"), ("second-2026", "hose")):
        terms = f'[[agreements]]\nagreement = "a"\ncar = "41"\ncustomer = "Club"\nincluded = {{{part} = 1}}\n'
        text = small_files()["event.toml"].decode().replace("small-2026", event) + terms
        uploads.put_setup(sample_store, event, small_files(event=text.encode()), NOW)
        row = text.splitlines().index(f"included = {{{part} = 1}}") + 1
        named[event] = ("event.toml", row, "agreements.included", part)
    answer = put("/rates", sample_texts("rates/"))
    assert answer.status_code == 422
    told = [fault for fault in answer.get_json()["faults"] if fault["file"] == "event.toml"]
    for event, (file, row, column, part) in named.items():
        (fault,) = [one for one in told if event in one["what"]]
        assert (fault["file"], fault["row"], fault["column"]) == (file, row, column)
        assert f"'{part}' is not in parts.csv" in fault["what"]
    assert {fault["what"] for fault in told} == {fault["what"] for fault in answer.get_json()["faults"]}


def test_a_faulty_set_up_changes_nothing_and_names_each_fault(put, phone):
    before = phone().get("/setup").get_json()["events"]
    files = sample_texts()
    files["event.toml"] = files["event.toml"].replace('timezone = "Europe/Vienna"', 'timezone = "Mars/Olympus"')
    files["van.csv"] = files["van.csv"] + "no-number,many\n"
    answer = put(f"/events/{EVENT}", files)
    assert answer.status_code == 422
    assert [(f["file"], f["column"]) for f in answer.get_json()["faults"]] == [
        ("event.toml", "timezone"),
        ("van.csv", "loaded"),
    ]
    assert phone().get("/setup").get_json()["events"] == before


def test_a_set_up_must_be_of_the_event_that_the_address_names(put):
    answer = put("/events/another-2026", sample_texts())
    assert answer.status_code == 422
    assert answer.get_json()["faults"][0]["column"] == "event"


@pytest.mark.parametrize("body", [None, [], {}, {"files": []}, {"files": {"event.toml": 7}}, {"files": {}, "x": 1}])
def test_a_body_that_is_no_files_is_a_problem(client, join, body):
    answer = client.put("/api/v1/rates", json=body, headers=join("manager"))
    assert answer.status_code in (400, 422)
    assert answer.content_type == "application/problem+json"


def test_an_inspector_who_lost_his_role_holds_the_cars_that_he_passed(put, phone, sample_store):
    reader = phone()
    before = {car: len(reader.queue(car)["hold_reasons"]) for car in ("41", "42")}
    files = sample_texts()
    files["event.toml"] = files["event.toml"].replace('"inspector"]', '"mechanic"]')
    assert put(f"/events/{EVENT}", files).status_code == 200
    after = {car: len(reader.queue(car)["hold_reasons"]) for car in ("41", "42")}
    assert all(after[car] >= before[car] for car in before)
    assert sum(after.values()) > sum(before.values())
    assert diagnostics.check(sample_store) == []


def test_the_same_set_up_again_changes_nothing(put, sample_store):
    before = answers.queue(sample_store, EVENT, "41")
    assert put(f"/events/{EVENT}", sample_texts()).status_code == 200
    assert answers.queue(sample_store, EVENT, "41") == before
    assert sample_store.db.execute("SELECT count(*) FROM setup").fetchone() == (1,)


def test_only_a_manager_brings_a_new_events_set_up(phone):
    """A set-up says who is manager; of a new event only who is one already brings it."""
    files = sample_texts()
    files["event.toml"] = files["event.toml"].replace(EVENT, "other-2026")
    for role in ("driver", "co-driver", "mechanic", "inspector"):
        anybody = phone(role)
        refused = anybody.client.put("/api/v1/events/other-2026", json={"files": files}, headers=anybody.headers)
        assert refused.status_code == 403
        assert refused.get_json()["detail"].endswith("Ask a manager to do it")
    assert [event["event"] for event in phone().get("/setup").get_json()["events"]] == [EVENT]
    manager = phone("manager")
    taken = manager.client.put("/api/v1/events/other-2026", json={"files": files}, headers=manager.headers)
    assert taken.status_code == 200


def test_a_manager_gets_the_sample_as_a_pattern_with_the_package_s_rate_table(client, join):
    files = client.get("/api/v1/sample", headers=join("manager")).get_json()["files"]
    assert {"event.toml", "van.csv", "rates/operations.csv", "rates/rates.toml"} <= files.keys()
    package = resources("shuntbook").joinpath("defaults", "rates", "operations.csv")
    assert files["rates/operations.csv"] == package.read_text()
    assert read_setup({name: text.encode() for name, text in files.items()}).warnings == ()
    assert client.get("/api/v1/sample", headers=join("mechanic")).status_code == 403
