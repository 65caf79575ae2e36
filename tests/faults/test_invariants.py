"""The checker of the five invariants is itself held to account: each planted loss, doubling or difference is found."""

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from shuntbook.flow import answers
from shuntbook.flow.clock import now
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.store.database import Store

from . import tally
from .invariants import check, look
from .outbox import compact
from .phone import Identity, uuid7
from .yard import EVENT, KEYS, Simulated, Yard


@dataclass
class Scene:
    """A yard where all is well, with one phone and its entries."""

    yard: Yard
    phone: Simulated
    entries: list[dict]

    @property
    def first(self) -> str:
        return self.entries[0]["id"]

    def change(self, statement: str, *values: object) -> None:
        """Damage the server's store past all of the product's care; exactly one row."""
        with Store(self.yard.data).write() as db:
            assert db.conn.execute(statement, values).rowcount == 1


@pytest.fixture
def scene(make_yard: Callable[..., Yard], monkeypatch: pytest.MonkeyPatch) -> Scene:
    """Without a server's process: what it would have done is done to its store, what it would answer is read there."""
    yard = make_yard()
    store, phone = Store(yard.data), yard.phone(identity=Identity("p-toma", "d-1", ""))
    monkeypatch.setattr(phone, "queue_hash", lambda car: answers.queue(store, EVENT, car).hash)
    entries = [phone.report(key) for key in KEYS[:4]]
    taken = ingest(store, Batch([compact(one) for one in entries], 0, None, None, now(), None))
    phone.outbox.db.execute("UPDATE entry SET sending = 'sent'")
    yard.ledger.note_accepted(taken.accepted)
    return Scene(yard, phone, entries)


def found(scene: Scene) -> tuple[list[str], list[str], list[str]]:
    seen = look(scene.yard, clones=False)
    return seen.lost, seen.doubled, seen.wrong


def test_where_all_is_well_nothing_is_found(scene: Scene) -> None:
    assert found(scene) == ([], [], [])


def test_a_an_acknowledged_entry_that_is_gone_from_the_server_is_lost(scene: Scene) -> None:
    scene.change("DELETE FROM entry WHERE id = ?", scene.first)
    assert found(scene)[0] == [scene.first]


def test_a_an_acknowledged_entry_with_other_bytes_is_lost(scene: Scene) -> None:
    other = compact({**scene.entries[0], "data": {"zone": "cabin"}})
    scene.change("UPDATE entry SET raw = ? WHERE id = ?", other, scene.first)
    assert found(scene)[0] == [scene.first]


def test_a_a_signature_put_beside_an_entry_is_no_other_entry_but_a_space_is(scene: Scene) -> None:
    signed = compact({**scene.entries[0], "sig": "x"})
    scene.change("UPDATE entry SET raw = ? WHERE id = ?", signed, scene.first)
    scene.phone.outbox.db.execute("UPDATE entry SET raw = ? WHERE id = ?", [signed, scene.first])
    assert found(scene)[0] == []
    scene.change("UPDATE entry SET raw = ? WHERE id = ?", signed + b" ", scene.first)
    assert found(scene)[0] == [scene.first]


def test_a_an_entry_stored_once_more_under_another_id_is_doubled(scene: Scene) -> None:
    twin = uuid7(scene.phone.clock())
    raw = compact({**scene.entries[0], "id": twin, "subject": twin})
    columns = "event, car, kind, person, device, seq"
    scene.change(
        f"INSERT INTO entry (id, subject, {columns}, raw, received_at) SELECT ?, ?, {columns}, ?, received_at "
        "FROM entry WHERE id = ?",
        twin, twin, raw, scene.first,
    )  # fmt: skip
    assert found(scene)[1] == [f"{scene.phone.identity.device} 1"]


def test_b_an_entry_that_left_its_phone_and_came_nowhere_is_lost(scene: Scene) -> None:
    entry = scene.phone.report()
    scene.phone.outbox.db.execute("DELETE FROM entry WHERE id = ?", [entry["id"]])
    assert found(scene)[0] == [entry["id"]]


def test_b_an_entry_marked_sent_that_the_server_never_got_is_lost(scene: Scene) -> None:
    entry = scene.phone.report()
    scene.phone.outbox.db.execute("UPDATE entry SET sending = 'sent' WHERE id = ?", [entry["id"]])
    assert found(scene)[0] == [entry["id"]]


def test_b_an_entry_that_was_refused_and_is_not_set_aside_is_lost(scene: Scene) -> None:
    entry = scene.phone.report()
    scene.phone.outbox.db.execute("UPDATE entry SET sending = 'attention' WHERE id = ?", [entry["id"]])
    assert found(scene)[0] == [entry["id"]]


def test_c_a_job_that_is_not_what_the_log_gives_is_wrong(scene: Scene) -> None:
    scene.phone.queue_hash("41")  # whoever reads a queue has its jobs kept up
    scene.change("DELETE FROM job WHERE job = ?", KEYS[0])
    assert found(scene)[2] != []


def test_d_a_phone_that_sees_another_queue_is_wrong(scene: Scene, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(scene.phone, "queue_hash", lambda car: "another")
    assert any("phones see" in one for one in found(scene)[2])


def test_e_an_outbox_that_does_not_drain_is_wrong(scene: Scene) -> None:
    scene.phone.report()
    assert found(scene) == ([], [], ["1 still wait on a phone"])


def test_the_check_that_every_fault_ends_with_fails_and_counts(scene: Scene, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tally, "lines", {})
    check(scene.yard, "F0", "nothing")
    scene.change("DELETE FROM entry WHERE id = ?", scene.first)
    with pytest.raises(AssertionError, match=scene.first):
        check(scene.yard, "F0", "a planted loss")
    line = tally.lines["F0"]
    assert (line.tries, line.lost, line.doubled) == (2, 1, 0)
