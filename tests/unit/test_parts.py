"""The end of a CI run adds up what its parts wrote down, whichever language they are of."""

import json
from pathlib import Path

from parts_report import read_part, report

from parts import Account, spent_between

OF_PYTEST = {
    "part": "pytest tests/unit",
    "seconds": 2.5,
    "tests": [
        ["tests/unit/test_a.py::test_one", "passed", 0.5, 0.25],
        ["tests/unit/test_a.py::test_two", "failed", 1.25, 3.5],
    ],
}
OF_VITEST = {
    "startTime": 1000,
    "testResults": [
        {
            "name": "/somewhere/tests/kit.test.ts",
            "status": "passed",
            "endTime": 4000,
            "assertionResults": [
                {"fullName": "adds up", "status": "passed", "duration": 2000.0},
                {"fullName": "is for later", "status": "pending"},
            ],
        },
        {"name": "/somewhere/tests/broken.test.ts", "status": "failed", "endTime": 2000, "assertionResults": []},
    ],
}


def written(folder: Path, name: str, said: object) -> Path:
    file = folder / name
    file.write_text(json.dumps(said))
    return file


def test_parts_of_both_languages_add_up_to_one_closing_line(tmp_path: Path) -> None:
    parts = [read_part(written(tmp_path, "a.json", OF_PYTEST)), read_part(written(tmp_path, "b.json", OF_VITEST))]
    lines = report(parts, 12.3456).splitlines()
    assert lines[-1] == f"{' 2 failed, 2 passed, 1 skipped in 12.35s ':=^79}"
    assert lines[1].split() == ["2.00s", "kit.test.ts", "adds", "up"]
    assert lines[2].split() == ["1.25s", "tests/unit/test_a.py::test_two"]
    assert "    3.75s tests/unit/test_a.py" in lines
    assert "     2.5s, of a processor     3.8s     2 tests  pytest tests/unit" in lines
    assert "     3.0s, of a processor        ?     3 tests  vitest" in lines
    assert "           of a processor     3.8s in all" in lines
    assert lines[-3:-1] == ["FAILED tests/unit/test_a.py::test_two", "FAILED broken.test.ts"]


def test_what_vitest_took_of_a_processor_lies_beside_what_it_says_of_its_tests(tmp_path: Path) -> None:
    told = written(tmp_path, "vitest.json", OF_VITEST)
    (tmp_path / "vitest.cpu").write_text("41.25")
    lines = report([read_part(told)], 1).splitlines()
    assert "     3.0s, of a processor    41.2s     3 tests  vitest" in lines
    assert "           of a processor    41.2s in all" in lines


def test_a_run_that_got_nowhere_says_so() -> None:
    assert report([], 1).splitlines()[-1] == f"{' no tests ran in 1.00s ':=^79}"


def test_what_a_process_took_is_counted_once_whether_it_still_runs_or_was_waited_for() -> None:
    before = {1: Account(0, 5.0, 1.0), 2: Account(1, 2.0, 0.5), 3: Account(2, 1.0, 0.0)}
    # 3 took another second and was waited for by 2, which then ended and was waited for by 1; 4 is new.
    now = {1: Account(0, 5.5, 1.0 + 2.0 + 0.5 + 2.0), 4: Account(1, 0.25, 0.0)}
    assert spent_between(before, now) == 0.5 + 1.0 + 0.25


def test_of_a_process_that_nobody_waited_for_what_was_seen_is_not_taken_back() -> None:
    before = {1: Account(0, 5.0, 1.0), 2: Account(1, 2.0, 0.0)}
    assert spent_between(before, {1: Account(0, 5.5, 1.0)}) == 0.5
