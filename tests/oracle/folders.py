"""Writes a random, valid and nasty event folder for a seed."""

import json
from pathlib import Path
from random import Random
from typing import Any

from .happenings import draw_happenings
from .log import Log
from .setups import draw_setup, write_setup
from .texts import write_text


def write_folder(root: Path, seed: int, size: int) -> Path:
    """Write an event folder of about `size` entries under `root`, the same for the same seed and size; its path."""
    chance = Random(f"{seed}-{size}")
    setup = draw_setup(chance, seed)
    folder = root / setup.event
    folder.mkdir(parents=True)
    write_setup(chance, folder, setup)
    log = Log(chance, setup)
    draw_happenings(log, size)
    write_text(folder / "entries.jsonl", entry_lines(chance, log.entries))
    return folder


def entry_lines(chance: Random, entries: list[Any]) -> str:
    """The entries as lines, in any order, some lines twice."""
    lines = [json.dumps(entry, ensure_ascii=False) for entry in entries]
    lines += chance.sample(lines, len(lines) // 20)
    chance.shuffle(lines)
    return "".join(line + "\n" for line in lines)
