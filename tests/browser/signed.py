"""Servers of events that demand signatures, and several people on one phone."""

import atexit
import json
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from phones import Phone
from playwright.sync_api import Page
from server import Server

from sample_event import event_folder
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store

SIGNED, UNSIGNED = "on", "off"


def sample_with(data: Path, trust: str) -> Server:
    """Return a server, not started, that holds the whole sample event with signatures SIGNED or UNSIGNED."""
    shutil.copytree(_loaded_with(trust), data)
    return Server(data)


@cache
def _loaded_with(trust: str) -> Path:
    """A data folder with the sample event, loaded once for all tests of a process and gone with it."""
    folder = TemporaryDirectory(prefix="sample-")
    atexit.register(folder.cleanup)
    data = Path(folder.name) / "data"
    store = Store(data)
    load(store, event_folder(Path(folder.name) / "event", trust), now())
    joining.name_owner(store, "p-vera", now())
    store.db.conn.close()
    return data


def invited(server: Server, person: str) -> str:
    """Invite somebody as the machine's owner does, by the command; return the link."""
    command = [sys.executable, "-m", "shuntbook.cli", "invite", "--person", person, "--data", str(server.data)]
    done = subprocess.run([*command, "--json"], capture_output=True, text=True, check=True)
    return f"{server.url}/#/join/{json.loads(done.stdout)['code']}"


def also_joins(phone: Phone, link: str, name: str) -> Page:
    """Let another person join on a phone that somebody uses already."""
    phone.page.goto(link)
    phone.page.wait_for_url(lambda url: "join" not in url)
    phone.page.get_by_role("button", name=f"{name} uses this phone now").wait_for()
    return phone.page


def change_to(page: Page, name: str, pin: str | None = None) -> None:
    """Change the person in the head line."""
    page.get_by_role("button", name="uses this phone now").click()
    page.locator("dialog .people").get_by_role("button", name=name).click()
    if pin is not None:
        page.get_by_role("dialog").get_by_label(f"PIN of {name}").fill(pin)
        page.get_by_role("dialog").get_by_role("button", name=f"Change to {name}").click()
    page.get_by_role("button", name=f"{name} uses this phone now").wait_for()
