"""Parts with a life on the phones: what presses beside the queue, the list, what is fitted, what it costs."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from looking import promises
from phones import Phone, wait_until
from playwright.sync_api import expect
from server import Server, running, without_entries

from shuntbook.flow.clock import now
from shuntbook.flow.load import load
from shuntbook.store.database import Store

LIVES = """
[[lives]]
component = "floor-guards"
label = "Floor guard"
days = 90
must_do = true
[[lives]]
component = "brake-pads"
place = "front-left"
label = "Pads"
days = 365
"""


@pytest.fixture
def lived_server(tmp_path: Path) -> Iterator[Server]:
    """The sample event, without entries; floor guards last 90 days, the front left pads a year."""
    server = without_entries(tmp_path / "data", tmp_path / "event", [])
    event = tmp_path / "event" / "event.toml"
    event.write_text(event.read_text().replace("[[people]]", f"{LIVES}\n[[people]]", 1))
    load(Store(tmp_path / "data"), tmp_path / "event", now())
    yield from running(server)


@pytest.mark.longer
def test_what_is_fitted_is_put_down_and_what_is_due_is_told(
    lived_server: Server, new_phone: Callable[[], Phone]
) -> None:
    bodo = new_phone()
    page = bodo.join(lived_server, "p-bodo")

    def wrote(kind: str, count: int) -> list[dict[str, Any]]:
        wait_until(page, lambda: len(lived_server.entries("41", kind)) == count)
        return lived_server.entries("41", kind)

    bodo.show("lives")
    guards = page.get_by_role("region", name="Floor guard, ")
    guards.get_by_text("Not known when fitted").wait_for()
    assert promises(page) == []

    # The event's own days are of June 2021: a guard of the year before is over its 90.
    guards.get_by_role("button", name="Fitted: Floor guard").click()
    guards.get_by_label("Serial or tag").fill("G-3")
    guards.get_by_label("Its life counts from").fill("2020-06-14")
    assert promises(page) == []
    guards.get_by_role("button", name="Save").click()
    [fitted] = wrote("part.fitted", 1)
    assert fitted["data"] == {"serial": "G-3", "rebuilt": False, "since": "2020-06-14"}
    guards.get_by_text("Due · must do").wait_for()
    guards.get_by_text("No. G-3 · Fitted 14 June 2020").wait_for()
    assert wrote("job.finished", 0) == []

    # On a brake what is fitted now is a repair, too, and holds the car until somebody inspects it.
    pads = page.get_by_role("region", name="Pads, ")
    pads.get_by_role("button", name="Fitted: Pads").click()
    pads.get_by_text("it then waits for an inspection").wait_for()
    pads.get_by_role("button", name="Save").click()
    pads.get_by_text("Fitted 1").or_(pads.get_by_text("of 365 days")).first.wait_for()
    [repair] = wrote("job.finished", 1)
    assert (repair["subject"], repair["data"]["action"]) == ("front-left/brake-pads", "replace")

    bodo.show("queue")
    row = page.get_by_role("link", name="Parts with a life")
    expect(row).to_contain_text("1 part due")
    row.click()
    guards.wait_for()
    bodo.show("readings")
    expect(page.get_by_role("link", name="Parts with a life")).to_contain_text("1 part due")

    vera = new_phone()
    managers = vera.join(lived_server, "p-vera")
    vera.show("season")
    managers.get_by_role("radio", name="Lives").check(force=True)
    managers.get_by_text("Renewing it:").first.wait_for()
    assert promises(managers) == []
    assert bodo.complaints == vera.complaints == []
