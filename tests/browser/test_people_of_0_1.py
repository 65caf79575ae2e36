"""People on phones of 0.1.0 against today's server: who adds people, is sent what, is invited again, speaks in a tab.

As in `test_phones_of_0_1.py`: rows of docs/trust.md on that app's own screens.
"""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from of_0_1 import Calls, MakePhone, also_comes_in, aside, by, changes_to, comes_in, goes_to, logs_a_hit
from phones import Phone, stored, wait_until
from playwright.sync_api import Page, expect
from server import EVENT, Server, running
from setup_screens import adds_a_mechanic
from signed import invited

from making import Pen, raw
from other_event import OTHER, other_files
from release_0_1_0 import unzipped
from sample_event import event_files
from shuntbook.flow import joining, uploads
from shuntbook.flow.clock import now
from shuntbook.flow.ingest import Batch, take
from shuntbook.store import setups
from shuntbook.store.database import Store

ZED = '\n[[people]]\nperson = "p-zed"\nname = "Zed"\nroles = ["mechanic"]\n\n[[stages]]'


@pytest.fixture
def first_release(tmp_path: Path) -> Iterator[Server]:
    """Today's server over the data folder that release 0.1.0 left."""
    yield from running(Server(unzipped("data", tmp_path / "data")))


@pytest.fixture
def two_events(signed_server: Server) -> Server:
    """A server of the sample event and of a test day, whose only person, Zed, is in no other event."""
    uploads.put_setup(Store(signed_server.data), OTHER, other_files(), now())
    return signed_server


def names(server: Server) -> set[str]:
    return {one.person for one in setups.get(Store(server.data).db, EVENT).event.people}


def names_held(page: Page) -> set[str]:
    return {one["id"] for one in stored(page, "entries")}


def another_reports(server: Server, number: int) -> str:
    """Put a report of the rally into the log that no phone here wrote, and return its id; phones hear of it later."""
    entry = Pen(EVENT, start=70_000 + number).filed()
    with Store(server.data).write() as db:
        assert take(db, Batch([raw(entry)], 0, None, None, now(), None), None).added == 1
    return str(entry["id"])


def held(page: Page, event: str) -> list[dict[str, Any]]:
    return [one for one in stored(page, "entries") if one["entry"]["event"] == event]


@pytest.mark.longer
def test_its_manager_adds_people_until_somebody_else_is_named_as_the_owner(
    first_release: Server, old_phone: MakePhone
) -> None:
    store = Store(first_release.data)
    page = comes_in(old_phone(first_release), invited(first_release, "p-vera"))
    adds_a_mechanic(page, "p-nils", "Nils")
    page.get_by_text("is in force. Phones get it").wait_for()
    assert "p-nils" in names(first_release)
    # She stays manager of the event, and is no owner any more: one who was named is the only one.
    joining.name_owner(store, "p-nils", now())
    adds_a_mechanic(page, "p-runa", "Runa")
    page.get_by_text("Adding p-runa is for an owner of this log, and Vera is none.").wait_for()
    assert "p-runa" not in names(first_release)
    page.get_by_role("link", name="All sections").click()
    page.get_by_role("combobox", name="Person").select_option("p-nils")
    page.get_by_role("button", name="Make a join link").click()
    page.get_by_text("For Nils: let the phone's camera read this code").wait_for()


@pytest.mark.longer
@pytest.mark.only_in("chromium", "what is in a request is told by Chromium's channel alone")
def test_it_is_sent_its_own_events_and_all_of_one_that_its_person_comes_into(
    two_events: Server, old_phone: MakePhone
) -> None:
    server, phone = two_events, old_phone(two_events)
    calls = Calls(phone)
    page = comes_in(phone, invited(server, "p-zed"))
    logs_a_hit(page, "Rear left")
    wait_until(page, lambda: [one["sending"] for one in held(page, OTHER)] == ["sent"])
    of_rally = len(server.entries()) - 1
    assert held(page, EVENT) == []
    assert EVENT not in str(stored(page, "answers"))

    files = event_files("on")
    with_zed = files["event.toml"].replace(b"\n[[stages]]", ZED.encode(), 1)
    uploads.put_setup(Store(server.data), EVENT, {**files, "event.toml": with_zed}, now())
    page.reload()
    wait_until(page, lambda: len(held(page, EVENT)) == of_rally)
    goes_to(page, "#/me", "Me")
    page.get_by_role("combobox", name="Event").select_option(EVENT)
    page.get_by_text("Nothing refused").wait_for()
    [mine] = [one["id"] for one in held(page, OTHER)]
    sent = [entry["id"] for _, body in calls.of("/sync") for entry in body["entries"]]
    wait_until(page, lambda: len(server.entries()) == of_rally + 1)
    assert sent.count(mine) == 2, "as after a restored copy, what it holds is sent again"


@pytest.mark.longer
def test_people_of_different_events_share_its_place_in_the_log(two_events: Server, old_phone: MakePhone) -> None:
    server, phone = two_events, old_phone(two_events)
    page = comes_in(phone, invited(server, "p-odil"))
    rally = len(server.entries())
    wait_until(page, lambda: len(held(page, EVENT)) == rally)
    also_comes_in(phone, invited(server, "p-zed"), "Zed")
    missed = another_reports(server, 1)
    logs_a_hit(page, "Rear left")
    wait_until(page, lambda: len(by(server, "p-zed", "report.filed")) == 1)
    wait_until(page, lambda: [one["sending"] for one in held(page, OTHER)] == ["sent"])
    changes_to(page, "Odil")
    heard = another_reports(server, 2)
    page.reload()
    wait_until(page, lambda: heard in names_held(page))
    assert missed not in names_held(page), "what came while Zed spoke is passed over"


@pytest.mark.longer
def test_it_shows_no_second_invite_which_other_phones_do(
    signed_server: Server, old_phone: MakePhone, new_phone: Callable[[], Phone]
) -> None:
    server = signed_server
    old = comes_in(old_phone(server), invited(server, "p-odil"))
    new = comes_in(new_phone(), invited(server, "p-bodo"))
    invited(server, "p-odil")
    for page in (old, new):
        page.reload()
    expect(new.get_by_role("complementary", name="Invited again")).to_have_count(1)
    new.get_by_text("Whoever keeps the server made a new join link for Odil, who has a phone here already").wait_for()
    wait_until(old, lambda: '"person": "p-odil", "invited_by"' in json.dumps(stored(old, "answers")))
    logs_a_hit(old, "Rear left")
    assert "new join link" not in old.locator("body").inner_text()
    wait_until(old, lambda: len(by(server, "p-odil", "report.filed")) == 1)


@pytest.mark.only_in("chromium", "what is in a request is told by Chromium's channel alone")
@pytest.mark.longer
def test_the_second_person_on_it_fetches_the_whole_log_once_more_and_nothing_is_doubled(
    signed_server: Server, old_phone: MakePhone
) -> None:
    server, phone = signed_server, old_phone(signed_server)
    page = comes_in(phone, invited(server, "p-bodo"))
    logs_a_hit(page, "Rear left")
    wait_until(page, lambda: len(by(server, "p-bodo", "report.filed")) == 1)
    held_there = {one["id"] for one in server.entries()}
    wait_until(page, lambda: {one["id"] for one in stored(page, "entries")} == held_there)
    before = server.queue("41")["hash"]
    calls = Calls(phone)
    also_comes_in(phone, invited(server, "p-odil"), "Odil")
    [(_, asked)] = calls.of("/join")
    assert sorted(asked) == ["code", "key"], "it names no device beside"
    wait_until(page, lambda: 0 in [body["cursor"] for _, body in calls.of("/sync")])
    wait_until(page, lambda: [one["sending"] for one in stored(page, "entries")] == ["sent"] * len(held_there))
    again = {one["id"] for _, body in calls.of("/sync") for one in body["entries"]}
    assert again, "what it holds is sent again until it is heard"
    assert again <= held_there
    assert len(server.entries()) == len(held_there), "nothing is doubled"
    assert server.queue("41")["hash"] == before
    assert aside(server) == []


@pytest.mark.longer
def test_each_tab_of_it_stays_with_whoever_speaks_there(signed_server: Server, old_phone: MakePhone) -> None:
    phone = old_phone(signed_server)
    one = comes_in(phone, invited(signed_server, "p-bodo"))
    other = phone.context.new_page()
    other.goto(invited(signed_server, "p-odil"))
    for _ in range(2):
        expect(one.get_by_role("button", name="Bodo uses this phone now")).to_be_visible()
        expect(other.get_by_role("button", name="Odil uses this phone now")).to_be_visible()
        one.reload()
        other.reload()
    assert one.evaluate("sessionStorage.getItem('shuntbook.person')") == "p-bodo"
    logs_a_hit(one, "Rear left")
    wait_until(one, lambda: len(by(signed_server, "p-bodo", "report.filed")) == 1)
