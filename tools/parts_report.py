"""Says at the end of `.ci/run` what its parts took, which tests took longest, and how many passed.

    python tools/parts_report.py FOLDER SECONDS

FOLDER holds a file for each run of tests: those of tests/parts.py, and those of Vitest's JSON reporter.
"""

import json
import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

LONGEST = 20
OUTCOMES = ("failed", "passed", "skipped")


@dataclass(frozen=True)
class Part:
    """A run of tests: what was called, its seconds, and each test's name, outcome and seconds.

    cpu: the seconds of a processor that each file's tests took with all that they started; empty where it is not known.
    """

    name: str
    seconds: float
    tests: list[tuple[str, str, float]]
    cpu: Counter[str]


def read_part(file: Path) -> Part:
    """Return a part from its file, whichever of the two wrote it."""
    said = json.loads(file.read_text())
    if "part" in said:
        cpu: Counter[str] = Counter()
        for name, _, _, spent in said["tests"]:
            cpu[name.split("::")[0]] += spent
        return Part(said["part"], said["seconds"], [(name, outcome, s) for name, outcome, s, _ in said["tests"]], cpu)
    ended = max((one["endTime"] for one in said["testResults"]), default=said["startTime"])
    tests = [
        (f"{Path(one['name']).name} {test['fullName']}", _outcome(test["status"]), (test.get("duration") or 0) / 1000)
        for one in said["testResults"]
        for test in one["assertionResults"]
    ]
    # A file that could not be loaded has failed without a test of its own.
    tests += [
        (Path(one["name"]).name, "failed", 0.0)
        for one in said["testResults"]
        if one["status"] == "failed" and not any(test["status"] == "failed" for test in one["assertionResults"])
    ]
    return Part("vitest", (ended - said["startTime"]) / 1000, tests, _spent_beside(file))


def _spent_beside(file: Path) -> Counter[str]:
    """Return what `pwa/tests/spent.ts` wrote beside Vitest's own file: it tells no more than the whole."""
    spent: Counter[str] = Counter()
    if (beside := file.with_suffix(".cpu")).exists():
        spent["vitest"] = json.loads(beside.read_text())
    return spent


def _outcome(status: str) -> str:
    return status if status in OUTCOMES else "skipped"


def report(parts: list[Part], seconds: float) -> str:
    """Return the last lines of a run: the longest tests, the parts, and a closing line as pytest writes it."""
    tests = sorted((test for part in parts for test in part.tests), key=lambda test: -test[2])
    lines = [f"{'slowest tests of all parts':=^79}"]
    lines += [f"{took:8.2f}s {name}" for name, _, took in tests[:LONGEST]]
    cpu = sum((part.cpu for part in parts), Counter[str]())
    lines += [f"{'files that took most of a processor':=^79}"]
    lines += [f"{spent:8.2f}s {file}" for file, spent in cpu.most_common(LONGEST)]
    lines += [f"{'parts':=^79}"]
    for part in parts:
        spent = f"{part.cpu.total():8.1f}s" if part.cpu else f"{'?':>9}"
        lines.append(f"{part.seconds:8.1f}s, of a processor{spent} {len(part.tests):5} tests  {part.name}")
    lines.append(f"{'':8}   of a processor{cpu.total():8.1f}s in all")
    failed = [f"FAILED {name}" for name, outcome, _ in tests if outcome == "failed"]
    counts = Counter(outcome for _, outcome, _ in tests)
    said = ", ".join(f"{counts[outcome]} {outcome}" for outcome in OUTCOMES if counts[outcome]) or "no tests ran"
    return "\n".join([*lines, *failed, f"{f' {said} in {seconds:.2f}s ':=^79}"])


def main(folder: str, seconds: str) -> None:
    """Print the report of a folder."""
    parts = [read_part(file) for file in sorted(Path(folder).glob("*.json"), key=lambda file: file.stat().st_mtime)]
    print(report(parts, float(seconds)))  # noqa: T201


if __name__ == "__main__":
    main(*sys.argv[1:])
