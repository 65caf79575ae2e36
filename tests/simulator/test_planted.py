"""The simulator is tried, too: faults planted by hand have to be found, each within a number of seeds."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from mutants.bench import Bench
from mutants.table import ROOT, Mutant

from .planted import WITHIN, faults, found


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    """A copy of the tree."""
    yield Bench(Path(tmp_path_factory.mktemp("planted")) / "copy")


@pytest.mark.longer
@pytest.mark.parametrize("fault", faults(), ids=lambda fault: fault.note)
def test_the_simulator_finds_what_was_planted(bench: Bench, fault: Mutant) -> None:
    assert found(bench, fault) is not None, f"not within {WITHIN} seeds"


@pytest.mark.parametrize("fault", faults(), ids=lambda fault: fault.note)
def test_the_text_of_each_planted_fault_is_found_exactly_once(fault: Mutant) -> None:
    text = (ROOT / fault.file).read_text()
    assert fault.applied_to(text) != text


def test_ten_faults_and_more_are_planted() -> None:
    assert len({fault.note for fault in faults()}) == len(faults()) >= 10
