"""A van that is put back to 0.1.0 in mid-event: today's app on phones with the server of 0.1.0, then its app again.

Rows of docs/trust.md. The server is that release's own package, run with the libraries of today.
"""

import pytest
from crew import Member
from of_0_1 import (
    TODAY,
    Calls,
    MakePhone,
    also_comes_in,
    by,
    change_app,
    changes_pin,
    comes_in,
    logs_a_hit,
    signs_a_look,
)
from phones import stored, wait_until
from playwright.sync_api import expect
from server import Server
from setup_screens import adds_a_mechanic
from signed import also_joins, change_to

PIN, SHORT_PIN = "836190", "4711"
HOSES = [f"{corner}/brake-hose" for corner in ("front-left", "rear-left", "rear-right")]


@pytest.mark.longer
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
def test_back_in_the_app_of_0_1_each_tab_speaks_as_whoever_spoke_last(old_server: Server, old_phone: MakePhone) -> None:
    phone = old_phone(old_server)
    one = comes_in(phone, old_server.link("p-bodo"))
    also_comes_in(phone, old_server.link("p-odil"), "Odil")
    other = phone.context.new_page()
    other.goto(old_server.url)
    change_app(phone, old_server, TODAY, other)
    for page, name in ((one, "Odil"), (other, "Bodo")):
        change_to(page, name)
    for page, name in ((one, "Odil"), (other, "Bodo")):
        page.reload()
        expect(page.get_by_role("button", name=f"{name} uses this phone now")).to_be_visible()
    change_app(phone, old_server, old_phone.pages, other)
    for page in (one, other):
        expect(page.get_by_role("button", name="Bodo uses this phone now")).to_be_visible()
