"""F9 and F26: any order, doubling, delay and split gives one queue; withdrawn and amended unseen by each other."""

import itertools
import json
import random
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from oracle.folders import write_folder
from shuntbook.flow import answers, diagnostics
from shuntbook.flow.ingest import Batch, ingest
from shuntbook.flow.load import load
from shuntbook.store.database import Store

from . import tally
from .invariants import check
from .proxy import NOTHING, Fault, Request
from .tally import tries
from .yard import PATIENCE_S, Simulated, Yard, take_unsigned

CARS = ("41", "42b")
CHUNK = 5
"""Seeds whose events share a store, so that their entries mix too."""
NOW = "2026-06-13T08:00:00Z"


class Timeline:
    """The random event of a seed: its set-up's folder, which takes unsigned entries, and its entries apart."""

    def __init__(self, root: Path, seed: int) -> None:
        self.seed = seed
        self.folder = write_folder(root, seed, 20 + seed * 7 % 60)
        self.event = self.folder.name
        take_unsigned(self.folder / "event.toml")
        entries = self.folder / "entries.jsonl"
        self.lines = entries.read_bytes().splitlines()
        entries.unlink()


def batches(lines: list[bytes], chance: random.Random) -> Iterator[list[bytes]]:
    """Split entries into batches in any order, some sent again at once or later."""
    todo = lines + chance.sample(lines, len(lines) // 4)
    chance.shuffle(todo)
    while todo:
        size = chance.choice([1, 2, 5, 20, 60])
        batch, todo = todo[:size], todo[size:]
        yield batch
        if chance.random() < 0.1:
            yield batch


def store_of(where: Path, stories: list[Timeline], order: int) -> Store:
    """Return a store that was sent the entries of all stories in an order of its own."""
    store, chance = Store(where), random.Random(f"{stories[0].seed} {order}")
    for story in stories:
        load(store, story.folder, NOW)
    lines = [line for story in stories for line in story.lines]
    for batch in batches(lines, chance):
        taken = ingest(store, Batch(batch, 0, None, None, NOW, None))
        assert taken.rejected == []
    return store


@pytest.fixture
def memory(tmp_path: Path) -> Iterator[Path]:
    """A folder that no disk slows down, where the machine has one."""
    with TemporaryDirectory(dir="/dev/shm" if Path("/dev/shm").is_dir() else tmp_path) as folder:
        yield Path(folder)


def test_f09_any_order_doubling_and_split_gives_one_queue_for_each_seed(memory: Path) -> None:
    seeds = tries(20, 1000)
    for first in range(0, seeds, CHUNK):
        stories = [Timeline(memory / f"{first}", seed) for seed in range(first, first + CHUNK)]
        stores = [store_of(memory / f"{first}-{order}", stories, order) for order in range(2)]
        for story, car in itertools.product(stories, CARS):
            hashes = {answers.queue(store, story.event, car).hash for store in stores}
            assert len(hashes) == 1, f"seed {story.seed}, car {car}: one set of entries, queues {hashes}"
        assert [diagnostics.check(store) for store in stores] == [[], []], f"seeds {first} to {first + CHUNK - 1}"
    tally.count("F9", "seeded reorder, doubling, delay and split, two orders a seed", tries=seeds)


def bad_day(chance: random.Random) -> Fault:
    """One request's luck on a bad network."""
    luck = chance.random()
    if luck < 0.2:
        return Fault(reply_bytes=chance.choice([0, 40, 200]))
    if luck < 0.3:
        return Fault(forwarded=False)
    return Fault(wait_s=chance.random() / 20) if luck < 0.7 else NOTHING


def test_f09_phones_on_a_bad_network_give_the_queue_of_the_same_folder_loaded(yard: Yard, tmp_path: Path) -> None:
    seeds = tries(2, 20)
    for seed in range(9000, 9000 + seeds):
        story, chance = Timeline(tmp_path, seed), random.Random(seed)
        reference = store_of(tmp_path / f"reference-{seed}", [story], 0)
        load(Store(yard.data), story.folder, NOW)
        phones = yard.phones(4)
        for line in dict.fromkeys(story.lines):
            raw_line(chance.choice(phones), line)
        for phone in phones:
            phone.most, phone.timeout_s = chance.choice([3, 10, 40]), 10.0

        def luck(request: Request, chance: random.Random = chance) -> Fault:
            return bad_day(chance) if request.is_sync else NOTHING

        yard.proxy.rule = luck
        yard.settle(4 * PATIENCE_S)
        yard.proxy.heal()
        for car in CARS:
            # Nobody of the sample's people may read another event's queue by a call.
            there = answers.queue(Store(yard.data), story.event, car)
            assert there.hash == answers.queue(reference, story.event, car).hash, f"seed {seed}"
    check(yard, "F9", "over a bad network from 4 phones", tries=seeds)


def raw_line(phone: Simulated, line: bytes) -> None:
    """Put an entry's own bytes into a phone."""
    entry = json.loads(line)
    row = [entry["id"], line, entry["seq"]]
    phone.outbox.db.execute("INSERT OR IGNORE INTO entry VALUES (?, ?, 1, 'waiting', NULL, ?)", row)
    phone.on_written(entry["id"], line)


KEY = "rear-left/brake-hose"
ORDERS = list(itertools.permutations(["filed", "amended", "withdrawn"]))


def test_f26_a_withdrawal_and_an_amendment_unseen_by_each_other_end_the_same_in_any_order(yard: Yard) -> None:
    seen = set()
    for order in ORDERS:
        phones = dict(zip(["filed", "amended", "withdrawn"], yard.phones(3), strict=True))
        filed = phones["filed"].report(KEY, "cracked")
        replaces = {"replaces": [filed["id"]]}
        body = {**filed["data"], **replaces, "findings": [{"component": "brake-hose", "condition": "leaking"}]}
        amended = phones["amended"].write(phones["amended"].draft("report.amended", filed["id"], body))[0]
        withdrawal = {**replaces, "reason": "mistake"}
        phones["withdrawn"].write(phones["withdrawn"].draft("report.withdrawn", filed["id"], withdrawal))
        for name in order:
            assert phones[name].round()
        job = yard.server.job("41", KEY)
        own = {filed["id"]: "filed", amended["id"]: "amended"}
        seen.add((frozenset(own[one] for one in job["findings"] if one in own), job["two_versions"]))
        before = yard.server.queue("41")["hash"]
        send_again(phones["withdrawn"])
        assert yard.server.queue("41")["hash"] == before, "a late resend changes nothing"
        history = {one["id"] for one in yard.server.entries("41") if one["subject"] == filed["id"]}
        assert len(history) == 3, "both stand in the history"
    # Union of the heads: what the amendment says; the withdrawal takes only its own line of versions back.
    assert seen == {(frozenset({"amended"}), True)}
    yard.settle()
    check(yard, "F26", "withdrawn against amended, each order, late resend", tries=len(ORDERS))


def send_again(phone: Simulated) -> None:
    phone.outbox.db.execute("UPDATE entry SET sending = 'waiting' WHERE mine")
    assert phone.round()
