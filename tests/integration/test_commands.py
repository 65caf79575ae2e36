"""What the commands print is exactly what the API answers; checks, backups, invites."""

import json

import pytest
from command import printed, run

from phone import EVENT
from sample_event import ENTRIES
from shuntbook.app import create_app
from shuntbook.flow import diagnostics
from shuntbook.kit.canonical import sha256
from shuntbook.serving import sample_folder
from shuntbook.store import photos
from shuntbook.store.database import FILE, Store


@pytest.mark.parametrize(
    ("words", "path"),
    [
        (("queue", "--event", EVENT, "--car", "41"), f"/events/{EVENT}/cars/41/queue"),
        (("release", "--event", EVENT, "--car", "42"), f"/events/{EVENT}/cars/42/release"),
        (("costs", "--event", EVENT), f"/events/{EVENT}/costs"),
        (("costs", "--event", EVENT, "--car", "42"), f"/events/{EVENT}/costs?car=42"),
    ],
)
def test_json_is_exactly_what_the_api_answers(data_folder, phone, words, path):
    done = run(*words, "--json", data=data_folder)
    assert done.returncode == 0
    assert done.stdout == phone("manager").get(path).text + "\n"


def test_a_queue_for_reading_says_what_the_log_holds_and_never_more(data_folder):
    done = run("queue", "--event", EVENT, "--car", "41", data=data_folder)
    assert done.returncode == 0
    answer = printed("queue", "--event", EVENT, "--car", "41", data=data_folder)
    assert ("HOLD" in done.stdout) == (answer["release"] == "hold")
    for job in answer["jobs"]:
        assert job["job"] in done.stdout
    assert answer["totals"]["total"] in done.stdout
    words = done.stdout.lower().split()
    assert "safe" not in words
    assert "clear" not in words


def test_costs_for_reading_show_the_total_and_its_currency(data_folder):
    done = run("costs", "--event", EVENT, data=data_folder)
    answer = printed("costs", "--event", EVENT, data=data_folder)
    assert f"total {answer['totals']['total']} {answer['currency']}" in done.stdout


def test_a_good_rate_table_is_named_by_its_version_and_a_bad_one_by_its_faults(tmp_path):
    rates = sample_folder() / "rates"
    bytes_in_name_order = b"".join(file.read_bytes() for file in sorted(rates.iterdir()))
    done = run("rates", "check", rates, "--json")
    assert (done.returncode, json.loads(done.stdout)["rates"]) == (0, sha256(bytes_in_name_order))
    empty = run("rates", "check", tmp_path)
    assert (empty.returncode, empty.stdout) == (1, "")
    for name in ("operations.csv", "access.csv", "parts.csv", "rates.toml"):
        assert f"{name}: this file is missing" in empty.stderr


def test_check_leaves_with_1_where_something_is_wrong(data_folder):
    assert run("check", data=data_folder).returncode == 0
    store = Store(data_folder)
    digest = photos.all_held(store.db)[0]
    photos.path_of(store, digest).write_bytes(b"damaged")
    store.db.execute("DELETE FROM job WHERE car = '42'")
    done = run("check", "--json", data=data_folder)
    assert done.returncode == 1
    problems = json.loads(done.stdout)["problems"]
    assert len(problems) == 2
    assert any(digest in sentence for sentence in problems)
    assert any("car 42" in sentence for sentence in problems)
    assert run("rebuild", "--event", EVENT, data=data_folder).returncode == 0
    assert len(diagnostics.check(store)) == 1


def test_an_invite_gives_a_code_and_a_link_that_let_somebody_in_once(data_folder, pages):
    link = printed("invite", "--person", "p-toma", "--url", "http://van.example:8017/", data=data_folder)
    assert link["link"] == f"http://van.example:8017/#/join/{link['code']}"
    client = create_app(Store(data_folder), pages).test_client()
    assert client.post("/api/v1/join", json={"code": link["code"]}).get_json()["person"] == "p-toma"


def test_a_backup_is_a_store_and_is_not_written_over_another(data_folder, tmp_path):
    target = tmp_path / "copy" / FILE
    target.parent.mkdir()
    assert run("backup", target, data=data_folder).returncode == 0
    copy = Store(target.parent)
    assert copy.db.execute("SELECT count(*) FROM entry").fetchone() == (ENTRIES,)
    again = run("backup", target, data=data_folder)
    assert again.returncode == 1
    assert "exists already" in again.stderr


def test_the_data_folder_is_named_by_the_environment_too(data_folder, monkeypatch):
    monkeypatch.setenv("SHUNTBOOK_DATA", str(data_folder))
    done = run("release", "--event", EVENT, "--car", "41", "--json")
    assert json.loads(done.stdout)["car"] == "41"
