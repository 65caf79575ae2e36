"""Histories from seeds, each with a bad network, deaths, full disks and rebuilds: what must hold, holds at the end."""

import gc
import logging
import os
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from longer import is_longer
from shuntbook.store.database import FILE

from .__main__ import tell
from .pipe import ROOT, Simulator, simulator

TABLE = tomllib.loads(Path(__file__).with_name("seeds.toml").read_text())
KEPT, OPEN = TABLE["seed"], [row["seed"] for row in TABLE.get("open", [])]
SEEDS = range(1, 301) if is_longer() else range(1, 5)
PORTION = 20
"""Histories of one test: each says which seeds were wrong."""


@pytest.fixture(scope="module")
def running() -> Iterator[Simulator]:
    """A simulator, kept alive over all histories."""
    logging.getLogger("shuntbook").setLevel(logging.CRITICAL)
    with simulator() as one:
        yield one
    logging.getLogger("shuntbook").setLevel(logging.NOTSET)


@pytest.mark.parametrize("first", SEEDS[::PORTION])
def test_after_all_troubles_the_log_is_whole_and_everybody_sees_it(running: Simulator, first: int) -> None:
    seeds = [seed for seed in range(first, min(first + PORTION, SEEDS[-1] + 1)) if seed not in OPEN]
    wrong = {seed: running.run(seed).wrong for seed in seeds}
    assert {seed: found for seed, found in wrong.items() if found} == {}


@pytest.mark.parametrize("kept", KEPT, ids=lambda kept: str(kept["seed"]))
def test_a_seed_that_once_found_something_finds_nothing_any_more(running: Simulator, kept: dict[str, object]) -> None:
    assert running.run(int(str(kept["seed"]))).wrong == [], kept["why"]


def test_a_seed_has_one_history_in_whatever_process_and_after_whatever_else(
    running: Simulator, capsys: pytest.CaptureFixture[str]
) -> None:
    before = running.run(5, trace=True)
    running.run(2)
    assert running.run(5, trace=True) == before
    # Python has texts of a set in another order in each process; by this number, in another than here.
    another = subprocess.run(
        [sys.executable, "-m", "tests.simulator", "5", "--trace"],
        cwd=ROOT,
        env={**os.environ, "PYTHONHASHSEED": "2" if os.environ.get("PYTHONHASHSEED") == "1" else "1"},
        check=True,
        capture_output=True,
        text=True,
    )
    tell(before, trace=True)
    said = capsys.readouterr().out
    assert another.stdout[: len(said)] == said
    assert before.entries > 0


def files_that_are_gone() -> list[str]:
    """Return the databases that this process holds open though nobody can find them any more."""
    leads = [str(handle.readlink()) for handle in Path("/proc/self/fd").iterdir() if handle.is_symlink()]
    # proc(5), /proc/pid/fd: this ending says that a file is no more.
    return [where for where in leads if FILE in where and where.endswith(" (deleted)")]


def test_a_history_leaves_no_file_of_its_servers_open(running: Simulator) -> None:
    # Disks that are full, and servers that end: each lets go of its files at once, not when Python looks for garbage.
    gc.disable()
    # Tests before this one may have left some.
    before = files_that_are_gone()
    try:
        assert running.run(5).wrong == running.run(6).wrong == []
        assert [one for one in files_that_are_gone() if one not in before] == []
    finally:
        gc.enable()


@pytest.mark.longer
def test_what_is_listed_as_open_is_open(running: Simulator) -> None:
    assert all(running.run(seed).wrong for seed in OPEN), "take it out of the list of open seeds"
