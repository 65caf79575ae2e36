"""The table of mutants fits the code: a fault whose text is gone would be looked for in vain."""

import pytest

from mutants.table import ROOT, Mutant, read_table

MUTANTS = read_table()


@pytest.mark.parametrize("mutant", MUTANTS, ids=lambda mutant: mutant.note)
def test_the_text_of_each_mutant_is_found_exactly_once(mutant: Mutant) -> None:
    text = (ROOT / mutant.file).read_text()
    assert mutant.applied_to(text) != text
    assert all((ROOT / name).is_file() for name in mutant.tests)


def test_there_are_mutants_enough_and_no_two_are_alike() -> None:
    assert len(MUTANTS) >= 40
    assert len({(one.file, one.old, one.new) for one in MUTANTS}) == len({one.note for one in MUTANTS}) == len(MUTANTS)


def test_text_that_is_not_found_or_found_twice_is_an_error() -> None:
    mutant = Mutant("a fault", "a file", "seq + 1", "seq", ())
    for text in ("seq", "seq + 1, seq + 1"):
        with pytest.raises(ValueError, match="not once"):
            mutant.applied_to(text)
