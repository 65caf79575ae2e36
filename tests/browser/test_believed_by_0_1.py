"""What today's app on phones has a server of 0.1.0 believe: signatures, PINs, what is blocked, reviewed or rebuilt.

The rows of docs/trust.md that `test_back_to_0_1.py` has not.
"""

import base64
import json
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from crew import Member
from of_0_1 import MakePhone, by, comes_in, goes_to, logs_a_hit, picks_car_41
from phones import SLOW_MS, Phone, stored, wait_until
from playwright.sync_api import Page, expect
from server import EVENT, Server, running
from setup_screens import opens_section
from signed import also_joins

from bundles import lines, packed, with_manifest
from making import Json, Pen
from release_0_1_0 import said
from shuntbook.kit.signing import is_good, public_key, signed_bytes
from signer import Signer

PIN = "836190"
ORDER = 0xFFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551
"""The order n of P-256: of a signature (r, s), (r, n - s) is one that fits as well."""
HOSE, OTHER_HOSE = "front-left/brake-hose", "rear-left/brake-hose"
GONE = "p-gone"
"""Whose phone 0.1.0 blocked, after one report."""

# As a browser may sign, and some do: always with the higher s.
HIGHER_S = """() => {
  // An empty page is at no trusted address.
  if (!globalThis.SubtleCrypto) return;
  globalThis.signed_higher = 0;
  const order = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;
  const sign = SubtleCrypto.prototype.sign;
  SubtleCrypto.prototype.sign = async function (...asked) {
    const made = new Uint8Array(await sign.apply(this, asked));
    const s = made.subarray(32).reduce((sum, byte) => sum * 256n + BigInt(byte), 0n);
    if (s * 2n < order) {
      const digits = (order - s).toString(16).padStart(64, '0');
      made.set(digits.match(/../g).map(byte => parseInt(byte, 16)), 32);
    }
    globalThis.signed_higher++;
    return made.buffer;
  };
}"""


class Device:
    """A device of a person that is no browser: it signs, and what it wrote may go by a file as well."""

    def __init__(self, server: Server, person: str) -> None:
        self.server, self.signer = server, Signer()
        code = server.link(person).rsplit("/", 1)[1]
        joined = json.loads(server.call("POST", "/join", "", {"code": code, "key": self.signer.jwk}))
        self.person, self.device, self.token = person, joined["device"], joined["token"]

    def wrote(self, entry: Json, seq: int) -> Json:
        """Return an entry as this device's person writes, numbers and signs it."""
        return self.signer.sign({**entry, "person": self.person, "device": self.device, "seq": seq})

    def sends(self, *entries: Json) -> Json:
        """Send entries and return the answer."""
        body = {"cursor": 0, "entries": list(entries)}
        answer: Json = json.loads(self.server.call("POST", "/sync", self.token, body))
        return answer


def s_of(entry: Json) -> int:
    return int.from_bytes(base64.urlsafe_b64decode(entry["sig"] + "==")[32:])


def turned(entry: Json) -> Json:
    """Return an entry with the other one of its two signatures, which anybody can make."""
    data = base64.urlsafe_b64decode(entry["sig"] + "==")
    other = data[:32] + (ORDER - int.from_bytes(data[32:])).to_bytes(32)
    return {**entry, "sig": base64.urlsafe_b64encode(other).rstrip(b"=").decode()}


def takes_a_file(page: Page, path: Path, *entries: Json) -> None:
    """Have a phone take entries in that come in a file."""
    goes_to(page, "#/handover", "Hand over without a network")
    page.locator("input[type=file]").set_input_files(packed(path, with_manifest({"entries.jsonl": lines(*entries)})))


def record(page: Page, entry: Json) -> Json:
    """Return how an entry stands on a phone: `entry`, `sending`, `problem`."""
    [found] = [one for one in stored(page, "entries") if one["id"] == entry["id"]]
    return found


def devices_on(server: Server) -> dict[str, Json]:
    return {one["device"]: one for one in server.get("/setup", server.manager)["devices"]}


def waiting(server: Server) -> list[Json]:
    """Return what waits for a review on a server of 0.1."""
    return [one for one in server.get("/set-aside", server.manager) if one["reviewed_at"] is None]


def names(items: list[Json]) -> set[Any]:
    return {one["id"] for one in items}


@pytest.mark.longer
def test_a_phone_calculates_the_last_number_of_a_block_and_judges_by_it(
    old_server: Server, todays_phone: MakePhone, tmp_path: Path
) -> None:
    page = comes_in(todays_phone(old_server), old_server.link("p-odil"))
    lost, pen = Device(old_server, "p-kasp"), Pen(EVENT, start=80_000)
    first, second, third = [lost.wrote(pen.filed("front-left/wheel bent"), seq) for seq in (1, 2, 3)]
    assert lost.sends(second)["accepted"] == [second["id"]]
    old_server.shut_out(lost.device)
    assert "last_seq" not in devices_on(old_server)[lost.device], "that server keeps no number"
    page.reload()
    wait_until(page, lambda: is_blocked(page, lost.device) and second["id"] in names(stored(page, "entries")))
    # Else the server's word would be there before the phone's own was looked at.
    old_server.stop()
    takes_a_file(page, tmp_path / "lost.zip", first, third)
    page.get_by_text("1 entry can't be believed on this phone alone").wait_for()
    assert record(page, first)["problem"] is None, "numbered before the last one that the server took"
    assert record(page, third)["problem"]["type"].endswith("/shut-out")
    # That server itself takes nothing more of a device that it blocked: all of it is kept, and holds the car.
    old_server.start()
    was = said()["set_aside"]
    wait_until(page, lambda: len(waiting(old_server)) == was + 2)
    assert {first["id"], third["id"]} == {one["id"] for one in waiting(old_server) if one["code"] == "shut-out"}
    [review] = [one for one in old_server.queue("41")["hold_reasons"] if one["needs"] == "review"]
    assert {first["id"], third["id"]} < set(review["entries"])


def is_blocked(page: Page, device: str) -> bool:
    held = [one["answer"] for one in stored(page, "answers") if "devices" in one["answer"]]
    return any(one["device"] == device and one["shut_out_at"] for answer in held for one in answer["devices"])


@pytest.mark.longer
def test_its_lower_s_is_good_there_and_a_turned_signature_in_a_file_is_no_second_entry(
    old_server: Server, todays_phone: MakePhone, tmp_path: Path
) -> None:
    in_review = waiting(old_server)
    phone = todays_phone(old_server)
    phone.context.add_init_script(f"({HIGHER_S})()")
    page = comes_in(phone, old_server.link("p-bodo"))
    for place in ("Front left", "Rear left"):
        logs_a_hit(page, place)
    wait_until(page, lambda: len(by(old_server, "p-bodo", "report.filed")) == 2)
    mine = by(old_server, "p-bodo", "report.filed")
    assert page.evaluate("signed_higher") == 2, "what the browser gave had the higher s"
    assert [s_of(one) * 2 < ORDER for one in mine] == [True, True]
    assert [s_of(turned(one)) * 2 < ORDER for one in mine] == [False, False]
    takes_a_file(page, tmp_path / "turned.zip", *map(turned, mine))
    page.get_by_text("Taken: 0 entries new, 2 here already").wait_for()
    logs_a_hit(page, "Rear right")
    wait_until(page, lambda: len(by(old_server, "p-bodo", "report.filed")) == 3)
    assert [one for one in by(old_server, "p-bodo", "report.filed") if one in mine] == mine
    assert waiting(old_server) == in_review


@pytest.mark.longer
def test_a_lost_server_gets_all_back_with_its_blocks_and_tells_of_no_rebuild(
    old_server: Server, todays_phone: MakePhone
) -> None:
    server = old_server
    page = comes_in(todays_phone(server), server.link("p-vera"))
    logs_a_hit(page, "Front left")
    wait_until(page, lambda: len(by(server, "p-vera", "report.filed")) == 1)
    entries = {one["id"]: one for one in server.entries()}
    [of_blocked] = [one for one in entries.values() if one["person"] == GONE]
    goes_to(page, "#/setup", "Set-up")
    wait_until(page, lambda: holds_all(page, server))
    before = devices_on(server)
    server.stop()
    shutil.rmtree(server.data)
    del server.manager
    server.start()
    page.goto(server.link("p-vera"))
    wait_until(page, lambda: len(server.entries()) == len(entries) - 1)
    assert {one["id"]: one for one in server.entries()} == {
        name: one for name, one in entries.items() if name != of_blocked["id"]
    }
    after = devices_on(server)
    keyed = {name: one for name, one in before.items() if one["key"]}
    assert {name: after.get(name) for name in keyed} == keyed, "each with its key and its block"
    [kept] = waiting(server)
    assert (kept["id"], kept["code"]) == (of_blocked["id"], "shut-out"), "that server believes nothing of a block"
    page.reload()
    logs_a_hit(page, "Rear left")
    wait_until(page, lambda: len(by(server, "p-vera", "report.filed")) == 2)
    expect(page.get_by_role("complementary", name="The log is being rebuilt")).to_have_count(0)
    expect(page.get_by_role("button", name="End the rebuild")).to_have_count(0)


def holds_all(page: Page, server: Server) -> bool:
    has_files = any(one["key"].startswith("files ") for one in stored(page, "answers"))
    held = [one["sending"] for one in stored(page, "entries")]
    return has_files and held == ["sent"] * len(server.entries())


@pytest.mark.longer
def test_its_manager_accepts_nothing_and_leaves_out_with_a_reason(old_server: Server, todays_phone: MakePhone) -> None:
    server = old_server
    pen, bare = Pen(EVENT, start=90_000), Device(server, "p-bodo")
    unsigned = [{**pen.filed(f"{place}/wheel bent"), "device": bare.device} for place in ("front-left", "rear-left")]
    unsigned += [{**pen.passed("under-rear/fuel-tank"), "device": bare.device}]
    assert len(bare.sends(*unsigned)["rejected"]) == len(unsigned)
    count = said()["set_aside"] + len(unsigned)
    phone = todays_phone(server)
    page = comes_in(phone, server.link("p-vera"))
    Member(server, phone, "p-vera", "41").at("aside")
    page.get_by_text(f"{count} need your review").wait_for()
    cards = page.locator("article")
    expect(cards).to_have_count(count)
    expect(cards.get_by_role("button", name="Leave it out")).to_have_count(count)
    expect(page.get_by_role("button", name="Accept into the log")).to_have_count(0)
    for left in range(count - 1, -1, -1):
        cards.first.get_by_label("Own reason").fill("said again")
        cards.first.get_by_role("button", name="Leave it out").click()
        expect(cards.get_by_role("button", name="Leave it out")).to_have_count(left)
    page.get_by_text("Nothing needs review.").wait_for()
    assert [one["verdict"] for one in server.get("/set-aside", server.manager)] == ["discarded"] * count
    assert "review" not in [one["needs"] for one in server.queue("41")["hold_reasons"]]
    assert names(server.entries()).isdisjoint(names(unsigned))


@pytest.mark.longer
def test_the_key_of_a_pin_is_refused_the_code_still_lets_in_and_the_pin_counts_on_the_phone(
    old_server: Server, todays_phone: MakePhone
) -> None:
    server, phone = old_server, todays_phone(old_server)
    in_review = waiting(server)
    page = joins_with_a_pin(phone, server, "p-odil")
    odil = Member(server, phone, "p-odil", "41")
    logs_a_hit(page, "Front left", "Brake hose")
    logs_a_hit(page, "Rear left", "Brake hose")
    odil.opens(HOSE)
    odil.at(f"place/{HOSE.replace('/', '/inspect/')}")
    odil.signs(pin="000000")
    page.get_by_text("That is not the PIN of Odil").wait_for()
    assert passes(server, "p-odil", HOSE) == []
    odil.inspects(HOSE, pin=PIN)
    also_joins(phone, server.link("p-anni"), "Anni")
    anni = Member(server, phone, "p-anni", "41")
    anni.chooses_pin()
    anni.inspects(OTHER_HOSE)
    for person, job in (("p-odil", HOSE), ("p-anni", OTHER_HOSE)):
        wait_until(page, lambda person=person, job=job: len(passes(server, person, job)) == 1)
        [looked] = passes(server, person, job)
        device = devices_on(server)[looked["device"]]
        assert "second_key" not in device
        assert is_good(looked["sig"], signed_bytes(looked), public_key(device["key"])), "by the phone's own key"
        assert server.job("41", job)["inspection"] == "passed"
    assert [(one["pin"] is not None, one["second"]) for one in stored(page, "identities")] == [(True, None)] * 2
    assert waiting(server) == in_review


@pytest.mark.longer
def test_what_a_pins_key_signed_before_the_van_was_put_back_waits_for_review_and_is_said_again(
    old_server: Server, todays_phone: MakePhone, tmp_path: Path
) -> None:
    server = old_server
    in_review = waiting(server)
    managers, inspectors = todays_phone(server), todays_phone(server)
    vera = comes_in(managers, server.link("p-vera"))
    logs_a_hit(vera, "Front left", "Brake hose")
    wait_until(vera, lambda: len(by(server, "p-vera", "report.filed")) == 1)
    server.stop()
    shutil.copytree(server.data, tmp_path / "copy")
    with updated(server) as today:
        page = joins_with_a_pin(inspectors, today, "p-odil")
        Member(today, inspectors, "p-odil", "41").inspects(HOSE, pin=PIN)
        wait_until(page, lambda: len(passes(today, "p-odil", HOSE)) == 1)
        [looked] = passes(today, "p-odil", HOSE)
        assert devices_on(today)[looked["device"]]["second_key"] is not None
        assert today.job("41", HOSE)["inspection"] == "passed"
        wait_until(vera, lambda: looked["id"] in names(stored(vera, "entries")))
        wait_until(vera, lambda: looked["device"] in str(stored(vera, "answers")))
    shutil.rmtree(server.data)
    shutil.copytree(tmp_path / "copy", server.data)
    server.start()
    # Her token is of before the copy: her phone brings the device, and that server knows no second key of it.
    wait_until(vera, lambda: looked["id"] in names(waiting(server)))
    [kept] = [one for one in waiting(server) if one["id"] == looked["id"]]
    assert kept["code"] == "bad-signature"
    assert passes(server, "p-odil", HOSE) == []
    assert server.job("41", HOSE)["inspection"] == "needed", "it does not count unseen"
    # The copy does not know the inspector's phone: who joins again there says it again.
    comes_in(inspectors, server.link("p-odil"))
    odil = Member(server, inspectors, "p-odil", "41")
    odil.inspects(HOSE, pin=PIN)
    wait_until(page, lambda: len(passes(server, "p-odil", HOSE)) == 1)
    assert server.job("41", HOSE)["inspection"] == "passed"
    assert names(waiting(server)) == {*names(in_review), looked["id"]}, (
        "what was signed before holds the car until then"
    )
    assert record(page, looked)["problem"]["type"].endswith("/bad-signature")


@contextmanager
def updated(server: Server) -> Iterator[Server]:
    """Run today's server at the address and over the folder of one of 0.1 that was stopped."""
    today = Server(server.data)
    today.port = server.port
    yield from running(today)


def passes(server: Server, person: str, job: str) -> list[Json]:
    return [one for one in by(server, person, "inspection.passed") if one["subject"] == job]


def joins_with_a_pin(phone: Phone, server: Server, person: str) -> Page:
    """Join by the code of a link, typed with a PIN."""
    page = phone.page
    page.goto(server.url)
    page.get_by_label("Code", exact=True).fill(server.link(person).rsplit("/", 1)[1])
    page.get_by_label("PIN of 6 digits").fill(PIN)
    page.get_by_role("button", name="Join", exact=True).click()
    return picks_car_41(page)


@pytest.mark.longer
def test_an_event_that_demands_a_pin_demands_none_there_and_each_signature_counts(
    old_server: Server, todays_phone: MakePhone, tmp_path: Path
) -> None:
    server = old_server
    in_review = waiting(server)
    vera = comes_in(todays_phone(server), server.link("p-vera"))
    opens_section(vera, "trust", "Signatures")
    vera.get_by_role("combobox", name="pin").select_option("true")
    vera.get_by_text("Kept on this phone at").first.wait_for()
    opens_section(vera, "changes", "What changes")
    vera.get_by_text("Nothing changes").wait_for(timeout=SLOW_MS)
    expect(vera.get_by_role("button", name="Put in force")).to_be_disabled()
    # With a change that it knows, or from a server of today, the word stands in its files all the same.
    files = server.get(f"/events/{EVENT}/files", server.manager)["files"]
    text = files["event.toml"]
    assert "[trust]" not in text
    demanding = {**files, "event.toml": f'{text}\n[trust]\nsignatures = "on"\npin = true\n'}
    server.call("PUT", f"/events/{EVENT}", server.manager, {"files": demanding})
    assert "pin = true" in server.get(f"/events/{EVENT}/files", server.manager)["files"]["event.toml"]
    phone = todays_phone(server)
    page = comes_in(phone, server.link("p-odil"))
    odil = Member(server, phone, "p-odil", "41")
    logs_a_hit(page, "Front left", "Brake hose")
    odil.inspects(HOSE, pin=PIN)
    wait_until(page, lambda: len(passes(server, "p-odil", HOSE)) == 1)
    assert server.job("41", HOSE)["inspection"] == "passed"
    # What comes by a file of a phone without the key of a PIN is doubted by no phone, and counts on the server.
    anni = Device(server, "p-anni")
    page.reload()
    wait_until(page, lambda: anni.device in str(stored(page, "answers")))
    looked = anni.wrote(Pen(EVENT, start=95_000).passed("under-rear/fuel-tank"), 1)
    takes_a_file(page, tmp_path / "looked.zip", looked)
    page.get_by_text("Taken: 1 entry new").wait_for()
    expect(page.get_by_text("can't be believed on this phone alone")).to_have_count(0)
    wait_until(page, lambda: looked["id"] in names(server.entries()))
    assert record(page, looked)["problem"] is None
    assert waiting(server) == in_review
