"""The shared vectors are what the code makes now, and what the independent oracle reads of the same folders."""

import json
from pathlib import Path

import pytest
from vectors import FOLDER, vectors

from making import raw
from oracle.reading import queue as oracle_queue
from vector_cases import CASES
from vector_cases.case import Case

ROOT = Path(__file__).parents[2]
DEFAULT_MAP = ROOT / "api" / "shuntbook" / "defaults" / "car_map.toml"


def test_vectors_are_as_the_code_makes_them() -> None:
    held = {path.name: path.read_bytes() for path in FOLDER.glob("*")}
    assert held == vectors(), "run `make vectors`"


def test_there_are_enough_of_them_and_not_too_large() -> None:
    files = list(FOLDER.glob("*.json"))
    assert len(files) >= 40
    assert sum(path.stat().st_size for path in files) < 3_000_000


NOT_READ = {"set-aside", "more-set-aside-than-is-named", "blanks-say-nothing", "quantities-show-four-decimals"}
"""What is set aside is no part of a folder; of blank texts and of shown quantities the rules say nothing."""


@pytest.mark.parametrize("case", [case for case in CASES if case.name not in NOT_READ], ids=lambda case: case.name)
def test_the_oracle_reads_each_rules_own_case_alike(tmp_path: Path, case: Case) -> None:
    for name, data in case.files.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)
    (tmp_path / "entries.jsonl").write_bytes(b"".join(raw(entry) + b"\n" for entry in case.entries))
    vector = json.loads((FOLDER / f"{case.name}.json").read_bytes())
    read = json.loads(json.dumps(oracle_queue(tmp_path, "small-2026", case.car, DEFAULT_MAP), default=float))
    assert vector["queue"] == read
