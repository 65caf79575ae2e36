"""How many calls a Save costs, by role: the phone asks the server for nothing that it holds, nor because of itself."""

from contextlib import ExitStack

import pytest
from calls import calls_of, come_to_rest, hears
from crew import Crew

from longer import is_longer

PEOPLE = ["p-toma", "p-bodo", *(["p-odil", "p-vera"] if is_longer() else [])]
"""A short run has one who logs and one who repairs; the longer one an inspector and a manager, too."""


@pytest.mark.longer
def test_a_save_is_one_sync_and_one_queue_where_that_is_on_the_screen(crew: Crew) -> None:
    """What comes after each Save is somebody else's: had the phone answered to its own news, it would stand before."""
    toma, *others = members = [crew(person) for person in PEOPLE]
    if is_longer():
        # Another key is another set-up for everybody: chosen while signing, it would be asked for in between.
        crew("p-odil").chooses_pin()
    toma.logs("Front left", "Brake hose", "Leaking")
    key = "front-left/brake-hose"
    for member in others:
        member.opens(key)
    come_to_rest(members)
    with ExitStack() as stack:
        noted = [stack.enter_context(calls_of(member)) for member in members]

        def all_hear() -> None:
            for member, calls in zip(members, noted, strict=True):
                hears(member, calls, "POST sync", *([] if member is toma else ["GET queue"]))

        bodo = crew("p-bodo")
        bodo.tap("Start", exact=True)
        bodo.sees("Being worked on")
        all_hear()
        bodo.tap("Finish …")
        bodo.tap("Finish", exact=True)
        bodo.sees("Saved: finished.")
        all_hear()
        if is_longer():
            crew("p-odil").inspects(key)
            all_hear()
            crew("p-vera").logs("Front end", "Front bumper", "Loose")
            all_hear()
        toma.logs("Rear end", "Rear bumper", "Loose")
        all_hear()
