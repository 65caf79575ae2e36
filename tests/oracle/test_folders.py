"""Checks that the random event folders reach every state that the rules know, and reach them often."""

import json
from collections import Counter
from pathlib import Path

import pytest

from .folders import write_folder
from .reading import canonical, queue

SEEDS = range(40)
# Of 40 folders and 80 queues; about half of what was counted when this was written, so that a lame generator fails.
AT_LEAST = {
    "open": 100, "started": 25, "deferred": 20, "patched": 30, "accepted": 60, "finished": 100,
    "not-needed": 120, "needed": 120, "failed": 60, "passed": 120, "hold": 25, "nothing-open": 7,
    "re-inspection": 60, "official": 25, "inspection": 80, "released unseen": 8, "retracted": 30, "knock_on": 25,
    "two_versions": 120, "short": 25, "no findings": 25, "no_rate": 80, "must_do": 180, "currency JPY": 80,
    "currency EUR": 80, "currency KWD": 80, "sticky brake": 30, "partly passed": 5,
}  # fmt: skip


def package_map(root: Path) -> Path:
    """A stand-in for the package's own car map: the brake hose is a brake there, whatever a folder's map says."""
    path = root / "package_map.toml"
    path.write_text('[components.brake-hose]\nlabel = "Brake hose"\ngroup = "brake"\n', encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def queues(tmp_path_factory: pytest.TempPathFactory) -> list:
    """The queues of both cars of all seeds."""
    root = tmp_path_factory.mktemp("folders")
    default = package_map(root)
    answers = []
    for seed in SEEDS:
        folder = write_folder(root, seed, 40 + seed * 17 % 160)
        answers += [queue(folder, f"event-{seed}", car, default) for car in ("41", "42b")]
    return answers


def counts(queues: list) -> Counter:
    """How often each state came up."""
    seen: Counter[str] = Counter()
    for one in queues:
        seen[one["release"]] += 1
        seen["released unseen"] += bool(one["released_unseen"])
        seen.update(reason["needs"] for reason in one["hold_reasons"])
        for job in one["jobs"]:
            seen.update(states_of(job))
    return seen


def states_of(job: dict) -> list:
    """What one job has to show for the count."""
    flags = [name for name in ("retracted", "knock_on", "two_versions", "no_rate", "must_do") if job[name]]
    named = {
        "short": any(part["short"] for part in job["estimate"]["parts"]),
        "no findings": not job["findings"],
        "sticky brake": job["component"] == "brake-hose" and job["group"] == "brake",
        "partly passed": bool(set(job["findings"]) - set(job["uncovered"])) and bool(job["uncovered"]),
    }
    money = "currency " + job["estimate"]["currency"]
    return [job["state"], job["inspection"], money, *flags, *(name for name, is_so in named.items() if is_so)]


def test_every_state_comes_up_often(queues: list) -> None:
    """A generator that misses a state, or meets it seldom, proves nothing about it."""
    seen = counts(queues)
    assert {name: seen[name] for name, least in AT_LEAST.items() if seen[name] < least} == {}


def test_folder_is_the_same_for_the_same_seed(tmp_path: Path) -> None:
    """A seed printed by a failing comparison must bring the same folder back."""
    first, second = (write_folder(tmp_path / name, 7, 80) for name in ("a", "b"))
    names = ["event.toml", "car_map.toml", "van.csv", "entries.jsonl", "rates/operations.csv", "rates/rates.toml"]
    assert [(first / name).read_bytes() for name in names] == [(second / name).read_bytes() for name in names]


def test_order_and_doubling_of_lines_change_nothing(tmp_path: Path) -> None:
    """The same set of entries gives the same queue."""
    folder = write_folder(tmp_path, 11, 120)
    before = queue(folder, "event-11", "41", package_map(tmp_path))
    lines = (folder / "entries.jsonl").read_text(encoding="utf-8").splitlines()
    (folder / "entries.jsonl").write_text("\n".join(sorted(lines) + lines[:9]) + "\n", encoding="utf-8")
    assert queue(folder, "event-11", "41", package_map(tmp_path)) == before


def test_canonical_form_is_that_of_the_rfc() -> None:
    """RFC 8785 (3.2.2 numbers and strings, 3.2.3 sorting), on what a queue may hold."""
    value = {"b": [4.5, 3, 0.01, True, None], "a": "\u20ac$\u000f\nA'B\"\\ü", "\u20ac": 1, "1": {}}
    expected = '{"1":{},"a":"\u20ac$\\u000f\\nA\'B\\"\\\\ü","b":[4.5,3,0.01,true,null],"\u20ac":1}'
    assert canonical(value) == expected
    assert json.loads(canonical(value)) == value
