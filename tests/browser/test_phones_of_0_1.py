"""The app of 0.1.0, as it was built, against today's server: the rows of docs/trust.md, driven on its own screens."""

import json
import shutil
import urllib.request

import pytest
from crew import Member
from of_0_1 import TODAY, MakePhone, aside, by, change_app, changes_pin, comes_in, goes_to, logs_a_hit, signs_a_look
from phones import stored, wait_until
from server import EVENT, Server
from signed import SIGNED, invited

from making import Pen
from sample_event import event_files
from shuntbook.flow import joining, uploads
from shuntbook.flow.clock import now
from shuntbook.store.database import Store

PIN, SHORT_PIN = "836190", "4711"
OLD_HOSE, OLD_PIPE = "front-right/brake-hose", "front-right/brake-pipe-end"
"""Two jobs of the sample's car 41 that wait for an inspection."""


def demand_the_pin(server: Server) -> None:
    """Put a set-up in force that demands signatures and the PIN."""
    files = event_files(SIGNED)
    uploads.put_setup(Store(server.data), EVENT, {**files, "event.toml": files["event.toml"] + b"pin = true\n"}, now())


@pytest.mark.longer
def test_its_inspector_counts_without_a_key_of_a_pin_until_the_event_demands_one(
    signed_server: Server, old_phone: MakePhone
) -> None:
    server = signed_server
    store = Store(server.data)
    lost, _, _ = joining.join(store, joining.invite(store, "p-kasp", now()), None, now())
    server.shut_out(lost.device)
    page = comes_in(old_phone(server), invited(server, "p-odil"))
    logs_a_hit(page, "Rear left")
    signs_a_look(page, OLD_HOSE, PIN, is_new=True)
    wait_until(page, lambda: len(by(server, "p-odil", "inspection.passed")) == 1)
    assert len(by(server, "p-odil", "report.filed")) == 1, "with a shut-out's last number in the set-up that it read"
    assert aside(server) == []

    demand_the_pin(server)
    logs_a_hit(page, "Rear right")
    signs_a_look(page, OLD_PIPE, PIN, is_new=False)
    wait_until(page, lambda: len(aside(server)) == 1)
    [kept] = aside(server)
    assert (kept["code"], json.loads(kept["raw"])["kind"]) == ("no-pin", "inspection.passed")
    assert len(by(server, "p-odil", "report.filed")) == 2, "what needs no PIN counts"
    assert len(by(server, "p-odil", "inspection.passed")) == 1, "what counted goes on counting"
    goes_to(page, "#/me", "Me")
    page.get_by_text("1 need attention").wait_for()


@pytest.mark.longer
def test_its_manager_is_told_why_an_inspection_is_not_accepted_and_can_leave_it_out(
    signed_server: Server, old_phone: MakePhone
) -> None:
    server = signed_server
    send_unsigned_pass(server)
    page = comes_in(old_phone(server), invited(server, "p-vera"))
    goes_to(page, "#/aside", "Set aside")
    page.get_by_label("Own reason").fill("Odil says that it was not hers")
    page.get_by_role("button", name="Accept into the log").click()
    page.get_by_text("No review makes an inspection count").wait_for()
    assert len(aside(server)) == 1, "an inspection counts on nobody's word but its inspector's"
    page.get_by_role("button", name="Leave it out").click()
    wait_until(page, lambda: aside(server) == [])
    assert by(server, "p-odil", "inspection.passed") == []


def send_unsigned_pass(server: Server) -> None:
    """Have a program send an inspection in the inspector's name that nobody signed."""
    entry = Pen(EVENT, start=90_000).passed(OLD_HOSE)
    store = Store(server.data)
    seat, token, _ = joining.join(store, joining.invite(store, "p-odil", now()), None, now())
    body = json.dumps({"cursor": 0, "entries": [{**entry, "device": seat.device, "seq": 1}]}).encode()
    headers = {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}
    urllib.request.urlopen(urllib.request.Request(f"{server.url}/api/v1/sync", body, headers), timeout=60).close()


@pytest.mark.longer
def test_its_manager_brings_a_lost_server_back_and_goes_on_when_the_rebuild_has_ended(
    signed_server: Server, old_phone: MakePhone
) -> None:
    server = signed_server
    page = comes_in(old_phone(server), invited(server, "p-vera"))
    logs_a_hit(page, "Front left")
    wait_until(page, lambda: len(by(server, "p-vera", "report.filed")) == 1)
    held = len(server.entries())
    goes_to(page, "#/setup", "Set-up")
    wait_until(page, lambda: [one["sending"] for one in stored(page, "entries")] == ["sent"] * held)
    wait_until(page, lambda: any(one["key"].startswith("files ") for one in stored(page, "answers")))
    before = server.queue("41")["hash"]
    server.stop()
    shutil.rmtree(server.data)
    del server.manager
    server.start()
    page.goto(invited(server, "p-vera"))
    wait_until(page, lambda: len(server.entries()) == held)
    assert server.queue("41")["hash"] == before
    server.call("DELETE", "/rebuild", server.manager)
    page.reload()
    logs_a_hit(page, "Rear left")
    wait_until(page, lambda: len(by(server, "p-vera", "report.filed")) == 2)
    goes_to(page, "#/me", "Me")
    page.get_by_text("Nothing refused").wait_for()


@pytest.mark.longer
def test_a_pin_of_four_digits_goes_on_there_and_in_todays_app_and_a_new_one_has_six(
    signed_server: Server, old_phone: MakePhone
) -> None:
    server, phone = signed_server, old_phone(signed_server)
    page = comes_in(phone, invited(server, "p-odil"))
    signs_a_look(page, OLD_HOSE, SHORT_PIN, is_new=True)
    signs_a_look(page, OLD_PIPE, SHORT_PIN, is_new=False)
    odil = Member(server, phone, "p-odil", "41")
    wait_until(page, lambda: len(by(server, "p-odil", "inspection.passed")) == 2)

    logs_a_hit(page, "Rear left", "Brake hose")
    change_app(phone, server, TODAY)
    odil.inspects("rear-left/brake-hose", pin=SHORT_PIN)
    wait_until(page, lambda: len(by(server, "p-odil", "inspection.passed")) == 3)
    assert aside(server) == []
    changes_pin(page, SHORT_PIN, "47110")
    page.get_by_text("A PIN has 6 digits.").wait_for()
    changes_pin(page, SHORT_PIN, PIN)
    page.get_by_text("The PIN is kept on this phone.").wait_for()
