"""Holds the two programs that calculate the queue, the server's and the phone's, against each other on random folders.

    python tests/two_hearts.py 2000

Both read the same folder: the server's from its files, the phone's from what the server would send it. Whole answers
are compared, byte by byte in the canonical form of RFC 8785.
"""

import json
import subprocess
import sys
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[1]
sys.path.append(str(ROOT / "tools"))

from node import find_node  # noqa: E402

from making import queue  # noqa: E402
from oracle.folders import write_folder  # noqa: E402
from shuntbook.flow.load import read_folder  # noqa: E402
from shuntbook.kit.canonical import canonical  # noqa: E402
from shuntbook.wire.setup_json import setup_json  # noqa: E402

Json = dict[str, object]
NAMES_OF_OBJECTS = {"lamp": "constructor", "bonnet": "__proto__", "no-such-zone": "toString"}
"""Names that a JavaScript object has without being asked."""
MAY_BE_NULL = {
    "report.filed": ("zone", "stage", "findings", "symptoms", "photos", "where"),
    "report.amended": ("zone", "stage", "findings", "symptoms", "photos", "where"),
    "job.stopped": ("ends",),
    "job.finished": ("covers", "ends", "parts", "repairers", "temporary"),
    "job.deferred": ("covers",),
    "inspection.passed": ("covers", "checks", "until", "shown_to", "official_said"),
    "inspection.failed": ("covers", "checks"),
    "car.released": ("covers",),
}


@dataclass
class Outcome:
    """What a run found: how many folders and queues were compared, how many entries they held, what differed."""

    folders: int = 0
    queues: int = 0
    entries: int = 0
    seconds: float = 0
    differences: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        found = f"{len(self.differences)} differences in {self.seconds:.0f} s"
        return f"{self.folders} folders, {self.queues} queues, {self.entries} entries: {found}"


class PhoneHeart:
    """The phone's program in a process of its own: one question at a time."""

    def __init__(self) -> None:
        command = [find_node(), str(ROOT / "pwa" / "scripts" / "queue-lines.mjs")]
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=ROOT / "pwa")

    def __enter__(self) -> "PhoneHeart":
        return self

    def __exit__(self, *_: object) -> None:
        self.process.communicate()

    def queues(self, ask: Json, cars: list[str]) -> list[bytes]:
        """Return the queues of the cars in canonical form; empty where the program gave up."""
        assert self.process.stdin is not None and self.process.stdout is not None
        self.process.stdin.write(json.dumps({**ask, "cars": cars}).encode() + b"\n")
        self.process.stdin.flush()
        return [self.process.stdout.readline().rstrip(b"\n") for _ in cars]


def compare(seeds: Iterable[int]) -> Outcome:
    """Compare both programs on a folder for each seed."""
    outcome = Outcome()
    start = time.monotonic()
    with PhoneHeart() as phone, TemporaryDirectory() as root:
        for seed in seeds:
            outcome.differences += differing(phone, Path(root), seed, outcome)
    outcome.seconds = time.monotonic() - start
    return outcome


def differing(phone: PhoneHeart, root: Path, seed: int, outcome: Outcome) -> Iterator[str]:
    """Yield what differs on one folder, and count it."""
    chance = Random(seed)
    folder = twisted(write_folder(root, seed, chance.choice([15, 40, 80, 120, 200])), chance)
    read = read_folder(folder)
    entries = [json.loads(raw) for _, raw in read.entries.values()]
    asides = chance.choice([[], [], ["ｚ", "𝔷", "a", "ä", "a"]])
    cars = [*read.setup.event.cars, "no-entries"]
    held = doubled([withheld(one) for one in entries], chance)
    ask: Json = {"setup": setup_json(read.setup), "entries": held, "set_aside": asides}
    outcome.folders, outcome.queues = outcome.folders + 1, outcome.queues + len(cars)
    outcome.entries += len(entries)
    for car, of_phone in zip(cars, phone.queues(ask, cars), strict=True):
        of_server = canonical(queue(entries, read.setup, car, asides))
        if of_phone != of_server:
            yield f"seed {seed}, car {car}: {first_difference(of_phone, of_server)}"


def twisted(folder: Path, chance: Random) -> Path:
    """Make a folder nastier: names of objects, nulls, quantities as text, or the package's own car map."""
    if chance.random() < 0.2:
        (folder / "car_map.toml").unlink()
    elif chance.random() < 0.3:
        for path in [folder / "car_map.toml", folder / "rates" / "operations.csv", folder / "entries.jsonl"]:
            text = path.read_text(encoding="utf-8")
            for name, other in NAMES_OF_OBJECTS.items():
                text = text.replace(name, other)
            path.write_bytes(text.encode())
    lines = (folder / "entries.jsonl").read_text(encoding="utf-8").split("\n")
    unique = {line: twisted_entry(json.loads(line), chance) for line in lines if line}
    (folder / "entries.jsonl").write_text("".join(line + "\n" for line in unique.values()), encoding="utf-8")
    return folder


def twisted_entry(entry: Json, chance: Random) -> str:
    """Write an entry with nulls where a field may be left out, and quantities as text."""
    data = entry["data"]
    assert isinstance(data, dict)
    for name in MAY_BE_NULL.get(str(entry["kind"]), ()):
        if not data.get(name) and chance.random() < 0.3:
            data[name] = None
    for part in data.get("parts") or []:
        qty = part["qty"]
        part["qty"] = chance.choice([qty, qty, f"{qty}", f"{qty}.00" if isinstance(qty, int) else f"{qty * 10}e-1"])
    return json.dumps(entry, ensure_ascii=False)


def withheld(entry: Json) -> Json:
    """Return an entry as a phone holds it that is no manager's: of costs it has only that there is one."""
    if not str(entry["kind"]).startswith("cost."):
        return entry
    return {name: entry[name] for name in ("id", "event", "car")} | {"withheld": True}


def doubled(entries: list[Json], chance: Random) -> list[Json]:
    """Return the entries in another order, some of them twice."""
    shuffled = [*entries, *chance.sample(entries, len(entries) // 10)]
    chance.shuffle(shuffled)
    return shuffled


def first_difference(ours: bytes, theirs: bytes) -> str:
    """Return the first field in which two queues differ, cut short."""
    if not ours:
        return "the phone's program gave up"
    one, other = json.loads(ours), json.loads(theirs)
    for name in other:
        if name != "hash" and one.get(name) != other[name]:
            return f"{name}: phone {str(one.get(name))[:500]} server {str(other[name])[:500]}"
    return "the bytes differ, the values do not"


if __name__ == "__main__":
    result = compare(range(int(sys.argv[1])))
    print(result, *result.differences, sep="\n")  # noqa: T201
    sys.exit(1 if result.differences else 0)
