"""F8 and F28: links that pass one way or none, streams that break, captive portals, answers cut short."""

import json
import random
import socket
import time

from .invariants import check
from .proxy import CAPTIVE, CAPTIVE_BEHIND, NOTHING, REFUSED, Fault, answer
from .tally import is_long, tries
from .yard import KEYS, Yard

HEALED_GOAL_S = 30.0


def part(yard: Yard, way: str) -> None:
    """Cut the link one way, both ways, or so that every connection is refused."""
    yard.proxy.heal()
    if way in ("up", "both"):
        yard.proxy.up.clear()
    if way in ("down", "both"):
        yard.proxy.down.clear()
    if way == "refused":
        yard.proxy.rule = lambda request: REFUSED


def test_f08_ten_phones_behind_one_way_and_full_partitions(yard: Yard) -> None:
    chance, cycles, longest_s = random.Random(8), tries(4, 14), 10.0 if is_long() else 0.8
    phones = yard.phones(10)
    recovered_s = []
    for phone in phones:
        phone.timeout_s = 2.0
        phone.start()
    for _ in range(cycles):
        part(yard, chance.choice(["up", "down", "both", "refused"]))
        until = time.monotonic() + chance.uniform(0, longest_s)
        while time.monotonic() < until:
            chance.choice(phones).report(chance.choice(KEYS))
            time.sleep(chance.uniform(0, 0.1))
        yard.proxy.heal()
        began = time.monotonic()
        while any(phone.waiting() for phone in phones):
            assert time.monotonic() - began < 3 * HEALED_GOAL_S
            time.sleep(0.05)
        recovered_s.append(time.monotonic() - began)
    yard.settle()
    late = sum(one > HEALED_GOAL_S for one in recovered_s)
    note = f"{late} of {cycles} took more than {HEALED_GOAL_S:.0f} s"
    check(yard, "F8", "partitions, 10 phones", tries=cycles, recovered_s=recovered_s, note=note)


def test_f08_a_phone_that_drives_out_of_reach_again_and_again_leaves_the_server_free(yard: Yard) -> None:
    phone, times = yard.phone(), tries(100, 300)
    ask = f"GET /api/v1/live HTTP/1.1\r\nHost: van\r\nAuthorization: Bearer {phone.identity.token}\r\n\r\n".encode()
    gone = []
    for _ in range(times):
        stream = socket.create_connection(("127.0.0.1", yard.server.port), 60)
        stream.sendall(ask)
        assert stream.recv(64).startswith(b"HTTP/1.1 200")
        gone.append(stream)  # no goodbye: neither read from nor closed any more
    phone.report()
    yard.settle()
    for stream in gone:
        stream.close()
    check(yard, "F8", "event streams left without a goodbye", tries=times)


def says(body: object) -> Fault:
    """An answer that the server never gave, though it stored the entries."""
    return Fault(instead=answer(json.dumps(body).encode(), "application/json"))


def lies(names: list[str]) -> dict[str, Fault]:
    """What is no acknowledgement of these entries, by what it is."""
    shape = {"log_id": "x", "cursor": 1, "rejected": [], "entries": [], "more": False}
    return {
        "a portal's page, nothing sent on": CAPTIVE,
        "a portal's page over the server's answer": CAPTIVE_BEHIND,
        "an answer cut in its middle": Fault(reply_bytes=150),
        "no byte of the answer": Fault(reply_bytes=0),
        "an empty object": says({}),
        "a list": says([]),
        "accepted is no list": says({**shape, "accepted": names[0]}),
        "JSON called HTML": Fault(instead=answer(b'{"ok": true}', "text/html")),
        "a redirect to the portal": Fault(forwarded=False, instead=answer(b"", status="302 Found")),
        "a proxy's own error": Fault(
            forwarded=False, instead=answer(b"<h1>Bad gateway</h1>", status="502 Bad Gateway")
        ),
        "no content": Fault(forwarded=False, instead=b"HTTP/1.1 204 No Content\r\nConnection: close\r\n\r\n"),
    }


def test_f28_what_is_no_answer_of_the_server_acknowledges_nothing(yard: Yard) -> None:
    phone = yard.phone()
    count = len(lies([""]))
    for turn in range(count):
        entries = [phone.report(key) for key in KEYS[:3]]
        names = [entry["id"] for entry in entries]
        what, fault = list(lies(names).items())[turn]
        yard.proxy.rule = lambda request, fault=fault: fault if request.is_sync else NOTHING
        assert not phone.round(), what
        assert {phone.own()[name][1] for name in names} == {"waiting"}, what
        yard.proxy.heal()
        yard.settle()
    check(yard, "F28", "portals and cut replies", tries=count)


def test_f28_only_the_ids_that_an_answer_lists_count(yard: Yard) -> None:
    phone = yard.phone()
    phone.report()
    yard.settle()
    entries = [phone.report(key) for key in KEYS[:4]]
    names = [entry["id"] for entry in entries]
    told = {"log_id": phone.outbox.meta("log_id"), "cursor": phone.outbox.meta("cursor"), "rejected": [], "entries": []}
    partly = says({**told, "accepted": [names[1], "01890000-0000-7000-8000-000000000000"], "more": False})
    first = iter([partly])
    yard.proxy.rule = lambda request: next(first, REFUSED)
    assert not phone.round()
    assert [phone.own()[name][1] for name in names] == ["waiting", "sent", "waiting", "waiting"]
    yard.proxy.heal()
    yard.settle()
    check(yard, "F28", "an answer that lists a part")
