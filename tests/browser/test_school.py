"""A school day: turns on a loop instead of stages, six taps between two of them."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from crew import Member
from phones import Phone
from playwright.sync_api import expect
from server import Server, running, without_entries


@pytest.fixture
def school(tmp_path: Path) -> Iterator[Server]:
    yield from running(without_entries(tmp_path / "data", tmp_path / "event", [], keys='kind = "school"\n'))


@pytest.mark.longer
def test_between_two_turns_who_drives_and_six_places(school: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(school, "p-toma")
    toma = Member(school, phone, "p-toma", "41")
    page.get_by_role("link", name="Between two turns").click()
    page.get_by_label("Ilka").click()  # ticked once it is kept
    toma.wrote("driver.changed")
    places = page.locator("fieldset").filter(has=page.get_by_label("As before"))
    expect(places).to_have_count(6)
    for place in places.all():
        place.get_by_label("As before").check()
    toma.tap("Save: nothing new on SS1")
    [seen] = toma.wrote("stage.nothing_seen")
    assert seen["data"] == {"stage": "SS1", "how": "walked-round"}

    page.get_by_role("link", name="Between two turns").click()
    page.get_by_role("group", name="Front left corner").get_by_label("As before").check()
    page.get_by_role("group", name="Rear left corner").get_by_label("Something new").check()
    toma.tap("Say what is new, beginning with Rear left corner")
    page.get_by_role("heading", name="Rear left corner").wait_for()
    toma.sees("1 of 15 places done")
    page.get_by_label("Mud flap", exact=True).check()
    expect(page.get_by_role("combobox", name="Session")).to_have_value("SS2")
    toma.tap("Save 1 finding")
    [report] = toma.wrote("report.filed")
    assert (report["data"]["zone"], report["data"]["stage"]) == ("rear-left", "SS2")
    assert phone.complaints == []
