"""Every fault of the table in docs/faults.md has a test that carries its name, and every such test its line there."""

import re
from pathlib import Path

HERE = Path(__file__).parent
PAGE = HERE.parents[1] / "docs" / "faults.md"


def test_each_fault_is_injected_by_a_test_of_that_name() -> None:
    tests = {int(one) for file in HERE.glob("test_*.py") for one in re.findall(r"def test_f(\d\d)_", file.read_text())}
    lines = {int(one) for one in re.findall(r"(?m)^\| F(\d+) \|", PAGE.read_text())}
    assert tests == lines == set(range(1, len(lines) + 1))
