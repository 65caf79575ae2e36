"""How the files beside this one were made: by release 0.1.0 itself, driven as its users do.

Run once, in a checkout of the tag v0.1.0 after `make setup`, with tests and tests/browser on the path and a photo,
hit.jpg, beside this script:

    PYTHONPATH=tests:tests/browser:. .venv/bin/python …/freeze.py FOLDER

What it made stays as it is: later releases open it, never make it again.
"""

import hashlib
import io
import json
import lzma
import subprocess
import sys
import tarfile
import tempfile
import urllib.request
import zipfile
from pathlib import Path

from crew import Member
from phones import SIZE, Phone, start_browser
from playwright.sync_api import sync_playwright
from server import EVENT, Server, without_log

from making import Pen, raw
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import FILE, Store

TERMS = """
[[agreements]]
agreement = "hire-41"
car = "41"
customer = "Nadja Kern"
excess = 1500.00
labour_per_hour = 55.00
consumables_percent = 5
deposit = 200.00
wear_excluded = ["mud-flap", "arch-liner"]

[[people]]
person = "p-gone"
name = "Gerd"
roles = ["mechanic"]
"""


def event_folder(folder: Path) -> None:
    """The sample event with nothing logged, a second agreement, and signatures demanded."""
    without_log(folder)
    event = folder / "event.toml"
    event.write_text(event.read_text() + TERMS)


def a_day(server: Server) -> None:
    """Four phones: hits with a photo, a repair, an inspection, a decision, a statement, a phone that is revoked."""
    with sync_playwright() as playwright:
        browser = start_browser(playwright)

        def member(person: str) -> Member:
            phone = Phone(browser.new_context(viewport=SIZE, timezone_id="Europe/Vienna"))
            phone.join(server, person)
            return Member(server, phone, person, "41")

        toma, bodo, odil, vera = (member(person) for person in ("p-toma", "p-bodo", "p-odil", "p-vera"))
        toma.logs("Left side", "Mirror", "Broken")
        picture = Path(sys.argv[0]).with_name("hit.jpg")
        toma.page.locator("input[type=file]").first.set_input_files(picture)
        toma.page.locator(".kept img").first.wait_for()
        toma.logs("Front left", "Mud flap", "Missing")
        toma.logs("Front right", "Brake hose", "Cracked")
        toma.wrote("report.filed", 3)
        toma.wrote("report.amended", 1)
        bodo.finishes("left-side/mirror")
        bodo.finishes("front-right/brake-hose")
        bodo.wrote("job.finished", 2)
        odil.looks("front-right/brake-hose", "Passed")  # type: ignore[attr-defined] # as that release's crew has it
        odil.wrote("inspection.passed")
        page = vera.at("costs")
        page.get_by_role("link", name="What the customer is charged").click()
        page.get_by_role("heading", name="Statement 1, as it stands now").wait_for()
        page.get_by_text("1 line", exact=True).first.click()
        page.get_by_role("button", name="Decide …").first.click()
        page.get_by_role("button", name="+10").first.click()
        vera.tap("Save this decision")
        vera.sees("Saved: who pays for the line.")
        vera.wrote("charge.decided")
        vera.tap("Issue statement 1")
        vera.sees("Saved: statement 1 is issued.")
        vera.wrote("statement.issued")
        gone = member("p-gone")
        gone.logs("Rear end", "Boot lid" if gone.page.get_by_label("Boot lid").count() else "Rear bumper")
        gone.wrote("report.filed")
        device = gone.page.evaluate(
            "() => new Promise((good) => { const opened = indexedDB.open('shuntbook'); opened.onsuccess = () => {"
            " opened.result.transaction('identities').objectStore('identities').getAll().onsuccess ="
            " (event) => good(event.target.result[0].device); }; })"
        )
        server.shut_out(device)
        gone.logs("Rear left", "Wheel rim")
        gone.page.wait_for_timeout(3000)
        for one in (toma, bodo, odil, vera, gone):
            one.phone.close()
        browser.close()


def nonsense(server: Server) -> None:
    """Two entries that are set aside: one without a signature, one of a kind to come."""
    pen = Pen(EVENT, start=50_000)
    entries = [pen.filed("front-end/grille missing"), pen.entry("report.annotated", "x", text="of a kind to come")]
    body = (
        f'{{"log_id": null, "cursor": 0, "now": "{now()}", "entries": [{",".join(raw(e).decode() for e in entries)}]}}'
    )
    request = urllib.request.Request(
        f"{server.url}/api/v1/sync",
        body.encode(),
        {"Authorization": f"Bearer {server.token('p-kasp')}", "Content-Type": "application/json"},
    )
    with urllib.request.urlopen(request, timeout=30) as answer:
        assert len(json.load(answer)["rejected"]) == 2


def pack(source: Path, target: Path) -> None:
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as packed:
        for path in sorted(source.rglob("*")):
            if path.is_file():
                packed.write(path, path.relative_to(source).as_posix())


def pack_tree(folder: str, target: Path, name: str, inside: str = "") -> None:
    """Pack a folder without bytecode; inside: its path in the archive, which else is the name."""
    packed = io.BytesIO()
    with tarfile.open(fileobj=packed, mode="w") as tar:
        tar.add(folder, arcname=inside or name, filter=lambda one: None if "__pycache__" in one.name else one)
    (target / f"{name}.tar.xz").write_bytes(lzma.compress(packed.getvalue(), preset=9 | lzma.PRESET_EXTREME))


def main() -> None:
    target = Path(sys.argv[1])
    with tempfile.TemporaryDirectory() as scratch:
        event, data = Path(scratch) / "event", Path(scratch) / "data"
        event_folder(event)
        pack(event, target / "event.zip")
        load(Store(data), event, now())
        server = Server(data)
        server.start()
        a_day(server)
        nonsense(server)
        queue, costs = server.queue("41"), server.costs("41")
        statements = server.get(f"/events/{EVENT}/cars/41/statements", server.manager)
        server.stop()
        store = Store(data)
        store.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        log_id = store.log_id
        raws = [row[0] for row in store.db.execute("SELECT raw FROM entry ORDER BY id")]
        (waiting,) = store.db.conn.execute("SELECT count(*) FROM set_aside").fetchone()
        command = [sys.executable, "-m", "shuntbook.cli", "bundle", "export", str(target / "bundle.zip")]
        subprocess.run([*command, "--data", str(data)], check=True)
        store.db.conn.close()
        for left in ("-wal", "-shm"):
            data.joinpath(FILE + left).unlink(missing_ok=True)
        pack(data, target / "data.zip")
        said = {
            "log_id": log_id,
            "entries": len(raws),
            "entries_sha256": hashlib.sha256(b"\n".join(raws)).hexdigest(),
            "set_aside": waiting,
            "queue": queue,
            "costs": costs,
            "statements": statements,
        }
        (target / "said.json").write_text(json.dumps(said, indent=1, ensure_ascii=False) + "\n")
    pack_tree("pwa/dist", target, "app")
    pack_tree("api/shuntbook", target, "server", "server/shuntbook")
    digests = {
        p.name: hashlib.sha256(p.read_bytes()).hexdigest() for p in sorted(target.iterdir()) if p.suffix != ".py"
    }
    (target / "digests.json").write_text(json.dumps(digests, indent=1) + "\n")


if __name__ == "__main__":
    main()
