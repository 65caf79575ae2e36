"""How many calls a Save costs, by role: the phone asks the server for nothing that it holds, nor because of itself."""

import re
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager

import pytest
from crew import Crew, Member
from phones import wait_until
from playwright.sync_api import Request

from longer import is_longer

REST_MS = 700
API = re.compile(r"/api/v1/(?!live|photos|health)([^?]*)")


def name_of(request: Request) -> str:
    found = API.search(request.url)
    if not found:
        return ""
    last = found[1].rpartition("/")[2]
    return f"{request.method} {last}"


@contextmanager
def calls_of(member: Member) -> Iterator[list[str]]:
    """Note a phone's calls while this is open, by method and the last word of the path."""
    noted: list[str] = []

    def note(request: Request) -> None:
        if name := name_of(request):
            noted.append(name)

    member.page.on("request", note)
    yield noted
    member.page.remove_listener("request", note)


def come_to_rest(members: list[Member]) -> None:
    """Wait until no phone has called for a while: what they still ask for of before is not of what is counted."""
    for member in members:
        with calls_of(member) as noted:
            before = -1
            while before != len(noted):
                before = len(noted)
                member.page.wait_for_timeout(REST_MS)


def hears(member: Member, noted: list[str], *expected: str) -> None:
    """Wait until a phone has made these calls since the last time; more than these are a fault, then or later."""
    wait_until(member.page, lambda: len(noted) >= len(expected))
    assert noted == list(expected), member.person
    noted.clear()


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
