"""Two phones and no server: reports pass by code from screen to camera, all that a phone holds passes as a file."""

import hashlib
import io
import json
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
import segno
from cameras import film_of, phone_with_camera
from downloads import save
from looking import axe_finds, small_targets, too_wide
from phones import PocketPhone, stored, wait_until
from playwright.sync_api import Page, Playwright, expect
from server import EVENT, Server, running, without_entries
from test_offline import log_a_bent_wheel

from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store


@pytest.fixture
def server(tmp_path: Path):
    """A server with the sample event's set-up, signatures demanded, and no entry."""
    yield from running(signed(without_entries(tmp_path / "data", tmp_path / "event", []), tmp_path / "event"))


def signed(server: Server, folder: Path) -> Server:
    event = folder / "event.toml"
    event.write_text(event.read_text().split("[trust]")[0] + '\n[trust]\nsignatures = "on"\n')
    load(Store(server.data), folder, now())
    return server


def entries_of(page: Page) -> list[dict]:
    return [record["entry"] for record in stored(page, "entries")]


def codes_on(page: Page, count: int) -> list[bytes]:
    """Return pictures of the codes that a phone shows, each once."""
    if count > 1:
        page.get_by_role("button", name="Stop at this code").click()
    pictures = []
    for number in range(count):
        page.get_by_role("img", name="QR code").wait_for()
        pictures.append(page.locator("svg.code").screenshot())
        if number + 1 < count:
            page.get_by_role("button", name="Next code").click()
    assert len(set(pictures)) == count
    return pictures


def take(page: Page, path: Path) -> None:
    page.locator("input[type=file]").set_input_files(path)


def give(page: Page, path: Path) -> Path:
    """Make the file on a phone and save it."""
    page.get_by_role("button", name="Make the file").click()
    made = save(page, page.get_by_role("link", name="Save it on this phone").click)
    assert made.name.startswith(f"shuntbook-{EVENT}-")
    path.write_bytes(made.data)
    return path


def command(*words: object) -> dict:
    line = [sys.executable, "-m", "shuntbook.cli", "bundle", *map(str, words), "--json"]
    done = subprocess.run(line, capture_output=True, text=True, timeout=300, check=False)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.mark.longer
def test_reports_pass_by_code_through_the_window_and_the_other_phone_brings_them(
    server: Server, phone: Callable[[str], PocketPhone], playwright: Playwright, tmp_path: Path
) -> None:
    film = tmp_path / "film.mjpeg"
    toma = phone("toma")
    page = toma.join(server, "p-toma")
    with phone_with_camera(playwright, film) as bodo:
        bodo.join(server, "p-bodo")
        server.stop()
        for _ in range(4):
            log_a_bent_wheel(page)
            page.get_by_role("button", name="Log another").click()
        toma.show("codes")
        page.get_by_text("Code 1 of").wait_for()
        count = int(page.locator("figcaption").inner_text().split()[-1])
        assert count > 1, "four reports are more than one code"
        pictures = codes_on(page, count)
        # Out of order, and the first one twice: the camera may see any of them first.
        film_of([*reversed(pictures), pictures[0]], film)

        bodo.show("handover")
        bodo.page.get_by_role("button", name="Scan codes").click()
        bodo.page.get_by_text("Taken: 4 entries new").wait_for()
        expect(bodo.page.locator("video"), "the camera is closed").to_have_count(0)
        assert sorted(entries_of(bodo.page), key=str) == sorted(entries_of(page), key=str)
        assert all(one["sig"] for one in entries_of(bodo.page))
        assert [one["problem"] for one in stored(bodo.page, "entries")] == [None] * 4

        bodo.show("queue")
        bodo.page.locator("main").get_by_text("Wheel rim").first.wait_for()

        mine = entries_of(page)
        toma.kill()
        server.start()
        wait_until(bodo.page, lambda: len(server.entries()) == 4)
        assert sorted(server.entries(), key=str) == sorted(mine, key=str)
        assert server.get("/set-aside", server.manager) == []


@pytest.mark.longer
def test_one_report_is_one_code_from_the_saved_screen_and_twice_is_once(
    server: Server, phone: Callable[[str], PocketPhone], playwright: Playwright, tmp_path: Path
) -> None:
    film = tmp_path / "film.mjpeg"
    page = phone("toma").join(server, "p-toma")
    with phone_with_camera(playwright, film) as bodo:
        bodo.join(server, "p-bodo")
        server.stop()
        log_a_bent_wheel(page)
        page.get_by_role("link", name="Send by QR code").click()
        page.get_by_text("One code holds it all").wait_for()
        film_of(codes_on(page, 1), film, turned_degrees=11)
        bodo.show("handover")
        bodo.page.get_by_role("button", name="Scan codes").click()
        bodo.page.get_by_text("Taken: 1 entry new, 0 here already").wait_for()
        bodo.page.get_by_role("button", name="Scan more codes").click()
        bodo.page.get_by_text("Taken: 0 entries new, 1 here already").wait_for()
        assert len(stored(bodo.page, "entries")) == 1


@pytest.mark.longer
def test_a_code_of_another_kind_is_told_from_ours(
    server: Server, playwright: Playwright, tmp_path: Path, phone: Callable[[str], PocketPhone]
) -> None:
    film = tmp_path / "film.mjpeg"
    picture = io.BytesIO()
    segno.make("https://example.invalid/menu", error="m").save(picture, kind="png", scale=10)
    film_of([picture.getvalue()], film)
    with phone_with_camera(playwright, film) as bodo:
        bodo.join(server, "p-bodo")
        bodo.show("handover")
        bodo.page.get_by_role("button", name="Scan codes").click()
        bodo.page.get_by_text("That is another kind of code").wait_for()
        assert axe_finds(bodo.page) == []
        assert small_targets(bodo.page) == []
        assert too_wide(bodo.page) == []
        bodo.page.get_by_role("button", name="Stop scanning").click()
        expect(bodo.page.locator("video")).to_have_count(0)
        assert stored(bodo.page, "entries") == []


@pytest.mark.longer
def test_without_a_camera_the_screen_says_what_to_do(server: Server, phone: Callable[[str], PocketPhone]) -> None:
    toma = phone("toma")
    page = toma.join(server, "p-toma")
    toma.show("handover")
    page.get_by_role("button", name="Scan codes").click()
    page.get_by_text("Hand over by file").or_(page.get_by_text("or hand over by file")).wait_for()


@pytest.mark.longer
def test_a_file_passes_from_phone_to_phone_with_its_photo_and_goes_out_from_there(
    server: Server, phone: Callable[[str], PocketPhone], picture: Path, tmp_path: Path
) -> None:
    toma, bodo = phone("toma"), phone("bodo")
    page = toma.join(server, "p-toma")
    bodo.join(server, "p-bodo")
    server.stop()
    log_a_bent_wheel(page, picture)
    toma.show("handover")
    path = give(page, tmp_path / "handed.zip")

    bodo.show("handover")
    damaged = tmp_path / "damaged.zip"
    data = bytearray(path.read_bytes())
    data[len(data) // 2] ^= 1
    damaged.write_bytes(data)
    take(bodo.page, damaged)
    bodo.page.get_by_text("This file is damaged").wait_for()
    assert stored(bodo.page, "entries") == []
    take(bodo.page, path)
    bodo.page.get_by_text("Taken: 2 entries new, 0 here already, 1 photo new").wait_for()
    take(bodo.page, path)
    bodo.page.get_by_text("Taken: 0 entries new, 2 here already, 0 photos new").wait_for()
    assert sorted(entries_of(bodo.page), key=str) == sorted(entries_of(page), key=str)

    toma.kill()
    server.start()
    wait_until(bodo.page, lambda: len(server.entries()) == 2)
    name = server.entries(kind="report.amended")[0]["data"]["photos"][0]
    wait_until(bodo.page, lambda: photos_on(server) == [name])
    assert server.get("/set-aside", server.manager) == []


def photos_on(server: Server) -> list[str]:
    return [row[0] for row in Store(server.data).db.conn.execute("SELECT photo FROM photo")]


@pytest.mark.longer
def test_a_phones_file_is_one_for_the_server_and_the_servers_file_one_for_a_phone(
    server: Server, phone: Callable[[str], PocketPhone], picture: Path, tmp_path: Path
) -> None:
    toma, bodo = phone("toma"), phone("bodo")
    page = toma.join(server, "p-toma")
    bodo.join(server, "p-bodo")
    server.stop()
    log_a_bent_wheel(page, picture)
    toma.show("handover")
    path = give(page, tmp_path / "phone.zip")
    with zipfile.ZipFile(path) as packed:
        assert packed.testzip() is None
        manifest = json.loads(packed.read("manifest.json"))
        listed = {one["name"]: one["sha256"] for one in manifest["files"]}
        assert listed == {name: hashlib.sha256(packed.read(name)).hexdigest() for name in listed}
        devices = {one["device"] for one in json.loads(packed.read("devices.json"))}
        assert {one["device"] for one in entries_of(page)} <= devices

    taken = command("import", path, "--data", server.data)
    assert (taken["new"], taken["set_aside"], taken["photos"], taken["untrusted"]) == (2, [], 1, 0)
    assert sorted(server.entries(), key=str) == sorted(entries_of(page), key=str)

    command("export", tmp_path / "server.zip", "--data", server.data)
    bodo.show("handover")
    take(bodo.page, tmp_path / "server.zip")
    bodo.page.get_by_text("Taken: 2 entries new, 0 here already, 1 photo new").wait_for()
    assert sorted(entries_of(bodo.page), key=str) == sorted(entries_of(page), key=str)


@pytest.mark.longer
def test_a_report_changed_in_a_file_counts_on_no_phone_and_no_server(
    server: Server, phone: Callable[[str], PocketPhone], tmp_path: Path
) -> None:
    toma, bodo = phone("toma"), phone("bodo")
    page = toma.join(server, "p-toma")
    bodo.join(server, "p-bodo")
    server.stop()
    log_a_bent_wheel(page)
    toma.show("handover")
    path = give(page, tmp_path / "phone.zip")
    forged = forge(path, tmp_path / "forged.zip")
    bodo.show("handover")
    take(bodo.page, forged)
    bodo.page.get_by_text("1 entry can't be believed on this phone alone").wait_for()
    # Else the honest phone would bring what it really said.
    toma.kill()
    server.start()
    wait_until(bodo.page, lambda: len(server.get("/set-aside", server.manager)) == 1)
    assert server.get("/set-aside", server.manager)[0]["code"] == "bad-signature"
    assert server.entries() == []


def forge(path: Path, target: Path) -> Path:
    """Change what a report says and put the file together again with hashes that fit."""
    with zipfile.ZipFile(path) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    files["entries.jsonl"] = files["entries.jsonl"].replace(b'"bent"', b'"worn"')
    manifest = json.loads(files["manifest.json"])
    for one in manifest["files"]:
        one.update(sha256=hashlib.sha256(files[one["name"]]).hexdigest(), bytes=len(files[one["name"]]))
    files["manifest.json"] = json.dumps(manifest).encode()
    files["manifest.sha256"] = hashlib.sha256(files["manifest.json"]).hexdigest().encode()
    with zipfile.ZipFile(target, "w") as packed:
        for name, data in files.items():
            packed.writestr(name, data)
    return target
