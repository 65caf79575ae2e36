"""One muddy phone for several people: each signs as himself, with a PIN that never leaves the phone."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from crew import answer_all_ok
from looking import axe_finds, promises, small_targets, too_wide
from phones import Phone, stored, wait_until
from playwright.sync_api import Page, Request, ViewportSize, expect
from server import EVENT, Server, running
from signed import UNSIGNED, also_joins, change_to, sample_with

from shuntbook.flow import rebuilding
from shuntbook.flow.clock import now
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.kit.signing import is_good, public_key, signed_bytes
from shuntbook.store.database import Store

PIN = "836190"
NARROW: ViewportSize = {"width": 320, "height": 640}


@pytest.fixture
def unsigned_server(tmp_path: Path) -> Iterator[Server]:
    """A server that holds the whole sample event, signatures off."""
    yield from running(sample_with(tmp_path / "data", UNSIGNED))


@pytest.fixture
def shared(signed_server: Server, new_phone: Callable[[], Phone]) -> Phone:
    """A phone that a mechanic, an inspector and the manager share."""
    made = new_phone()
    made.join(signed_server, "p-bodo")
    also_joins(made, signed_server.link("p-odil"), "Odil")
    also_joins(made, signed_server.link("p-vera"), "Vera")
    made.take_car("41")
    return made


def is_as_it_should_be(phone: Phone) -> None:
    page = phone.page
    assert promises(page) == []
    assert axe_finds(page) == []
    assert small_targets(page) == []
    size = page.viewport_size
    assert size
    page.set_viewport_size(NARROW)
    assert too_wide(page) == []
    assert small_targets(page) == []
    page.set_viewport_size(size)
    assert phone.complaints == []


def go(page: Page, address: str) -> None:
    page.evaluate("address => { location.hash = address; }", f"#/{address}")


def open_look(page: Page, key: str) -> None:
    zone, part = key.split("/")
    go(page, f"place/{zone}/inspect/{part}")
    page.get_by_label("OK", exact=True).first.wait_for()


def choose_pin(phone: Phone) -> None:
    """Choose a PIN on the screen of who speaks, as just after joining."""
    page = phone.page
    page.get_by_role("button", name="Your PIN on this phone").click()
    page.get_by_label("New PIN").fill(PIN)
    page.get_by_label("The same once more").fill(PIN)
    is_as_it_should_be(phone)
    page.get_by_role("button", name="Keep this PIN").click()
    page.get_by_text("The PIN is kept on this phone.").wait_for()


def test_each_signs_as_himself_and_no_pin_leaves_the_phone(signed_server: Server, shared: Phone) -> None:
    page = shared.page
    sent: list[str] = []

    def listen(request: Request) -> None:
        sent.append(f"{request.url} {request.headers} {request.post_data or ''}")

    page.on("request", listen)
    change_to(page, "Odil")
    open_look(page, "front-right/brake-hose")
    answer_all_ok(page)
    page.get_by_role("button", name="Sign: 1 passed").click()
    page.get_by_text("A PIN has 6 digits.").wait_for()
    page.get_by_label("New PIN").fill(PIN)
    page.get_by_label("The same once more").fill("836191")
    page.get_by_role("button", name="Sign: 1 passed").click()
    page.get_by_text("The two PINs are not the same").wait_for()
    page.get_by_label("The same once more").fill(PIN)
    page.get_by_role("button", name="Sign: 1 passed").click()
    page.get_by_text("Signed: 1 passed.").wait_for()
    change_to(page, "Bodo")
    go(page, "job/front-right/tyre")
    page.get_by_role("button", name="Start", exact=True).click()
    page.get_by_text("Started.", exact=True).wait_for()

    wait_until(page, lambda: len(signed(signed_server)) == 2)
    looked, started = sorted(signed(signed_server), key=lambda one: one["kind"])
    assert (looked["person"], started["person"]) == ("p-odil", "p-bodo")
    assert looked["device"] != started["device"]
    assert (looked["seq"], started["seq"]) == (1, 1), "each counts for himself"
    keys = {one["device"]: one for one in signed_server.get("/setup", signed_server.manager)["devices"]}
    for entry, key in ((looked, "second_key"), (started, "key")):
        assert keys[entry["device"]]["person"] == entry["person"]
        assert is_good(entry["sig"], signed_bytes(entry), public_key(keys[entry["device"]][key]))

    everything = "".join(sent) + json.dumps(signed(signed_server)) + json.dumps(stored(page, "entries"))
    assert sent, "requests were listened to"
    assert PIN not in everything
    assert PIN not in json.dumps([stored(page, name) for name in ("identities", "meta", "answers")])


def signed(server: Server) -> list[dict]:
    return [one for one in server.entries("41") if "sig" in one]


@pytest.mark.longer
def test_who_has_a_pin_is_asked_for_it_and_wrong_ones_slow_down(signed_server: Server, shared: Phone) -> None:
    page = shared.page
    change_to(page, "Odil")
    go(page, "me")
    choose_pin(shared)
    change_to(page, "Bodo")

    page.get_by_role("button", name="uses this phone now").click()
    page.locator("dialog .people").get_by_role("button", name="Odil").click()
    is_as_it_should_be(shared)
    field = page.get_by_role("dialog").get_by_label("PIN of Odil")
    for tries in range(3):
        field.fill(f"000{tries}")
        page.get_by_role("dialog").get_by_role("button", name="Change to Odil").click()
        page.get_by_role("dialog").get_by_text("That is not the PIN of Odil").wait_for()
        page.wait_for_function("() => [...document.querySelectorAll('dialog input')].every(one => one.value === '')")
    field.fill(PIN)
    page.get_by_role("dialog").get_by_role("button", name="Change to Odil").click()
    page.get_by_text("Too many wrong PINs").wait_for()
    page.get_by_role("button", name="Bodo uses this phone now").wait_for()
    page.wait_for_timeout(5_500)
    field.fill(PIN)
    page.get_by_role("dialog").get_by_role("button", name="Change to Odil").click()
    page.get_by_role("button", name="Odil uses this phone now").wait_for()
    # Whoever has none changes with one tap.
    change_to(page, "Bodo")


@pytest.mark.longer
@pytest.mark.keeps_app
def test_without_a_network_people_change_and_sign(signed_server: Server, shared: Phone) -> None:
    page = shared.page
    go(page, "queue")
    page.locator(".queue .ui-row").first.wait_for()
    change_to(page, "Odil")
    go(page, "me")
    choose_pin(shared)
    shared.context.set_offline(True)
    open_look(page, "front-right/brake-hose")
    page.get_by_label("Your PIN, Odil").fill(PIN)
    answer_all_ok(page)
    page.get_by_label("Not OK", exact=True).first.check()
    page.get_by_role("button", name="Sign: 1 not passed").click()
    page.get_by_text("Signed: 1 not passed.").wait_for()
    wait_until(page, lambda: all("sig" in one["entry"] for one in stored(page, "entries") if one["mine"]))
    assert signed(signed_server) == []
    shared.context.set_offline(False)
    wait_until(page, lambda: [one["kind"] for one in signed(signed_server)] == ["inspection.failed"])


@pytest.mark.longer
def test_a_scribe_ticks_several_jobs_for_others(signed_server: Server, shared: Phone) -> None:
    page = shared.page
    change_to(page, "Vera")
    go(page, "queue")
    page.get_by_role("button", name="More for this queue").click()
    page.get_by_role("button", name="Mark several done").click()
    form = page.locator("section", has=page.get_by_role("heading", name="Mark several done"))
    form.get_by_role("button", name="Finish").click()
    page.get_by_text("Tick at least one job that was done").wait_for()
    jobs = form.get_by_role("group", name="What was done").get_by_role("checkbox")
    jobs.nth(0).check()
    jobs.nth(1).check()
    form.get_by_role("button", name="Finish 2 jobs").click()
    page.get_by_text("Tick who did it").wait_for()
    form.get_by_label("Bodo").check()
    form.get_by_label("Anni").check()
    is_as_it_should_be(shared)
    form.get_by_role("button", name="Finish 2 jobs").click()
    page.get_by_text("Saved: 2 jobs finished.").wait_for()
    wait_until(page, lambda: len(signed(signed_server)) == 2)
    for entry in signed(signed_server):
        assert (entry["kind"], entry["person"], entry["data"]["minutes"]) == ("job.finished", "p-vera", None)
        assert sorted(entry["data"]["repairers"]) == ["p-anni", "p-bodo"]
        assert entry["data"]["covers"], "it covers what was shown"


@pytest.mark.longer
def test_a_manager_accepts_in_a_rebuild_or_leaves_out_what_was_set_aside(
    signed_server: Server, new_phone: Callable[[], Phone]
) -> None:
    rebuilding.begin(Store(signed_server.data))
    old, manager = new_phone(), new_phone()
    page = old.join(signed_server, "p-toma")
    without_its_key(page)
    page.get_by_text("You joined before entries were signed").wait_for()
    for place in ("Front left", "Rear right"):
        # Away and back: two changes of the address in one breath would be none.
        go(page, "me")
        page.get_by_role("heading", name="Me and this phone").wait_for()
        go(page, "log")
        page.get_by_role("button", name=place).first.click()
        page.get_by_label("Wheel rim", exact=True).check()
        page.get_by_role("button", name="Save", exact=True).click()
        page.get_by_text("Kept on this phone").wait_for()
    page.get_by_text("Attention: 2").wait_for()
    go(page, "reports")
    page.get_by_text("It carries no signature").first.wait_for()
    is_as_it_should_be(old)

    page = manager.join(signed_server, "p-vera")
    go(page, "queue")
    page.get_by_role("button", name="Why: what the log holds").click()
    page.get_by_role("link", name="See what needs review").click()
    page.get_by_text("2 need your review").wait_for()
    card = page.locator("article").first
    card.get_by_text("It has no signature, and this event demands one.").wait_for()
    card.get_by_text("Written by Toma").wait_for()
    card.get_by_text("Brought by Toma").wait_for()
    card.get_by_text("The entry as it came").click()
    is_as_it_should_be(manager)
    card.get_by_role("button", name="Accept into the log").click()
    page.get_by_text("Give a reason first").wait_for()
    card.get_by_label("Asked the author: it is so").check()
    card.get_by_role("button", name="Accept into the log").click()
    page.get_by_text("1 needs your review").wait_for()
    card = page.locator("article").first
    card.get_by_label("Own reason").fill("wrong car")
    card.get_by_role("button", name="Leave it out").click()
    page.get_by_text("Nothing needs review.").wait_for()
    page.get_by_text("Reviewed (2)").click()
    page.get_by_text("Accepted by Vera: Asked the author: it is so").wait_for()
    page.get_by_text("Left out by Vera: wrong car").wait_for()
    page.get_by_role("button", name="Show what was brought").click()
    page.get_by_text("Vera: accepted the unsigned entry").wait_for()
    page.get_by_role("button", name="End the rebuild").click()
    page.get_by_text("This log is being rebuilt").wait_for(state="detached")
    accepted = [one for one in signed_server.entries("41", "report.filed") if one["person"] == "p-toma"]
    assert "rear-right" in {one["data"]["zone"] for one in accepted}
    # Her phone hears of it: what was accepted needs no attention any more.
    old.page.get_by_text("Attention: 1").wait_for()
    manager.context.set_offline(True)
    page.get_by_role("button", name="Ask the server again").click()
    page.get_by_text("The server did not answer, and only it holds what needs review").wait_for()


@pytest.mark.longer
def test_much_that_one_device_brought_is_left_out_by_one_decision(
    signed_server: Server, new_phone: Callable[[], Phone]
) -> None:
    store, manager = Store(signed_server.data), new_phone()
    nonsense = [b'{"id": "nonsense-%d", "kind": "noise"}' % place for place in range(300)]
    ingest(store, Batch(nonsense, 0, None, "d-mad", now(), None))
    page = manager.join(signed_server, "p-vera")
    go(page, "aside")
    page.get_by_text("300 need your review").wait_for()
    card = page.locator("article").first
    card.get_by_role("heading", name="300 entries from ? (device d-mad)").wait_for()
    card.get_by_text("300 × Something in it is not as an entry must be.").wait_for()
    is_as_it_should_be(manager)
    card.get_by_role("button", name="Leave all 300 out").click()
    page.get_by_text("Give a reason first").wait_for()
    card.get_by_label("Nobody wrote this").check()
    card.get_by_role("button", name="Leave all 300 out").click()
    page.get_by_text("Nothing needs review.").wait_for()
    decided = store.db.execute("SELECT DISTINCT verdict, reason FROM set_aside").fetchall()
    assert decided == [("discarded", "Nobody wrote this")]


def without_its_key(page: Page) -> None:
    """Make the phone one whose person joined with an app that did not sign yet."""
    page.evaluate(
        """() => new Promise((resolve, reject) => {
          const opened = indexedDB.open('shuntbook');
          opened.onsuccess = () => {
            const tx = opened.result.transaction('identities', 'readwrite');
            const asked = tx.objectStore('identities').getAll();
            asked.onsuccess = () => asked.result.forEach(({ key, ...old }) => tx.objectStore('identities').put(old));
            tx.oncomplete = () => { opened.result.close(); resolve(); };
            tx.onerror = () => reject(tx.error);
          };
        })"""
    )
    page.reload()


@pytest.mark.longer
def test_where_signatures_are_off_the_screens_say_so(unsigned_server: Server, new_phone: Callable[[], Phone]) -> None:
    phone = new_phone()
    page = phone.join(unsigned_server, "p-vera")
    go(page, "queue")
    page.get_by_text(
        "Signatures are off at this event: the log does not prove who wrote what, inspections included."
    ).wait_for()
    go(page, "me")
    page.get_by_text("Signatures are off at this event").wait_for()
    without_its_key(page)
    page.get_by_text("Signatures are off at this event").wait_for()
    expect(page.get_by_text("You joined before entries were signed")).to_have_count(0)
    is_as_it_should_be(phone)
    assert unsigned_server.get("/setup", unsigned_server.manager)["events"][0]["event"] == EVENT
