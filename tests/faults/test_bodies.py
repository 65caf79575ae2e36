"""F33, F34: bodies that no decoder takes, set-ups that nobody can mean: answered in words, and entries go on."""

import json

from .invariants import check
from .phone import Identity, Phone
from .siege import Target, Watch
from .tally import is_long, tries
from .yard import EVENT, Yard

NONSENSE = [
    b"[" * 200_000,
    b'{"code": ' + b"9" * 10_000 + b"}",
    rb'{"code": "\ud800"}',
    b'{"code": "\xff"}',
]
CALLS = [("POST", "/join"), ("POST", "/rates/accept"), ("PUT", "/rates"), ("POST", f"/events/{EVENT}/plan")]


def test_f33_bodies_that_no_decoder_takes(yard: Yard) -> None:
    sender, times = yard.phone(), tries(2, 20)
    nobody = Phone(yard.folder / "nobody", yard.server.port, Identity("", "", ""), EVENT)
    for _ in range(times):
        written = sender.report()
        for body in NONSENSE:
            for method, path in CALLS:
                expected = 400 if path == "/join" else 401
                status, data = nobody.call(method, path, body)
                # More than 64 KiB is taken from nobody, whatever it says; of joining, 16.
                small = len(body) <= 16 * 1024
                assert status == expected if small else status in (401, 413), (path, body[:20], data)
                status, data = sender.call(method, path, body)
                assert status == 400 or (status == 413 and not small), (path, body[:20], data)
                assert json.loads(data)["detail"]
        yard.settle()
        assert written["id"] in yard.ledger.acknowledged
    assert nobody.call("GET", "/health")[0] == 200
    what = "bodies that no decoder takes, from nobody and from a phone that joined"
    check(yard, "F33", what, tries=times * 2 * len(NONSENSE) * len(CALLS))


def absurd(files: dict[str, str]) -> list[tuple[str, str]]:
    """Return set-up files that took minutes to read, or made errors, by the file that is at fault."""
    event, operations = files["event.toml"], files["rates/operations.csv"]
    header = operations.partition("\n")[0]
    return [
        ("event.toml", event + "\n[[stages]]\nstage = 'SS99'\nkm = 1e999999999\n"),
        ("event.toml", event + "\ndeep = " + "[" * 20_000),
        ("event.toml", event + "\nlong = " + "9" * 5000),
        ("event.toml", event + "\n" + ".".join(["a"] * 50_000) + " = 1\n"),
        ("event.toml", event + "\n[[stages]]" * 40_000),
        ("van.csv", "part,loaded" + ",a" * 300_000),
        ("van.csv", "part,loaded," + ",".join(f"c{place}" for place in range(100_000))),
        ("van.csv", "part,loaded\n" + "rim,1\n" * 900_000),
        ("rates/operations.csv", header + "\n" + ",".join("xyzabcdefgh") * 19_000),
    ]


def test_f34_set_ups_that_nobody_can_mean(yard: Yard) -> None:
    manager, sender = yard.phone("p-vera"), yard.phone()
    held = json.loads(manager.call("GET", f"/events/{EVENT}/files")[1])
    cases = absurd(held["files"])[:: 1 if is_long() else 3]
    target = Target(yard.server.port, sender.identity.token)
    with Watch(target).watching() as watch:
        for name, text in cases:
            body = json.dumps({"files": {**held["files"], name: text}}).encode()
            for method, path in (("POST", f"/events/{EVENT}/files/check"), ("PUT", f"/events/{EVENT}")):
                status, data = manager.call(method, path, body)
                assert status == (200 if method == "POST" else 422), (name, text[-40:], data[:300])
                faults = json.loads(data)["faults"]
                assert 0 < len(faults) <= 1001
                assert {fault["file"] for fault in faults} == {name}
                assert all(len(fault["what"]) < 300 for fault in faults)
    assert json.loads(manager.call("GET", f"/events/{EVENT}/files")[1]) == held, "nothing of them was taken"
    written = sender.report()
    yard.settle()
    assert written["id"] in yard.ledger.acknowledged
    note = f"slowest answer of health or sync meanwhile {max(watch.worst_s.values()):.1f} s"
    check(yard, "F34", "set-ups that nobody can mean, looked at and put", tries=len(cases) * 2, note=note)
