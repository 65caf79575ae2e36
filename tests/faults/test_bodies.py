"""F33: bodies that no decoder takes. Nobody's is read; a phone's is answered with what is wrong; entries go on."""

import json

from .invariants import check
from .phone import Identity, Phone
from .tally import tries
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
