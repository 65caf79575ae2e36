"""Writes schemas/vectors/queue/: events with the queue that follows, for every program that calculates it.

    python tools/vectors.py

One small event for each rule by name, some random ones, and the sample event. A vector is {name, rule, setup, entries,
set_aside, car, queue}: of the set-up, as GET /setup gives it, what the queue is made of; entries in any order.
"""

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "tests")]

from making import Json, queue  # noqa: E402
from oracle.folders import write_folder  # noqa: E402
from shuntbook.flow.load import read_folder  # noqa: E402
from shuntbook.serving import sample_folder  # noqa: E402
from shuntbook.setup.folder import Setup, read_setup  # noqa: E402
from shuntbook.wire.setup_json import setup_json  # noqa: E402
from vector_cases import CASES  # noqa: E402

FOLDER = ROOT / "schemas" / "vectors" / "queue"
OF_SETUP = ("event", "people", "stages", "services", "check_lists", "car_map", "rates", "rate_table", "van")
SEEDS = range(100, 110)
RANDOM_SIZE = 40


def main() -> None:
    """Write the vectors again; what is no vector any more goes."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    for old in FOLDER.glob("*.json"):
        old.unlink()
    for name, data in vectors().items():
        (FOLDER / name).write_bytes(data)


def vectors() -> dict[str, bytes]:
    """Return every vector as its file's bytes, by file name."""
    return {f"{vector['name']}.json": _bytes(vector) for vector in _vectors()}


def _vectors() -> Iterator[Json]:
    for case in CASES:
        setup = read_setup(case.files)
        yield _vector(case.name, case.rule, setup, case.entries, list(case.set_aside), case.car, case.set_aside_more)
    with TemporaryDirectory() as root:
        for seed in SEEDS:
            rule = f"Chance, seed {seed}: whatever the rules make of it."
            yield _of_folder(f"random-{seed}", rule, write_folder(Path(root), seed, RANDOM_SIZE))
    yield _of_folder("sample", "The sample event: a whole day, with the package's own car map.", sample_folder())


def _of_folder(name: str, rule: str, folder: Path) -> Json:
    read = read_folder(folder)
    entries = [json.loads(raw) for _, raw in read.entries.values()]
    return _vector(name, rule, read.setup, entries, [], "41")


def _vector(
    name: str, rule: str, setup: Setup, entries: list[Json], set_aside: list[str], car: str, more: int = 0
) -> Json:
    answer = queue(entries, setup, car, set_aside, more)
    whole = setup_json(setup)
    asked = {"setup": {name: whole[name] for name in OF_SETUP}, "entries": entries, "set_aside": set_aside, "car": car}
    unnamed = {"set_aside_more": more} if more else {}
    return {"name": name, "rule": rule, **asked, **unnamed, "queue": answer}


def _bytes(vector: Json) -> bytes:
    """One line for each field: short, and a difference still shows where it is."""
    fields = (f"{json.dumps(name)}: {json.dumps(value, ensure_ascii=False)}" for name, value in vector.items())
    return ("{\n" + ",\n".join(fields) + "\n}\n").encode()


if __name__ == "__main__":
    main()
