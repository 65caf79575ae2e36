"""F40: half an hour of real time, thirty phones, a server that is killed again and again: it holds no more and more."""

import os
import random
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from . import tally
from .at_rest import bounds, table, what_grows
from .invariants import check
from .soak import Length, Soak, statuses, told, unexpected, whole_sample
from .yard import Yard

MINUTES = float(os.environ.get("SHUNTBOOK_SOAK_MINUTES", "30"))
COMMAND = Path(sys.executable).with_name("shuntbook")
LONG = Length(60 * MINUTES, (120, 240), 45, min(600, 20 * MINUTES), 20, (5, 40), awaits_solver=True, more_mib=(32, 24))
SHORT = Length(22, (4, 7), 1, 12, 4, (0.5, 3), awaits_solver=False, more_mib=(96, 24))
EXPECTED = (200, 201, 304, 404, 503)
"""404 is a photo that is still on its way; 503, a disk that others hold for too long."""


@pytest.fixture
def soaked(tmp_path: Path) -> Iterator[Yard]:
    yard = Yard(tmp_path / "yard", whole_sample(tmp_path / "sample"))
    if tally.is_long():  # as people start it; in a short run it is forked, with a solver that takes less
        yard.server.wrapped = lambda words: [str(COMMAND), *words[3:]]
    yield yard
    yard.close()


@pytest.mark.longer
def test_f40_what_a_server_holds_does_not_grow_while_a_crew_works(soaked: Yard) -> None:
    length = LONG if tally.is_long() else SHORT
    soak = Soak(soaked, length, random.Random(40))
    soak.run()
    seen = f"{table(soak.readings)}\n\n{told(soak.done)}\nanswers: {dict(statuses(soaked))}"
    tally.tables.append(seen)
    soaked.settle()
    what = f"{LONG.all_s / 60:.0f} minutes of 30 phones, SIGKILL each 2 to 4 minutes"
    check(soaked, "F40", what, tries=len(soak.drained_s), recovered_s=soak.drained_s)
    assert unexpected(statuses(soaked), EXPECTED) == {}, soaked.server.log
    assert what_grows(soak.readings, bounds(*length.more_mib)) == [], seen
