"""F25 and F27: a server restored from yesterday's copy, or new on an empty disk; a phone that was cloned."""

import shutil
from collections.abc import Callable
from pathlib import Path

from shuntbook.flow import diagnostics
from shuntbook.store.database import Store
from warmed import Forked

from .invariants import check
from .pictures import jpeg
from .tally import tries
from .yard import KEYS, PATIENCE_S, Simulated, Yard


def shuntbook(*words: object) -> None:
    """Run a command of the product's own, which must succeed."""
    assert Forked(*words).wait(PATIENCE_S) == 0, words


def log_more(phones: list[Simulated], first: int) -> None:
    for place, phone in enumerate(phones, start=first):
        phone.report(KEYS[place % 8], photos=[phone.add_photo(jpeg(400 + place, (320, 240)))])


def hashes(yard: Yard, *cars: str) -> list[str]:
    return [yard.server.queue(car)["hash"] for car in cars]


def photos_held(yard: Yard) -> set[str]:
    return {row[0] for row in Store(yard.data).db.conn.execute("SELECT photo FROM photo")}


def test_f25_the_server_is_restored_from_a_copy_of_yesterday(make_yard: Callable[..., Yard]) -> None:
    recovered_s = []
    for turn in range(tries(1, 6)):
        yard = make_yard()
        yard.server.start()
        phones = yard.phones(3)
        log_more(phones, 10 * turn)
        yard.settle()
        hashes(yard, "41")  # the manager has joined before the copy is made
        copy = yard.folder / "copy.zip"
        shuntbook("backup", copy, "--data", yard.data)
        log_more(phones, 10 * turn + 3)
        yard.settle()
        before, held, log_id = hashes(yard, "41"), photos_held(yard), Store(yard.data).log_id
        log_more(phones, 10 * turn + 6)  # and some that no server ever had
        yard.server.stop()
        shutil.rmtree(yard.data)
        shuntbook("restore", copy, "--data", yard.data)
        assert Store(yard.data).log_id != log_id
        yard.server.start()
        recovered_s.append(yard.settle())
        assert held < photos_held(yard)
        assert hashes(yard, "41") != before
        check(yard, "F25", "server restored from a copy", recovered_s=recovered_s[-1:])


def test_f25_the_server_is_new_on_an_empty_disk(make_yard: Callable[..., Yard], prepared: Path) -> None:
    for turn in range(tries(1, 6)):
        yard = make_yard()
        yard.server.start()
        phones = yard.phones(3)
        log_more(phones, 100 + 10 * turn)
        yard.settle()
        before, held = hashes(yard, "41"), photos_held(yard)
        entries = len(yard.server.entries())
        yard.server.stop()
        shutil.rmtree(yard.data)
        shutil.copytree(prepared, yard.data)
        store = Store(yard.data)
        with store.write() as db:
            db.conn.execute("UPDATE meta SET value = ? WHERE key = 'log_id'", [f"another {turn}"])
        yard.server.start()
        del yard.server.__dict__["manager"]
        assert not any(phone.round() for phone in phones), "nobody is known there yet"
        assert all(phone.outbox.count("sent") for phone in phones)
        for phone in phones:  # everybody opens a new link: the one thing that a person has to do
            phone.identity = yard.identity(phone.identity.person)
        recovered_s = [yard.settle()]
        assert (hashes(yard, "41"), photos_held(yard)) == (before, held)
        assert len(yard.server.entries()) == entries
        check(yard, "F25", "server new on an empty disk", recovered_s=recovered_s)


def test_f27_a_cloned_phone_uses_a_device_and_its_numbers_again(make_yard: Callable[..., Yard]) -> None:
    yard = make_yard()
    yard.server.start()
    first = yard.phone()
    first.report(KEYS[0])
    yard.settle()
    clone = yard.phone(identity=first.identity)
    source = first.outbox.db
    source.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    copy_phone(first, clone)
    for phone in (first, clone):
        for key in KEYS[1:4]:
            phone.report(key)
    yard.settle()
    own = [*first.own(), *clone.own()]
    assert len(set(own)) == 7, "three more on each, under one device's numbers 2 to 4"
    assert set(own) <= yard.ledger.acknowledged
    (device,) = [one for one in diagnostics.devices(Store(yard.data)) if one.device == first.identity.device]
    assert (device.entries, device.twice, device.missing) == (7, [2, 3, 4], []), "the clash is seen"
    check(yard, "F27", "a phone copied with its device id and counter", clones=True)


def copy_phone(first: Simulated, clone: Simulated) -> None:
    """Copy what a phone keeps over another's."""
    shutil.rmtree(clone.folder)
    shutil.copytree(first.folder, clone.folder)
    clone.outbox = type(clone.outbox)(clone.folder)
