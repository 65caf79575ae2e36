"""A set-up looked at before it is in force, and two managers who change it at once."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from longer import times
from sample_event import event_files
from shuntbook.setup.defaults import first_map, with_first

EVENT = "thornquell-2026"


def texts() -> dict[str, str]:
    return {name: data.decode() for name, data in event_files("off").items()}


def changed(file: str, old: str, new: str) -> dict[str, str]:
    files = texts()
    assert old in files[file]
    return {**files, file: files[file].replace(old, new, 1)}


@pytest.fixture
def manager(client, join):
    headers = join("manager")

    def call(method: str, path: str, body: dict | None = None):
        return client.open(f"/api/v1{path}", method=method, json=body, headers=headers)

    return call


def check(manager, files: dict[str, str], event: str = EVENT, **more: str) -> dict:
    answer = manager("POST", f"/events/{event}/files/check", {"files": files, **more})
    assert answer.status_code == 200
    return answer.get_json()


def test_files_as_they_are_have_no_fault_and_change_nothing(manager):
    answer = check(manager, texts())
    assert (answer["faults"], answer["difference"]) == ([], [])
    assert answer["version"] == manager("GET", f"/events/{EVENT}/files").get_json()["version"]


def test_each_fault_of_event_toml_says_in_which_table_of_its_header_it_is(manager):
    files = changed("event.toml", 'stage = "SS3"\nkm = 12.75', 'stage = "SS3"\nkm = "far"')
    files["event.toml"] = files["event.toml"].replace('roles = ["manager"]', 'roles = ["boss"]')
    answer = check(manager, files)
    assert answer["difference"] == []
    places = {(fault["column"], fault["index"]) for fault in answer["faults"]}
    assert places == {("stages.km", 2), ("people.roles", 8)}


def test_a_table_written_in_one_line_still_says_which_of_its_rows_is_meant(manager):
    head, rest = texts()["event.toml"].split("[[stages]]", 1)
    rest = rest[rest.index("[[services]]") :]
    rows = ", ".join(f'{{stage = "SS{n}", km = {n}}}' for n in range(1, 9))
    line = f'stages = [{rows}, {{stage = "SS9", km = "far"}}]\n'
    files = {**texts(), "event.toml": line + head + rest}
    (fault,) = check(manager, files)["faults"]
    assert (fault["column"], fault["index"]) == ("stages.km", 8)


def test_the_difference_is_told_by_what_it_means(manager):
    answer = check(manager, changed("rates/rates.toml", "labour_per_hour = 58", "labour_per_hour = 116.0 # dearer"))
    cells = [{"field": "labour_per_hour", "before": "58", "after": "116"}]
    assert answer["difference"] == [{"table": "rates", "key": "", "change": "changed", "cells": cells}]


def test_a_look_keeps_nothing(manager, sample_store):
    before = sample_store.db.execute("SELECT count(*) FROM setup").fetchone()
    check(manager, changed("event.toml", "km = 9.4", "km = 9.5"))
    assert sample_store.db.execute("SELECT count(*) FROM setup").fetchone() == before


def test_an_event_that_is_not_held_is_compared_with_the_one_it_was_made_from(manager):
    files = {n: t.replace('event = "thornquell-2026"', 'event = "next-2027"') for n, t in texts().items()}
    alone = check(manager, files, "next-2027")
    assert alone["version"] is None
    assert {change["change"] for change in alone["difference"]} == {"added"}
    against = check(manager, files, "next-2027", against=EVENT)
    cells = [{"field": "event", "before": "thornquell-2026", "after": "next-2027"}]
    assert against["difference"] == [{"table": "event", "key": "", "change": "changed", "cells": cells}]
    assert check_status(manager, files, "next-2027", "nowhere") == 404


def check_status(manager, files: dict[str, str], event: str, against: str) -> int:
    return manager("POST", f"/events/{event}/files/check", {"files": files, "against": against}).status_code


def test_an_older_draft_is_refused_with_what_to_do_and_changes_nothing(manager):
    version = manager("GET", f"/events/{EVENT}/files").get_json()["version"]
    first = changed("event.toml", "km = 9.4", "km = 9.5")
    second = changed("event.toml", "km = 9.4", "km = 9.6")
    assert manager("PUT", f"/events/{EVENT}", {"files": first, "version": version}).status_code == 200
    refused = manager("PUT", f"/events/{EVENT}", {"files": second, "version": version})
    assert refused.status_code == 409
    problem = refused.get_json()
    assert problem["type"].endswith("/changed-meanwhile")
    assert "bring it onto the version in force" in problem["detail"]
    assert manager("GET", f"/events/{EVENT}/files").get_json()["files"] == first


def test_a_new_event_cannot_take_the_place_of_one_that_is_held(manager):
    refused = manager("PUT", f"/events/{EVENT}", {"files": changed("event.toml", "km = 9.4", "km = 21"), "version": ""})
    assert refused.status_code == 409
    assert "another event id" in refused.get_json()["detail"]


def test_of_two_managers_at_once_one_is_told_that_the_other_was_first(app, join):
    """Many at once, all from the same version: one is taken, whichever; nobody's work is overwritten unseen."""
    many = times(5, 16)
    headers = join("manager")
    version = app.test_client().get(f"/api/v1/events/{EVENT}/files", headers=headers).get_json()["version"]

    def put(number: int) -> int:
        files = changed("event.toml", "km = 9.4", f"km = {number + 10}")
        body = {"files": files, "version": version}
        while True:
            answer = app.test_client().put(f"/api/v1/events/{EVENT}", json=body, headers=headers)
            if answer.status_code != 503:  # on a busy machine some wait too long for their turn, and ask again
                return answer.status_code

    with ThreadPoolExecutor(8) as pool:
        statuses = list(pool.map(put, range(1, many + 1)))
    assert sorted(statuses) == [200] + [409] * (many - 1)
    held = app.test_client().get(f"/api/v1/events/{EVENT}/files", headers=headers).get_json()["files"]["event.toml"]
    assert f"km = {statuses.index(200) + 11}\n" in held


def test_people_of_the_last_event_are_in_the_new_one_with_the_tokens_that_they_have(manager, phone):
    files = {n: t.replace('event = "thornquell-2026"', 'event = "next-2027"') for n, t in texts().items()}
    before = phone("mechanic")
    assert manager("PUT", "/events/next-2027", {"files": files, "version": ""}).status_code == 200
    assert "next-2027" in [one["event"] for one in before.get("/setup").get_json()["events"]]
    assert before.get("/events/next-2027/cars/41/queue").status_code == 200


def of_the_first_release() -> dict[str, str]:
    return {name: data.decode() for name, data in with_first(event_files("off")).items()}


def test_an_event_says_what_it_keeps_of_the_first_release(manager):
    assert manager("GET", f"/events/{EVENT}/files").get_json()["earlier"] == {"car_map": False, "looks": []}
    assert manager("PUT", f"/events/{EVENT}", {"files": of_the_first_release()}).status_code == 200
    held = manager("GET", f"/events/{EVENT}/files").get_json()["earlier"]
    assert held["car_map"]
    assert {"brake", "steering", "cage", "other"} <= set(held["looks"])


def test_a_manager_sees_what_the_newer_ones_change_and_takes_them(manager):
    assert manager("PUT", f"/events/{EVENT}", {"files": of_the_first_release()}).status_code == 200
    version = manager("GET", f"/events/{EVENT}/files").get_json()["version"]
    told = check(manager, texts(), version=version)
    changes = {(one["table"], one["key"]) for one in told["difference"]}
    assert {("symptoms", "long-pedal"), ("components", "arm-pick-up-points")} <= changes
    assert any(table == "looks" for table, _ in changes)
    assert manager("PUT", f"/events/{EVENT}", {"files": texts(), "version": version}).status_code == 200
    held = manager("GET", f"/events/{EVENT}/files").get_json()
    assert (held["files"], held["earlier"]) == (texts(), {"car_map": False, "looks": []})


def test_files_that_stand_for_themselves_keep_what_the_event_began_with(manager):
    assert manager("PUT", f"/events/{EVENT}", {"files": of_the_first_release()}).status_code == 200
    assert check(manager, texts())["difference"] == []
    assert manager("PUT", f"/events/{EVENT}", {"files": texts()}).status_code == 200
    assert manager("GET", f"/events/{EVENT}/files").get_json()["files"]["car_map.toml"] == first_map().decode()


def test_a_new_event_begun_from_one_of_the_first_release_has_todays(manager):
    files = of_the_first_release()
    files["event.toml"] = files["event.toml"].replace('event = "thornquell-2026"', 'event = "next-2027"')
    told = check(manager, files, "next-2027", against=EVENT)
    assert [one["table"] for one in told["difference"] if one["table"] in ("symptoms", "looks")] == []
    assert manager("PUT", "/events/next-2027", {"files": files, "version": ""}).status_code == 200
    assert "car_map.toml" not in manager("GET", "/events/next-2027/files").get_json()["files"]


ABSURD = {
    "deep": "deep = " + "[" * 20_000,
    "long": "x = " + "9" * 5000,
    "far": '[[stages]]\nstage = "SS77"\nkm = 1e999999999\n',
    "dear": '[[agreements]]\nagreement = "a"\ncar = "41"\ncustomer = "C"\nexcess = 1e27\n',
    "late": '[[agreements]]\nagreement = "a"\ncar = "41"\ncustomer = "C"\nlater_findings_days = 99999999999\n',
}


@pytest.mark.parametrize("absurd", ABSURD)
def test_what_nobody_can_mean_is_a_fault_in_a_check_and_refused_when_put(manager, absurd):
    files = texts()
    files["event.toml"] += "\n" + ABSURD[absurd]
    before = manager("GET", f"/events/{EVENT}/files").get_json()
    (fault,) = check(manager, files)["faults"]
    assert fault["file"] == "event.toml"
    refused = manager("PUT", f"/events/{EVENT}", {"files": files})
    assert refused.status_code == 422
    assert [one["what"] for one in refused.get_json()["faults"]] == [fault["what"]]
    assert manager("GET", f"/events/{EVENT}/files").get_json() == before


def test_a_file_of_hundreds_of_thousands_of_rows_is_refused_by_its_size(manager):
    files = {**texts(), "van.csv": "part,loaded\n" + "rim,1\n" * 900_000}
    whats = [fault["what"] for fault in check(manager, files)["faults"] if fault["file"] == "van.csv"]
    assert any("more than 20000 rows" in what for what in whats)


def test_what_is_taken_and_deserves_to_be_told_comes_with_the_difference(manager):
    answer = check(manager, changed("event.toml", "km = 9.4", 'km = 9.4\nsurfase = "gravel"'))
    assert answer["faults"] == []
    (warning,) = answer["warnings"]
    assert (warning["column"], warning["index"]) == ("stages.surfase", 0)


def test_a_file_that_nothing_reads_is_kept_and_told(manager):
    (warning,) = check(manager, {**texts(), "vann.csv": "part,loaded\n"})["warnings"]
    assert (warning["file"], warning["row"]) == ("vann.csv", 0)
    assert "van.csv" in warning["what"], "what it may have been meant for stands beside it"


def in_cells(stages: list[dict[str, str]], base: str) -> dict:
    """The body of a draft whose event file goes as cells, with these stages and nothing else changed."""
    text = texts()
    del text["event.toml"]
    tables = {"event": [{"cells": {"event": EVENT}}], "stages": [{"cells": cells} for cells in stages]}
    return {"files": text, "cells": {"event.toml": {"base": base, "tables": tables, "rest": ""}}}


def test_a_draft_in_cells_is_looked_at_and_put_in_force_with_the_comments_of_what_stays(manager):
    base = f'# Ours.\nevent = "{EVENT}"\n\n[[stages]]   # the first\nstage = "SS1"\nkm = 9.40\n'
    people = '[[people]]\nperson = "p-vera"\nroles = ["manager"]\n'
    body = in_cells([{"stage": "SS1", "km": "9.5"}], base)
    body["cells"]["event.toml"]["tables"]["people"] = [{"cells": {"person": "p-vera", "roles": "manager"}}]
    body["cells"]["event.toml"]["base"] += people
    looked = manager("POST", f"/events/{EVENT}/files/check", body).get_json()
    assert looked["faults"] == []
    assert "stages" in {change["table"] for change in looked["difference"]}
    assert manager("PUT", f"/events/{EVENT}", body).status_code == 200
    held = manager("GET", f"/events/{EVENT}/files").get_json()["files"]["event.toml"]
    assert held == (base + people).replace("km = 9.40", "km = 9.5")


def test_a_fault_of_cells_is_named_as_one_of_the_file_that_they_are(manager):
    body = in_cells([{"stage": "SS1", "km": "9"}, {"stage": "SS2", "km": "far"}], f'event = "{EVENT}"\n')
    faults = manager("POST", f"/events/{EVENT}/files/check", body).get_json()["faults"]
    assert [(one["file"], one["column"], one["index"]) for one in faults] == [("event.toml", "stages.km", 1)]


@pytest.mark.parametrize("base", ["x = ", "deep = " + "[" * 20_000])
def test_cells_beside_a_text_that_can_not_be_read_are_a_fault(manager, base):
    body = in_cells([], base)
    (fault,) = manager("POST", f"/events/{EVENT}/files/check", body).get_json()["faults"]
    assert "can't be read" in fault["what"]
    assert manager("PUT", f"/events/{EVENT}", body).status_code == 422


@pytest.mark.parametrize(
    ("slip", "asked"),
    [
        ("exces = 100", "did you mean excess?"),
        ('excluded = ["mudflap"]', "did you mean mud-flap?"),
        ("cap = 1234567890123", "more than 12 digits before the point"),
    ],
)
def test_a_slip_in_an_agreement_is_a_fault_of_a_check_and_of_an_upload(manager, slip: str, asked: str):
    old = {
        "exces": "excess = 1500.00",
        "excl": 'excluded = ["mud-flap", "arch-liner", "brake-pads"]',
        "cap": "cap = 4000.00",
    }
    files = changed("event.toml", next(line for name, line in old.items() if slip.startswith(name)), slip)
    (fault,) = check(manager, files)["faults"]
    assert (fault["column"], fault["file"]) == (f"agreements.{slip.split(' ')[0]}", "event.toml")
    assert asked in fault["what"]
    refused = manager("PUT", f"/events/{EVENT}", {"files": files})
    assert refused.status_code in (400, 422)
    assert asked in refused.get_data(as_text=True)
