"""A van that is put back to 0.1.0 in mid-event: today's app on phones with the server of 0.1.0, then its app again.

Rows of docs/trust.md. The server is that release's own package, run with the libraries of today.
"""

import pytest
from crew import Member
from of_0_1 import (
    TODAY,
    Calls,
    MakePhone,
    by,
    change_app,
    changes_pin,
    comes_in,
    logs_a_hit,
    signs_a_look,
)
from phones import stored, wait_until
from playwright.sync_api import Page, expect
from server import EVENT, Server
from setup_screens import adds_a_mechanic
from signed import also_joins, change_to

from other_event import OTHER, PEOPLE
from release_0_1_0 import said

PIN, SHORT_PIN = "836190", "4711"
HOSES = [f"{corner}/brake-hose" for corner in ("front-left", "rear-left", "rear-right")]


@pytest.mark.longer
@pytest.mark.only_in("chromium", "what is in a request is told by Chromium's channel alone")
def test_a_second_person_is_let_in_though_that_server_knows_no_device_beside(
    old_server: Server, todays_phone: MakePhone
) -> None:
    phone = todays_phone(old_server)
    page = comes_in(phone, old_server.link("p-bodo"))
    calls = Calls(phone)
    also_joins(phone, old_server.link("p-odil"), "Odil")
    assert ["beside" in body for _, body in calls.of("/join")] == [True, False], "asked again without it"
    for name, person, place in (("Odil", "p-odil", "Rear left"), ("Bodo", "p-bodo", "Rear right")):
        change_to(page, name)
        logs_a_hit(page, place)
        wait_until(page, lambda person=person: len(by(old_server, person, "report.filed")) == 1)
    wait_until(page, lambda: len(stored(page, "entries")) == len(old_server.entries()))


@pytest.mark.longer
def test_people_of_different_events_have_a_place_each_in_its_log(old_server: Server, todays_phone: MakePhone) -> None:
    begin_a_test_day(old_server)
    phone = todays_phone(old_server)
    page = comes_in(phone, old_server.link("p-odil"))
    also_joins(phone, old_server.link("p-zed"), "Zed")
    logs_a_hit(page, "Rear left")
    change_to(page, "Odil")
    logs_a_hit(page, "Rear right")
    log = said()["entries"] + 2
    wait_until(page, lambda: len(old_server.entries()) == len(stored(page, "entries")) == log)
    change_to(page, "Zed")
    wait_until(page, lambda: [list(one.values()) for one in places(page)] == [[log, log]])


def begin_a_test_day(server: Server) -> None:
    """Put a second event in force, whose only person, Zed, is in no other."""
    files = server.get(f"/events/{EVENT}/files", server.manager)["files"]
    before, rest = files["event.toml"].replace(EVENT, OTHER).split("[[people]]", 1)
    terms = rest.index("[[stages]]"), rest.index("[[agreements]]"), rest.index("[[dated]]")
    text = f"{before}{PEOPLE}\n{rest[terms[0] : terms[1]]}{rest[terms[2] :]}"
    server.call("PUT", f"/events/{OTHER}", server.manager, {"files": {**files, "event.toml": text}})


def places(page: Page) -> list[dict[str, int]]:
    """Return up to where of the log each device of a phone is, where its people are in different events; else none."""
    devices = {one["device"] for one in stored(page, "identities")}
    return [one for one in stored(page, "meta") if isinstance(one, dict) and set(one) == devices]


@pytest.mark.longer
def test_its_managers_add_people_and_nobody_is_told_of_a_second_invite(
    old_server: Server, todays_phone: MakePhone
) -> None:
    page = comes_in(todays_phone(old_server), old_server.link("p-vera"))
    adds_a_mechanic(page, "p-nils", "Nils")
    page.get_by_text("is in force. Phones get it").wait_for()
    nils = comes_in(todays_phone(old_server), old_server.link("p-nils"))
    old_server.link("p-nils")
    logs_a_hit(nils, "Rear left")
    wait_until(nils, lambda: len(by(old_server, "p-nils", "report.filed")) == 1)
    page.reload()
    wait_until(page, lambda: len(stored(page, "entries")) == len(old_server.entries()))
    for told in (page, nils):
        expect(told.get_by_role("complementary", name="Invited again")).to_have_count(0)


@pytest.mark.longer
def test_a_pin_of_four_digits_goes_on_and_one_of_six_goes_on_in_the_app_of_0_1(
    old_server: Server, old_phone: MakePhone
) -> None:
    phone = old_phone(old_server)
    page = comes_in(phone, old_server.link("p-odil"))
    odil = Member(old_server, phone, "p-odil", "41")
    was = len(by(old_server, "p-odil", "inspection.passed"))
    in_review = old_server.get("/set-aside", old_server.manager)
    for corner in ("Front left", "Rear left", "Rear right"):
        logs_a_hit(page, corner, "Brake hose")
    signs_a_look(page, HOSES[0], SHORT_PIN, is_new=True)
    change_app(phone, old_server, TODAY)
    odil.inspects(HOSES[1], pin=SHORT_PIN)
    changes_pin(page, SHORT_PIN, "47110")
    page.get_by_text("A PIN has 6 digits.").wait_for()
    changes_pin(page, SHORT_PIN, PIN)
    page.get_by_text("The PIN is kept on this phone.").wait_for()
    change_app(phone, old_server, old_phone.pages)
    signs_a_look(page, HOSES[2], PIN, is_new=False)
    wait_until(page, lambda: len(by(old_server, "p-odil", "inspection.passed")) == was + 3)
    assert old_server.get("/set-aside", old_server.manager) == in_review


@pytest.mark.longer
def test_updated_and_put_back_each_tab_speaks_as_whoever_spoke_last(old_server: Server, old_phone: MakePhone) -> None:
    phone = old_phone(old_server)
    one = comes_in(phone, old_server.link("p-bodo"))
    other = phone.context.new_page()
    other.goto(old_server.link("p-odil"))
    speaks(other, "Odil")
    change_app(phone, old_server, TODAY, other)
    for page in (one, other):
        speaks(page, "Odil")
    change_to(one, "Bodo")
    for page, name in ((one, "Bodo"), (other, "Odil")):
        page.reload()
        speaks(page, name)
    change_app(phone, old_server, old_phone.pages, other)
    for page in (one, other):
        speaks(page, "Bodo")


def speaks(page: Page, name: str) -> None:
    expect(page.get_by_role("button", name=f"{name} uses this phone now")).to_be_visible()
